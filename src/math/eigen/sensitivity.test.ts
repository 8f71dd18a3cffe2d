import { describe, expect, test } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { RandomStream } from "../random/index.ts";
import {
  createEigenWorkspace,
  dampingRatioSlope,
  eigenSystem,
  eigenvalueSlope,
  eigenvalues,
  leftEigenvectors,
} from "./index.ts";

function system(a: Float64Array, n: number) {
  const { re, im, vectors } = eigenSystem(a, n);
  const left = new Float64Array(n * n);
  expect(leftEigenvectors(a, n, re, im, createEigenWorkspace(n), left)).toBe("converged");
  return { re, im, right: vectors, left };
}

describe("eigenvalueSlope", () => {
  test("a damped oscillator: λ = −c/2 + i√(k − c²/4)", () => {
    const [k, c] = [9, 0.8];
    const a = Float64Array.of(0, 1, -k, -c);
    const { re, im, right, left } = system(a, 2);
    const omega = Math.sqrt(k - (c * c) / 4);
    const byStiffness = eigenvalueSlope(Float64Array.of(0, 0, -1, 0), 2, right, left, 0, true)!;
    expectClose(byStiffness.re, 0, { atol: 1e-12, why: "rounding" });
    expectClose(byStiffness.im, 1 / (2 * omega), { rtol: 1e-12, why: "rounding" });
    const byDamping = eigenvalueSlope(Float64Array.of(0, 0, 0, -1), 2, right, left, 0, true)!;
    expectClose(byDamping.re, -0.5, { rtol: 1e-12, why: "rounding" });
    expectClose(byDamping.im, -c / (4 * omega), { rtol: 1e-12, why: "rounding" });
    // ζ = c/(2√k)
    expectClose(dampingRatioSlope(re[0], im[0], byDamping), 1 / (2 * Math.sqrt(k)), { rtol: 1e-12, why: "rounding" });
    const slope = -c / (4 * k ** 1.5);
    expectClose(dampingRatioSlope(re[0], im[0], byStiffness), slope, { rtol: 1e-12, why: "rounding" });
  });

  test("differences of the eigenvalues of any matrix", () => {
    const n = 5;
    let compared = 0;
    for (let run = 0; run < 60; run++) {
      const stream = new RandomStream(4, run);
      const values = Array.from({ length: 2 * n * n }, () => 6 * stream.uniform() - 3);

      const a = Float64Array.from(values.slice(0, n * n), (x, i) => x + (i % (n + 1) === 0 ? i : 0));
      const da = Float64Array.from(values.slice(n * n));
      const { re, im, right, left } = system(a, n);
      const near = (i: number, j: number) => Math.hypot(re[i] - re[j], im[i] - im[j]);
      const rootsAt = (h: number) => {
        const out = { re: new Float64Array(n), im: new Float64Array(n) };
        eigenvalues(
          Float64Array.from(a, (x, i) => x + h * da[i]),
          n,
          createEigenWorkspace(n),
          out.re,
          out.im,
        );
        return out;
      };
      const h = 1e-5;
      const [above, below] = [rootsAt(h), rootsAt(-h)];
      for (let j = 0; j < n; j++) {
        const isPair = im[j] > 0;
        const apart = Math.min(...[...re.keys()].map((i) => (i === j ? 9 : near(i, j))));
        const slope = eigenvalueSlope(da, n, right, left, j, isPair);
        if (apart > 0.5 && slope !== null) {
          const closest = (roots: { re: Float64Array; im: Float64Array }) => {
            const order = [...roots.re.keys()].sort(
              (p, q) =>
                Math.hypot(roots.re[p] - re[j], roots.im[p] - im[j]) -
                Math.hypot(roots.re[q] - re[j], roots.im[q] - im[j]),
            );
            return [roots.re[order[0]], roots.im[order[0]]];
          };
          const [p, q] = [closest(above), closest(below)];
          const size = 1 + Math.hypot(slope.re, slope.im);
          const close = { atol: 1e-4 * size ** 2, why: "differences over 2e-5 of roots half a unit apart" };
          expectClose((p[0] - q[0]) / (2 * h), slope.re, close);
          expectClose((p[1] - q[1]) / (2 * h), slope.im, close);
          compared++;
        }
        if (isPair) j++;
      }
    }
    expect(compared).toBeGreaterThan(100);
  });

  test("the slope with the matrix itself is the eigenvalue", () => {
    const a = Float64Array.of(1, 2, 0, -2, 1, 1, 0.3, 0, -4);
    const { re, im, right, left } = system(a, 3);
    const pair = im[0] > 0;
    const slope = eigenvalueSlope(a, 3, right, left, 0, pair)!;
    expectClose(slope.re, re[0], { rtol: 1e-12, why: "rounding" });
    expectClose(slope.im, im[0], { rtol: 1e-12, why: "rounding" });
  });

  test("a defective eigenvalue has no slope", () => {
    const vectors = Float64Array.of(1, 1, 0, 0);
    const left = Float64Array.of(0, 0, 1, 1);
    expect(eigenvalueSlope(Float64Array.of(1, 0, 0, 1), 2, vectors, left, 0, false)).toBeNull();
  });
});
