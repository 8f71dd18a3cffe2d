import { createEigenWorkspace, eigenvalues } from "../../math/eigen/index.ts";

/** What the tangential path is made of; the structural damping follows from `bending`. Infinity: rigid or locked. */
export interface PathParts {
  /** k_b [N/m] */
  readonly bending: number;
  /** k_a [N/m] */
  readonly accumulator: number;
  /** c [N·s/m] */
  readonly snubber: number;
}

/** c_b = damping·√k_b, with damping = 2·ζ_s·√m of the hooked mass m [√(kg)]. */
export type RootDamping = number;

/** Two parts of a path that put a root of the pair at a given s. */
export interface PathPair {
  readonly stiffness: number;
  readonly snubber: number;
}

/**
 * Accumulator stiffness and snubber rate that put a root at s, for a given boom: closed form.
 *
 *     Z = 1/(−H(s) − 1/(k_b + s·c_b)) = k_a + s·c   ⟹   c = Im Z/Im s,  k_a = Re Z − c·Re s      (README eq. 4)
 *
 * @param hRe,hIm  H(s) [m/N]
 * @param sRe,sIm  s [1/s], sIm > 0
 * @param bending  k_b [N/m], Infinity for a rigid boom
 * @param damping  2·ζ_s·√m
 * @returns both values, of any sign; `null` when the boom alone would have to give way without limit
 * @source own derivation, README eq. 4
 * @verified stability-boundary.test.ts: the root is an eigenvalue of the assembled matrix (1e-8)
 */
export function jackAtRoot(
  hRe: number,
  hIm: number,
  sRe: number,
  sIm: number,
  bending: number,
  damping: RootDamping,
): PathPair | null {
  let yr = -hRe;
  let yi = -hIm;
  if (bending !== Infinity) {
    const rate = damping * Math.sqrt(bending);
    const br = bending + sRe * rate;
    const bi = sIm * rate;
    const square = br * br + bi * bi;
    yr -= br / square;
    yi += bi / square;
  }
  const square = yr * yr + yi * yi;
  if (!(square > 0)) return null;
  const snubber = -yi / square / sIm;
  return { stiffness: yr / square - snubber * sRe, snubber };
}

/**
 * Every pair of boom bending stiffness and snubber rate that puts a root at s, for a given accumulator.
 *
 * With r = √k_b, W = k_b + s·c_b = r² + e·r, e = s·2ζ_s√m and G = −H(s): k_a + s·c = W/(G·W − 1), and c is real when
 *
 *     P·|W|² + r²·Im s − 2k_a·Im s·Re(G·W) + k_a·Im s = 0,   P = k_a·Im s·|G|² − Im(G·s)          (README eq. 5)
 *
 * a quartic in r.
 *
 * @param accumulator k_a [N/m], finite
 * @returns pairs with a positive stiffness and a snubber rate of any sign, by rising stiffness
 * @source own derivation, README eq. 5
 * @verified stability-boundary.test.ts: each root is an eigenvalue of the assembled matrix (1e-8); count against a fine scan
 */
export function boomAtRoot(
  hRe: number,
  hIm: number,
  sRe: number,
  sIm: number,
  accumulator: number,
  damping: RootDamping,
): PathPair[] {
  const [gr, gi] = [-hRe, -hIm];
  const [er, ei] = [sRe * damping, sIm * damping];
  const P = accumulator * sIm * (gr * gr + gi * gi) - (gr * sIm + gi * sRe);
  const geRe = gr * er - gi * ei;
  const quartic = [
    accumulator * sIm,
    -2 * accumulator * sIm * geRe,
    P * (er * er + ei * ei) + sIm - 2 * accumulator * sIm * gr,
    2 * P * er,
    P,
  ];
  const pairs: PathPair[] = [];
  for (const r of positiveRoots(quartic)) {
    const stiffness = r * r;
    const wr = stiffness + er * r;
    const wi = ei * r;
    // k_a + s·c = W/(G·W − 1)
    const dr = gr * wr - gi * wi - 1;
    const di = gr * wi + gi * wr;
    const square = dr * dr + di * di;
    if (!(square > 0)) continue;
    const zi = (wi * dr - wr * di) / square;
    pairs.push({ stiffness, snubber: zi / sIm });
  }
  return pairs;
}

const ORDER = 4;
const workspace = createEigenWorkspace(ORDER);
const companion = new Float64Array(ORDER * ORDER);
const re = new Float64Array(ORDER);
const im = new Float64Array(ORDER);

/** Real roots above zero of a quartic, lowest coefficient first; rising. */
function positiveRoots(coefficients: readonly number[]): number[] {
  // without a change of sign there is none (Descartes)
  if (coefficients.every((a) => a >= 0) || coefficients.every((a) => a <= 0)) return [];
  // r = scale·u brings the first and last coefficient to like size
  const last = coefficients.length - 1;
  const scale = Math.abs(coefficients[0] / coefficients[last]) ** (1 / last);
  if (!(scale > 0 && Number.isFinite(scale))) return [];
  const scaled = coefficients.map((a, i) => a * scale ** i);
  const n = ORDER;
  companion.fill(0);
  for (let i = 0; i < n; i++) {
    companion[i * n + n - 1] = -scaled[i] / scaled[n];
    if (i > 0) companion[i * n + i - 1] = 1;
  }
  if (eigenvalues(companion, n, workspace, re, im) !== "converged") return [];
  const roots: number[] = [];
  for (let k = 0; k < n; k++) if (Math.abs(im[k]) < 1e-9 * Math.abs(re[k]) && re[k] > 0) roots.push(scale * re[k]);
  return roots.sort((a, b) => a - b);
}

/**
 * Left side of the root condition with its derivatives.
 *
 *     F = H(s) + 1/(k_b + s·c_b) + 1/(k_a + s·c) = 0                                          (README eq. 3)
 */
export class PathFlexibility {
  /** 1/k*(s) [m/N], its derivative with s, and with ln k_b, ln k_a, ln c; [re, im] each. */
  readonly value = new Float64Array(2);
  readonly bySlope = new Float64Array(2);
  readonly byBending = new Float64Array(2);
  readonly byAccumulator = new Float64Array(2);
  readonly bySnubber = new Float64Array(2);

  /**
   * Evaluates at s = sRe + i·sIm.
   *
   * @source own derivation, README eq. 3
   * @verified stability-boundary.test.ts: against `dynamicStiffness`, derivatives against differences
   * @cost no allocation
   */
  evaluate(parts: PathParts, damping: RootDamping, sRe: number, sIm: number): void {
    const { value, bySlope, byBending, byAccumulator, bySnubber } = this;
    value.fill(0);
    bySlope.fill(0);
    byBending.fill(0);
    byAccumulator.fill(0);
    bySnubber.fill(0);
    const { bending, accumulator, snubber } = parts;
    if (bending !== Infinity) {
      const rate = damping * Math.sqrt(bending);
      const br = bending + sRe * rate;
      const bi = sIm * rate;
      const square = br * br + bi * bi;
      // q = 1/(k_b + s·c_b)
      const qr = br / square;
      const qi = -bi / square;
      value[0] += qr;
      value[1] += qi;
      const sr = qr * qr - qi * qi;
      const si = 2 * qr * qi;
      bySlope[0] -= rate * sr;
      bySlope[1] -= rate * si;
      const wr = bending + 0.5 * sRe * rate;
      const wi = 0.5 * sIm * rate;
      byBending[0] = -(wr * sr - wi * si);
      byBending[1] = -(wr * si + wi * sr);
    }
    if (accumulator !== Infinity && snubber !== Infinity) {
      const jr = accumulator + sRe * snubber;
      const ji = sIm * snubber;
      const square = jr * jr + ji * ji;
      const qr = jr / square;
      const qi = -ji / square;
      value[0] += qr;
      value[1] += qi;
      const sr = qr * qr - qi * qi;
      const si = 2 * qr * qi;
      bySlope[0] -= snubber * sr;
      bySlope[1] -= snubber * si;
      byAccumulator[0] = -accumulator * sr;
      byAccumulator[1] = -accumulator * si;
      bySnubber[0] = -snubber * (sRe * sr - sIm * si);
      bySnubber[1] = -snubber * (sRe * si + sIm * sr);
    }
  }
}
