import { DomainError } from "../errors.ts";
import { requireFinite, requireLength, requireSize } from "../require.ts";

/**
 * Places at which a smooth function is best tabled over a range: the extrema of the Chebyshev polynomial of degree n − 1.
 *
 *     x_k = (a + b)/2 − (b − a)/2·cos(πk/(n − 1)),  k = 0 … n − 1                       (1)
 *
 * @param from a, @param to b, finite and a < b
 * @param n    number of places, ≥ 2
 * @returns rising, ends exactly at a and b, shape (n)
 * @throws {DomainError} for a range that is not rising or a count below 2
 * @source Trefethen, Approximation Theory and Approximation Practice (2013), chapter 2
 */
export function chebyshevNodes(from: number, to: number, n: number): Float64Array {
  requireSize("Chebyshev nodes", n, 2);
  requireFinite("range", to - from);
  if (!(to > from)) throw new DomainError("end of a range", to, `above ${from}`);
  const nodes = Float64Array.from(
    { length: n },
    (_, k) => 0.5 * (from + to) - 0.5 * (to - from) * Math.cos((Math.PI * k) / (n - 1)),
  );
  nodes[0] = from;
  nodes[n - 1] = to;
  return nodes;
}

/**
 * Weights with which tabled values at Chebyshev nodes give the value of the interpolating polynomial at x.
 *
 *     p(x) = Σ l_k(x)·f_k,  l_k(x) = [w_k/(x − x_k)]/Σ[w_j/(x − x_j)],  w_k = (−1)^k, halved at the ends         (2)
 *
 * For an analytic function the error falls geometrically with n.
 *
 * @param nodes from `chebyshevNodes`
 * @param x     inside the nodes, or a little outside
 * @param out   l_k(x), shape (n), written
 * @throws {DomainError} if `out` is too short
 * @source Berrut and Trefethen, Barycentric Lagrange interpolation, SIAM Review 46 (2004), eq. 4.2 and 5.4
 * @verified chebyshev.test.ts: exact on polynomials, geometric convergence on 1/(1 + x²)
 * @cost 4n, no allocation
 */
export function chebyshevWeights(nodes: Float64Array, x: number, out: Float64Array): void {
  const n = nodes.length;
  requireLength("weights", out.length, n);
  let sum = 0;
  for (let k = 0; k < n; k++) {
    const off = x - nodes[k]!;
    if (off === 0) {
      out.fill(0, 0, n);
      out[k] = 1;
      return;
    }
    const sign = k % 2 === 0 ? 1 : -1;
    const weight = (k === 0 || k === n - 1 ? 0.5 * sign : sign) / off;
    out[k] = weight;
    sum += weight;
  }
  for (let k = 0; k < n; k++) out[k] = out[k]! / sum;
}
