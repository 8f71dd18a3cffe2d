import { createEigenWorkspace, reduceToHessenberg } from "../eigen/index.ts";
import type { LinearSystem } from "./system.ts";

/**
 * Transfer functions of one input of a linear system, at any complex frequency.
 *
 *     G(s) = C·(s·1 − A)⁻¹·b + d                                               (4)
 *
 * A is brought to Hessenberg form once, Qᵀ·A·Q = H; then each frequency costs one elimination with exchange of neighbour rows.
 *
 * @source own derivation, README eq. 4; the reduction is that of `math/eigen`
 * @verified margins.test.ts: generated/loop-margins (numpy), rtol 1e-9; system.test.ts: product of systems in series
 * @cost 4n² complex operations a frequency, no allocation in `evaluate`
 */
export class TransferFunction {
  readonly outputs: number;
  private readonly n: number;
  private readonly H: Float64Array;
  private readonly b: Float64Array;
  private readonly C: Float64Array;
  private readonly d: Float64Array;
  private readonly re: Float64Array;
  private readonly im: Float64Array;
  private readonly xRe: Float64Array;
  private readonly xIm: Float64Array;

  /**
   * @param system  see `LinearSystem`
   * @param input   number of the input
   */
  constructor(system: LinearSystem, input = 0) {
    const { states: n, inputs: m, outputs: p } = system;
    this.n = n;
    this.outputs = p;
    this.d = Float64Array.from({ length: p }, (_, i) => system.D[i * m + input]!);
    this.b = Float64Array.from({ length: n }, (_, i) => system.B[i * m + input]!);
    this.C = system.C.slice();
    this.re = new Float64Array(n * n);
    this.im = new Float64Array(n * n);
    this.xRe = new Float64Array(n);
    this.xIm = new Float64Array(n);
    this.H = new Float64Array(n * n);
    if (n === 0) return;
    const workspace = createEigenWorkspace(n);
    for (let i = 0; i < n * n; i++) workspace.hessenberg[i] = system.A[i]!;
    workspace.window[0] = 0;
    workspace.window[1] = n - 1;
    reduceToHessenberg(workspace, n, true);
    for (let i = 0; i < n * n; i++) this.H[i] = workspace.hessenberg[i]!;
    // b ← Qᵀ·b and each row of C ← C·Q, one reflection after the other
    for (let k = 0; k < n - 2; k++) {
      const weight = workspace.weights[k]!;
      if (weight === 0) continue;
      reflect(this.b, 0, workspace.reflectors, k, n, weight);
      for (let row = 0; row < p; row++) reflect(this.C, row * n, workspace.reflectors, k, n, weight);
    }
  }

  /**
   * Writes G(s) for every output.
   *
   * @param real  real part of s [1/s]
   * @param imag  imaginary part of s [rad/s]
   * @param out   real and imaginary part by output, shape (2·outputs), written; not finite when s is a pole
   */
  evaluate(real: number, imag: number, out: Float64Array): void {
    const { n, H, re, im, xRe, xIm } = this;
    for (let i = 0; i < n; i++) {
      for (let j = Math.max(0, i - 1); j < n; j++) {
        re[i * n + j] = (i === j ? real : 0) - H[i * n + j]!;
        im[i * n + j] = i === j ? imag : 0;
      }
      xRe[i] = this.b[i]!;
      xIm[i] = 0;
    }
    for (let k = 0; k < n - 1; k++) this.eliminate(k);
    for (let i = n - 1; i >= 0; i--) {
      let sumRe = xRe[i]!;
      let sumIm = xIm[i]!;
      for (let j = i + 1; j < n; j++) {
        const a = re[i * n + j]!;
        const b = im[i * n + j]!;
        sumRe -= a * xRe[j]! - b * xIm[j]!;
        sumIm -= a * xIm[j]! + b * xRe[j]!;
      }
      const a = re[i * n + i]!;
      const b = im[i * n + i]!;
      const size = a * a + b * b;
      xRe[i] = (sumRe * a + sumIm * b) / size;
      xIm[i] = (sumIm * a - sumRe * b) / size;
    }
    for (let row = 0; row < this.outputs; row++) {
      let gRe = this.d[row]!;
      let gIm = 0;
      for (let j = 0; j < n; j++) {
        gRe += this.C[row * n + j]! * xRe[j]!;
        gIm += this.C[row * n + j]! * xIm[j]!;
      }
      out[2 * row] = gRe;
      out[2 * row + 1] = gIm;
    }
  }

  /** Clears the element below the diagonal of column k; only the next row has one. */
  private eliminate(k: number): void {
    const { n, re, im, xRe, xIm } = this;
    const top = k * n;
    const low = (k + 1) * n;
    if (Math.abs(re[low + k]!) + Math.abs(im[low + k]!) > Math.abs(re[top + k]!) + Math.abs(im[top + k]!)) {
      for (let j = k; j < n; j++) {
        let kept = re[top + j]!;
        re[top + j] = re[low + j]!;
        re[low + j] = kept;
        kept = im[top + j]!;
        im[top + j] = im[low + j]!;
        im[low + j] = kept;
      }
      let kept = xRe[k]!;
      xRe[k] = xRe[k + 1]!;
      xRe[k + 1] = kept;
      kept = xIm[k]!;
      xIm[k] = xIm[k + 1]!;
      xIm[k + 1] = kept;
    }
    const a = re[top + k]!;
    const b = im[top + k]!;
    const size = a * a + b * b;
    const below = re[low + k]!;
    const belowIm = im[low + k]!;
    if (below === 0 && belowIm === 0) return;
    const fRe = (below * a + belowIm * b) / size;
    const fIm = (belowIm * a - below * b) / size;
    for (let j = k + 1; j < n; j++) {
      re[low + j] -= fRe * re[top + j]! - fIm * im[top + j]!;
      im[low + j] -= fRe * im[top + j]! + fIm * re[top + j]!;
    }
    const nextRe = xRe[k]!;
    const nextIm = xIm[k]!;
    xRe[k + 1] -= fRe * nextRe - fIm * nextIm;
    xIm[k + 1] -= fRe * nextIm + fIm * nextRe;
  }
}

/** x ← (1 − τ·v·vᵀ)·x for the elements k + 1 … n − 1 from `offset`. */
function reflect(x: Float64Array, offset: number, v: Float64Array, k: number, n: number, weight: number): void {
  let dot = 0;
  for (let i = k + 1; i < n; i++) dot += v[k * n + i]! * x[offset + i]!;
  for (let i = k + 1; i < n; i++) x[offset + i] -= weight * dot * v[k * n + i]!;
}
