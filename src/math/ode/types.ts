/** Right-hand side of ẏ = f(t, y): reads `y`, shape (n), writes `out`, shape (n). It must not keep either array. */
export type Derivative = (t: number, y: Float64Array, out: Float64Array) => void;

/** A place in time to be found: where `value` changes sign. */
export interface EventSpec {
  /** Continuous function of time and state. */
  readonly value: (t: number, y: Float64Array) => number;
  /** Which change of sign counts, in the direction of integration. Default "either". */
  readonly direction?: "rising" | "falling" | "either";
  /** Whether the integration ends there. Default false. */
  readonly terminal?: boolean;
}

/** An event that was found. */
export interface EventHit {
  /** Index into `events`. */
  readonly event: number;
  readonly t: number;
  /** State there, from the interpolant, shape (n); the caller's to keep. */
  readonly y: Float64Array;
}

/** An accepted step, as `onStep` sees it; the object and its arrays are used again for the next one. */
export interface Step {
  /** Start and end of the step; the end is at a terminal event if one lies in it. */
  readonly from: number;
  readonly t: number;
  /** State at `t`, shape (n). */
  readonly y: Float64Array;
  /** Writes the state at any time from `from` to `t` into `out`; error of order four. */
  readonly interpolate: (time: number, out: Float64Array) => void;
}

export interface IntegrateOptions {
  readonly derivative: Derivative;
  /** State at `from`, shape (n); not changed. */
  readonly y0: ArrayLike<number>;
  readonly from: number;
  /** May lie before `from`. */
  readonly to: number;
  /** Wanted local error of each step: absolute + relative · |y|, in the root mean square over the components. */
  readonly relativeTolerance: number;
  /** One number for all, or one for each component, shape (n), in its unit. */
  readonly absoluteTolerance: number | ArrayLike<number>;
  /** Limit of attempted steps. */
  readonly maxSteps: number;
  /** Size of the first attempt; chosen from the derivatives when absent. */
  readonly initialStep?: number;
  /** No step is longer. An event that changes sign twice within a step is missed: bound the step where that matters. */
  readonly maximumStep?: number;
  /** Called after every accepted step. */
  readonly onStep?: (step: Step) => void;
  readonly events?: readonly EventSpec[];
}

/**
 * How an integration ended: at `to`, at a terminal event, or short of both. "not finite": the derivative is NaN or
 * infinite, however short the step. "step too small": the error cannot be held with a step above the rounding of t.
 */
export type IntegrationOutcome = "reached" | "event" | "too many steps" | "step too small" | "not finite";

export interface Integration {
  readonly outcome: IntegrationOutcome;
  /** Time that was reached. */
  readonly t: number;
  /** State there, shape (n); finite unless `y0` was not. */
  readonly y: Float64Array;
  /** Events in the order of integration; with "event", the last one is the terminal one. */
  readonly events: readonly EventHit[];
  readonly acceptedSteps: number;
  readonly rejectedSteps: number;
  /** Calls of `derivative`. */
  readonly evaluations: number;
  /** Step that would have been tried next, to go on from here; signed. */
  readonly nextStep: number;
}
