import { allowedRate, exitRate, firstPassage, type NormalProcess } from "../../math/crossings/index.ts";
import { bracketedRoot } from "../../math/roots/index.ts";
import type { QuantityKey } from "./types.ts";

/** A limited quantity at one point, SI, per 1 m/s of σ. */
export interface Limited {
  readonly key: QuantityKey;
  readonly mean: number;
  readonly deviationPerSigma: number;
  readonly crossings: number;
  /** Infinite where open. */
  readonly lower: number;
  readonly upper: number;
}

function processAt(limited: Limited, sigma: number): NormalProcess {
  return { mean: limited.mean, deviation: sigma * limited.deviationPerSigma, crossings: limited.crossings };
}

/** Exits from the bands of some limits together [1/s] in turbulence of an intensity [m/s]. */
export function exitsOf(all: readonly Limited[], sigma: number): number {
  return all.reduce((sum, limited) => sum + exitRate(processAt(limited, sigma), limited), 0);
}

/** Probability that a limit is passed in a time [s]. */
export function passage(all: readonly Limited[], sigma: number, time: number): number {
  return firstPassage(exitsOf(all, sigma), time);
}

/** Range of intensities in which an answer is looked for [m/s]. */
const SEARCHED = { from: 1e-4, to: 1e4 } as const;

/**
 * Largest intensity σ at which some limits together hold.
 *
 *     Σ νₖ(σ) = −ln(1 − P)/T                                                   (README eq. 2)
 *
 * Exits of different quantities are added, which overstates the probability where they come together.
 *
 * @returns σ [m/s]; 0 when a mean lies outside its band; the end of the search when nothing gives way
 */
export function largestSigma(all: readonly Limited[], probability: number, time: number): number {
  const allowed = allowedRate(probability, time);
  const excess = (logarithm: number): number =>
    Math.log(Math.max(exitsOf(all, Math.exp(logarithm)), Number.MIN_VALUE)) - Math.log(allowed);
  const from = Math.log(SEARCHED.from);
  const to = Math.log(SEARCHED.to);
  if (!(exitsOf(all, SEARCHED.from) <= allowed)) return 0;
  if (excess(to) <= 0) return SEARCHED.to;
  return Math.exp(bracketedRoot(excess, from, to, 1e-10).x);
}
