/** The linearised nonlinear equations against the linear model that was derived by hand, analytic/hooked-linear. */
import { describe, expect, it } from "vitest";
import {
  ALL_TERMS,
  type GeometricTerms,
  hookedBalance,
  lateralMatrix,
  longitudinalMatrix,
} from "../../reference/analytic/hooked-linear/index.ts";
import { bracketedRoot } from "../../src/math/roots/index.ts";
import { expectClose } from "../support/close.ts";
import { type LongshoreOptions, longshore, MASS_NAMES, REVISION_NAMES, WEIGHT_SHARES } from "../support/longshore.ts";
import { analyticNumbers, linearPair, planes, rootGap, rootsOfRows, worstDamping } from "./hooked-support.ts";

const RTOL = 1e-9;
const cases = REVISION_NAMES.flatMap((revision) =>
  MASS_NAMES.flatMap((mass) => WEIGHT_SHARES.map((weightShare) => ({ revision, mass, weightShare }))),
);
const without = (term: keyof GeometricTerms): GeometricTerms => ({ ...ALL_TERMS, [term]: false });

function byHand(options: LongshoreOptions, terms = ALL_TERMS) {
  const numbers = analyticNumbers(longshore(options));
  return {
    longitudinal: rootsOfRows(longitudinalMatrix(numbers, terms)),
    lateral: rootsOfRows(lateralMatrix(numbers, terms)),
  };
}

describe("linear model by hand", () => {
  it.each(cases)("has the same trim and the same 13 roots: $revision, $mass, share $weightShare", (options) => {
    const settings = longshore(options);
    const { pair, linear } = linearPair(settings);
    const balance = hookedBalance(analyticNumbers(settings));
    const close = { rtol: 1e-9, atol: 1e-9, why: "both solved to round-off" };
    expectClose(pair.trim.alpha, balance.alpha, close, "angle of attack");
    expectClose(pair.trim.controls.elevator, balance.elevator, close, "elevator");
    expectClose(pair.trim.f_onV_byTip_H[0], balance.fx, close, "tow load");
    expect(linear.size).toBe(13);
    const { longitudinal, lateral } = planes(settings);
    expect(rootGap(byHand(options).longitudinal, longitudinal)).toBeLessThan(RTOL);
    expect(rootGap(byHand(options).lateral, lateral)).toBeLessThan(RTOL);
  });

  it.each<[string, LongshoreOptions]>([
    ["slow", { revision: "Rev B", equivalentAirspeed: 85 }],
    ["fast", { revision: "Rev B", mass: "return", equivalentAirspeed: 125 }],
    ["with the side force in body axes", { revision: "Rev B", mass: "empty", sideForce: "body", weightShare: 0.2 }],
    ["on a steep, short boom", { mass: "empty", boom: { angleDown: 1.2, length: 3.1 } }],
    ["on a flat boom", { mass: "return", boom: { angleDown: 0.3 }, weightShare: 0.4 }],
    ["without structural damping", { boom: { structuralDamping: 0 } }],
  ])("has the same roots %s", (_name, options) => {
    const { longitudinal, lateral } = planes(longshore(options));
    expect(rootGap(byHand(options).longitudinal, longitudinal)).toBeLessThan(RTOL);
    expect(rootGap(byHand(options).lateral, lateral)).toBeLessThan(RTOL);
  });

  it("keeps the two planes apart in a symmetric pair", () => {
    const { linear } = linearPair(longshore({ weightShare: 0.2 }));
    const side = (name: string): boolean => ["y", "roll", "yaw"].some((word) => name.split(" ").includes(word));
    const largest = Math.max(...linear.matrix.map(Math.abs));
    linear.names.forEach((row, i) => {
      linear.names.forEach((column, j) => {
        if (side(row) !== side(column)) {
          expect(Math.abs(linear.matrix[i * linear.size + j]), `${row} by ${column}`).toBeLessThan(1e-11 * largest);
        }
      });
    });
  });
});

describe("a geometric term that is left out", () => {
  /** ζ of the least damped slow oscillation without the term, minus the true one. */
  const shift = (plane: "longitudinal" | "lateral", term: keyof GeometricTerms, options: LongshoreOptions): number =>
    worstDamping(byHand(options, without(term))[plane]) - worstDamping(planes(longshore(options))[plane]);
  const about = (why: string) => ({ rtol: 0.02, why });

  it("makes pitch look worse when the tip force stays on the arm that does not turn", () => {
    const why = "size and sign of the error, two digits, as generated/hooked-independent has it";
    expectClose(shift("longitudinal", "tipForceOnTurnedArm", {}), -0.0088, about(why), "towed");
    expectClose(shift("longitudinal", "tipForceOnTurnedArm", { weightShare: 0.4 }), -0.0218, about(why), "carried");
  });

  it("makes the light lateral oscillation look better when towed, far worse when carried", () => {
    const why = "size and sign of the error, two digits, as generated/hooked-independent has it";
    expectClose(shift("lateral", "tipForceOnTurnedArm", {}), 0.0103, about(why), "towed");
    expectClose(shift("lateral", "tipForceOnTurnedArm", { weightShare: 0.4 }), -0.178, about(why), "carried");
  });

  it("does the contrary for the static pitching moment that leans with the aircraft", () => {
    const why = "size and sign of the error, two digits, as generated/hooked-independent has it";
    expectClose(shift("lateral", "turnedStaticMoment", {}), -0.0192, about(why), "towed");
    expectClose(shift("lateral", "turnedStaticMoment", { weightShare: 0.4 }), 0.0985, about(why), "carried");
    expect(shift("longitudinal", "turnedStaticMoment", { weightShare: 0.4 })).toBeCloseTo(0, 9);
  });

  it("lowers the boom's swing when its tension is left out", () => {
    const options = { revision: "Rev B", weightShare: 0.4 } as const;
    const why = "size and sign of the error, two digits, as generated/hooked-independent has it";
    expectClose(shift("longitudinal", "tensionOverLength", options), -0.0026, { rtol: 0.05, why });
    const slow = (terms: GeometricTerms): number =>
      Math.min(
        ...byHand(options, terms)
          .longitudinal.filter((r) => r.im > 0)
          .map((r) => Math.hypot(r.re, r.im)),
      );
    expectClose(slow(without("tensionOverLength")) / slow(ALL_TERMS), 0.953, { rtol: 0.002, why }, "frequency");
  });

  it("matters little for the tangential preload and for the short arm of the reference point, but not nothing", () => {
    const tangential = shift("longitudinal", "tangentialOverLength", { weightShare: 0.4 });
    expect(Math.abs(tangential)).toBeGreaterThan(1e-5);
    expect(Math.abs(tangential)).toBeLessThan(5e-4);
    expectClose(shift("lateral", "airloadOnTurnedArm", { mass: "empty" }), 0.0021, {
      rtol: 0.03,
      why: "as generated/hooked-independent has it",
    });
    // with the c.g. on the reference point there is no arm
    expect(shift("lateral", "airloadOnTurnedArm", { mass: "full" })).toBeCloseTo(0, 9);
  });

  it("invents a stable window: the neutral lateral speed of Rev B moves or is gone", () => {
    const damping = (speed: number, terms: GeometricTerms): number =>
      worstDamping(byHand({ revision: "Rev B", equivalentAirspeed: speed }, terms).lateral);
    const neutral = (terms: GeometricTerms): number => bracketedRoot((speed) => damping(speed, terms), 80, 115, 1e-9).x;
    expectClose(
      neutral(ALL_TERMS),
      90.31,
      { atol: 0.02, why: "computed here, guards the size of the error" },
      "all terms",
    );
    // 80 to 90 m/s is unstable; without the tip force on the turned arm it looks stable everywhere
    expect(damping(80, ALL_TERMS)).toBeLessThan(-0.01);
    for (let speed = 80; speed <= 115; speed += 5) {
      expect(damping(speed, without("tipForceOnTurnedArm"))).toBeGreaterThan(0.01);
    }
    // and without the leaning moment a stable stretch of ten metres per second is lost
    expectClose(
      neutral(without("turnedStaticMoment")),
      100.49,
      { atol: 0.02, why: "computed here, guards the size of the error" },
      "no leaning moment",
    );
  });
});
