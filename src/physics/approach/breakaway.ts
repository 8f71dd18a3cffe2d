import { DomainError } from "../../math/errors.ts";
import { bracketedRoot } from "../../math/roots/index.ts";

/** How one aircraft leaves: vertical acceleration away from the other, reached through a lag after its reaction. */
export interface Leaving {
  /** From the call to the controls [s], ≥ 0. */
  readonly reaction: number;
  /** Acceleration away from the other [m/s²], ≥ 0: of the carried aircraft down, of the carrier up. */
  readonly acceleration: number;
  /** Lag of the pitch rate that makes it [s], ≥ 0. */
  readonly lag: number;
}

export interface BreakawaySettingsTwoBodies {
  /** Vertical distance at the call [m], apart positive, and the rate at which it shrinks [m/s], ≥ 0. */
  readonly gap: number;
  readonly closing: number;
  /** How much faster it shrinks each second until the carried aircraft reacts: what went wrong goes on [m/s²], ≥ 0. */
  readonly closingAcceleration: number;
  readonly carried: Leaving;
  /** The carrier climbs at the same call; `null`: it flies on. */
  readonly carrier: Leaving | null;
}

export interface BreakawayResult {
  readonly outcome: "clear" | "touches" | "never parts";
  /** Least vertical distance [m] and when [s]; of "never parts" −∞ and ∞. */
  readonly leastGap: number;
  readonly at: number;
}

const LONGEST = 1e4;

function checkLeaving(who: string, { reaction, acceleration, lag }: Leaving): void {
  for (const [what, value] of Object.entries({ reaction, acceleration, lag })) {
    if (!(value >= 0 && value < Number.POSITIVE_INFINITY)) {
      throw new DomainError(`breakaway, ${who}, ${what}`, value, "0 or more, finite");
    }
  }
}

/** Speed and way apart that one aircraft has made, s after its reaction. */
function speedOf({ acceleration, lag }: Leaving, s: number): number {
  if (s <= 0) return 0;
  return acceleration * (lag > 0 ? s + lag * Math.expm1(-s / lag) : s);
}
function wayOf({ acceleration, lag }: Leaving, s: number): number {
  if (s <= 0) return 0;
  return acceleration * (lag > 0 ? 0.5 * s * s - lag * s - lag * lag * Math.expm1(-s / lag) : 0.5 * s * s);
}

/**
 * Least vertical distance of two aircraft that leave each other in opposite vertical directions.
 *
 *     g(t) = g₀ − c·t − b·(t²/2, after the reaction r·t − r²/2) + Σ a·(s²/2 − τ·s + τ²·(1 − e^(−s/τ))),   s = t − r of each   (README eq. 15)
 *     g_min = g₀ − c·r − b·r²/2 − (c + b·r)²/(2a)                       one aircraft, no lag                                 (README eq. 16)
 *
 * The rate of g is convex, so it has one zero from below: the minimum.
 *
 * @returns "touches" when the least gap is not above 0; "never parts" when nothing ends the closing
 * @throws {DomainError} for a number that is negative or not finite; the gap may be any finite number
 * @source own derivation, README eq. 15–16; that they part in opposite vertical directions is published training practice (README)
 * @verified breakaway.test.ts: eq. 16, numerical integration, order in reaction, lag and acceleration
 */
export function breakawayGap(settings: BreakawaySettingsTwoBodies): BreakawayResult {
  const { gap, closing, closingAcceleration: b, carried, carrier } = settings;
  if (!Number.isFinite(gap)) throw new DomainError("breakaway, gap", gap, "finite");
  for (const [what, value] of Object.entries({ closing, closingAcceleration: b })) {
    if (!(value >= 0 && value < Number.POSITIVE_INFINITY))
      throw new DomainError(`breakaway, ${what}`, value, "0 or more");
  }
  checkLeaving("carried aircraft", carried);
  if (carrier !== null) checkLeaving("carrier", carrier);
  const r = carried.reaction;
  const rate = (t: number): number =>
    -closing -
    b * Math.min(t, r) +
    speedOf(carried, t - r) +
    (carrier === null ? 0 : speedOf(carrier, t - carrier.reaction));
  const distance = (t: number): number =>
    gap -
    closing * t -
    b * (t <= r ? 0.5 * t * t : r * t - 0.5 * r * r) +
    wayOf(carried, t - r) +
    (carrier === null ? 0 : wayOf(carrier, t - carrier.reaction));
  let late = Math.max(1, r, carrier?.reaction ?? 0);
  while (rate(late) <= 0 && late < LONGEST) late *= 2;
  if (rate(late) <= 0) {
    const rests = closing === 0 && (b === 0 || r === 0);
    if (!rests) return { outcome: "never parts", leastGap: Number.NEGATIVE_INFINITY, at: Number.POSITIVE_INFINITY };
    return { outcome: gap > 0 ? "clear" : "touches", leastGap: gap, at: 0 };
  }
  const at = rate(0) < 0 || b > 0 ? lastZero(rate, late) : 0;
  const leastGap = Math.min(gap, distance(at));
  return { outcome: leastGap > 0 ? "clear" : "touches", leastGap, at };
}

/** The zero from below of a convex rate that starts at or below zero and ends above it. */
function lastZero(rate: (t: number) => number, late: number): number {
  // halves back until the rate is negative: it stays so down to its start
  let early = 0.5 * late;
  while (rate(early) >= 0 && early > 1e-9) early *= 0.5;
  return rate(early) < 0 ? bracketedRoot(rate, early, 2 * early, 1e-12).x : 0;
}

/**
 * Longest reaction of the carried aircraft that leaves a required distance.
 *
 * @param required least vertical distance that must remain [m]
 * @param most     longest reaction looked at [s], > 0
 * @returns 0 … `most` [s]; `null` when even at once is too late
 * @throws {DomainError} as `breakawayGap`
 * @source root of README eq. 15 in the reaction time
 * @verified breakaway.test.ts (inverse of `breakawayGap`, eq. 16 solved by hand)
 */
export function longestReaction(settings: BreakawaySettingsTwoBodies, required: number, most: number): number | null {
  if (!(most > 0)) throw new DomainError("breakaway, longest reaction looked at", most, "greater than 0");
  const left = (reaction: number): number => {
    const { leastGap } = breakawayGap({ ...settings, carried: { ...settings.carried, reaction } });
    return Math.max(leastGap, -1e12) - required;
  };
  if (left(0) < 0) return null;
  if (left(most) >= 0) return most;
  return bracketedRoot(left, 0, most, 1e-9).x;
}
