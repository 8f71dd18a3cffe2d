import { balance } from "./balance.ts";
import { reduceToHessenberg } from "./hessenberg.ts";
import { type EigenWorkspace, SIGMA, SIGMA_OUTSIDE } from "./workspace.ts";

/** Before balancing the sum of sizes is kept below this, so that scaling by 2^±500 cannot overflow. */
const LARGEST_BEFORE = 2 ** 500;
/** Fourth powers of numbers in this range can be added without overflow; the iteration needs no other scaling. */
const LARGEST_AFTER = 2 ** 100;

/**
 * Copies a matrix into the workspace, balances it and reduces it to Hessenberg form.
 *
 * The workspace's `hessenberg` then holds σ times a matrix that is similar to A, with σ a power of two in `scalars`. If
 * not `full`, only the window has that σ, and the rest is not used but for the diagonal, which has a σ of its own.
 *
 * @param a          A, shape (n, n) row-major; not changed
 * @param n          order
 * @param workspace  written
 * @param full       whether the parts outside the window are needed too (they are for vectors)
 * @returns whether A is finite
 * @source own derivation, README section "Scaling"
 * @verified eigenvalues.test.ts: matrices scaled by 2^±1000 keep their spectrum bit for bit
 */
export function prepare(a: Float64Array, n: number, workspace: EigenWorkspace, full: boolean): boolean {
  const { hessenberg, window, scalars } = workspace;
  const size = n * n;
  for (let i = 0; i < size; i++) hessenberg[i] = a[i]!;
  scalars[SIGMA] = 1;
  if (!rescale(hessenberg, scalars, n, 0, n - 1, LARGEST_BEFORE)) return false;
  scalars[SIGMA_OUTSIDE] = scalars[SIGMA]!;
  balance(workspace, n);
  // Vectors need the whole matrix in range, eigenvalues the window alone (so that small ones keep their digits).
  rescale(hessenberg, scalars, n, full ? 0 : window[0]!, full ? n - 1 : window[1]!, LARGEST_AFTER);
  reduceToHessenberg(workspace, n, full);
  return true;
}

/**
 * When the sum of sizes over the block low … high is beyond `limit` or its inverse: multiplies the block and σ by the
 * power of two that brings it near one. False if an element is not finite.
 */
function rescale(h: Float64Array, scalars: Float64Array, n: number, low: number, high: number, limit: number): boolean {
  // Two sums, so that their additions overlap in time.
  let even = 0;
  let odd = 0;
  for (let i = low; i <= high; i++) {
    const end = i * n + high;
    let at = i * n + low;
    for (; at < end; at += 2) {
      even += Math.abs(h[at]!);
      odd += Math.abs(h[at + 1]!);
    }
    if (at === end) even += Math.abs(h[at]!);
  }
  const norm = even + odd;
  if (norm === 0 || (norm <= limit && norm >= 1 / limit)) return true;
  if (Number.isNaN(norm)) return false;
  // 2^1022 is the largest power whose inverse is not subnormal; it lifts the smallest number to 2^-52. An infinite sum
  // of finite sizes is below 2^1024 n².
  const exponent = norm < Number.POSITIVE_INFINITY ? Math.floor(Math.log2(norm)) : 1000;
  const scale = 2 ** Math.min(1022, -exponent);
  for (let i = low; i <= high; i++) {
    for (let at = i * n + low; at <= i * n + high; at++) {
      if (!Number.isFinite(h[at]!)) return false;
      h[at] = h[at]! * scale;
    }
  }
  scalars[SIGMA] = scalars[SIGMA]! * scale;
  return true;
}
