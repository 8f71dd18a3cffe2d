import { DomainError } from "../errors.ts";
import { requirePositive } from "../require.ts";

/** A stationary normal process: mean and spread in its unit, upward crossings of the mean per unit of time. */
export interface NormalProcess {
  readonly mean: number;
  readonly deviation: number;
  /** N₀, upward crossings of the mean per second [1/s]. */
  readonly crossings: number;
}

/**
 * Upward crossings of the mean per second.
 *
 *     N₀ = (1/2π)·σ̇/σ                                                        (1)
 *
 * @param deviation      σ, in the unit of the process, > 0
 * @param rateDeviation  σ̇, in that unit per second, ≥ 0
 * @throws {DomainError} if σ is not above zero or σ̇ is negative
 * @source Rice, Mathematical analysis of random noise, Bell Syst. Tech. J. 23 (1944) 282–332, 24 (1945) 46–156, section 3.3
 * @verified crossings.test.ts: narrow band in closed form, counted crossings of a made history
 */
export function meanCrossings(deviation: number, rateDeviation: number): number {
  requirePositive("standard deviation", deviation);
  if (!(rateDeviation >= 0)) throw new DomainError("standard deviation of the rate", rateDeviation, "at least 0");
  return rateDeviation / (2 * Math.PI * deviation);
}

/**
 * Rate at which the process leaves the band lower … upper, either way.
 *
 *     ν = N₀·(e^(−(b − m)²/2σ²) + e^(−(a − m)²/2σ²))                              (2)
 *
 * @param band  lower and upper end, in the unit of the process; infinite ends count nothing
 * @returns ν [1/s]; infinite when the mean lies on or beyond an end
 * @throws {DomainError} if σ is negative or the band is empty
 * @source Rice (1945), section 3.3, both ends
 * @verified crossings.test.ts: both ends, mean, limits; a counted history
 */
export function exitRate(noise: NormalProcess, band: { readonly lower: number; readonly upper: number }): number {
  const { mean, deviation, crossings } = noise;
  if (!(deviation >= 0)) throw new DomainError("standard deviation", deviation, "at least 0");
  if (!(band.upper > band.lower)) throw new DomainError("band", [band.lower, band.upper], "lower below upper");
  const end = (room: number): number => {
    if (room === Infinity) return 0;
    if (room <= 0) return Infinity;
    return deviation === 0 ? 0 : crossings * Math.exp(-0.5 * (room / deviation) ** 2);
  };
  return end(band.upper - mean) + end(mean - band.lower);
}

/**
 * Probability that the band is left at least once in a time, exits taken as independent.
 *
 *     P = 1 − e^(−ν·T)                                                         (3)
 *
 * High for a narrow-band process, whose exits come in clumps: the answer is on the safe side.
 *
 * @param rate  ν [1/s], ≥ 0, may be infinite
 * @param time  T [s], > 0
 * @source Rice (1945); Poisson arrival of rare crossings, Crandall and Mark, Random Vibration in Mechanical Systems (1963), from memory
 * @verified crossings.test.ts: limits, inverse
 */
export function firstPassage(rate: number, time: number): number {
  requirePositive("time", time);
  return -Math.expm1(-rate * time);
}

/**
 * Exit rate that a probability of first passage in a time allows.
 *
 *     ν = −ln(1 − P)/T                                                         (4)
 *
 * @throws {DomainError} if the probability is not between 0 and 1 or the time is not above zero
 * @source inverse of eq. 3
 * @verified crossings.test.ts
 */
export function allowedRate(probability: number, time: number): number {
  requirePositive("time", time);
  if (!(probability > 0 && probability < 1)) throw new DomainError("probability", probability, "between 0 and 1");
  return -Math.log1p(-probability) / time;
}

/**
 * Distance from the mean that the process passes, on either side, with a given rate in all.
 *
 *     a = σ·√(2·ln(2N₀/ν)),  0 when the mean itself is passed less often           (5)
 *
 * @param rate  ν [1/s], both sides together, > 0
 * @returns distance from the mean, in the unit of the process, ≥ 0
 * @throws {DomainError} if the rate is not above zero
 * @source inverse of eq. 2 for a band about the mean
 * @verified crossings.test.ts
 */
export function peakDistance(noise: NormalProcess, rate: number): number {
  requirePositive("rate", rate);
  const ratio = (2 * noise.crossings) / rate;
  return ratio > 1 ? noise.deviation * Math.sqrt(2 * Math.log(ratio)) : 0;
}
