/** A curve given by n − 1 equations in n unknowns, inside a box. */
export interface CurveProblem {
  /** n, number of unknowns. */
  readonly size: number;
  /**
   * Writes the residuals, shape (n − 1), and their derivatives, shape (n − 1, n) row-major, at `u`, shape (n).
   * Returns false where it cannot be evaluated; the step is then shortened.
   */
  readonly evaluate: (u: Float64Array, residual: Float64Array, derivatives: Float64Array) => boolean;
  /** Box that the curve is followed in, shape (n) each. */
  readonly from: ArrayLike<number>;
  readonly to: ArrayLike<number>;
}

export interface TraceOptions {
  /** Largest distance of a chord from the curve between two points, in the length of u. */
  readonly deviation: number;
  /** First and longest step, in the length of u; defaults 0.02 and 0.5. */
  readonly firstStep?: number;
  readonly longestStep?: number;
  /** Last Newton step that counts as converged, in the length of u; default 1e-9. */
  readonly tolerance?: number;
  /** Default 4000. */
  readonly mostPoints?: number;
  /** Says of a start on the curve that its curve is known already: nothing is then followed. */
  readonly known?: (start: Float64Array) => boolean;
  /** Whether the curve is also found at the middle of every chord and held to the deviation there: for curves with corners. */
  readonly middles?: boolean;
}

/** How one end of a traced curve came about. */
export type CurveEnd = "border" | "closed" | "stuck" | "too many points";

export interface TracedCurve {
  /** Points in order, shape (n) each; a closed curve repeats its first point as its last. */
  readonly points: readonly Float64Array[];
  readonly closed: boolean;
  /** First and last end; both "closed" for a closed curve. */
  readonly ends: readonly [CurveEnd, CurveEnd];
}
