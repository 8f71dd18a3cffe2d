import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import { BoomSprings, type BoomSpringsSettings } from "./index.ts";

type Vector = readonly [number, number, number];
const GRAVITY = 9.80665;
const down: Vector = [0, 0, GRAVITY];
const none: Vector = [0, 0, 0];
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const elastic = { bending: 60e3, bendingDamping: 0, accumulator: 60e3, snubber: 0 };
const damped = { bending: 60e3, bendingDamping: 150, accumulator: 60e3, snubber: 2e3 };

function settings(change: Partial<BoomSpringsSettings> = {}): BoomSpringsSettings {
  return {
    geometry: { length: 6.8, angleDown: 0.91 },
    preload: { tension: 5200, tangential: 2100, lateral: 340 },
    ...{ axial: 8e6, axialDamping: 0, lateral: 4e4, lateralDamping: 0, ownMass: 210, ownCentre: 3.1 },
    tangential: elastic,
    ...change,
  };
}
const unloaded = { preload: { tension: 0, tangential: 0, lateral: 0 }, ownMass: 0 };

/** Directions of the boom at an angle: along it away from the hinge, right, normal to it towards a larger angle. */
function axesAt(angle: number): { along: Vector; right: Vector; swing: Vector } {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return { along: [-c, 0, s], right: [0, 1, 0], swing: [s, 0, c] };
}
const dot = (a: ArrayLike<number>, b: ArrayLike<number>): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const combine = (...terms: (readonly [number, Vector])[]): Vector =>
  [0, 1, 2].map((i) => terms.reduce((sum, [factor, vector]) => sum + factor * vector[i], 0)) as unknown as Vector;

/** Tip position from polar coordinates about the hinge. */
function tipAt(length: number, angle: number, lateral: number): Vector {
  const { along, right } = axesAt(angle);
  return combine([length * Math.cos(lateral), along], [length * Math.sin(lateral), right]);
}
function forceOn(boom: BoomSprings, d: Vector, v: Vector = none, g: Vector = down, travel = 0): number[] {
  boom.evaluate(Float64Array.from(d), Float64Array.from(v), Float64Array.from(g), travel);
  return Array.from(boom.force);
}

/** Potential of everything that stores energy, straight from README eq. 1–4, by polar coordinates of its own. */
function potential(
  s: BoomSpringsSettings,
  d: ArrayLike<number>,
  g: Vector,
  travel: number,
  stateCount: number,
): number {
  const length = Math.hypot(d[0], d[1], d[2]);
  const swing = s.geometry.length * (Math.atan2(d[2], -d[0]) - s.geometry.angleDown);
  const sideways = s.geometry.length * Math.asin(d[1] / length);
  const stretch = length - s.geometry.length;
  const { bending, accumulator } = s.tangential;
  const path =
    stateCount === 1
      ? 0.5 * bending * (swing - travel) ** 2 + 0.5 * accumulator * travel ** 2
      : (0.5 * swing ** 2) / (1 / bending + 1 / accumulator);
  return (
    s.preload.tension * stretch +
    0.5 * s.axial * stretch ** 2 +
    s.preload.tangential * swing +
    path +
    s.preload.lateral * sideways +
    0.5 * s.lateral * sideways ** 2 -
    (s.ownMass * s.ownCentre * dot(g, d)) / length
  );
}
/** Gradient by Richardson-extrapolated central differences. */
function gradient(f: (x: Float64Array) => number, at: Vector): number[] {
  return at.map((_, i) => {
    const slope = (h: number): number => {
      const ahead = Float64Array.from(at);
      const behind = Float64Array.from(at);
      ahead[i] += h;
      behind[i] -= h;
      return (f(ahead) - f(behind)) / (2 * h);
    };
    return (4 * slope(5e-4) - slope(1e-3)) / 3;
  });
}

/** Any place of the tip that is clear of the lateral axis through the hinge and of the seam of the swing angle. */
const places = fc.tuple(number(4, 9), number(-0.5, 2.5), number(-1, 1)).map((polar) => tipAt(...polar));
const vectors = (size: number) => fc.tuple(number(-size, size), number(-size, size), number(-size, size));
const differences = { rtol: 1e-6, atol: 0.05, why: "Richardson differences of energies up to 1e8 J, step 1 mm" };

describe("potential", () => {
  it("is what the force without dampers falls down: every spring, the preload and the boom's own weight", () => {
    const cases = [settings(), settings({ tangential: { ...elastic, snubber: 900 } })];
    fc.assert(
      fc.property(places, vectors(12), number(-0.3, 0.3), fc.constantFrom(...cases), (d, g, travel, s) => {
        const boom = new BoomSprings(s);
        const expected = gradient((x) => potential(s, x, g, travel, boom.stateCount), d).map((x) => -x);
        expectAllClose(forceOn(boom, d, none, g, travel), expected, differences, "force on the tip");
      }),
      { seed: 31, numRuns: 300 },
    );
  });

  it("of the own weight alone gives its force, normal to the boom, and none along it", () => {
    fc.assert(
      fc.property(places, (d) => {
        const s = settings({ ...unloaded, axial: 0, lateral: 0, ownMass: 210, tangential: { ...elastic, bending: 0 } });
        const force = forceOn(new BoomSprings(s), d);
        const height = (x: ArrayLike<number>): number => (-210 * GRAVITY * 3.1 * x[2]) / Math.hypot(x[0], x[1], x[2]);
        expectAllClose(
          force,
          gradient(height, d).map((x) => -x),
          { atol: 1e-5, why: "differences, step 1 mm" },
        );
        expectClose(dot(force, d), 0, { atol: 1e-9, why: "round-off" });
      }),
      { seed: 32 },
    );
    // level boom: the hinge and the tip share the weight by the lever
    const level = settings({ ...unloaded, ownMass: 210, geometry: { length: 6.8, angleDown: 0 } });
    expectAllClose(forceOn(new BoomSprings(level), [-6.8, 0, 0]), [0, 0, (210 * GRAVITY * 3.1) / 6.8], {
      rtol: 1e-14,
      why: "lever",
    });
  });
});

describe("at trim", () => {
  it("carries the declared load and nothing else", () => {
    fc.assert(
      fc.property(number(-0.3, 1.57), vectors(2e4), (angleDown, [tension, tangential, lateral]) => {
        const s = settings({
          geometry: { length: 6.8, angleDown },
          preload: { tension, tangential, lateral },
          ownMass: 0,
        });
        const boom = new BoomSprings(s);
        const { along, right, swing } = axesAt(angleDown);
        const tip = boom.tipAtTrim();
        expectAllClose(tip, combine([6.8, along]), { atol: 1e-14, why: "round-off" });
        // the boom pulls back on what loads it
        const load = combine([-tension, along], [-lateral, right], [-tangential, swing]);
        expectAllClose(forceOn(boom, tip), load, { rtol: 1e-12, atol: 1e-8, why: "round-off of loads up to 2e4 N" });
        expectClose(boom.tangentialForce, tangential, { rtol: 1e-12, atol: 1e-8, why: "round-off" });
      }),
      { seed: 33 },
    );
  });

  it("pushes back against stretching, a larger angle and a step to the right, each along its own direction", () => {
    const boom = new BoomSprings(settings({ ...unloaded }));
    const { along, swing } = axesAt(0.91);
    expectAllClose(forceOn(boom, tipAt(6.81, 0.91, 0)), combine([-8e4, along]), { atol: 1e-6, why: "round-off" });
    const turned = axesAt(0.91 + 0.05);
    expectAllClose(forceOn(boom, tipAt(6.8, 0.96, 0)), combine([-30e3 * 0.05 * 6.8, turned.swing]), {
      atol: 1e-6,
      why: "round-off",
    });
    expect(forceOn(boom, tipAt(6.8, 0.96, 0))[2]).toBeLessThan(0);
    expect(forceOn(boom, tipAt(6.8, 0.91, 0.05))[1]).toBeLessThan(0);
    // and a port moment lifts no finger but along the swing
    const free = forceOn(boom, boom.tipAtTrim());
    boom.extraMoment = 680;
    const pushed = forceOn(boom, boom.tipAtTrim()).map((x, i) => x - free[i]);
    expectAllClose(pushed, combine([100, swing]), { atol: 1e-9, why: "moment over length" });
  });

  it("has the stiffness of springs and of the load that turns with the boom", () => {
    fc.assert(
      fc.property(number(-0.3, 1.4), vectors(2e4), number(0, 400), (angleDown, preload, ownMass) => {
        const [tension, tangential, lateral] = preload;
        const L = 6.8;
        const s = settings({ geometry: { length: L, angleDown }, preload: { tension, tangential, lateral }, ownMass });
        const boom = new BoomSprings(s);
        const { along, right, swing } = axesAt(angleDown);
        const axes = [along, right, swing];
        const tip = boom.tipAtTrim();
        const stiffness = (i: number, j: number): number => {
          const slope = (h: number): number => {
            const ahead = forceOn(boom, combine([1, tip], [h, axes[j]]));
            const behind = forceOn(boom, combine([1, tip], [-h, axes[j]]));
            return -(dot(ahead, axes[i]) - dot(behind, axes[i])) / (2 * h);
          };
          return (4 * slope(5e-5) - slope(1e-4)) / 3;
        };
        // README eq. 6: tension over length twice, tangential and lateral load over length off the diagonal,
        // and the own weight as a load m·c/L on the tip that stays normal to the boom
        const weight = (ownMass * 3.1 * GRAVITY) / L;
        const turn = tension / L + (weight * Math.sin(angleDown)) / L;
        const couple = (-tangential + weight * Math.cos(angleDown)) / L;
        const expected = [
          [8e6, -lateral / L, couple],
          [-lateral / L, 4e4 + turn, 0],
          [couple, 0, 30e3 + turn],
        ];
        for (let i = 0; i < 3; i++) {
          for (let j = 0; j < 3; j++) {
            const why = "Richardson differences of forces up to 1e3 N, step 0.1 mm";
            expectClose(stiffness(i, j), expected[i][j], { rtol: 1e-8, atol: 0.02, why }, `stiffness ${i},${j}`);
          }
        }
      }),
      { seed: 34, numRuns: 100 },
    );
  });
});

describe("power", () => {
  it("is taken by the dampers to the last watt, and never given", () => {
    const cases = [
      settings({ axialDamping: 4e3, lateralDamping: 700, tangential: damped }),
      settings({ axialDamping: 4e3, lateralDamping: 700, tangential: { ...damped, snubber: 0 } }),
      settings({ tangential: { ...damped, bendingDamping: 0 } }),
    ];
    fc.assert(
      fc.property(places, vectors(3), number(-0.3, 0.3), fc.constantFrom(...cases), (d, v, travel, s) => {
        const boom = new BoomSprings(s);
        const force = forceOn(boom, d, v, down, travel);
        const slope = gradient((x) => potential(s, x, down, travel, 1), d);
        const swing = s.geometry.length * (Math.atan2(d[2], -d[0]) - s.geometry.angleDown);
        const { bending, bendingDamping, accumulator, snubber } = s.tangential;
        const byTravel = -bending * (swing - travel) + accumulator * travel;
        const stored = dot(slope, v) + byTravel * boom.snubberRate;
        const taken = -(dot(force, v) + stored);
        // the rates by the cross product: no gradient of the model is used
        const length = Math.hypot(...d);
        const inPlane = Math.hypot(d[0], d[2]);
        const stretchRate = dot(d, v) / length;
        const swingRate = (s.geometry.length * (d[2] * v[0] - d[0] * v[2])) / inPlane ** 2;
        const sideRate = (s.geometry.length * (v[1] - (stretchRate * d[1]) / length)) / inPlane;
        const expected =
          s.axialDamping * stretchRate ** 2 +
          s.lateralDamping * sideRate ** 2 +
          bendingDamping * (swingRate - boom.snubberRate) ** 2 +
          snubber * boom.snubberRate ** 2;
        expectClose(
          taken,
          expected,
          { rtol: 1e-6, atol: 2, why: "differences of energies up to 1e8 J" },
          "power taken",
        );
        expect(expected).toBeGreaterThanOrEqual(0);
      }),
      { seed: 35, numRuns: 300 },
    );
  });

  it("is taken at one speed as at its opposite: the damping force changes sign with the motion", () => {
    fc.assert(
      fc.property(places, vectors(3), number(-0.3, 0.3), (d, v, travel) => {
        const s = settings({ axialDamping: 4e3, lateralDamping: 700, tangential: damped });
        const boom = new BoomSprings(s);
        const still = forceOn(boom, d, none, down, travel);
        const forth = forceOn(boom, d, v, down, travel).map((x, i) => x - still[i]);
        const back = forceOn(boom, d, combine([-1, v]), down, travel).map((x, i) => x - still[i]);
        expect(dot(forth, v)).toBeLessThanOrEqual(0);
        expectAllClose(
          back,
          forth.map((x) => -x),
          { rtol: 1e-9, atol: 1e-5, why: "round-off of forces up to 1e7 N" },
        );
      }),
      { seed: 36 },
    );
  });
});

describe("frames", () => {
  const full = settings({ axialDamping: 4e3, lateralDamping: 700, tangential: damped });
  const mirror = (x: Vector): Vector => [x[0], -x[1], x[2]];

  it("mirrors left and right", () => {
    fc.assert(
      fc.property(places, vectors(3), vectors(12), number(-0.3, 0.3), (d, v, g, travel) => {
        const left = new BoomSprings(full);
        const right = new BoomSprings({ ...full, preload: { ...full.preload, lateral: -full.preload.lateral } });
        const force = forceOn(left, d, v, g, travel) as unknown as Vector;
        expect(forceOn(right, mirror(d), mirror(v), mirror(g), travel)).toEqual(Array.from(mirror(force)));
        expect(right.snubberRate).toBe(left.snubberRate);
      }),
      { seed: 37 },
    );
  });

  it("turns with the carrier about the lateral axis: only the angle to the trim angle counts", () => {
    fc.assert(
      fc.property(places, vectors(3), vectors(12), number(-0.5, 0.5), (d, v, g, turn) => {
        const [c, s] = [Math.cos(turn), Math.sin(turn)];
        // a turn that adds to the boom angle: −x goes towards z
        const turned = (x: Vector): Vector => [c * x[0] + s * x[2], x[1], -s * x[0] + c * x[2]];
        const angleDown = full.geometry.angleDown + turn;
        const other = new BoomSprings({ ...full, geometry: { ...full.geometry, angleDown } });
        const force = forceOn(new BoomSprings(full), d, v, g, 0.1) as unknown as Vector;
        const why = "round-off of forces up to 2e7 N";
        expectAllClose(forceOn(other, turned(d), turned(v), turned(g), 0.1), turned(force), { atol: 1e-5, why });
      }),
      { seed: 38 },
    );
  });
});

describe("settings", () => {
  it.each(["axial", "axialDamping", "lateral", "lateralDamping", "ownMass", "ownCentre"] as const)(
    "refuses a negative or infinite %s",
    (key) => {
      for (const bad of [-1, Number.NaN, Number.POSITIVE_INFINITY]) {
        expect(() => new BoomSprings(settings({ [key]: bad }))).toThrow(DomainError);
        expect(() => new BoomSprings(settings({ [key]: bad }))).toThrow(`boom ${key} is ${bad}`);
      }
    },
  );

  it("refuses a boom without length", () => {
    expect(() => new BoomSprings(settings({ geometry: { length: 0, angleDown: 1 } }))).toThrow("boom length is 0");
  });

  it("has a state exactly when snubber and springs share the travel", () => {
    expect(new BoomSprings(settings({ tangential: damped })).stateCount).toBe(1);
    expect(new BoomSprings(settings({ tangential: elastic })).stateCount).toBe(0);
    const locked = { ...damped, snubber: Number.POSITIVE_INFINITY };
    expect(new BoomSprings(settings({ tangential: locked })).stateCount).toBe(0);
  });
});
