import { describe, expect, test } from "vitest";
import { DENSE_WEIGHTS, ERROR_WEIGHTS, NODES, STAGES } from "./dormand-prince.table.ts";
import { createDormandPrince, evaluateDense, prepareDense } from "./dormand-prince.ts";

/** Stages as a full matrix; the seventh is the first of the next step. */
const a = STAGES.map((row) => Array.from({ length: 7 }, (_, j): number => row[j] ?? 0));
const c: number[] = [...NODES];
const fifth = a[6]!;
const fourth = fifth.map((b, i) => b - ERROR_WEIGHTS[i]!);

const dot = (x: readonly number[], y: readonly number[]) => x.reduce((sum, value, i) => sum + value * y[i]!, 0);
const times = (x: readonly number[], y: readonly number[]) => x.map((value, i) => value * y[i]!);
const apply = (x: readonly number[]) => a.map((row) => dot(row, x));
const one = new Array<number>(7).fill(1);
const c2 = times(c, c);
const c3 = times(c2, c);

/**
 * Order conditions: the elementary weight and 1/density of every rooted tree with up to five nodes.
 * Hairer, Nørsett and Wanner, Solving Ordinary Differential Equations I, 2nd ed. (1993), table II.2.2.
 */
const TREES: readonly { readonly order: number; readonly weight: readonly number[]; readonly density: number }[] = [
  { order: 1, weight: one, density: 1 },
  { order: 2, weight: c, density: 2 },
  { order: 3, weight: c2, density: 3 },
  { order: 3, weight: apply(c), density: 6 },
  { order: 4, weight: c3, density: 4 },
  { order: 4, weight: times(c, apply(c)), density: 8 },
  { order: 4, weight: apply(c2), density: 12 },
  { order: 4, weight: apply(apply(c)), density: 24 },
  { order: 5, weight: times(c3, c), density: 5 },
  { order: 5, weight: times(c2, apply(c)), density: 10 },
  { order: 5, weight: times(apply(c), apply(c)), density: 20 },
  { order: 5, weight: times(c, apply(c2)), density: 15 },
  { order: 5, weight: times(c, apply(apply(c))), density: 30 },
  { order: 5, weight: apply(c3), density: 20 },
  { order: 5, weight: apply(times(c, apply(c))), density: 40 },
  { order: 5, weight: apply(apply(c2)), density: 60 },
  { order: 5, weight: apply(apply(apply(c))), density: 120 },
];

test("the stages' row sums are the nodes", () => {
  a.forEach((row, i) => {
    expect(dot(row, one)).toBeCloseTo(c[i]!, 14);
  });
});

describe("order conditions", () => {
  test.each(TREES)("order $order, density $density: weights of order five", ({ weight, density }) => {
    expect(dot(fifth, weight)).toBeCloseTo(1 / density, 14);
  });

  test.each(TREES.filter(({ order }) => order <= 4))(
    "order $order, density $density: weights of order four",
    (tree) => {
      expect(dot(fourth, tree.weight)).toBeCloseTo(1 / tree.density, 14);
    },
  );

  test("the weights of order four are not of order five, so that the difference estimates an error", () => {
    const misses = TREES.filter(({ order }) => order === 5).map((tree) => dot(fourth, tree.weight) - 1 / tree.density);
    expect(Math.max(...misses.map(Math.abs))).toBeGreaterThan(1e-4);
  });

  test.each([0.1, 0.37, 0.5, 0.9, 1])("continuous extension at θ = %d: order four", (theta) => {
    // Its weights, read off by making one stage derivative at a time equal to one.
    const weights = one.map((_, s) => {
      const work = createDormandPrince(1);
      work.k[s]![0] = 1;
      work.yNext[0] = fifth[s]!;
      prepareDense(work, 1);
      evaluateDense(work, theta, work.stage);
      return work.stage[0]!;
    });
    for (const { order, weight, density } of TREES.filter((tree) => tree.order <= 4)) {
      expect(dot(weights, weight)).toBeCloseTo(theta ** order / density, 12);
    }
  });

  test("the extension's last weights vanish on straight lines", () => {
    expect(dot([...DENSE_WEIGHTS], one)).toBeCloseTo(0, 13);
  });
});
