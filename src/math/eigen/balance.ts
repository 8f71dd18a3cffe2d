import type { EigenWorkspace } from "./workspace.ts";

/** Scale factors stay between these powers of two, so that no product with them overflows. */
const LARGEST_SCALE = 2 ** 500;
const SMALLEST_SCALE = 2 ** -500;
/** A sum of squares below this may have lost digits to underflow. */
const SMALLEST_SQUARES = 2 ** -900;
/** A scaling is accepted when it lowers the sum of the two norms below this share. */
const WANTED_SHARE = 0.95;
/** Passes over the window; a handful is usual. */
const MOST_PASSES = 100;

/**
 * Exchanges rows and columns, then scales by powers of two, so that row and column norms become alike.
 *
 *     B = D⁻¹ Pᵀ A P D                                                         (1)
 *
 * Exchanges first move rows with a lone diagonal term to the bottom and such columns to the left: their eigenvalues are
 * read off exactly. The block between them (`window`) is scaled. Powers of two make the scaling free of rounding. Norms
 * are Euclidean and include the diagonal: that leaves alone what sums without it would make worse (Frank's matrix).
 *
 * @param workspace  `hessenberg` holds A (n, n), elements below 2^500, and receives B; `exchanges`, `scales`, `window` are written
 * @param n          order
 * @source Parlett and Reinsch, Balancing a matrix for calculation of eigenvalues and eigenvectors,
 *         Numer. Math. 13 (1969) 293–304; norms: James, Langou and Lowery, On matrix balancing and eigenvector
 *         computation (2014)
 * @verified reduction.test.ts: same spectrum, isolated eigenvalues exact, norms alike; eigenvalues.test.ts: Frank's matrix
 */
export function balance(workspace: EigenWorkspace, n: number): void {
  const { hessenberg, scales, window } = workspace;
  for (let i = 0; i < n; i++) scales[i] = 1;
  window[0] = 0;
  window[1] = n - 1;
  while (window[1]! > 0 && isolateRow(workspace, n));
  while (window[0]! < window[1]! && isolateColumn(workspace, n));
  const low = window[0]!;
  const high = window[1]!;
  let changed = low < high;
  for (let pass = 0; changed && pass < MOST_PASSES; pass++) {
    changed = false;
    for (let i = low; i <= high; i++) {
      if (scaleIndex(hessenberg, scales, n, i, low, high)) changed = true;
    }
  }
}

/** Moves a row that is zero but for its diagonal to the end of the window; says whether one was found. */
function isolateRow(workspace: EigenWorkspace, n: number): boolean {
  const { hessenberg: a, window } = workspace;
  const high = window[1]!;
  for (let i = high; i >= 0; i--) {
    const row = i * n;
    let j = 0;
    while (j <= high && (j === i || a[row + j] === 0)) j++;
    if (j <= high) continue;
    exchange(workspace, n, i, high, high);
    window[1] = high - 1;
    return true;
  }
  return false;
}

/** Moves a column that is zero but for its diagonal to the start of the window; says whether one was found. */
function isolateColumn(workspace: EigenWorkspace, n: number): boolean {
  const { hessenberg: a, window } = workspace;
  const low = window[0]!;
  const high = window[1]!;
  for (let j = low; j <= high; j++) {
    let i = low;
    while (i <= high && (i === j || a[i * n + j] === 0)) i++;
    if (i <= high) continue;
    exchange(workspace, n, j, low, high);
    window[0] = low + 1;
    return true;
  }
  return false;
}

/** Exchanges rows and columns `from` and `to`; `to` will leave the window. */
function exchange(workspace: EigenWorkspace, n: number, from: number, to: number, high: number): void {
  const { hessenberg: a, exchanges } = workspace;
  exchanges[to] = from;
  if (from === to) return;
  for (let i = 0; i <= high; i++) {
    const kept = a[i * n + from]!;
    a[i * n + from] = a[i * n + to]!;
    a[i * n + to] = kept;
  }
  for (let j = 0; j < n; j++) {
    const kept = a[from * n + j]!;
    a[from * n + j] = a[to * n + j]!;
    a[to * n + j] = kept;
  }
}

/** Scales row and column i when that lowers the sum of their norms by 5 %; says whether it did. */
function scaleIndex(a: Float64Array, scales: Float64Array, n: number, i: number, low: number, high: number): boolean {
  const row = i * n;
  let columnSquares = 0;
  let rowSquares = 0;
  for (let j = low, at = low * n + i; j <= high; j++, at += n) {
    columnSquares += a[at]! * a[at]!;
    rowSquares += a[row + j]! * a[row + j]!;
  }
  const isSafe = columnSquares > SMALLEST_SQUARES && rowSquares > SMALLEST_SQUARES;
  if (isSafe && columnSquares >= 0.25 * rowSquares && columnSquares < 4 * rowSquares) return false;
  let column = isSafe ? Math.sqrt(columnSquares) : sumOfSizes(a, low * n + i, n, high - low + 1);
  let across = isSafe ? Math.sqrt(rowSquares) : sumOfSizes(a, row + low, 1, high - low + 1);
  if (column === 0 || across === 0) return false;
  const wanted = WANTED_SHARE * (column + across);
  let factor = 1;
  for (; column < 0.5 * across && factor < LARGEST_SCALE; factor *= 2) {
    column *= 2;
    across *= 0.5;
  }
  for (; column >= 2 * across && factor > SMALLEST_SCALE; factor *= 0.5) {
    column *= 0.5;
    across *= 2;
  }
  const scale = scales[i]! * factor;
  if (factor === 1 || column + across >= wanted || scale > LARGEST_SCALE || scale < SMALLEST_SCALE) return false;
  scales[i] = scale;
  const inverse = 1 / factor;
  for (let j = low; j < n; j++) a[row + j] = a[row + j]! * inverse;
  for (let j = 0, at = i; j <= high; j++, at += n) a[at] = a[at]! * factor;
  return true;
}

/** Norm of `count` elements from `start` on that cannot underflow. */
function sumOfSizes(a: Float64Array, start: number, stride: number, count: number): number {
  let sum = 0;
  for (let k = 0, at = start; k < count; k++, at += stride) sum += Math.abs(a[at]!);
  return sum;
}

/**
 * Turns a right eigenvector of the balanced matrix into one of the original, x = P D y, in place.
 *
 * @param workspace  `exchanges`, `scales`, `window` from `balance`
 * @param n          order
 * @param vector     y, shape (n); overwritten by x
 * @source Parlett and Reinsch (1969), procedure balbak
 * @verified eigenvectors.test.ts: residual against the unbalanced matrix
 */
export function undoBalance(workspace: EigenWorkspace, n: number, vector: Float64Array): void {
  const { exchanges, scales, window } = workspace;
  const low = window[0]!;
  const high = window[1]!;
  for (let i = low; i <= high; i++) vector[i] = vector[i]! * scales[i]!;
  for (let i = low - 1; i >= 0; i--) swap(vector, i, exchanges[i]!);
  for (let i = high + 1; i < n; i++) swap(vector, i, exchanges[i]!);
}

function swap(vector: Float64Array, i: number, j: number): void {
  const kept = vector[i]!;
  vector[i] = vector[j]!;
  vector[j] = kept;
}
