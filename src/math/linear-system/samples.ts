import { DomainError } from "../errors.ts";

/** A complex function of frequency: writes real and imaginary part for ω [rad/s]. */
export type ComplexOf = (omega: number, out: Float64Array) => void;

/** A curve in the complex plane along rising frequency. */
export interface Curve {
  readonly omega: Float64Array;
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** Between neighbours: largest turn of L about 0 and about −1 [rad], and largest change of ln |L|. */
const TURN = 0.15;
const GROWTH = 0.3;
/** Below this |L| a loop is not followed closely: gain margins beyond it are not looked for. */
const SMALL = 0.02;
const DEEPEST = 24;
const MOST_SAMPLES = 40_000;

export interface CurveRange {
  /** Lowest and highest frequency [rad/s], above 0. */
  readonly from: number;
  readonly to: number;
  /** Samples per decade to begin with. */
  readonly perDecade?: number;
  /** Frequencies about which something sharp may stand, e.g. |λ| of lightly damped roots [rad/s], with ζ of each. */
  readonly near?: readonly (readonly [omega: number, damping: number])[];
}

/** Frequencies to begin with: a logarithmic grid, closer about each sharp place. */
function firstFrequencies({ from, to, perDecade = 24, near = [] }: CurveRange): number[] {
  const count = Math.max(2, Math.ceil(perDecade * Math.log10(to / from)) + 1);
  const grid = Array.from({ length: count }, (_, i) => from * (to / from) ** (i / (count - 1)));
  for (const [omega, damping] of near) {
    const width = Math.max(1e-4, Math.min(0.3, Math.abs(damping)));
    for (const k of [-4, -2, -1, -0.5, 0, 0.5, 1, 2, 4]) {
      const at = omega * (1 + k * width);
      if (at > from && at < to) grid.push(at);
    }
  }
  return [...new Set(grid)].sort((a, b) => a - b);
}

/**
 * Follows a loop transfer along frequency, closely enough that it turns little between neighbours.
 *
 * Intervals are halved (in ln ω) until L turns by less than 0.15 rad about 0 and about −1 and changes by less than a third in
 * size, or |L| is below 0.02 at both ends.
 *
 * @param loop   L at jω (or along a shifted line)
 * @param range  frequencies, with places where it may be sharp
 * @throws {DomainError} for frequencies that are not positive and rising
 * @source own derivation, README section "Following a loop"
 * @verified margins.test.ts (lightly damped resonance, delay)
 */
export function followLoop(loop: ComplexOf, range: CurveRange): Curve {
  if (!(range.from > 0 && range.to > range.from && range.to < Number.POSITIVE_INFINITY)) {
    throw new DomainError("frequency range", `${range.from} to ${range.to}`, "rising, above 0, finite");
  }
  const value = new Float64Array(2);
  const points: [number, number, number][] = [];
  const at = (omega: number): [number, number, number] => {
    loop(omega, value);
    return [omega, value[0]!, value[1]!];
  };
  const between = (a: [number, number, number], b: [number, number, number], depth: number): void => {
    if (depth < DEEPEST && points.length < MOST_SAMPLES && !isClose(a, b)) {
      const middle = at(Math.sqrt(a[0] * b[0]));
      between(a, middle, depth + 1);
      between(middle, b, depth + 1);
      return;
    }
    points.push(b);
  };
  const first = firstFrequencies(range).map(at);
  points.push(first[0]!);
  for (let i = 1; i < first.length; i++) between(first[i - 1]!, first[i]!, 0);
  const kept = points.filter(([, re, im]) => Number.isFinite(re) && Number.isFinite(im));
  return {
    omega: Float64Array.from(kept, (p) => p[0]),
    re: Float64Array.from(kept, (p) => p[1]),
    im: Float64Array.from(kept, (p) => p[2]),
  };
}

function isClose([, aRe, aIm]: [number, number, number], [, bRe, bIm]: [number, number, number]): boolean {
  const sizeA = Math.hypot(aRe, aIm);
  const sizeB = Math.hypot(bRe, bIm);
  if (sizeA < SMALL && sizeB < SMALL) return true;
  const turn = (re1: number, im1: number, re2: number, im2: number): number =>
    Math.abs(Math.atan2(re1 * im2 - im1 * re2, re1 * re2 + im1 * im2));
  return (
    Math.abs(Math.log(sizeB / sizeA)) < GROWTH &&
    turn(aRe, aIm, bRe, bIm) < TURN &&
    turn(1 + aRe, aIm, 1 + bRe, bIm) < TURN
  );
}
