import fc from "fast-check";
import { describe, expect, it } from "vitest";
// values of analytic/beam-statics
import { cantileverStiffness, overhangStiffness } from "../../../reference/analytic/beam-statics/closed-form.ts";
import { expectClose } from "../../../test/support/close.ts";
import { dynamicStiffness, referToTip } from "../snubber/index.ts";
import {
  type BoomAttachment,
  type BoomStructureSettings,
  boomModes,
  holdBoom,
  seriesStiffness,
  type TipEquivalent,
  tipCompliance,
  tipEquivalent,
} from "./index.ts";
import { DEGREE, ODD, SWING, twinTubes, uniform, unitSection } from "./test-booms.ts";

const INF = Number.POSITIVE_INFINITY;
const hinge: BoomAttachment = { kind: "hinge", station: 0 };
const closed = { rtol: 1e-9, why: "exact elements; round-off" };

function equivalent(settings: BoomStructureSettings): TipEquivalent {
  const found = tipEquivalent(settings);
  if (found.outcome !== "found") throw new Error(found.outcome);
  return found;
}
const jackAt = (station: number, stiffness: number): BoomAttachment => ({
  kind: "jack",
  station,
  stiffness,
  direction: SWING,
});

/** The demonstration's boom: two tubes, hinge, jack on a lug 1.55 m out and 0.28 m above, anchor as in its stations. */
function demo(
  outer: number,
  angleDown: number,
  stiffness: number,
  theory: "Euler-Bernoulli" | "Timoshenko" = "Timoshenko",
) {
  const [c, s] = [Math.cos(angleDown), Math.sin(angleDown)];
  // the anchor from the hinge, aft and up, in boom axes: along is aft·cos − up·sin, swing is −aft·sin − up·cos
  const [aft, up] = [12.9 - 10.4, 3.35 - 2.15];
  const direction = [aft * c - up * s - 1.55, -aft * s - up * c + 0.28, 0] as const;
  const settings: BoomStructureSettings = {
    sections: uniform(twinTubes(outer, 0.006), 5.6),
    attachments: [hinge, { kind: "jack", station: 1.55, offset: [0, -0.28, 0], direction, stiffness }],
    theory,
  };
  return { settings, jackLength: Math.hypot(...direction) };
}

describe("tipEquivalent", () => {
  it("splits the tangential stiffness exactly: 1/k = 1/k_b + 1/k_jack,tip, for any jack on any boom", () => {
    const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(number(0.5, 3.9), number(-1, 1), number(-0.3, 0.3), number(3, 8), (station, along, lift, decade) => {
        const stiffness = 10 ** decade;
        const jack: BoomAttachment = {
          ...{ kind: "jack", station, stiffness, inSeries: [2 * stiffness] },
          ...{ direction: [along, -1, 0.2], offset: [0, lift, 0.1] },
        };
        fc.pre(Math.abs(-station - lift * along) > 0.2);
        const settings = { sections: ODD, attachments: [hinge, jack], elements: 6 };
        const found = equivalent(settings);
        const whole = tipCompliance(holdBoom(settings));
        if (whole.outcome !== "solved" || found.jack === undefined) throw new Error("no jack");
        expectClose(found.tangential, 1 / whole.translation[4], { rtol: 1e-7, why: "round-off of EA over jack" }, "k");
        // the ratio is geometry alone: L over the lever of the jack's line about the hinge
        const size = Math.hypot(along, 1, 0.2);
        const lever = Math.abs(station * -1 - lift * along) / size;
        expectClose(found.jack.tipPerJack, 4 / lever, { rtol: 1e-8, why: "round-off" }, "tip per jack");
        expect(found.jack.besides).toBe(0);
        expectClose(found.jack.atTip, referToTip((2 / 3) * stiffness, 4 / lever), { rtol: 1e-7, why: "round-off" });
      }),
      { seed: 73, numRuns: 30 },
    );
  });

  it("splits it with a strut beside the jack too: what else resists the jack counts to the jack", () => {
    const strut: BoomAttachment = {
      kind: "strut",
      station: 2.5,
      direction: [-1, 1, 0],
      axialStiffness: 3e6,
      length: 2,
    };
    for (const stiffness of [0, 1e4, 1e6, 1e8, INF]) {
      const settings = { sections: ODD, attachments: [hinge, jackAt(1.5, stiffness), strut], elements: 6 };
      const found = equivalent(settings);
      const whole = tipCompliance(holdBoom(settings));
      if (whole.outcome !== "solved") throw new Error("not held");
      expectClose(found.tangential, 1 / whole.translation[4], { rtol: 1e-7, why: "round-off" }, `jack of ${stiffness}`);
      expect(found.jack?.besides).toBeGreaterThan(1e5);
    }
  });

  it("has k_b of the overhang beyond the lug, and of the cantilever without a hinge", () => {
    const sections = uniform(unitSection, 1);
    const hinged = equivalent({ sections, attachments: [hinge, jackAt(0.3, 7)] });
    expectClose(hinged.bending, overhangStiffness(1, 0.3, 0.7), closed, "k_b");
    expectClose(hinged.tangential, 1 / (1 / hinged.bending + 1 / (7 * 0.09)), closed, "k");
    expectClose(hinged.axial, 1e5, closed, "axial");
    expectClose(hinged.lateral, 3e3, closed, "lateral");
    const clamped = equivalent({ sections, attachments: [{ kind: "clamp", station: 0 }] });
    expectClose(clamped.bending, cantileverStiffness(1, 1), closed, "cantilever");
    expect(clamped.jack).toBeUndefined();
  });

  it("gives what the tangential path needs: quasi-static stiffness with a snubber beside the accumulator", () => {
    const [accumulator, rate, omega] = [2e5, 3e4, 5];
    const found = equivalent({ sections: ODD, attachments: [hinge, jackAt(1.5, accumulator)] });
    const ratio = found.jack?.tipPerJack ?? Number.NaN;
    const rates = { bending: found.bending, bendingDamping: 0, accumulator: found.jack?.atTip ?? 0, snubber: 0 };
    const [real] = dynamicStiffness(rates, 0);
    expectClose(real, found.tangential, closed, "without snubber");
    const [held, lost] = dynamicStiffness({ ...rates, snubber: referToTip(rate, ratio) }, omega);
    const jack = { real: accumulator / ratio ** 2, imag: (omega * rate) / ratio ** 2 };
    const size = jack.real ** 2 + jack.imag ** 2;
    const yields = [1 / found.bending + jack.real / size, -jack.imag / size];
    const square = yields[0] ** 2 + yields[1] ** 2;
    expectClose(held, yields[0] / square, closed, "in phase");
    expectClose(lost, -yields[1] / square, closed, "out of phase");
  });

  it("has the effective masses of a uniform boom: 33/140, 1/3 swinging, 1/3 along, and between for a soft jack", () => {
    const sections = uniform(unitSection, 1);
    const clamped = equivalent({ sections, attachments: [{ kind: "clamp", station: 0 }] });
    const shape = { rtol: 1e-8, why: "round-off" };
    expectClose(clamped.effectiveTipMass.tangential, 33 / 140, shape, "cantilever");
    expectClose(clamped.effectiveTipMass.lateral, 33 / 140, shape, "lateral");
    expectClose(clamped.effectiveTipMass.axial, 1 / 3, shape, "along");
    const masses = [1e-3, 1, 10, 100, 1e3, 1e9, INF].map(
      (stiffness) => equivalent({ sections, attachments: [hinge, jackAt(0.3, stiffness)] }).effectiveTipMass,
    );
    const swinging = { rtol: 1e-7, why: "round-off" };
    expectClose(masses[0].tangential, 1 / 3, { rtol: 1e-3, why: "a jack of 1e-3" }, "softest");
    for (const { swinging: free, locked, tangential } of masses) {
      expectClose(free, 1 / 3, swinging, "swinging");
      expect(locked).toBe(masses[0].locked);
      expect(tangential).toBeLessThan(1 / 3);
      expect(tangential).toBeGreaterThan(locked * (1 - 1e-9));
    }
    expectClose(masses[6].tangential, masses[6].locked, { rtol: 1e-12, why: "locked" });
    expectClose(masses[5].tangential, masses[6].locked, { rtol: 1e-6, why: "a jack of 1e9" });
  });

  it("predicts the frequency of a heavy body on the tip, from above, better the heavier it is", () => {
    const settings = { sections: ODD, attachments: [hinge, jackAt(1.5, 1e6)], elements: 12 };
    const found = equivalent(settings);
    const errors = [0, 100, 1000, 10_000].map((mass) => {
      const vibration = boomModes(holdBoom({ ...settings, masses: [{ station: 4, mass }] }), 12);
      if (vibration.outcome !== "found") throw new Error(vibration.outcome);
      const exact = vibration.modes.find(({ kind }) => kind === "swing")?.frequency ?? Number.NaN;
      return Math.sqrt(found.tangential / (mass + found.effectiveTipMass.tangential)) / exact - 1;
    });
    for (const error of errors) expect(error).toBeGreaterThan(-1e-9);
    expect(errors[0]).toBeLessThan(0.05);
    expect(errors[1]).toBeLessThan(1e-3);
    expect(errors[2]).toBeLessThan(errors[1] / 20);
    expect(errors[3]).toBeLessThan(errors[2] / 20);
  });

  it("tells mass and centre of the boom with what it carries, and its modes with the jack locked", () => {
    const masses = [{ station: 1, mass: 0.5, offset: [0.1, 0, 0] as const }];
    const found = equivalent({ sections: uniform(unitSection, 1), attachments: [hinge, jackAt(0.3, 7)], masses });
    expectClose(found.ownMass, 1.5, closed);
    expectClose(found.ownCentre, (0.5 + 0.55) / 1.5, closed);
    expect(found.lockedModes.length).toBe(6);
    const locked = boomModes(
      holdBoom({ sections: uniform(unitSection, 1), attachments: [hinge, jackAt(0.3, INF)], masses }),
      1,
    );
    if (locked.outcome !== "found") throw new Error(locked.outcome);
    expectClose(found.lockedModes[0].frequency, locked.modes[0].frequency, { rtol: 1e-9, why: "the same boom" });
  });

  it("has springs in series", () => {
    expect(seriesStiffness([4, 4])).toBe(2);
    expect(seriesStiffness([4, INF])).toBe(4);
    expect(seriesStiffness([4, 0])).toBe(0);
    expect(() => seriesStiffness([-1])).toThrow("stiffness in series is -1");
  });
});

describe("the demonstration's two tubes on hinge and lug", () => {
  it.each([
    [0.127, 57],
    [0.152, 101],
  ])("of %s m bend at the tip like an overhang beyond the lug: about %s kN/m", (outer, guide) => {
    const bent = equivalent(demo(outer, 52 * DEGREE, INF, "Euler-Bernoulli").settings).bending;
    const inertia = (Math.PI * (outer ** 4 - (outer - 0.012) ** 4)) / 64;
    const overhang = overhangStiffness(2 * 210e9 * inertia, 1.55, 4.05);
    const lever = {
      rtol: 0.06,
      why: "the lug is 0.28 m off the axis: the jack's couple stiffens the boom by 5 % at 52°",
    };
    expectClose(bent, overhang, lever, "k_b");
    // the design's own estimate, a trend: whole kN/m
    expect(Math.round(overhang / 1e3)).toBe(guide);
    expect(equivalent(demo(outer, 52 * DEGREE, INF).settings).bending).toBeLessThan(bent);
  });

  it("meets the jack's length and ratio at both ends of the stroke", () => {
    for (const [angle, length, ratio] of [
      [14, 1.6, 4.18],
      [40, 2.283, 3.56],
      [52, 2.61, 3.63],
    ]) {
      const { settings, jackLength } = demo(0.127, angle * DEGREE, 1e6);
      expectClose(jackLength, length, { atol: 6e-3, why: "three decimals of the demonstration's geometry" }, "length");
      const found = equivalent(settings);
      expectClose(found.jack?.tipPerJack ?? 0, ratio, { atol: 0.02, why: "two decimals" }, `${angle}°`);
    }
  });
});
