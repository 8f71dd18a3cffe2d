import { DomainError } from "../errors.ts";
import {
  divide,
  type Interval,
  magnitude,
  middle,
  multiply,
  plusMinus,
  point,
  scale,
  square,
  subtract,
} from "./interval.ts";

const ONE = point(1);
/** π/2 lies between these neighbours. */
const QUARTER: Interval = { low: 1.5707963267948966, high: 1.5707963267948968 };
const TERMS = 13;

/**
 * Nested alternating series, with what is cut off between 0 and 1 of its last term.
 *
 *     1 − z/(a(a+1))·(1 − z/((a+2)(a+3))·(1 − …)),   0 ≤ z ≤ 2                   (README eq. 3)
 */
function series(z: Interval, first: number): Interval {
  let sum: Interval = { low: 0, high: 1 };
  for (let k = TERMS - 1; k >= 0; k--) {
    const a = first + 2 * k;
    sum = subtract(ONE, divide(multiply(z, sum), point(a * (a + 1))));
  }
  return sum;
}

/** Sine and cosine of all angles of an interval. */
export interface SineCosine {
  readonly sine: Interval;
  readonly cosine: Interval;
}

const FULL: SineCosine = { sine: plusMinus(1), cosine: plusMinus(1) };

/**
 * Sine and cosine from their series, not from the library, whose rounding nobody promises.
 *
 *     sin y = y·S₂(y²),  cos y = S₁(y²),   y = x − k·π/2                         (README eq. 3, 4)
 *
 * @param x  angles [rad]; wider than about a radian gives −1 … 1
 * @source own derivation, README eq. 3, 4
 * @verified trigonometry.test.ts: containment, sin² + cos², published digits of sin 1 and cos 1
 */
export function sineCosine(x: Interval): SineCosine {
  const k = Math.round(middle(x) / QUARTER.low);
  const y = subtract(x, scale(k, QUARTER));
  if (!(magnitude(y) <= 1.4)) return FULL;
  const z = square(y);
  const s = within(multiply(y, series(z, 2)));
  const c = within(series(z, 1));
  switch (((k % 4) + 4) % 4) {
    case 0:
      return { sine: s, cosine: c };
    case 1:
      return { sine: c, cosine: turned(s) };
    case 2:
      return { sine: turned(s), cosine: turned(c) };
    default:
      return { sine: turned(c), cosine: s };
  }
}

function within({ low, high }: Interval): Interval {
  return { low: Math.max(-1, low), high: Math.min(1, high) };
}

function turned({ low, high }: Interval): Interval {
  return { low: -high, high: -low };
}

/**
 * Factors of a turn by the share t of the rotation vector φ, θ = |φ|.
 *
 *     exp(tφ)v = v + A·φ × v + B·φ × (φ × v),   A = t·S₂(t²θ²),  B = ½t²·S₃(t²θ²)      (README eq. 5)
 *
 * @param share        t, 0 … 1
 * @param turnSquared  θ² [rad²]; t²θ² at most 2
 * @throws {DomainError} for a larger turn
 * @source own derivation, README eq. 5 (Rodrigues' formula as series)
 * @verified trigonometry.test.ts: sin(tθ)/θ and (1 − cos tθ)/θ², also at θ = 0
 */
export function turnFactors(
  share: Interval,
  turnSquared: Interval,
): { readonly first: Interval; readonly second: Interval } {
  const t2 = square(share);
  const z = multiply(t2, turnSquared);
  if (!(z.high <= 2)) throw new DomainError("square of a turn", z.high, "at most 2");
  const positive: Interval = { low: Math.max(0, z.low), high: z.high };
  return { first: multiply(share, series(positive, 2)), second: scale(0.5, multiply(t2, series(positive, 3))) };
}
