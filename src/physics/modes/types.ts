/** Motions that share the kinetic energy of a mode, in the order of `MOTIONS`. */
export const MOTIONS = ["surge", "sway", "heave", "roll", "pitch", "yaw", "boom tip", "boom bending"] as const;
export type Motion = (typeof MOTIONS)[number];

/** Motions of a carrier that is not steady, after those of the pair. */
export const CARRIER_MOTIONS = [
  "carrier surge",
  "carrier sway",
  "carrier heave",
  "carrier roll",
  "carrier pitch",
  "carrier yaw",
] as const;

/** Springs of the boom that share the strain energy, in the order of `SPRINGS`. */
export const SPRINGS = ["axial", "lateral", "bending", "accumulator", "boom motions"] as const;
export type Spring = (typeof SPRINGS)[number];

export type ModeClass = "rigid-body-type" | "structural";
export type ModePlane = "longitudinal" | "lateral";

/** One root (or conjugate pair, imaginary part ≥ 0) of the pair with what moves in it. */
export interface PairMode {
  readonly real: number;
  readonly imag: number;
  readonly class: ModeClass;
  readonly plane: ModePlane;
  /** Shares of the kinetic energy by motion, adding up to 1; shape (8). */
  readonly motion: Float64Array;
  /** Shares of the strain energy by spring, adding up to 1 with `linkStrain`, or all 0 without strain; shape (5). */
  /** Shares of the kinetic energy by motion, adding up to 1, with those of `carrier` where it moves; shape (7). */
  /** Shares of the carrier's own motions, where the energy model has a carrier; shape (6). */
  readonly carrier?: Float64Array;
  /** Shares of the strain energy by spring, adding up to 1, or all 0 without strain; shape (4). */
  readonly strain: Float64Array;
  /** Strain energy over kinetic energy, at most 1: how much of the restoring is the boom's. */
  readonly strainShare: number;
  /** Share of the strain energy in links besides the boom's springs, where the energy model has any. */
  readonly linkStrain?: number;
  /** Kinetic-energy-weighted shape, [re, im] for each energy coordinate; unit length. For correlation. */
  readonly shape: Float64Array;
}
