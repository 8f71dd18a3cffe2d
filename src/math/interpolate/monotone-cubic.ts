import { requireFinite, requireLength } from "../require.ts";
import { locate, requireIncreasing } from "./linear.ts";
import { endSlope, innerSlope } from "./slopes.ts";

/** A function of one number. */
export type ScalarFunction = (x: number) => number;

/**
 * Smooth curve through a table that never leaves the range of neighbouring values.
 *
 *     y = (1+2t)(1−t)² yᵢ + t(1−t)² h dᵢ + t²(3−2t) yᵢ₊₁ − t²(1−t) h dᵢ₊₁,  t = (x − xᵢ)/h    (2)
 *
 * Cubic Hermite pieces with a continuous first derivative. Inner slopes are the weighted harmonic mean of the chord
 * slopes, zero where those differ in sign; end slopes are three-point ones, limited. Monotone data give a monotone curve.
 * The evaluator throws outside the table: nothing is extrapolated.
 *
 * @param xs  strictly increasing, shape (n), n ≥ 2; copied
 * @param ys  finite, shape (n); copied
 * @returns y(x); throws `DomainError` if x is outside xs[0] … xs[n − 1] or NaN; allocates nothing
 * @throws {DomainError} if the table is not finite, not increasing or too short
 * @source Fritsch and Carlson, Monotone piecewise cubic interpolation, SIAM J. Numer. Anal. 17 (1980) 238–246 (limits);
 *         Fritsch and Butland, A method for constructing local monotone piecewise cubic interpolants, SIAM J. Sci. Stat.
 *         Comput. 5 (1984) 300–304 (harmonic mean)
 * @verified interpolate.test.ts: monotone, exact at nodes and on straight lines, local extrema only at nodes
 */
export function monotoneCubic(xs: ArrayLike<number>, ys: ArrayLike<number>): ScalarFunction {
  requireLength("abscissae", xs.length, 2);
  requireLength("ordinates", ys.length, xs.length);
  requireIncreasing("abscissae", xs);
  const nodes = Float64Array.from(xs);
  const values = Float64Array.from(ys).subarray(0, nodes.length);
  for (let i = 0; i < nodes.length; i++) requireFinite(`ordinates[${i}]`, values[i]!);
  const slopes = limitedSlopes(nodes, values);
  return (x) => {
    const i = locate(nodes, x);
    const width = nodes[i + 1]! - nodes[i]!;
    const t = (x - nodes[i]!) / width;
    const s = 1 - t;
    return (
      s * s * ((1 + 2 * t) * values[i]! + t * width * slopes[i]!) +
      t * t * ((1 + 2 * s) * values[i + 1]! - s * width * slopes[i + 1]!)
    );
  };
}

function limitedSlopes(xs: Float64Array, ys: Float64Array): Float64Array {
  const n = xs.length;
  const slopes = new Float64Array(n);
  const chord = (i: number) => (ys[i + 1]! - ys[i]!) / (xs[i + 1]! - xs[i]!);
  if (n === 2) return slopes.fill(chord(0));
  for (let i = 1; i < n - 1; i++) {
    slopes[i] = innerSlope(xs[i]! - xs[i - 1]!, xs[i + 1]! - xs[i]!, chord(i - 1), chord(i));
  }
  slopes[0] = endSlope(xs[1]! - xs[0]!, xs[2]! - xs[1]!, chord(0), chord(1));
  slopes[n - 1] = endSlope(xs[n - 1]! - xs[n - 2]!, xs[n - 2]! - xs[n - 3]!, chord(n - 2), chord(n - 3));
  return slopes;
}
