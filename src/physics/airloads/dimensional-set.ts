import { DomainError } from "../../math/errors.ts";
import type { BodyVector } from "./derivative-set.ts";

/**
 * Accelerations per motion in the plane of symmetry, in the body axes of the set: force by mass, moment by I_yy.
 * Reports print few of the parts with u̇, ẇ and q: `normalToFlow` supplies the others.
 */
export interface LongitudinalAccelerations {
  /** u [1/s], w [1/s], u̇ [1], ẇ [1], q [m/s], elevator [m/s²]. */
  readonly Xu: number;
  readonly Xw: number;
  readonly Xudot: number;
  readonly Xwdot: number;
  readonly Xq: number;
  readonly Xelevator: number;
  /** As for X. */
  readonly Zu: number;
  readonly Zw: number;
  readonly Zudot: number;
  readonly Zwdot: number;
  readonly Zq: number;
  readonly Zelevator: number;
  /** u [1/(m·s)], w [1/(m·s)], u̇ [1/m], ẇ [1/m], q [1/s], elevator [1/s²]. */
  readonly Mu: number;
  readonly Mw: number;
  readonly Mudot: number;
  readonly Mwdot: number;
  readonly Mq: number;
  readonly Melevator: number;
}

/**
 * Lateral accelerations per motion, in the body axes of the set.
 *
 * `primed`: the products of inertia are already inside: p, r accelerations are Σ L′·x and Σ N′·x as they stand.
 * `plain`: moments divided by I_xx and I_zz.
 */
export interface LateralAccelerations {
  readonly moments: "primed" | "plain";
  /** [1/s] [m/s per rad/s] [m/s per rad/s] [m/s² per rad] [m/s² per rad]. */
  readonly Yv: number;
  readonly Yp: number;
  readonly Yr: number;
  readonly Yaileron: number;
  readonly Yrudder: number;
  /** [1/s²] [1/s] [1/s] [1/s²] [1/s²], per rad of β or deflection, per rad/s. */
  readonly Lbeta: number;
  readonly Lp: number;
  readonly Lr: number;
  readonly Laileron: number;
  readonly Lrudder: number;
  readonly Nbeta: number;
  readonly Np: number;
  readonly Nr: number;
  readonly Naileron: number;
  readonly Nrudder: number;
}

/** A linear model about one steady, wings-level flight condition. SI and radians. */
export interface DimensionalSet {
  /** Mass [kg] and inertia about the c.g. [kg·m²]; Ixz = ∫xz dm. */
  readonly mass: number;
  readonly Ixx: number;
  readonly Iyy: number;
  readonly Izz: number;
  readonly Ixz: number;
  readonly trim: {
    /** True airspeed [m/s], angle of attack of the set's x axis [rad], its pitch angle above the horizon [rad]. */
    readonly speed: number;
    readonly alpha: number;
    readonly pitch: number;
    /** Gravity that the trim load balances [m/s²]. */
    readonly gravity: number;
  };
  readonly longitudinal: LongitudinalAccelerations;
  readonly lateral: LateralAccelerations;
  /** `controls.thrust` above this value [N] acts along `direction` at `point` from the c.g. [m]. */
  readonly thrust: { readonly trim: number; readonly direction: BodyVector; readonly point: BodyVector };
}

/**
 * Completes printed body-axis derivatives by the parts that reports leave out of their tables.
 *
 * α̇ = (ẇ·cos α − u̇·sin α)/V, and the lift due to α̇ or q stands normal to the flow, so printed Z_ẇ, M_ẇ and Z_q imply
 *
 *     Z_u̇ = −Z_ẇ·tan α, M_u̇ = −M_ẇ·tan α, X_ẇ = −Z_ẇ·tan α, X_u̇ = Z_ẇ·tan² α, X_q = −Z_q·tan α          (12)
 *
 * Small numbers, but at α of a few degrees they are worth a tenth of the phugoid's damping.
 *
 * @param printed  derivatives in body axes; its own X_q, X_u̇, X_ẇ, Z_u̇, M_u̇ are not read
 * @param alpha    trim angle of attack of the set's x axis [rad], within ±90°
 * @throws {DomainError} if α is not within ±90°
 * @source   own derivation, README eq. 12
 * @verified published/nasa-cr-2144-b747 (phugoid ζ of ten conditions within the rounding of the printed derivatives)
 */
export function normalToFlow(
  printed: Omit<LongitudinalAccelerations, "Xudot" | "Xwdot" | "Xq" | "Zudot" | "Mudot">,
  alpha: number,
): LongitudinalAccelerations {
  if (!(Math.abs(alpha) < Math.PI / 2)) throw new DomainError("trim angle of attack [rad]", alpha, "within ±π/2");
  const tan = Math.tan(alpha);
  return {
    ...printed,
    Xudot: printed.Zwdot * tan * tan,
    Xwdot: -printed.Zwdot * tan,
    Xq: -printed.Zq * tan,
    Zudot: -printed.Zwdot * tan,
    Mudot: -printed.Mwdot * tan,
  };
}

/**
 * Moments per unit motion from primed derivatives, about the set's x and z axes.
 *
 *     [L]   [ I_xx  −I_xz] [L′]
 *     [N] = [−I_xz   I_zz] [N′]                                             (11)
 *
 * which is L′ = (L/I_xx + (I_xz/I_xx)·N/I_zz)/(1 − I_xz²/(I_xx·I_zz)), and the like for N′, solved for L and N.
 *
 * @returns moments L, N [N·m per unit]
 * @source   own derivation, README eq. 11
 * @verified dimensional-model.test.ts (solves back); published/nasa-cr-2144-b747 (free modes)
 */
export function momentsFromPrimed(
  inertia: { readonly Ixx: number; readonly Izz: number; readonly Ixz: number },
  rollPrimed: number,
  yawPrimed: number,
): { roll: number; yaw: number } {
  return {
    roll: inertia.Ixx * rollPrimed - inertia.Ixz * yawPrimed,
    yaw: inertia.Izz * yawPrimed - inertia.Ixz * rollPrimed,
  };
}

/**
 * Checks that a dimensional set can be evaluated.
 *
 * @throws {DomainError} if a number is not finite, mass, speed or a moment of inertia is not positive, I_xz² ≥ I_xx·I_zz,
 * or the thrust has no direction
 * @source   own derivation, README "Validity"
 * @verified dimensional-model.test.ts
 */
export function checkDimensionalSet(set: DimensionalSet): void {
  const { mass, Ixx, Iyy, Izz, Ixz, trim, longitudinal, lateral, thrust } = set;
  const numbers = { mass, Ixx, Iyy, Izz, Ixz, ...trim, ...longitudinal, ...lateral, trimThrust: thrust.trim };
  for (const [name, value] of Object.entries(numbers)) {
    if (typeof value === "number" && !Number.isFinite(value)) {
      throw new DomainError(`dimensional set, ${name}`, value, "a finite number");
    }
  }
  for (const [name, value] of Object.entries({ mass, Ixx, Iyy, Izz, speed: trim.speed })) {
    if (!(value > 0)) throw new DomainError(`dimensional set, ${name}`, value, "greater than 0");
  }
  if (!(Ixz * Ixz < Ixx * Izz)) throw new DomainError("dimensional set, Ixz", Ixz, "Ixz² below Ixx·Izz");
  const direction = Math.hypot(...thrust.direction);
  if (!(direction > 0) || !Number.isFinite(direction + Math.hypot(...thrust.point))) {
    throw new DomainError("dimensional set, thrust direction", thrust.direction, "a finite vector that is not zero");
  }
}
