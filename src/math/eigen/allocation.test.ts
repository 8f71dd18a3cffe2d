import { expect, test } from "vitest";
import { createEigenWorkspace, eigenvalues, eigenvectors } from "./index.ts";
import { spreadMatrix } from "./test-matrices.ts";

/** Smallest growth of the heap over several batches: collections and compilation can only enlarge or shrink single ones. */
function heapGrowth(work: () => void, calls: number): number {
  const growths: number[] = [];
  for (let batch = 0; batch < 7; batch++) {
    const before = process.memoryUsage().heapUsed;
    for (let call = 0; call < calls; call++) work();
    growths.push(Math.abs(process.memoryUsage().heapUsed - before));
  }
  return Math.min(...growths);
}

test("eigenvalues and vectors allocate nothing once compiled", () => {
  const n = 6;
  const a = spreadMatrix(n, 2);
  const workspace = createEigenWorkspace(n);
  const re = new Float64Array(n);
  const im = new Float64Array(n);
  const vectors = new Float64Array(n * n);
  const work = () => {
    eigenvalues(a, n, workspace, re, im);
    eigenvectors(a, n, re, im, workspace, vectors);
  };
  for (let call = 0; call < 4000; call++) work();
  // One array of six numbers a call would be above 200 kB.
  expect(heapGrowth(work, 2000)).toBeLessThan(50_000);
  const control = () => {
    vectors[0] = new Float64Array(n)[0]!;
  };
  expect(heapGrowth(control, 2000)).toBeGreaterThan(50_000);
});
