import type { Problem } from "./problem.ts";
import type { Provenance } from "./provenance.ts";

export type { Problem } from "./problem.ts";

export type Distribution = "normal" | "uniform" | "triangular" | "lognormal";

/** How far a value may be off, and in which sense. */
export interface Uncertainty {
  /** As written after the value, e.g. `± 6 % (1σ)`. */
  readonly text: string;
  /** What the stated figure is: one standard deviation, half of the central 95 % interval, or hard bounds. */
  readonly stated: "1σ" | "95 %" | "bounds";
  /** Stated figure in SI; relative figures are already multiplied by |value|. */
  readonly plusMinus: number;
  /** Stated figure as a share of the value when it was written in %. */
  readonly relative?: number;
  readonly distribution: Distribution;
  /** Standard deviation in SI. */
  readonly sigma: number;
  /** Half width in SI of a uniform or triangular distribution. */
  readonly halfWidth?: number;
  /** Standard deviation of the logarithm; the value is then the median. */
  readonly logSigma?: number;
}

/** One number of the pair: SI value, what was written, where it comes from. */
export interface Quantity {
  readonly type: "quantity";
  /** SI and radians; a dimensionless number as it is. */
  readonly si: number;
  /** As written. */
  readonly text: string;
  /** Unit as written; absent for a plain number. */
  readonly unit?: string;
  /** Path in the pair, e.g. `mechanism.boom.bending`. */
  readonly path: string;
  readonly uncertainty?: Uncertainty;
  readonly provenance: Provenance;
}

export type AirspeedKind = "CAS" | "EAS" | "TAS" | "Mach";

/** An airspeed with its kind: `si` is m/s for CAS, EAS and TAS, the plain number for Mach. */
export interface Airspeed {
  readonly type: "airspeed";
  readonly kind: AirspeedKind;
  readonly si: number;
  readonly text: string;
  readonly unit?: string;
  readonly path: string;
  readonly uncertainty?: Uncertainty;
  readonly provenance: Provenance;
}

export type Parsed<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly Problem[] };
