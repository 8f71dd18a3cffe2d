import { requireFinite } from "../require.ts";
import { type CurveRange, followLoop } from "./samples.ts";

/** A loop transfer in the complex plane: writes real and imaginary part of L(s). */
export type LoopAt = (real: number, imag: number, out: Float64Array) => void;

/** Count of roots of 1 + L; "unresolved" when the curve passes so close to −1 or ends so far out that no count is sure. */
export type RootCount =
  | { readonly outcome: "counted"; readonly count: number }
  | { readonly outcome: "unresolved"; readonly count: null };

/** Sum of turns may miss a whole number of half turns by this share. */
const SLACK = 0.1;

/**
 * Number of roots of 1 + L(s) = 0 to the right of a vertical line, by Nyquist's count: exact for a loop with a pure delay.
 *
 *     Z = P − Δarg(1 + L)/π,  along s = σ + jω, ω from 0 to ∞                  (6)
 *
 * The line is shifted by σ, so that poles on the imaginary axis need no detour; L must vanish at infinity.
 *
 * @param loop       L(s), real on the real axis
 * @param shift      σ [1/s], such that no pole lies on the line
 * @param openRight  P, number of poles of L to the right of the line
 * @param range      frequencies; from: below every root, to: where |L| is well below 1
 * @source Nyquist (1932); README eq. 6
 * @verified margins.test.ts: textbook loops with and without delay, against closed-loop eigenvalues
 */
export function rootsRightOf(loop: LoopAt, shift: number, openRight: number, range: CurveRange): RootCount {
  requireFinite("shift of the line", shift);
  const curve = followLoop((omega, out) => loop(shift, omega, out), range);
  const value = new Float64Array(2);
  loop(shift, 0, value);
  let re = 1 + value[0]!;
  let im = value[1]!;
  let turned = 0;
  const step = (nextRe: number, nextIm: number): void => {
    turned += Math.atan2(re * nextIm - im * nextRe, re * nextRe + im * nextIm);
    re = nextRe;
    im = nextIm;
  };
  for (let i = 0; i < curve.omega.length; i++) step(1 + curve.re[i]!, curve.im[i]!);
  step(1, 0);
  const halfTurns = turned / Math.PI;
  const count = openRight - Math.round(halfTurns);
  const sure = Math.abs(halfTurns - Math.round(halfTurns)) < SLACK && count >= 0;
  return sure ? { outcome: "counted", count } : { outcome: "unresolved", count: null };
}
