import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { RandomStream } from "../../math/random/index.ts";
import { HOOKON_COLUMNS, HOOKON_OUTCOMES } from "../../physics/hookon-motion/index.ts";
import type { SampleTable } from "../samples/types.ts";
import { conditionsOf } from "./conditions.ts";
import { attemptsFor, missOf, outcomeShare, percentile, quantityOf } from "./statistics.ts";
import { summariseCase } from "./summarise.ts";

const [CONDITION] = conditionsOf({
  ...{ sigmas: [{ name: "light", value: 1.5 }], controllers: ["autopilot"], light: null, bothAtOnce: null },
});
const SETTINGS = { confidence: 0.95, attemptsFor: 0.99, captureRadius: 0.3 };

/** Rows whose columns are NaN but for those stated. */
function tableOf(rows: readonly Readonly<Record<string, number>>[]): SampleTable {
  const width = HOOKON_COLUMNS.length;
  const values = new Float64Array(rows.length * width).fill(Number.NaN);
  rows.forEach((row, i) => {
    for (const [name, value] of Object.entries(row)) {
      values[i * width + HOOKON_COLUMNS.findIndex((each) => each.name === name)] = value;
    }
  });
  return { condition: CONDITION.key, columns: HOOKON_COLUMNS, index: Float64Array.from(rows, (_, i) => i), values };
}

describe("statistics of a case", () => {
  it("percentiles by straight lines between the order statistics", () => {
    const sorted = Float64Array.of(1, 2, 4, 8);
    expect(percentile(sorted, 0)).toBe(1);
    expect(percentile(sorted, 1)).toBe(8);
    expect(percentile(sorted, 0.5)).toBe(3);
    expect(percentile(Float64Array.of(7), 0.3)).toBe(7);
  });

  it("what did not happen is left out of a quantity, and nothing at all is no quantity", () => {
    const column = { key: "x", title: "x", unit: "m" };
    const found = quantityOf(column, Float64Array.of(Number.NaN, 3, 1, Number.NaN, 2));
    expect(found).toMatchObject({ count: 3, mean: 2, p50: 2, largest: 3 });
    expectClose(found!.mean3Sigma, 5, { rtol: 1e-12, why: "round-off; standard deviation 1" });
    expect(quantityOf(column, Float64Array.of(Number.NaN))).toBeNull();
  });

  it("shares lie inside both of their intervals", () => {
    for (const hits of [0, 1, 10, 19, 20]) {
      const { share_1, exact_1, score_1 } = outcomeShare(hits, 20, 0.95);
      for (const { lower, upper } of [exact_1, score_1]) {
        expect(lower).toBeLessThanOrEqual(share_1);
        expect(upper).toBeGreaterThanOrEqual(share_1);
      }
      expect(exact_1.upper - exact_1.lower).toBeGreaterThanOrEqual(score_1.upper - score_1.lower - 0.02);
    }
  });

  it("attempts: one fewer is not enough", () => {
    for (const share of [0.05, 0.3, 0.5, 0.9, 0.999]) {
      for (const asked of [0.9, 0.99, 0.999]) {
        const n = attemptsFor(share, asked)!;
        expect(1 - (1 - share) ** n).toBeGreaterThanOrEqual(asked - 1e-9);
        if (n > 1) expect(1 - (1 - share) ** (n - 1)).toBeLessThan(asked);
      }
    }
    expect(attemptsFor(0, 0.9)).toBeNull();
    expect(attemptsFor(1, 0.9)).toBe(1);
    expect(attemptsFor(1e-6, 0.99)).toBeNull();
  });

  it("misses: normal samples agree with the closed forms of their own distribution", () => {
    const random = new RandomStream(3, 0);
    const n = 20_000;
    const right = new Float64Array(n);
    const down = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      right[i] = 0.05 + 0.2 * random.normal();
      down[i] = -0.1 + 0.1 * random.normal() + 0.5 * (right[i] - 0.05);
    }
    const miss = missOf(right, down, 0.3)!;
    const sampling = 4 * Math.sqrt(0.25 / n);
    expect(Math.abs(miss.inside_1 - miss.normal_1)).toBeLessThan(sampling);
    expectClose(miss.correlation_1, 0.1 / Math.hypot(0.1, 0.1), { atol: 0.02, why: "sampling" });
    const equal = missOf(
      right.map(() => 0.2 * random.normal()),
      down.map(() => 0.2 * random.normal()),
      0.3,
    )!;
    expect(Math.abs(equal.inside_1 - equal.rayleigh_1)).toBeLessThan(sampling);
    expectClose(equal.radius_m.p50, 0.2 * Math.sqrt(2 * Math.LN2), { rtol: 0.03, why: "sampling; Rayleigh's median" });
  });

  it("misses: too few, and scatter of no width", () => {
    expect(missOf(Float64Array.of(0, 0, Number.NaN), Float64Array.of(0, 0, 0), 1)).toBeNull();
    const point = missOf(Float64Array.of(0.1, 0.1, 0.1), Float64Array.of(0, 0, 0), 0.2)!;
    expect([point.inside_1, point.normal_1]).toEqual([1, 1]);
  });
});

describe("summariseCase", () => {
  const locked = HOOKON_OUTCOMES.indexOf("locked, stable");
  const missed = HOOKON_OUTCOMES.indexOf("missed");
  const touch = { outcome: locked, locked: 1, contact_s: 9, closure_m_s: 1, axialLoad_N: 5e3, funnelTilt_rad: 0.1 };
  const rows = [
    { ...touch, missRight_m: 0.1, missUp_m: 0.2 },
    { ...touch, missRight_m: -0.1, missUp_m: 0 },
    { ...touch, closure_m_s: 2, missRight_m: 0, missUp_m: -0.1 },
    { outcome: missed, locked: 0, axialLoad_N: 0, missRight_m: 0.9, missUp_m: 0 },
  ];
  const found = summariseCase(SETTINGS, CONDITION, tableOf(rows));

  it("counts every outcome, also those that did not happen; the shares add up to one", () => {
    expect(found.outcomes.map(({ outcome }) => outcome)).toEqual([...HOOKON_OUTCOMES]);
    expect(found.outcomes.reduce((sum, { share_1 }) => sum + share_1, 0)).toBeCloseTo(1, 12);
    expect(found.success).toMatchObject({ count: 3, of: 4, share_1: 0.75 });
  });

  it("takes loads from those that touched alone, angles in degrees, up as down with the other sign", () => {
    const of = (key: string) => found.quantities.find((each) => each.key === key);
    expect(of("axialLoad_N")).toMatchObject({ count: 3, mean: 5e3 });
    expectClose(of("funnelTilt_rad")!.p50, 18 / Math.PI, { rtol: 1e-12, why: "0.1 rad in degrees" });
    expect(found.shown[0]).toMatchObject({ missRight_m: 0.1, missDown_m: -0.2, outcome: "locked, stable" });
    expect(found.shown[3]!.closure_m_s).toBeNull();
  });

  it("does not depend on where the rows were drawn: rows put together from shards give the same summary", () => {
    const whole = tableOf(rows);
    const parts = [tableOf(rows.slice(0, 1)), tableOf(rows.slice(1))];
    const values = new Float64Array(whole.values.length);
    values.set(parts[0]!.values);
    values.set(parts[1]!.values, parts[0]!.values.length);
    expect(summariseCase(SETTINGS, CONDITION, { ...whole, values })).toEqual(found);
  });
});
