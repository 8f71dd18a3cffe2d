import { describe, expect, test } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import {
  assemble,
  createLinkage,
  type Measure,
  type SampleRequest,
  sampleStack,
  summariseSamples,
  type Toleranced,
  toleranceStack,
} from "./index.ts";
import { fourBarLinkage, leverLinkage } from "./test-linkages.ts";

/** Three blocks in a row along x, each fast on the one before: the end is the sum of three lengths, exactly linear. */
const row = createLinkage({
  fixed: "carrier",
  bodies: [{ name: "one" }, { name: "two" }, { name: "three" }],
  joints: [
    { kind: "fixed", name: "a", first: "carrier", second: "one", pointOnFirst: [0, 0, 0], axisOnFirst: [1, 0, 0] },
    { kind: "fixed", name: "b", first: "one", second: "two", pointOnFirst: [1, 0, 0], axisOnFirst: [1, 0, 0] },
    { kind: "fixed", name: "c", first: "two", second: "three", pointOnFirst: [2, 0, 0], axisOnFirst: [1, 0, 0] },
  ],
});
const rowDimensions: Toleranced[] = [
  { name: "first", tolerance: 0.003, parts: [{ joint: "a", what: "point on first", direction: [1, 0, 0] }] },
  { name: "second", tolerance: 0.004, parts: [{ joint: "b", what: "point on first", direction: [1, 0, 0] }] },
  { name: "third", tolerance: 0.012, parts: [{ joint: "c", what: "point on first", direction: [-1, 0, 0] }] },
  { name: "no matter", tolerance: 0.5, parts: [{ joint: "c", what: "point on first", direction: [0, 1, 0] }] },
];
const rowEnd: Measure[] = [{ kind: "position", point: { body: "three", at: [3, 0, 0] }, direction: [1, 0, 0] }];
const rowRequest = (more: Partial<SampleRequest> = {}): SampleRequest => ({
  state: row.stated,
  drives: [],
  dimensions: rowDimensions,
  measures: rowEnd,
  method: "solved",
  seed: 5,
  first: 0,
  count: 4000,
  ...more,
});

const lever = leverLinkage([2, 0, 0], [0, 1, 0]);
const leverDrives = [{ joint: "jack", value: 2.4 }];
const leverState = assemble(lever, leverDrives).state;
const leverDimensions: Toleranced[] = [
  { name: "anchor", tolerance: 0.02, parts: [{ joint: "jack", what: "point on first", direction: [1, 0, 0] }] },
  {
    name: "lug",
    tolerance: 0.03,
    parts: [{ joint: "jack", what: "point on second", direction: [0, 1, 0] }],
    spread: "uniform",
  },
];
const leverTurn: Measure[] = [{ kind: "turn", body: "lever", axis: [0, 0, 1] }];

describe("toleranceStack", () => {
  test("a row of blocks: worst is the sum, root-sum-square 3-4-12-13, contributors by share", () => {
    const { measures, gap } = toleranceStack(row, row.stated, [], rowDimensions, rowEnd);
    const [end] = measures;
    expectClose(end.worstCase, 0.019, { rtol: 1e-12, why: "3 + 4 + 12 mm" });
    expectClose(end.rootSumSquare, 0.013, { rtol: 1e-12, why: "3² + 4² + 12² = 13²" });
    expect(end.contributors.map(({ dimension }) => dimension)).toEqual(["third", "second", "first", "no matter"]);
    expectAllClose(
      end.contributors.map(({ shareOfSquares }) => shareOfSquares),
      [144 / 169, 16 / 169, 9 / 169, 0],
      { atol: 1e-12, why: "closed form" },
    );
    expectAllClose(
      end.contributors.map(({ derivative }) => derivative),
      [-1, 1, 1, 0],
      { atol: 1e-12, why: "closed form" },
    );
    expectClose(
      end.contributors.reduce((sum, { shareOfWorst }) => sum + shareOfWorst, 0),
      1,
      { rtol: 1e-12, why: "shares" },
    );
    expect(gap).toBe(0);
  });

  test("nothing deviates: all is zero, no share is NaN", () => {
    const still = rowDimensions.map((dimension) => ({ ...dimension, tolerance: 0 }));
    const [end] = toleranceStack(row, row.stated, [], still, rowEnd).measures;
    expect(end).toMatchObject({ worstCase: 0, rootSumSquare: 0 });
    for (const { shareOfSquares, shareOfWorst } of end.contributors)
      expect([shareOfSquares, shareOfWorst]).toEqual([0, 0]);
  });

  test("a tolerance below zero is refused", () => {
    const bad = [{ ...rowDimensions[0], tolerance: -1 }];
    expect(() => toleranceStack(row, row.stated, [], bad, rowEnd)).toThrow(DomainError);
    expect(() => sampleStack(row, rowRequest({ dimensions: bad }))).toThrow("tolerance of first is -1");
  });
});

describe("sampleStack", () => {
  test("where the measure is linear, solved and linear samples agree and three deviations are the root-sum-square", () => {
    const solved = sampleStack(row, rowRequest());
    const linear = sampleStack(row, rowRequest({ method: "linear" }));
    expectAllClose(solved.deviations, linear.deviations, { atol: 1e-12, why: "rounding" });
    const summary = summariseSamples(solved, 0);
    expect(summary.closed).toBe(4000);
    const error = 1 / Math.sqrt(2 * 4000);
    expectClose(3 * summary.standardDeviation, 0.013, { rtol: 5 * error, why: "five standard errors" });
    expectClose(summary.mean, 0, { atol: (5 * 0.013) / 3 / Math.sqrt(4000), why: "five standard errors" });
    expectClose(summary.withinShare, 0.013, { rtol: 0.15, why: "a tail of 11 samples" });
    expect(summary.most).toBeLessThan(0.02);
  });

  test("the spread converges to the root-sum-square as one over the root of the number", () => {
    const off = [100, 1600, 25600].map((count) => {
      const { standardDeviation } = summariseSamples(
        sampleStack(row, rowRequest({ method: "linear", count, seed: 11 })),
        0,
      );
      return Math.abs(standardDeviation / (0.013 / 3) - 1) * Math.sqrt(2 * count);
    });
    for (const standardErrors of off) expect(standardErrors).toBeLessThan(4);
  });

  test("uniform spread: a third of the square of the band, never beyond it", () => {
    const dimensions = rowDimensions.map((dimension) => ({ ...dimension, spread: "uniform" as const }));
    const summary = summariseSamples(sampleStack(row, rowRequest({ dimensions, method: "linear", count: 20000 })), 0);
    expectClose(summary.standardDeviation, 0.013 / Math.sqrt(3), { rtol: 0.025, why: "five standard errors" });
    expect(Math.max(-summary.least, summary.most)).toBeLessThanOrEqual(0.019);
  });

  test("ranges put together are the whole, bit by bit, in any order", () => {
    const request: SampleRequest = {
      state: leverState,
      drives: leverDrives,
      dimensions: leverDimensions,
      measures: leverTurn,
      method: "solved",
      seed: 8,
      first: 0,
      count: 60,
    };
    const whole = sampleStack(lever, request);
    const late = sampleStack(lever, { ...request, first: 37, count: 23 });
    const early = sampleStack(lever, { ...request, count: 37 });
    expect([...early.deviations, ...late.deviations]).toEqual([...whole.deviations]);
    expect(sampleStack(lever, { ...request, seed: 9 }).deviations).not.toEqual(whole.deviations);
  });

  test("solved samples show the curvature that linear ones miss", () => {
    const request: SampleRequest = {
      state: leverState,
      drives: leverDrives,
      dimensions: leverDimensions,
      measures: leverTurn,
      method: "solved",
      seed: 8,
      first: 0,
      count: 2000,
    };
    const apart = (scale: number) => {
      const dimensions = leverDimensions.map((d) => ({ ...d, tolerance: d.tolerance * scale }));
      const [solved, linear] = (["solved", "linear"] as const).map((method) =>
        sampleStack(lever, { ...request, dimensions, method }),
      );
      return solved.deviations.reduce((most, value, i) => Math.max(most, Math.abs(value - linear.deviations[i])), 0);
    };
    // The difference is of second order: half the tolerance, a quarter of the difference.
    expectClose(apart(0.5) / apart(1), 0.25, { rtol: 0.1, why: "third-order terms" });
    const { rootSumSquare } = toleranceStack(lever, leverState, leverDrives, leverDimensions, leverTurn).measures[0];
    expect(apart(1)).toBeLessThan(0.1 * rootSumSquare);
  });

  test("samples that cannot close are counted and take no part", () => {
    // The jack at 2.99 of at most 3: a shorter anchor distance or lug leaves no triangle.
    const drives = [{ joint: "jack", value: 2.99 }];
    const { state } = assemble(lever, drives);
    const samples = sampleStack(lever, {
      state,
      drives,
      dimensions: leverDimensions,
      measures: leverTurn,
      method: "solved",
      seed: 1,
      first: 0,
      count: 400,
    });
    const summary = summariseSamples(samples, 0);
    expect(summary.notClosed).toBeGreaterThan(40);
    expect(summary.closed + summary.notClosed).toBe(400);
    expect(summary.standardDeviation).not.toBeNaN();
    const random = [...samples.closes].indexOf(0);
    expect(samples.gaps[random]).toBeGreaterThan(1e-6);
  });

  test("play takes up what redundant hinges cannot close", () => {
    const linkage = fourBarLinkage({ ground: 4, crank: 1.2, rocker: 2.4 }, 0.7, 1.5);
    const request: SampleRequest = {
      state: linkage.stated,
      drives: [{ joint: "A", value: 0.7 }],
      dimensions: [
        { name: "across", tolerance: 1e-3, parts: [{ joint: "B", what: "point on first", direction: [0, 0, 1] }] },
      ],
      measures: [{ kind: "coordinate", joint: "B" }],
      method: "solved",
      seed: 1,
      first: 0,
      count: 20,
    };
    expect(summariseSamples(sampleStack(linkage, request), 0).closed).toBe(0);
    expect(summariseSamples(sampleStack(linkage, { ...request, play: 2e-3 }), 0).closed).toBe(20);
    expect(summariseSamples(sampleStack(linkage, { ...request, count: 0 }), 0)).toMatchObject({ closed: 0, mean: 0 });
    expect(() => summariseSamples(sampleStack(linkage, request), 3)).toThrow("measure is 3");
  });
});
