import { DomainError } from "../../math/errors.ts";
import type { Dimension } from "./dimensions.ts";
import type { Linkage } from "./linkage.ts";
import type { Measure } from "./measures.ts";
import { sensitivity } from "./sensitivity.ts";
import type { Drive } from "./types.ts";

/** A dimension with its tolerance. */
export interface Toleranced extends Dimension {
  /** Half width of the band about nominal [m or rad], at least 0. */
  readonly tolerance: number;
  /**
   * "normal": the tolerance is three standard deviations; "uniform": every value of the band is as likely. Default normal.
   * Only sampling looks at it.
   */
  readonly spread?: "normal" | "uniform";
}

/** Standard deviations in a tolerance of normal spread (common practice, no source). */
export const STANDARD_DEVIATIONS = 3;

export interface Contributor {
  readonly dimension: string;
  /** Derivative of the measure [unit of measure per m or rad]. */
  readonly derivative: number;
  /** |derivative · tolerance|, unit of the measure. */
  readonly contribution: number;
  /** Share of the sum of squares [1]. */
  readonly shareOfSquares: number;
  /** Share of the worst case [1]. */
  readonly shareOfWorst: number;
}

export interface MeasureStack {
  /** Σ|s t|: every dimension at the end of its band that hurts. */
  readonly worstCase: number;
  /** √Σ(s t)²: of the same confidence as the tolerances if the dimensions deviate independently. */
  readonly rootSumSquare: number;
  /** Largest share first; equal shares in the order given. */
  readonly contributors: readonly Contributor[];
}

export interface ToleranceStack {
  /** One for each measure. */
  readonly measures: readonly MeasureStack[];
  /** Largest gap that redundant joints must take up, Σ|gap·t| [m]; 0 when every deviation closes. */
  readonly gap: number;
}

/**
 * Linear tolerance stack of measures at a pose.
 *
 *     worst = Σ|sᵢ tᵢ|,   rss = √Σ(sᵢ tᵢ)²                                       (README eq. 16, 17)
 *
 * @param linkage     the linkage
 * @param state       a closed state, shape (bodies, 7)
 * @param drives      that hold the pose
 * @param dimensions  with tolerances [m or rad]
 * @param measures    what is asked
 * @throws {DomainError} if a tolerance is below zero or not finite, or a name is unknown
 * @source definitions; derivatives by README eq. 15
 * @verified stack.test.ts: closed forms of a jack triangle, sampling
 */
export function toleranceStack(
  linkage: Linkage,
  state: Float64Array,
  drives: readonly Drive[],
  dimensions: readonly Toleranced[],
  measures: readonly Measure[],
): ToleranceStack {
  requireTolerances(dimensions);
  const { matrix, gaps } = sensitivity(linkage, state, drives, dimensions, measures);
  const stacks = measures.map((_, m): MeasureStack => {
    const derivatives = dimensions.map((_unused, d) => matrix[m * dimensions.length + d]);
    const contributions = dimensions.map(({ tolerance }, d) => Math.abs(derivatives[d] * tolerance));
    const worstCase = contributions.reduce((sum, value) => sum + value, 0);
    const squares = contributions.reduce((sum, value) => sum + value * value, 0);
    const contributors = dimensions.map(({ name }, d) => ({
      dimension: name,
      derivative: derivatives[d],
      contribution: contributions[d],
      shareOfSquares: squares > 0 ? (contributions[d] * contributions[d]) / squares : 0,
      shareOfWorst: worstCase > 0 ? contributions[d] / worstCase : 0,
    }));
    contributors.sort((a, b) => b.contribution - a.contribution);
    return { worstCase, rootSumSquare: Math.sqrt(squares), contributors };
  });
  const gap = dimensions.reduce((sum, { tolerance }, d) => sum + gaps[d] * tolerance, 0);
  return { measures: stacks, gap };
}

export function requireTolerances(dimensions: readonly Toleranced[]): void {
  for (const { name, tolerance } of dimensions) {
    if (!(tolerance >= 0 && tolerance < Number.POSITIVE_INFINITY)) {
      throw new DomainError(`tolerance of ${name}`, tolerance, "a finite number, at least 0");
    }
  }
}
