import {
  createEigenWorkspace,
  dampingRatioSlope,
  eigenSystem,
  eigenvalueSlope,
  leftEigenvectors,
} from "../../math/eigen/index.ts";
import type { SampledModel } from "./sampled-model.ts";

/** Step of the differences of the matrix, in standard deviations. */
const STEP = 0.2;
/** Slopes below this share of the largest are differences of rounding. */
const ROUNDING = 1e-7;
/** Digits of a slope; further ones are rounding of differences of differences, and differ between machines. */
const DIGITS = 6;

/**
 * Change of one damping ratio per standard deviation of every uncertain value, at the nominal point.
 *
 *     dλ/dz_j = yᴴ(∂A/∂z_j)x/(yᴴx),   ∂A/∂z_j = (A(+h) − A(−h))/2h                     (README eq. 5)
 *
 * The trim moves with the value: A is that of the new trim. The spectrum is decomposed once.
 *
 * @param mass name of the mass state that the root belongs to
 * @param zeta damping ratio of the root at the nominal point
 * @returns shape (n), or `null` where no root has that damping or the root has no derivative
 */
export function dampingSlopes(model: SampledModel, mass: string, zeta: number): Float64Array | null {
  const n = model.variables.paths.length;
  const z = new Float64Array(n);
  const nominal = model.matrixAt(z, mass);
  if (nominal === null) return null;
  const { matrix, size } = nominal;
  const { outcome, re, im, vectors } = eigenSystem(matrix, size);
  if (outcome !== "converged") return null;
  const left = new Float64Array(size * size);
  if (leftEigenvectors(matrix, size, re, im, createEigenWorkspace(size), left) !== "converged") return null;
  const root = nearestRoot(re, im, zeta);
  if (root < 0) return null;
  const slopes = new Float64Array(n);
  const change = new Float64Array(size * size);
  for (let j = 0; j < n; j++) {
    if (!model.variables.massesOf[j]!.has(mass)) continue;
    z[j] = STEP;
    const above = model.matrixAt(z, mass);
    z[j] = -STEP;
    const below = model.matrixAt(z, mass);
    z[j] = 0;
    if (above?.size !== size || below?.size !== size) return null;
    for (let i = 0; i < change.length; i++) change[i] = (above.matrix[i]! - below.matrix[i]!) / (2 * STEP);
    const slope = eigenvalueSlope(change, size, vectors, left, root, true);
    if (slope === null) return null;
    slopes[j] = dampingRatioSlope(re[root]!, im[root]!, slope);
  }
  const largest = slopes.reduce((most, slope) => Math.max(most, Math.abs(slope)), 0);
  return slopes.map((slope) => (Math.abs(slope) < ROUNDING * largest ? 0 : Number(slope.toPrecision(DIGITS))));
}

/** Index of the oscillation with a damping ratio, −1 when none is within 1e-6 of it. */
function nearestRoot(re: Float64Array, im: Float64Array, zeta: number): number {
  let best = -1;
  let nearest = 1e-6;
  for (let k = 0; k < re.length; k++) {
    if (!(im[k]! > 0)) continue;
    const away = Math.abs(-re[k]! / Math.hypot(re[k]!, im[k]!) - zeta);
    if (away < nearest) {
      nearest = away;
      best = k;
    }
  }
  return best;
}
