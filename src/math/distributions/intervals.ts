import { DomainError } from "../errors.ts";
import { bracketedRoot } from "../roots/index.ts";
import { incompleteBeta } from "./beta.ts";
import { normalQuantile } from "./normal.ts";

/** Interval of a share, both in 0 … 1. */
export interface ShareInterval {
  readonly lower: number;
  readonly upper: number;
}

/**
 * Value that a beta distributed share stays below with probability p.
 *
 * @throws {DomainError} for p outside 0 … 1 or parameters that are not above 0
 * @source root of eq. 4
 * @verified distributions.test.ts: published/binomial-intervals
 */
export function betaQuantile(p: number, a: number, b: number): number {
  if (!(p >= 0 && p <= 1)) throw new DomainError("probability", p, "0 to 1");
  if (p === 0 || p === 1) return p;
  return bracketedRoot((x) => incompleteBeta(x, a, b) - p, 0, 1, 1e-16).x;
}

function requireCounts(hits: number, of: number, confidence: number): void {
  if (!(Number.isInteger(of) && of > 0)) throw new DomainError("number of trials", of, "a whole number above 0");
  if (!(Number.isInteger(hits) && hits >= 0 && hits <= of)) {
    throw new DomainError("number of hits", hits, `a whole number, 0 to ${of}`);
  }
  if (!(confidence > 0 && confidence < 1)) throw new DomainError("confidence", confidence, "above 0, below 1");
}

/**
 * Exact interval of a probability from hits among independent trials, two-sided.
 *
 *     I_lower(k, n−k+1) = (1−c)/2,   I_upper(k+1, n−k) = (1+c)/2                          (5)
 *
 * Holds the true value with at least the stated confidence, whatever it is.
 *
 * @param hits        k
 * @param of          n
 * @param confidence  c, e.g. 0.95
 * @throws {DomainError} for counts or a confidence out of range
 * @source Clopper and Pearson, Biometrika 26 (1934) 404
 * @verified distributions.test.ts: published/binomial-intervals (digits as printed)
 */
export function clopperPearson(hits: number, of: number, confidence: number): ShareInterval {
  requireCounts(hits, of, confidence);
  const tail = (1 - confidence) / 2;
  return {
    lower: hits === 0 ? 0 : betaQuantile(tail, hits, of - hits + 1),
    upper: hits === of ? 1 : betaQuantile(1 - tail, hits + 1, of - hits),
  };
}

/**
 * Score interval of a probability, without correction, two-sided.
 *
 *     (p + z²/2n ± z·√(p(1−p)/n + z²/4n²))/(1 + z²/n)                                      (6)
 *
 * @throws {DomainError} for counts or a confidence out of range
 * @source Wilson, J. Amer. Statist. Assoc. 22 (1927) 209
 * @verified distributions.test.ts: published/binomial-intervals (digits as printed)
 */
export function wilson(hits: number, of: number, confidence: number): ShareInterval {
  requireCounts(hits, of, confidence);
  const z = normalQuantile(0.5 + confidence / 2);
  const p = hits / of;
  const centre = p + (z * z) / (2 * of);
  const half = z * Math.sqrt((p * (1 - p)) / of + (z * z) / (4 * of * of));
  const scale = 1 + (z * z) / of;
  return {
    lower: hits === 0 ? 0 : (centre - half) / scale,
    upper: hits === of ? 1 : (centre + half) / scale,
  };
}

/**
 * Exact one-sided lower bound of a probability: what trials demonstrate.
 *
 *     I_lower(k, n−k+1) = 1 − c;   0 when k = 0                                            (15)
 *
 * @param hits        k
 * @param of          n
 * @param confidence  c, one-sided, e.g. 0.95
 * @throws {DomainError} for counts or a confidence out of range
 * @source Clopper and Pearson, Biometrika 26 (1934) 404, one side
 * @verified distributions.test.ts: published/binomial-intervals (digits as printed)
 */
export function lowerBound(hits: number, of: number, confidence: number): number {
  requireCounts(hits, of, confidence);
  return hits === 0 ? 0 : betaQuantile(1 - confidence, hits, of - hits + 1);
}

/**
 * Exact one-sided upper bound of a probability.
 *
 *     I_upper(k+1, n−k) = c;   1 when k = n                                                (16)
 *
 * @throws {DomainError} for counts or a confidence out of range
 * @source Clopper and Pearson, Biometrika 26 (1934) 404, one side
 * @verified distributions.test.ts: published/binomial-intervals, published/rule-of-three
 */
export function upperBound(hits: number, of: number, confidence: number): number {
  requireCounts(hits, of, confidence);
  return hits === of ? 1 : betaQuantile(confidence, hits + 1, of - hits);
}
