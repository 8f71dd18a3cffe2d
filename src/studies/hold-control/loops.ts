import {
  type Curve,
  closeLoops,
  connectedPart,
  type LoopAt,
  type LoopMargins,
  loopMargins,
  padeDelay,
  rootsRightOf,
  series,
  TransferFunction,
} from "../../math/linear-system/index.ts";
import type { Loops } from "../../physics/pilot/index.ts";
import { countRight, type Root, rootsOf } from "./roots.ts";
import type { LoopCurve } from "./types.ts";

const DEGREE = Math.PI / 180;
/** Frequencies of rigid motion, pilot, actuator and boom [rad/s]; slower ones are drift that a pilot trims away. */
export const LOOP_RANGE = { from: 0.05, to: 200 } as const;
/** The exact count goes on to where no loop has any gain left [rad/s], and begins below every root. */
const COUNT_RANGE = { from: 1e-4, to: 2e3 } as const;
const MOST_CURVE_POINTS = 160;

/** A loop cut at one surface. */
export interface OpenLoop {
  /** L(s) with the exact delay of the cut channel. */
  readonly at: LoopAt;
  readonly roots: readonly Root[];
  readonly closedRoots: readonly Root[];
}

/** L(s) = −open(s)·e^(−τs), its own roots and those of the closed loop with the delay by Padé. */
export function openLoop({ open: whole, delay }: Loops, padeOrder: number): OpenLoop {
  // roots of the other plane are no business of this loop
  const open = connectedPart(whole);
  const transfer = new TransferFunction(open);
  const at: LoopAt = (real, imag, out) => {
    transfer.evaluate(real, imag, out);
    const size = -Math.exp(-delay * real);
    const c = size * Math.cos(delay * imag);
    const s = -size * Math.sin(delay * imag);
    const re = out[0];
    out[0] = re * c - out[1] * s;
    out[1] = re * s + out[1] * c;
  };
  const closed = closeLoops(series(padeDelay(delay, padeOrder), open), Float64Array.of(1));
  return {
    at,
    roots: rootsOf(open.A, open.states),
    closedRoots: rootsOf(closed.A, closed.states),
  };
}

/** Frequencies and damping ratios about which a loop may be sharp. */
function sharpPlaces(roots: readonly Root[]): [number, number][] {
  return roots
    .filter(({ imag }) => imag > 0)
    .map(({ real, imag }) => [Math.hypot(real, imag), Math.abs(real) / Math.hypot(real, imag)]);
}

export interface JudgedLoop {
  readonly margins: LoopMargins;
  /** Roots that grow faster than e^(shift·t) with the loop open, everything else closed. */
  readonly growingOpen: number;
  /** The same closed. */
  readonly growing: number;
  /** The same closed, by Nyquist's count with the exact delay. */
  readonly growingExact: number | null;
}

/**
 * Margins of a loop with the exact delay, and its stability twice over.
 *
 * @param shift growth from which a root counts as unstable [1/s]
 */
export function judgeLoop(loop: OpenLoop, shift: number): JudgedLoop {
  const near = [...sharpPlaces(loop.roots), ...sharpPlaces(loop.closedRoots)];
  const margins = loopMargins((omega, out) => loop.at(0, omega, out), { ...LOOP_RANGE, near });
  const growingOpen = countRight(loop.roots, shift);
  const exact = rootsRightOf(loop.at, shift, growingOpen, { ...COUNT_RANGE, near });
  return { margins, growingOpen, growing: countRight(loop.closedRoots, shift), growingExact: exact.count };
}

/** Unwrapped phase along a curve [rad], starting in (−2π, 0]. */
export function unwrapped({ re, im }: Curve): Float64Array {
  const phase = new Float64Array(re.length);
  let turns = 0;
  for (let i = 0; i < re.length; i++) {
    const angle = Math.atan2(im[i], re[i]);
    if (i === 0) turns = angle > 0 ? -1 : 0;
    else {
      const step = angle - Math.atan2(im[i - 1], re[i - 1]);
      turns -= Math.round(step / (2 * Math.PI));
    }
    phase[i] = angle + 2 * Math.PI * turns;
  }
  return phase;
}

/** Bode curve with few enough points for a picture; ends and turning points of the gain stay. */
export function thinned(curve: Curve): LoopCurve {
  const phase = unwrapped(curve);
  const gain = Float64Array.from(curve.re, (re, i) => 20 * Math.log10(Math.max(1e-12, Math.hypot(re, curve.im[i]))));
  const last = gain.length - 1;
  const stride = Math.max(1, Math.ceil(gain.length / MOST_CURVE_POINTS));
  const turns = (i: number): boolean => i > 0 && i < last && (gain[i] - gain[i - 1]) * (gain[i + 1] - gain[i]) < 0;
  const kept = Array.from(gain.keys()).filter((i) => i === last || i % stride === 0 || turns(i));
  const round = (value: number): number => Number(value.toPrecision(6));
  return {
    omega_rad_s: kept.map((i) => round(curve.omega[i])),
    gain_dB: kept.map((i) => round(gain[i])),
    phase_deg: kept.map((i) => round(phase[i] / DEGREE)),
  };
}
