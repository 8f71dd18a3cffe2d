import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { asSeriesPath, lossPeak, maxwell, standardSolid } from "../../../reference/analytic/maxwell/closed-form.ts";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import { createRk4Workspace, rk4Step } from "../../math/ode/index.ts";
import { BoomSprings } from "../boom/index.ts";
import { createTangentialPath, dynamicStiffness, type TangentialRates } from "./index.ts";

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const allRates = fc.record({
  bending: number(1e3, 1e6),
  bendingDamping: number(0, 1e3),
  accumulator: number(0, 1e6),
  snubber: number(0, 1e5),
});
const frequencies = number(0.1, 50);
const revA: TangentialRates = { bending: 60e3, bendingDamping: 120, accumulator: 60e3, snubber: 2e3 };
const rounding = { rtol: 1e-12, why: "same closed form in other algebra" };
const closeTo = (
  rates: TangentialRates,
  omega: number,
  expected: readonly number[],
  rtol: number,
  why: string,
): void => {
  const size = Math.hypot(...expected);
  expectAllClose(dynamicStiffness(rates, omega), expected, { atol: rtol * size, why }, "k*");
};

describe("dynamicStiffness", () => {
  it("is a Maxwell element without accumulator", () => {
    const element = { bending: 1000, bendingDamping: 0, accumulator: 0, snubber: 50 };
    expectAllClose(dynamicStiffness(element, 10), [200, 400], { rtol: 1e-14, why: "exact in decimal" });
    fc.assert(
      fc.property(number(10, 1e6), number(1, 1e5), frequencies, (k, c, omega) => {
        const rates = { bending: k, bendingDamping: 0, accumulator: 0, snubber: c };
        expectAllClose(dynamicStiffness(rates, omega), maxwell(k, c, omega), rounding);
      }),
      { seed: 21 },
    );
  });

  it("is a standard linear solid built the other way round", () => {
    const rates = { ...asSeriesPath(500, 1000, 50), bendingDamping: 0 };
    expectAllClose(dynamicStiffness(rates, 10), [700, 400], { rtol: 1e-14, why: "exact in decimal" });
    fc.assert(
      fc.property(number(10, 1e6), number(10, 1e6), number(1, 1e5), frequencies, (k0, k, c, omega) => {
        const path = { ...asSeriesPath(k0, k, c), bendingDamping: 0 };
        expectAllClose(dynamicStiffness(path, omega), standardSolid(k0, k, c, omega), { ...rounding, rtol: 1e-11 });
      }),
      { seed: 22 },
    );
  });

  it("loses the largest share at the closed-form frequency, and no more than the closed form there", () => {
    const rates = { ...asSeriesPath(500, 1000, 50), bendingDamping: 0 };
    const lossFactor = (omega: number): number => {
      const [real, imaginary] = dynamicStiffness(rates, omega);
      return imaginary / real;
    };
    const peak = lossPeak(500, 1000, 50);
    expectClose(lossFactor(peak.omega), peak.lossFactor, rounding);
    expectClose(peak.lossFactor, 1 / Math.sqrt(3), rounding, "η of k0 = 500, k = 1000");
    for (const factor of [0.5, 0.99, 1.01, 2]) expect(lossFactor(factor * peak.omega)).toBeLessThan(peak.lossFactor);
  });

  it("adds the compliances of boom and jack", () => {
    fc.assert(
      fc.property(allRates, frequencies, (rates, omega) => {
        const inverse = (re: number, im: number): [number, number] => [
          re / (re * re + im * im),
          -im / (re * re + im * im),
        ];
        const boom = inverse(rates.bending, omega * rates.bendingDamping);
        fc.pre(rates.accumulator > 1);
        const jack = inverse(rates.accumulator, omega * rates.snubber);
        closeTo(rates, omega, inverse(boom[0] + jack[0], boom[1] + jack[1]), 1e-11, "sum of compliances");
      }),
      { seed: 23 },
    );
  });

  it("never gives energy, and turns into its mirror image when time runs backwards", () => {
    fc.assert(
      fc.property(allRates, frequencies, (rates, omega) => {
        const [real, imaginary] = dynamicStiffness(rates, omega);
        expect(real).toBeGreaterThanOrEqual(0);
        expect(imaginary).toBeGreaterThanOrEqual(0);
        expect(dynamicStiffness(rates, -omega)).toEqual([real, imaginary === 0 ? -0 : -imaginary]);
      }),
      { seed: 24, numRuns: 500 },
    );
  });

  it("damps most at one rate of the snubber: the boom in series makes an interior optimum", () => {
    const omega = 4;
    const best = (revA.bending + revA.accumulator) / omega;
    const taken = (snubber: number): number => dynamicStiffness({ ...revA, bendingDamping: 0, snubber }, omega)[1];
    expectClose(taken(best), revA.bending ** 2 / (2 * (revA.bending + revA.accumulator)), rounding);
    for (const factor of [0.1, 0.9, 1.1, 10]) expect(taken(factor * best)).toBeLessThan(taken(best));
  });

  it.each([
    ["a stiff boom", "bending", (r: TangentialRates, w: number) => [r.accumulator, w * r.snubber]],
    [
      "a boom locked by its damping",
      "bendingDamping",
      (r: TangentialRates, w: number) => [r.accumulator, w * r.snubber],
    ],
    ["a stiff accumulator", "accumulator", (r: TangentialRates, w: number) => [r.bending, w * r.bendingDamping]],
    ["a tight snubber", "snubber", (r: TangentialRates, w: number) => [r.bending, w * r.bendingDamping]],
  ] as const)("nears the limit of %s with order one, and has it exactly at infinity", (_name, key, limit) => {
    const omega = 5;
    const expected = limit(revA, omega);
    const distance = (value: number): number => {
      const found = dynamicStiffness({ ...revA, [key]: value }, omega);
      return Math.hypot(found[0] - expected[0], found[1] - expected[1]);
    };
    expectClose(distance(1e11) / distance(1e10), 0.1, { rtol: 1e-4, why: "order one in the reciprocal" });
    expect(dynamicStiffness({ ...revA, [key]: Number.POSITIVE_INFINITY }, omega)).toEqual(expected);
  });

  it("is the two springs in series at rest or without dampers, and the boom alone in fast motion", () => {
    expectAllClose(dynamicStiffness(revA, 0), [30e3, 0], { atol: 1e-9, why: "round-off" });
    expectAllClose(dynamicStiffness({ ...revA, bendingDamping: 0, snubber: 0 }, 7), [30e3, 0], {
      atol: 1e-9,
      why: "round-off",
    });
    const fast = dynamicStiffness({ ...revA, bendingDamping: 0 }, 1e6);
    expectClose(fast[0], 60e3, { rtol: 1e-8, why: "(k_a + k_b)/(ω·c) squared is 4e-9" });
    expect(dynamicStiffness({ bending: 0, bendingDamping: 0, accumulator: 0, snubber: 0 }, 3)).toEqual([0, 0]);
    expect(dynamicStiffness({ bending: 0, bendingDamping: 0, accumulator: 0, snubber: 9 }, 0)).toEqual([0, 0]);
  });

  it("refuses a frequency that is not finite", () => {
    expect(() => dynamicStiffness(revA, Number.NaN)).toThrow(DomainError);
  });
});

describe("createTangentialPath", () => {
  const inf = Number.POSITIVE_INFINITY;

  it.each([
    ["boom on accumulator and snubber", {}, "relaxing"],
    ["only the boom's own damping", { snubber: 0 }, "relaxing"],
    ["two bare springs", { snubber: 0, bendingDamping: 0 }, { stiffness: 30e3, damping: 0 }],
    ["rigid boom", { bending: inf, bendingDamping: 0 }, { stiffness: 60e3, damping: 2e3 }],
    ["locked snubber", { snubber: inf }, { stiffness: 60e3, damping: 120 }],
    ["rigid accumulator", { accumulator: inf }, { stiffness: 60e3, damping: 120 }],
    ["nothing at all", { bending: 0, bendingDamping: 0, accumulator: 0, snubber: 0 }, { stiffness: 0, damping: 0 }],
  ] as const)("%s", (_name, change, expected) => {
    const rates = { ...revA, ...change };
    const path = createTangentialPath(rates);
    expect(path).toEqual(expected === "relaxing" ? { kind: "relaxing", rates } : { kind: "elastic", ...expected });
  });

  it("refuses a path that cannot yield, and negative or missing rates", () => {
    for (const rigid of [{ snubber: inf }, { accumulator: inf }]) {
      expect(() => createTangentialPath({ ...revA, bending: inf, ...rigid })).toThrow("rigid boom on a rigid jack");
      expect(() => createTangentialPath({ ...revA, bendingDamping: inf, ...rigid })).toThrow(
        "rigid boom on a rigid jack",
      );
    }
    for (const key of ["bending", "bendingDamping", "accumulator", "snubber"] as const) {
      for (const bad of [-1, Number.NaN]) {
        expect(() => createTangentialPath({ ...revA, [key]: bad })).toThrow(DomainError);
        expect(() => createTangentialPath({ ...revA, [key]: bad })).toThrow(`tangential path, ${key} is ${bad}`);
      }
    }
  });
});

describe("the path in time", () => {
  /** Tip force per tip travel in steady oscillation, from the boom's own equations: [in phase, leading by 90°]. */
  function fromTime(rates: TangentialRates, omega: number): [number, number] {
    const [length, angleDown, amplitude] = [7, 0.9, 0.02];
    const none = { tension: 0, tangential: 0, lateral: 0 };
    const boom = new BoomSprings({
      geometry: { length, angleDown },
      preload: none,
      ...{ axial: 1e6, axialDamping: 0, lateral: 1e6, lateralDamping: 0, ownMass: 0, ownCentre: 0 },
      tangential: rates,
    });
    const d = new Float64Array(3);
    const v = new Float64Array(3);
    const gravity = new Float64Array(3);
    const at = (t: number, travel: number): void => {
      const angle = angleDown + (amplitude / length) * Math.sin(omega * t);
      const rate = amplitude * omega * Math.cos(omega * t);
      d.set([-length * Math.cos(angle), 0, length * Math.sin(angle)]);
      v.set([rate * Math.sin(angle), 0, rate * Math.cos(angle)]);
      boom.evaluate(d, v, gravity, travel);
    };
    const derivative = (t: number, state: Float64Array, out: Float64Array): void => {
      at(t, state[0]);
      out[0] = boom.snubberRate;
    };
    const state = new Float64Array(1);
    const workspace = createRk4Workspace(1);
    const perCycle = 2880;
    const step = (2 * Math.PI) / omega / perCycle;
    // long enough that e^(−t/τ) is below 1e-13
    const relaxation = (rates.snubber + rates.bendingDamping) / (rates.bending + rates.accumulator);
    const settle = boom.stateCount === 0 ? 0 : perCycle * Math.ceil((30 * relaxation * omega) / (2 * Math.PI));
    const sums: [number, number] = [0, 0];
    for (let i = 0; i < settle + perCycle; i++) {
      const t = i * step;
      if (i >= settle) {
        at(t, state[0]);
        sums[0] += (2 / perCycle / amplitude) * boom.tangentialForce * Math.sin(omega * t);
        sums[1] += (2 / perCycle / amplitude) * boom.tangentialForce * Math.cos(omega * t);
      }
      if (boom.stateCount === 1) rk4Step(derivative, t, state, step, state, workspace);
    }
    return sums;
  }

  it.each([
    ["boom, accumulator and snubber", revA, 4],
    ["another boom, faster", { bending: 90e3, bendingDamping: 300, accumulator: 20e3, snubber: 3.5e3 }, 25],
    ["Maxwell element", { bending: 1000, bendingDamping: 0, accumulator: 0, snubber: 50 }, 10],
    ["no snubber, damped boom", { ...revA, snubber: 0, bendingDamping: 900 }, 30],
    ["rigid boom", { ...revA, bending: Number.POSITIVE_INFINITY, bendingDamping: 0 }, 6],
    ["locked snubber", { ...revA, snubber: Number.POSITIVE_INFINITY }, 6],
    ["bare springs", { ...revA, snubber: 0, bendingDamping: 0 }, 6],
  ] as const)("has amplitude and phase of the complex stiffness: %s", (_name, rates, omega) => {
    const expected = dynamicStiffness(rates, omega);
    const found = fromTime(rates, omega);
    const size = Math.hypot(...expected);
    expectAllClose(found, expected, { atol: 1e-8 * size, why: "Runge-Kutta of order four, 2880 steps a cycle" });
  });
});
