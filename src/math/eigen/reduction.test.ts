import fc from "fast-check";
import { expect, test } from "vitest";
import { multiply } from "../dense/index.ts";
import { balance } from "./balance.ts";
import { applyReflectors, reduceToHessenberg } from "./hessenberg.ts";
import { factorShifted, measureResidual, setStart, solveShifted } from "./inverse-iteration.ts";
import { frobenius, fromRows, fromRule, spreadMatrix, transpose } from "./test-matrices.ts";
import { createEigenWorkspace, LAMBDA_IM, LAMBDA_RE, NORM, RESIDUAL } from "./workspace.ts";

function reduced(a: Float64Array, n: number, full: boolean) {
  const workspace = createEigenWorkspace(n);
  workspace.hessenberg.set(a);
  balance(workspace, n);
  const balanced = workspace.hessenberg.slice();
  reduceToHessenberg(workspace, n, full);
  return { workspace, balanced };
}

test.each([3, 4, 9, 22])("Q H Qᵀ gives the balanced matrix back, Q is orthogonal, order %i", (n) => {
  // The last row is isolated, so that the window is smaller than the matrix.
  const a = spreadMatrix(n, 2);
  for (let j = 0; j < n - 1; j++) a[(n - 1) * n + j] = 0;
  const { workspace, balanced } = reduced(a, n, true);
  const h = workspace.hessenberg;
  for (let i = 2; i < n; i++) for (let j = 0; j < i - 1; j++) expect(h[i * n + j]).toBe(0);
  const q = new Float64Array(n * n);
  for (let j = 0; j < n; j++) {
    const column = new Float64Array(n);
    column[j] = 1;
    applyReflectors(workspace, n, column);
    for (let i = 0; i < n; i++) q[i * n + j] = column[i]!;
  }
  const left = new Float64Array(n * n);
  const product = new Float64Array(n * n);
  multiply(q, transpose(q, n), product, n, n, n);
  product.forEach((value, at) => {
    expect(Math.abs(value - (at % (n + 1) === 0 ? 1 : 0))).toBeLessThan(1e-14 * n);
  });
  multiply(q, h, left, n, n, n);
  multiply(left, transpose(q, n), product, n, n, n);
  product.forEach((value, at) => {
    expect(Math.abs(value - balanced[at]!)).toBeLessThan(1e-14 * n * frobenius(balanced));
  });
});

test("balancing makes the norms of rows and columns alike and is exact", () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: -60, max: 60 }), { minLength: 6, maxLength: 6 }), (powers) => {
      const n = 6;
      const c = spreadMatrix(n, 5);
      const workspace = createEigenWorkspace(n);
      workspace.hessenberg.set(fromRule(n, (i, j) => c[i * n + j]! * 2 ** (powers[i]! - powers[j]!)));
      const original = workspace.hessenberg.slice();
      balance(workspace, n);
      const b = workspace.hessenberg;
      for (let i = 0; i < n; i++) {
        let row = 0;
        let column = 0;
        for (let j = 0; j < n; j++) {
          expect(b[i * n + j]).toBe((original[i * n + j]! / workspace.scales[i]!) * workspace.scales[j]!);
          row += b[i * n + j]! ** 2;
          column += b[j * n + i]! ** 2;
        }
        expect(row / column).toBeGreaterThan(1 / 16);
        expect(row / column).toBeLessThan(16);
      }
    }),
  );
});

test("exchanges find the lone rows and columns", () => {
  const workspace = createEigenWorkspace(5);
  // Column 2 is empty but for its diagonal, row 0 too; the block of 1, 3, 4 stays.
  const a = fromRows([
    [7, 0, 0, 0, 0],
    [1, 1, 0, 2, 1],
    [4, 1, 9, 1, 1],
    [1, 3, 0, 1, 2],
    [1, 1, 0, 4, 1],
  ]);
  workspace.hessenberg.set(a);
  balance(workspace, 5);
  expect([...workspace.window]).toEqual([1, 3]);
  expect(workspace.hessenberg[0]).toBe(9);
  expect(workspace.hessenberg[24]).toBe(7);
});

test("a shifted system is solved to rounding", () => {
  const n = 8;
  const { workspace } = reduced(spreadMatrix(n, 3), n, true);
  const { scalars } = workspace;
  scalars[LAMBDA_RE] = 0.3;
  scalars[LAMBDA_IM] = 0.7;
  scalars[NORM] = 1;
  factorShifted(workspace, n);
  const b = Float64Array.from({ length: n }, (_, i) => Math.cos(i));
  workspace.vectorRe.set(b);
  workspace.vectorIm.fill(0);
  solveShifted(workspace, n, true);
  // x is scaled to length one, so (H − λ) x must be b over some real factor: its length is the residual's.
  measureResidual(workspace, n);
  const factor = scalars[RESIDUAL]! / Math.hypot(...b);
  const { hessenberg: h, vectorRe: x, vectorIm: y } = workspace;
  for (let i = 0; i < n; i++) {
    let real = -0.3 * x[i]! + 0.7 * y[i]!;
    let imaginary = -0.3 * y[i]! - 0.7 * x[i]!;
    for (let j = 0; j < n; j++) {
      real += h[i * n + j]! * x[j]!;
      imaginary += h[i * n + j]! * y[j]!;
    }
    expect(Math.abs(real - factor * b[i]!)).toBeLessThan(1e-14);
    expect(Math.abs(imaginary)).toBeLessThan(1e-14);
  }
});

test.each([2, 5, 13])("start vectors are orthonormal, order %i", (n) => {
  const starts = Array.from({ length: n }, (_, k) => {
    const re = new Float64Array(n);
    setStart(re, new Float64Array(n), n, k);
    return re;
  });
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      const dot = starts[i]!.reduce((sum, value, k) => sum + value * starts[j]![k]!, 0);
      expect(Math.abs(dot - (i === j ? 1 : 0))).toBeLessThan(1e-14);
    }
  }
});
