import { DomainError } from "../errors.ts";
import { requireSize } from "../require.ts";

/** A root with the shape that tells it from others; `shape` holds [re, im] pairs of equal length for all roots. */
export interface Root {
  readonly real: number;
  /** ≥ 0: a conjugate pair counts once. */
  readonly imag: number;
  readonly shape: Float64Array;
}

export interface TrackSettings {
  /** Correlation from which a match is believed without a closer look; default 0.9. */
  readonly believed?: number;
  /** How often an interval may be halved where matches are not believed; default 7. */
  readonly halvings?: number;
}

/**
 * Correlation of two shapes, 0 to 1, blind to scale and phase.
 *
 *     MAC = |aᴴb|²/(|a|²·|b|²)                                    (README eq. 1)
 *
 * @param a complex shape as [re, im] pairs, shape (2·n); a zero shape correlates 0 with everything
 * @param b another of the same length
 * @returns MAC, 0 to 1 [1]
 * @throws {DomainError} if the lengths differ or are odd
 * @source modal assurance criterion, Allemang and Brown 1982 (from memory); README eq. 1
 * @verified track.test.ts (scale, phase and order do not matter; Cauchy and Schwarz)
 */
export function correlation(a: Float64Array, b: Float64Array): number {
  if (a.length !== b.length || a.length % 2 !== 0) {
    throw new DomainError("lengths of two shapes", [a.length, b.length], "equal and even");
  }
  let re = 0;
  let im = 0;
  let aa = 0;
  let bb = 0;
  for (let i = 0; i < a.length; i += 2) {
    re += a[i] * b[i] + a[i + 1] * b[i + 1];
    im += a[i] * b[i + 1] - a[i + 1] * b[i];
    aa += a[i] * a[i] + a[i + 1] * a[i + 1];
    bb += b[i] * b[i] + b[i + 1] * b[i + 1];
  }
  const scale = aa * bb;
  return scale > 0 ? (re * re + im * im) / scale : 0;
}

/**
 * Follows roots along a parameter by the correlation of their shapes, halving the step where it is in doubt.
 *
 * A pair that splits into two real roots continues as one of them and the other starts a new track; two real
 * roots that meet continue as one track and the other ends.
 *
 * @param values   parameter values in the order of travel
 * @param evaluate roots at a parameter value; may be called between the values
 * @param settings belief and depth of subdivision
 * @returns one array per track, as long as `values`, `null` where the track does not exist
 * @throws {DomainError} if `values` is not finite and strictly monotonic, or a setting is out of range
 * @source own derivation, README eq. 2–4
 * @verified track.test.ts: crossing, veering and coalescence on analytic/coupled-oscillators, splitting into real
 *           roots on analytic/damped-oscillator
 */
export function trackRoots<R extends Root>(
  values: readonly number[],
  evaluate: (value: number) => readonly R[],
  settings: TrackSettings = {},
): (R | null)[][] {
  const believed = settings.believed ?? 0.9;
  const halvings = settings.halvings ?? 7;
  requireSize("halvings of a track's interval", halvings);
  if (!(believed >= 0 && believed <= 1)) throw new DomainError("believed correlation", believed, "0 to 1");
  requireMonotonic(values);
  const tracks: (R | null)[][] = [];
  let current: readonly R[] = [];
  let owner: number[] = [];
  values.forEach((value, step) => {
    const next = evaluate(value);
    const mapping = step === 0 ? [] : follow(values[step - 1], current, value, next, evaluate, believed, halvings);
    const nextOwner = new Array<number>(next.length).fill(-1);
    mapping.forEach((to, from) => {
      if (to >= 0) nextOwner[to] = owner[from];
    });
    next.forEach((root, i) => {
      if (nextOwner[i] < 0) {
        nextOwner[i] = tracks.length;
        tracks.push(new Array<R | null>(values.length).fill(null));
      }
      tracks[nextOwner[i]][step] = root;
    });
    current = next;
    owner = nextOwner;
  });
  return tracks;
}

function requireMonotonic(values: readonly number[]): void {
  const rising = values.length < 2 || values[1] > values[0];
  values.forEach((value, i) => {
    const step = i === 0 ? 1 : rising ? value - values[i - 1] : values[i - 1] - value;
    if (!(step > 0 && Number.isFinite(value))) {
      throw new DomainError("parameter values of a track", value, "finite, strictly rising or falling values");
    }
  });
}

/** Index in `b` of each root of `a`, −1 where it ends; subdivides while matches are in doubt. */
function follow<R extends Root>(
  xa: number,
  a: readonly R[],
  xb: number,
  b: readonly R[],
  evaluate: (value: number) => readonly R[],
  believed: number,
  halvings: number,
): number[] {
  const direct = match(a, b);
  if (halvings === 0 || (direct.worst >= believed && a.length === b.length)) return direct.to;
  const middle = 0.5 * (xa + xb);
  if (middle === xa || middle === xb) return direct.to;
  const m = evaluate(middle);
  const first = follow(xa, a, middle, m, evaluate, believed, halvings - 1);
  const second = follow(middle, m, xb, b, evaluate, believed, halvings - 1);
  return first.map((i) => (i < 0 ? -1 : second[i]));
}

function isZero(shape: Float64Array): boolean {
  for (let i = 0; i < shape.length; i++) if (shape[i] !== 0) return false;
  return true;
}

/** Best one-to-one match by correlation and nearness; `worst` is the lowest correlation among the matches. */
function match<R extends Root>(a: readonly R[], b: readonly R[]): { to: number[]; worst: number } {
  const candidates: { i: number; j: number; score: number; mac: number }[] = [];
  a.forEach((ra, i) => {
    b.forEach((rb, j) => {
      // roots without any shape have nothing to disagree about
      const mac = correlation(ra.shape, rb.shape) || (isZero(ra.shape) && isZero(rb.shape) ? 1 : 0);
      const scale = Math.hypot(ra.real, ra.imag) + Math.hypot(rb.real, rb.imag);
      const distance = scale > 0 ? Math.hypot(ra.real - rb.real, ra.imag - rb.imag) / scale : 0;
      candidates.push({ i, j, mac, score: mac - distance });
    });
  });
  candidates.sort((p, q) => q.score - p.score || p.i - q.i || p.j - q.j);
  const to = new Array<number>(a.length).fill(-1);
  const taken = new Set<number>();
  let worst = 1;
  for (const { i, j, mac } of candidates) {
    if (to[i] >= 0 || taken.has(j)) continue;
    to[i] = j;
    taken.add(j);
    worst = Math.min(worst, mac);
  }
  return { to, worst };
}
