import type { EigenWorkspace } from "./workspace.ts";

/** A sum of squares below this belongs to numbers that are zero beside the matrix (its norm is at least 2^-100). */
const NEGLIGIBLE_SQUARES = 2 ** -900;

/**
 * Reduces the balanced matrix to upper Hessenberg form by reflections, in place.
 *
 *     H = Qᵀ B Q,  Q = P₀ P₁ …,  Pₖ = 1 − τₖ vₖ vₖᵀ                            (1)
 *
 * Both sides of one reflection are applied together as an update of rank two,
 *
 *     B ← B − v (w − τ (wᵀv) v)ᵀ − y vᵀ,  w = τ Bᵀ v,  y = τ B v               (2)
 *
 * so that every element is read twice instead of four times. Rows above k and columns right of the window get one side only.
 *
 * @param workspace  `hessenberg` holds B and receives H; `weights[k]` receives τₖ and, if `full`, row k of
 *                   `reflectors` vₖ (elements 0 … k are not used)
 * @param n          order
 * @param full       whether rows above and columns right of the window are transformed too, and the reflectors kept
 * @source Householder; Golub and Van Loan, Matrix Computations, 4th ed. (2013), algorithm 7.4.2; eq. 2 own derivation
 * @verified reduction.test.ts: Q H Qᵀ = B, Q orthogonal, zeros below the subdiagonal
 * @cost 10n³/3 for a full window, no allocation
 */
export function reduceToHessenberg(workspace: EigenWorkspace, n: number, full: boolean): void {
  const { hessenberg, reflector, products, dots, weights, reflectors, window } = workspace;
  const low = window[0]!;
  const high = window[1]!;
  for (let k = low; k < high - 1; k++) {
    if (!makeReflector(hessenberg, reflector, weights, n, k, high)) continue;
    multiplyBelow(hessenberg, reflector, weights, n, k, high, products, dots);
    updateBelow(hessenberg, reflector, n, k, high, products, dots);
    reflectAbove(hessenberg, reflector, weights, n, k, high, full ? 0 : low);
    if (!full) continue;
    reflectBeside(hessenberg, reflector, weights, n, k, high);
    for (let i = k + 1; i <= high; i++) reflectors[k * n + i] = reflector[i]!;
  }
}

/** Makes vₖ and τₖ from column k below the diagonal and leaves the reflected column; false when nothing is to be done. */
function makeReflector(
  h: Float64Array,
  v: Float64Array,
  weights: Float64Array,
  n: number,
  k: number,
  high: number,
): boolean {
  let squares = 0;
  for (let i = k + 2, at = (k + 2) * n + k; i <= high; i++, at += n) {
    const value = h[at]!;
    squares += value * value;
    v[i] = value;
    h[at] = 0;
  }
  weights[k] = 0;
  if (squares < NEGLIGIBLE_SQUARES) return false;
  const at = (k + 1) * n + k;
  const head = h[at]!;
  const length = Math.sqrt(head * head + squares);
  const reflected = head > 0 ? -length : length;
  const inverse = 1 / (head - reflected);
  for (let i = k + 2; i <= high; i++) v[i] = v[i]! * inverse;
  v[k + 1] = 1;
  weights[k] = (reflected - head) / reflected;
  h[at] = reflected;
  return true;
}

/** For the rows and columns below k: w − τ (wᵀv) v into `products` and y into `dots`, two rows at a time. */
function multiplyBelow(
  h: Float64Array,
  v: Float64Array,
  weights: Float64Array,
  n: number,
  k: number,
  high: number,
  products: Float64Array,
  dots: Float64Array,
): void {
  const start = k + 1;
  const weight = weights[k]!;
  for (let j = start; j <= high; j++) products[j] = 0;
  let i = start;
  for (; i < high; i += 2) {
    const row = i * n;
    const next = row + n;
    const v0 = v[i]!;
    const v1 = v[i + 1]!;
    let dot0 = 0;
    let dot1 = 0;
    for (let j = start; j <= high; j++) {
      const vj = v[j]!;
      const h0 = h[row + j]!;
      const h1 = h[next + j]!;
      dot0 += h0 * vj;
      dot1 += h1 * vj;
      products[j] = products[j]! + (v0 * h0 + v1 * h1);
    }
    dots[i] = weight * dot0;
    dots[i + 1] = weight * dot1;
  }
  if (i === high) {
    const row = i * n;
    let dot = 0;
    for (let j = start; j <= high; j++) {
      dot += h[row + j]! * v[j]!;
      products[j] = products[j]! + v[i]! * h[row + j]!;
    }
    dots[i] = weight * dot;
  }
  let cross = 0;
  for (let j = start; j <= high; j++) cross += products[j]! * v[j]!;
  cross *= weight;
  for (let j = start; j <= high; j++) products[j] = weight * (products[j]! - cross * v[j]!);
}

/** Equation 2 for the rows and columns below k, two rows at a time. */
function updateBelow(
  h: Float64Array,
  v: Float64Array,
  n: number,
  k: number,
  high: number,
  products: Float64Array,
  dots: Float64Array,
): void {
  const start = k + 1;
  let i = start;
  for (; i < high; i += 2) {
    const row = i * n;
    const next = row + n;
    const v0 = v[i]!;
    const v1 = v[i + 1]!;
    const dot0 = dots[i]!;
    const dot1 = dots[i + 1]!;
    for (let j = start; j <= high; j++) {
      const vj = v[j]!;
      const wj = products[j]!;
      h[row + j] = h[row + j]! - (v0 * wj + dot0 * vj);
      h[next + j] = h[next + j]! - (v1 * wj + dot1 * vj);
    }
  }
  if (i === high) {
    const row = i * n;
    const dot = dots[i]!;
    for (let j = start; j <= high; j++) h[row + j] = h[row + j]! - (v[i]! * products[j]! + dot * v[j]!);
  }
}

/** Rows `firstRow` … k are reflected from the right only, two at a time. */
function reflectAbove(
  h: Float64Array,
  v: Float64Array,
  weights: Float64Array,
  n: number,
  k: number,
  high: number,
  firstRow: number,
): void {
  const start = k + 1;
  const weight = weights[k]!;
  let i = firstRow;
  for (; i < k; i += 2) {
    const row = i * n;
    const next = row + n;
    let dot0 = 0;
    let dot1 = 0;
    for (let j = start; j <= high; j++) {
      const vj = v[j]!;
      dot0 += h[row + j]! * vj;
      dot1 += h[next + j]! * vj;
    }
    dot0 *= weight;
    dot1 *= weight;
    for (let j = start; j <= high; j++) {
      const vj = v[j]!;
      h[row + j] = h[row + j]! - dot0 * vj;
      h[next + j] = h[next + j]! - dot1 * vj;
    }
  }
  if (i === k) {
    const row = i * n;
    let dot = 0;
    for (let j = start; j <= high; j++) dot += h[row + j]! * v[j]!;
    dot *= weight;
    for (let j = start; j <= high; j++) h[row + j] = h[row + j]! - dot * v[j]!;
  }
}

/** Columns right of the window are reflected from the left only. */
function reflectBeside(
  h: Float64Array,
  v: Float64Array,
  weights: Float64Array,
  n: number,
  k: number,
  high: number,
): void {
  const weight = weights[k]!;
  for (let j = high + 1; j < n; j++) {
    let dot = 0;
    for (let i = k + 1; i <= high; i++) dot += v[i]! * h[i * n + j]!;
    dot *= weight;
    for (let i = k + 1; i <= high; i++) h[i * n + j] = h[i * n + j]! - dot * v[i]!;
  }
}

/**
 * Applies Q to a vector, x = Q y, in place.
 *
 * @param workspace  from `reduceToHessenberg`
 * @param n          order
 * @param vector     y, shape (n); overwritten by x
 * @source eq. 1
 * @verified reduction.test.ts
 */
export function applyReflectors(workspace: EigenWorkspace, n: number, vector: Float64Array): void {
  const { reflectors, weights, window } = workspace;
  const high = window[1]!;
  for (let k = high - 2; k >= window[0]!; k--) {
    const weight = weights[k]!;
    if (weight === 0) continue;
    let dot = 0;
    for (let i = k + 1; i <= high; i++) dot += reflectors[k * n + i]! * vector[i]!;
    dot *= weight;
    for (let i = k + 1; i <= high; i++) vector[i] = vector[i]! - dot * reflectors[k * n + i]!;
  }
}
