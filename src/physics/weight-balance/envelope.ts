import { linear, requireIncreasing } from "../../math/interpolate/index.ts";

/** Limits of the c.g. against mass, straight between rows; shares of the mean chord. Columns of equal length. */
export interface CgEnvelope {
  /** Rising [kg]. */
  readonly masses: Float64Array;
  readonly forward: Float64Array;
  readonly aft: Float64Array;
}

/** How far inside the envelope a mass with its c.g. lies; negative outside. */
export interface EnvelopeMargin {
  /** Limits at this mass; at the nearest row where the mass lies beyond the rows. */
  readonly forwardLimit: number;
  readonly aftLimit: number;
  /** Behind the forward limit, shares of the chord. */
  readonly toForward: number;
  /** Ahead of the aft limit. */
  readonly toAft: number;
  /** The smaller of the two, and which it is. */
  readonly least: number;
  readonly side: "forward" | "aft";
  /** Inside the range of masses that the rows cover [kg]; negative beyond it. */
  readonly massInside: number;
}

/**
 * Margin of a c.g. to the limits at its mass.
 *
 *     toForward = x − x_f(M),   toAft = x_a(M) − x                               (README eq. 3)
 *
 * @param envelope limits, at least two rows
 * @param mass     [kg]
 * @param share    place along the chord as a share of it
 * @throws {DomainError} when the masses of the rows do not rise
 * @source README eq. 3
 * @verified weight-balance.test.ts: on, inside and outside the limits; beyond the rows
 */
export function envelopeMargin(envelope: CgEnvelope, mass: number, share: number): EnvelopeMargin {
  const { masses, forward, aft } = envelope;
  requireIncreasing("masses of the envelope", masses);
  const [low, high] = [masses[0]!, masses[masses.length - 1]!];
  const at = Math.min(high, Math.max(low, mass));
  const forwardLimit = linear(masses, forward, at);
  const aftLimit = linear(masses, aft, at);
  const [toForward, toAft] = [share - forwardLimit, aftLimit - share];
  return {
    ...{ forwardLimit, aftLimit, toForward, toAft },
    least: Math.min(toForward, toAft),
    side: toForward < toAft ? "forward" : "aft",
    massInside: Math.min(mass - low, high - mass),
  };
}
