/** F and its derivatives with s and with the two parameters of a map, [re, im] each; see README eq. 3. */
export interface RootCondition {
  readonly value: Float64Array;
  readonly byRate: Float64Array;
  readonly byX: Float64Array;
  readonly byY: Float64Array;
}

/** A family of pairs over two parameters x and y of a map, in the map's own lengths (logarithms or scaled values). */
export interface RootProblem {
  /** Writes F(s; x, y) with its derivatives; false where it cannot be evaluated. */
  evaluate(sRe: number, sIm: number, x: number, y: number, out: RootCondition): boolean;
}

/** Part of a map in its own lengths. */
export interface MapWindow {
  readonly x: { readonly from: number; readonly to: number };
  readonly y: { readonly from: number; readonly to: number };
}

/** Which roots lie on a curve: a pair at a damping ratio ζ, or a real root at a growth rate σ [1/s]. */
export type Level =
  | { readonly kind: "oscillation"; readonly dampingRatio: number }
  | { readonly kind: "real root"; readonly growth: number };

/** A start of a curve; `frequency` is |s| [rad/s] and not used for a real root. */
export interface Seed {
  readonly frequency: number;
  readonly x: number;
  readonly y: number;
}

/** One connected piece along which a root of the pair lies at the level. */
export interface LevelCurve {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** |s| of the root at each point [rad/s]; |σ| for a real root. */
  readonly frequency: Float64Array;
  readonly closed: boolean;
  /** True when both ends lie on the border or the curve is closed: nothing stopped it. */
  readonly complete: boolean;
}
