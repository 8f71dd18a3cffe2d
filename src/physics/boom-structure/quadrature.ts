/** Points and weights of a quadrature on −1 … 1. */
export interface Quadrature {
  readonly points: Float64Array;
  readonly weights: Float64Array;
}

/**
 * Gauss–Legendre quadrature: exact for polynomials of degree 2n − 1.
 *
 *     P_n(x_i) = 0,  w_i = 2/((1 − x_i²)·P_n′(x_i)²)
 *
 * @param n number of points, ≥ 2
 * @source Abramowitz and Stegun, Handbook of Mathematical Functions, eq. 25.4.29
 * @verified element.test.ts: powers to degree 2n − 1 (1e-14)
 */
export function gaussLegendre(n: number): Quadrature {
  const points = new Float64Array(n);
  const weights = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let x = -Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 0;
    // the start is within 1e-2 of the root, so six steps of Newton's method reach rounding level
    for (let step = 0; step < 6; step++) {
      let before = 1;
      let value = x;
      for (let k = 2; k <= n; k++) [before, value] = [value, ((2 * k - 1) * x * value - (k - 1) * before) / k];
      slope = (n * (x * value - before)) / (x * x - 1);
      x -= value / slope;
    }
    points[i] = x;
    weights[i] = 2 / ((1 - x * x) * slope * slope);
  }
  return { points, weights };
}
