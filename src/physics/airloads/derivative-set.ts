import { DomainError } from "../../math/errors.ts";

/** Axes of the moment coefficients and of the rates p̂, r̂ in them: stability axes turn about body y by the instantaneous α. */
export type MomentAxes = "stability" | "body";

/**
 * Axes of the side force C_Y.
 *
 * `"wind"`: along wind y, so that drag has a sideways part of its own and body y gets C_Y·cos β − C_D·sin β.
 * `"stability"`, `"body"`: along body y (the same line) *in total*: the drag's sideways part is already inside.
 * To first order the two agree when C_Yβ(body) = C_Yβ(wind) − C_D.
 */
export type SideForceAxes = "wind" | "stability" | "body";

/** A coefficient of the plane of symmetry: value at `referenceAlpha` with controls at zero, then derivatives [1/rad]. */
export interface PlaneDerivatives {
  readonly atReference: number;
  readonly alpha: number;
  /** Per q̂ = q·c/(2V). */
  readonly pitchRate: number;
  /** Per α̇̂ = α̇·c/(2V). */
  readonly alphaRate: number;
  readonly elevator: number;
}

/** Drag: parabolic in the quasi-steady lift coefficient (without its rate terms), or linear in α as published sets print it. */
export type DragLaw =
  | {
      readonly kind: "parabolic";
      /** C_D0. */
      readonly zeroLift: number;
      /** e in C_L²/(π·AR·e), AR = b²/S. */
      readonly efficiency: number;
      readonly elevator: number;
    }
  | { readonly kind: "linear"; readonly atReference: number; readonly alpha: number; readonly elevator: number };

/** A lateral coefficient: derivatives with β, p̂ = p·b/(2V), r̂ = r·b/(2V), aileron and rudder [1/rad]. */
export interface LateralDerivatives {
  readonly beta: number;
  readonly rollRate: number;
  readonly yawRate: number;
  readonly aileron: number;
  readonly rudder: number;
}

/** Coefficients of a moment without rates. */
export interface StillCoefficients {
  lift: number;
  drag: number;
  pitch: number;
  side: number;
  roll: number;
  yaw: number;
}

/** Derivatives with the rates, as in `PlaneDerivatives` and `LateralDerivatives`. */
export interface RateDerivatives {
  readonly lift: { readonly pitchRate: number; readonly alphaRate: number };
  readonly pitch: { readonly pitchRate: number; readonly alphaRate: number };
  readonly side: { readonly rollRate: number; readonly yawRate: number };
  readonly roll: { readonly rollRate: number; readonly yawRate: number };
  readonly yaw: { readonly rollRate: number; readonly yawRate: number };
}

/** A vector in body axes, x forward, y right, z down. */
export type BodyVector = readonly [x: number, y: number, z: number];

/** Nondimensional derivatives of one aircraft with everything that gives them a meaning. SI and radians. */
export interface DerivativeSet {
  /** Reference area [m²], span [m] and chord [m]. */
  readonly area: number;
  readonly span: number;
  readonly chord: number;
  readonly axes: { readonly moments: MomentAxes; readonly sideForce: SideForceAxes };
  /** Moment reference point from the c.g. [m], body axes; α, β, V, the rates' effect and the forces belong to it. */
  readonly referencePoint: BodyVector;
  /** α at which the `atReference` values hold [rad]. */
  readonly referenceAlpha: number;
  readonly lift: PlaneDerivatives;
  readonly drag: DragLaw;
  readonly pitch: PlaneDerivatives;
  readonly side: LateralDerivatives;
  readonly roll: LateralDerivatives;
  readonly yaw: LateralDerivatives;
  /** Direction of a positive thrust (any length but zero) and the point from the c.g. [m] where it acts, body axes. */
  readonly thrust: { readonly direction: BodyVector; readonly point: BodyVector };
}

function requireFinite(path: string, value: unknown): void {
  if (typeof value === "number") {
    if (!Number.isFinite(value)) throw new DomainError(path, value, "a finite number");
  } else if (typeof value === "object" && value !== null) {
    for (const [key, part] of Object.entries(value)) requireFinite(`${path}.${key}`, part);
  }
}

function requirePositive(path: string, value: number): void {
  if (!(value > 0)) throw new DomainError(path, value, "greater than 0");
}

/**
 * Checks that a derivative set can be evaluated.
 *
 * @throws {DomainError} if a number is not finite, a reference length or the span efficiency is not positive, or the
 * thrust has no direction; names the path
 * @source   own derivation, README "Validity"
 * @verified derivative-model.test.ts
 */
export function checkDerivativeSet(set: DerivativeSet): void {
  requireFinite("derivative set", set);
  requirePositive("derivative set.area [m²]", set.area);
  requirePositive("derivative set.span [m]", set.span);
  requirePositive("derivative set.chord [m]", set.chord);
  if (set.drag.kind === "parabolic") requirePositive("derivative set.drag.efficiency", set.drag.efficiency);
  requirePositive("length of derivative set.thrust.direction", Math.hypot(...set.thrust.direction));
}
