import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../errors.ts";
import { chebyshevNodes, chebyshevWeights } from "./index.ts";

function interpolate(f: (x: number) => number, from: number, to: number, n: number, x: number): number {
  const nodes = chebyshevNodes(from, to, n);
  const weights = new Float64Array(n);
  chebyshevWeights(nodes, x, weights);
  return nodes.reduce((sum, node, k) => sum + weights[k] * f(node), 0);
}

describe("interpolation at Chebyshev nodes", () => {
  it("is exact for every polynomial whose degree is below the number of nodes", () => {
    const entry = fc.double({ min: -3, max: 3, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(entry, { minLength: 1, maxLength: 9 }),
        fc.double({ min: -2, max: 5, noNaN: true }),
        (a, x) => {
          const p = (t: number): number => a.reduceRight((sum, value) => sum * t + value, 0);
          const size = a.reduce((sum, value, i) => sum + Math.abs(value) * 5 ** i, 1);
          const why = "round-off of the largest terms";
          expectClose(interpolate(p, -2, 5, Math.max(2, a.length), x), p(x), { atol: 1e-13 * size, why });
        },
      ),
      { seed: 101, numRuns: 200 },
    );
  });

  it("gains a factor 1 + √2 a node on 1/(1 + x²), whose poles lie at ±i", () => {
    const f = (x: number): number => 1 / (1 + x * x);
    const error = (n: number): number => {
      let worst = 0;
      for (let i = 0; i <= 200; i++)
        worst = Math.max(worst, Math.abs(interpolate(f, -1, 1, n, -1 + i / 100) - f(-1 + i / 100)));
      return worst;
    };
    // Trefethen, theorem 8.2: ρ = 1 + √2
    expectClose((error(9) / error(25)) ** (1 / 16), 1 + Math.SQRT2, { rtol: 0.02, why: "mean rate over 16 nodes" });
  });

  it("returns the tabled value at a node and weights that add up to 1", () => {
    const nodes = chebyshevNodes(70, 140, 8);
    expect([nodes[0], nodes[7]]).toEqual([70, 140]);
    const weights = new Float64Array(8);
    chebyshevWeights(nodes, nodes[3], weights);
    expect(Array.from(weights)).toEqual([0, 0, 0, 1, 0, 0, 0, 0]);
    chebyshevWeights(nodes, 99.9, weights);
    expectClose(
      weights.reduce((a, b) => a + b, 0),
      1,
      { atol: 1e-14, why: "round-off" },
    );
  });

  it("refuses a range that does not rise, too few nodes and a short array", () => {
    expect(() => chebyshevNodes(1, 1, 5)).toThrow(DomainError);
    expect(() => chebyshevNodes(0, 1, 1)).toThrow(DomainError);
    expect(() => chebyshevWeights(chebyshevNodes(0, 1, 4), 0.3, new Float64Array(3))).toThrow(DomainError);
  });
});
