/**
 * Right-hand side of ẏ = f(t, y; p): reads `y`, shape (n), writes `out`, shape (n), and keeps neither. A system that moves by itself
 * does not look at t.
 */
export type ParametricDerivative = (t: number, y: Float64Array, parameter: number, out: Float64Array) => void;

/** A system whose periodic motions are looked for. */
export interface PeriodicSystem {
  /** n, number of states. */
  readonly size: number;
  readonly derivative: ParametricDerivative;
  /**
   * Size of each state in the motion, above zero, in its unit, shape (n): what counts as small is measured by it, and differences
   * step by a small share of it.
   */
  readonly scales: ArrayLike<number>;
}

/**
 * A periodic motion as a Fourier sum: y(t) = C₀ + Σ C_k·cos kωt + S_k·sin kωt.
 */
export interface FourierMotion {
  readonly omega: number;
  readonly parameter: number;
  /** [C₀, C₁, S₁, C₂, S₂, …], shape (2H + 1, n), row-major. */
  readonly coefficients: Float64Array;
}

/** What is given and what is found. */
export type FourierTask =
  /** ω is that of the excitation. */
  | { readonly kind: "driven" }
  /** ω is found; the fundamental of state `measure` is a pure cosine. */
  | { readonly kind: "own frequency"; readonly measure: number }
  /** ω and the parameter are found for an amplitude of that cosine. */
  | { readonly kind: "of amplitude"; readonly measure: number; readonly amplitude: number };

export type FourierOutcome = "balanced" | "singular" | "no descent" | "too many iterations" | "not finite";

export interface FourierBalance extends FourierMotion {
  readonly outcome: FourierOutcome;
  readonly iterations: number;
}

/** A periodic motion as a point on it and the time after which it comes back. */
export interface ShotStart {
  readonly y0: ArrayLike<number>;
  readonly period: number;
  readonly parameter: number;
}

export interface ShotOptions {
  /** Whether the period is that of an excitation, and kept, or the system's own, and found. */
  readonly period: "driven" | "own";
  /** Of the integration; absolute ones are this share of the scales. */
  readonly tolerance: number;
  /** Limit of integration steps over a period. */
  readonly maxSteps: number;
  /** Default 12. */
  readonly maxIterations?: number;
}

export type OrbitOutcome = "closed" | "lost" | "singular" | "too many iterations";

export interface Orbit {
  /** "lost": the motion cannot be integrated over a period; no result but `outcome` may then be used. */
  readonly outcome: OrbitOutcome;
  readonly y0: Float64Array;
  readonly period: number;
  /** ∂y(T)/∂y(0), shape (n, n) row-major. */
  readonly monodromy: Float64Array;
  readonly multipliers: Multipliers;
  readonly iterations: number;
}

/** Floquet multipliers: eigenvalues of the monodromy matrix. */
export interface Multipliers {
  /** Real and imaginary parts, shape (n). */
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** Largest modulus; of an own motion without the one that belongs to the shift along it. */
  readonly largest: number;
  /** |multiplier − 1| of that shift, zero but for errors; 0 for a driven motion, which has none. */
  readonly shiftError: number;
}
