/**
 * What the trade knows about an aircraft hooked at one point: common practice, no source. Signs and directions are
 * asserted; sizes are those of the invented demo pair and prove nothing about any other.
 */
import { describe, expect, it } from "vitest";
import { correlation } from "../../src/math/track/index.ts";
import { hookedPair } from "../../src/physics/bodies/index.ts";
import { dominantMotion, modesOf, type PairMode } from "../../src/physics/modes/index.ts";
import { type LongshoreOptions, longshore, MASS_NAMES, REVISION_NAMES } from "../support/longshore.ts";
import {
  dampingRatio,
  lateralRoots,
  linearPair,
  naturalFrequency,
  oscillations,
  planes,
  type Root,
  worstDamping,
} from "./hooked-support.ts";

const roots = (options: LongshoreOptions) => planes(longshore(options)).longitudinal;
/** Boom without snubber whose tip has one tangential stiffness. */
const plain = (stiffness: number, structuralDamping = 0.015) => ({
  bending: Number.POSITIVE_INFINITY,
  accumulator: stiffness,
  snubber: 0,
  structuralDamping,
});

describe("compliant boom at single point (common practice, no source)", () => {
  it("makes a statically stable aircraft pitch with growing amplitude", () => {
    expect(longshore().derivatives.pitch.alpha).toBeLessThan(0);
    for (const mass of MASS_NAMES) {
      for (const snubber of [0, 500, 2000]) {
        const all = roots({ mass, boom: { snubber } });
        expect(oscillations(all)[0].re, `${mass}, ${snubber} N·s/m`).toBeGreaterThan(0);
        // it oscillates; nothing creeps away
        expect(all.filter((root) => root.im === 0).every((root) => root.re < 0)).toBe(true);
      }
    }
  });

  it("lets a pilot ride it for tens of seconds at most", () => {
    const growing = oscillations(roots({}))[0];
    const double = Math.log(2) / growing.re;
    const fromOneDegreeToTen = Math.log(10) / growing.re;
    expect(double).toBeGreaterThan(1);
    expect(double).toBeLessThan(10);
    expect(fromOneDegreeToTen).toBeGreaterThan(5);
    expect(fromOneDegreeToTen).toBeLessThan(60);
  });

  it("is not cured by a modest shortening of the boom", () => {
    // tip stiffness held: the length itself does next to nothing
    const long = worstDamping(roots({}));
    const short = worstDamping(roots({ boom: { length: 0.8 * 5.6 } }));
    expect(short).toBeLessThan(-0.04);
    expect(Math.abs(short - long)).toBeLessThan(1e-3);
    // a tenth shorter with the stiffness that the same section and the same jack then give: bending with 1/L³,
    // everything at the jack with 1/L²
    const stiffer = (share: number) => ({
      length: share * 5.6,
      bending: 60e3 / share ** 3,
      accumulator: 60e3 / share ** 2,
      snubber: 2e3 / share ** 2,
    });
    expect(worstDamping(roots({ boom: stiffer(0.9) }))).toBeLessThan(0);
    // a fifth shorter nearly doubles the stiffness and is no longer modest: it is stable
    expect(worstDamping(roots({ boom: stiffer(0.8) }))).toBeGreaterThan(0);
  });

  it("is cured by a nearly rigid boom", () => {
    for (const mass of MASS_NAMES) {
      for (const stiffness of [3e5, 1e6, 1e7, 1e9]) {
        const rigid = oscillations(roots({ mass, boom: plain(stiffness) }), 1.5);
        expect(rigid.length).toBeGreaterThan(0);
        for (const root of rigid) expect(dampingRatio(root), `${mass}, ${stiffness} N/m`).toBeGreaterThan(0.05);
      }
    }
  });

  it("is cured by a snubber, which leaves slow motion free", () => {
    for (const mass of MASS_NAMES) {
      const without = worstDamping(roots({ revision: "Rev B", mass, boom: { snubber: 0 } }));
      const with_ = worstDamping(roots({ revision: "Rev B", mass }));
      expect(without, mass).toBeLessThan(0);
      expect(with_, mass).toBeGreaterThan(0.1);
    }
    // the snubber carries no static load: the boom stands where it stood
    const standing = [0, 3500, 1e5].map((snubber) => hookedPair(longshore({ boom: { snubber } })).unloadedAngleDown);
    expect(standing[1]).toBe(standing[0]);
    expect(standing[2]).toBe(standing[0]);
  });

  it("has a best snubber between none and a locked one: boom bending lies in series with it", () => {
    const rates = [500, 1000, 2000, 3500, 5000, 7000, 10_000, 20_000, 50_000];
    const damping = rates.map((snubber) => worstDamping(roots({ revision: "Rev B", boom: { snubber } })));
    const best = damping.indexOf(Math.max(...damping));
    expect(best).toBeGreaterThan(0);
    expect(best).toBeLessThan(rates.length - 1);
    expect(damping[best]).toBeGreaterThan(1.5 * damping[damping.length - 1]);
  });
});

describe("coupled-mode instability: heave on the spring meets pitch (common practice, no source)", () => {
  /** The two slow longitudinal oscillations without any damping of the boom, slower first. */
  const pairAt = (stiffness: number): [PairMode, PairMode] => {
    const settings = longshore({ boom: plain(stiffness, 0) });
    const { linear } = linearPair(settings);
    const { mass, boom } = settings;
    const modes = modesOf(linear.matrix, linear.size, {
      mass,
      tipMass: boom.effectiveTipMass,
      basis: linear.basis,
      coordinates: linear.coordinates,
      boom: { ...boom, bending: stiffness, accumulator: 0, snubberState: -1 },
    });
    const slow = modes.filter((mode) => mode.plane === "longitudinal" && mode.imag > 0);
    slow.sort((a, b) => Math.hypot(a.real, a.imag) - Math.hypot(b.real, b.imag));
    return [slow[0], slow[1]];
  };
  const asRoot = ({ real, imag }: PairMode): Root => ({ re: real, im: imag });
  const gapAt = (stiffness: number): number => {
    const [slow, fast] = pairAt(stiffness).map((mode) => naturalFrequency(asRoot(mode)));
    return fast - slow;
  };
  const likenessAt = (stiffness: number): number => {
    const [slow, fast] = pairAt(stiffness);
    return correlation(slow.shape, fast.shape);
  };

  it("brings the two frequencies together and parts them again as the boom gets stiffer", () => {
    const soft = [2e3, 1e4, 2e4, 3e4, 4e4].map(gapAt);
    for (let i = 1; i < soft.length; i++) expect(soft[i]).toBeLessThan(soft[i - 1]);
    expect(soft[0]).toBeGreaterThan(0.5);
    expect(gapAt(45e3)).toBeLessThan(0.09);
    const hard = [6e4, 8e4, 12e4, 20e4].map(gapAt);
    for (let i = 1; i < hard.length; i++) expect(hard[i]).toBeGreaterThan(hard[i - 1]);
    expect(hard[3]).toBeGreaterThan(1);
  });

  it("makes the two modes alike where they meet: both are heave and pitch at once", () => {
    expect(likenessAt(50e3)).toBeGreaterThan(0.9);
    expect(likenessAt(2e3)).toBeLessThan(0.7);
    expect(likenessAt(200e3)).toBeLessThan(0.1);
    for (const mode of pairAt(45e3)) expect(dominantMotion(mode).name).toBe("coupled heave–pitch");
  });

  it("takes damping from one mode and gives it to the other", () => {
    const damping = (stiffness: number) => pairAt(stiffness).map((mode) => dampingRatio(asRoot(mode)));
    const [apart, near] = [damping(2e3), damping(25e3)];
    expect(near[0]).toBeLessThan(apart[0] - 0.04);
    expect(near[1]).toBeGreaterThan(apart[1] + 0.04);
    expect(Math.abs(near[0] + near[1] - apart[0] - apart[1])).toBeLessThan(0.005);
    // and once the spring is faster than pitch, neither is unstable
    expect(Math.min(...damping(60e3))).toBeGreaterThan(0);
  });
});

describe("lateral motion, controls fixed and with roll hold", () => {
  it("is hardly damped when the controls are held, and roll hold raises the least ζ above 0.05", () => {
    for (const revision of REVISION_NAMES) {
      const worst = (rollHold: boolean): number =>
        worstDamping(lateralRoots(linearPair(longshore({ revision, rollHold })).linear));
      expect(worst(false), revision).toBeLessThan(0.025);
      expect(worst(true), revision).toBeGreaterThan(0.05);
    }
  });

  it("leaves no slow drift behind", () => {
    const all = lateralRoots(linearPair(longshore({ revision: "Rev B", rollHold: true })).linear);
    expect(all).toHaveLength(7);
    expect(Math.max(...all.map((root) => root.re))).toBeLessThan(-0.1);
  });
});
