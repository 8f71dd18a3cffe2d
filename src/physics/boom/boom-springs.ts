import { BugError, DomainError } from "../../math/errors.ts";
import {
  createTangentialPath,
  NonlinearPath,
  type NonlinearSnubber,
  type TangentialPath,
  type TangentialRates,
} from "../snubber/index.ts";

/** Where the boom is at trim. */
export interface BoomGeometry {
  /** Nominal length L from hinge to tip [m]: the arm that turns tip stiffness into hinge stiffness. */
  readonly length: number;
  /** Boom angle under load Γ*, below the carrier's x axis, positive down [rad]. */
  readonly angleDown: number;
}

/** Static load carried by the boom at trim: what the aircraft (and the boom's own weight) puts on the tip. */
export interface BoomPreload {
  /** Along the boom, away from the hinge positive: tension [N]. */
  readonly tension: number;
  /** Normal to the boom in the swing plane, towards a larger angle positive [N]. */
  readonly tangential: number;
  /** To the right positive [N]; 0 for a symmetric pair. */
  readonly lateral: number;
}

export interface BoomSpringsSettings {
  readonly geometry: BoomGeometry;
  readonly preload: BoomPreload;
  /** Axial and lateral stiffness at the tip [N/m] and their structural damping [N·s/m]. */
  readonly axial: number;
  readonly axialDamping: number;
  readonly lateral: number;
  readonly lateralDamping: number;
  readonly tangential: TangentialRates;
  /** Force law of the snubber with free play, at the tip, in place of the rate in `tangential`; absent: linear. */
  readonly nonlinear?: NonlinearSnubber;
  /** Mass of the boom [kg] and distance of its centre from the hinge [m]; 0 when not declared. */
  readonly ownMass: number;
  readonly ownCentre: number;
  /**
   * The travel across the snubber is a coordinate with inertia: its rate is a state of the equations of motion (README eq. 7).
   * Default: it has none and follows from the balance of forces.
   */
  readonly inertialTravel?: boolean;
}

/**
 * Elastic boom between a hinge on the carrier and its tip, exact for any motion of the tip.
 *
 * The tip is described in polar coordinates about the hinge: length ℓ, swing angle Γ (down from −x in the
 * carrier's x–z plane) and lateral angle λ. Their generalised forces are
 *
 *     Q_ℓ = −(T* + k_r·(ℓ − L) + c_r·ℓ̇)
 *     Q_Γ = −L·(F* + F_path),  F_path from the tangential path with x = L·(Γ − Γ*)
 *     Q_λ = −L·(Y* + L·(k_y·λ + c_y·λ̇))                                               (README eq. 1–3)
 *
 * and the force on the tip is f_onTip_byBoom = Q_ℓ·∇ℓ + Q_Γ·∇Γ + Q_λ·∇λ, plus the boom's own weight. Because
 * the preload T*, F*, Y* turns with the boom, the geometric stiffness (tension over length) is part of it.
 * All vectors are in carrier axes (x forward, y right, z down), from the hinge.
 */
export class BoomSprings {
  readonly settings: BoomSpringsSettings;
  readonly path: TangentialPath;
  /** The path with its force law, where the settings give one. */
  readonly nonlinear: NonlinearPath | null;
  /** 1 when the tangential path has a state of its own (travel across the snubber), else 0. */
  readonly stateCount: 0 | 1;
  /** Results of the last `evaluate`: force on the tip [N] and rate of the snubber travel [m/s]. */
  readonly force = new Float64Array(3);
  snubberRate = 0;
  /** Force of the boom against a larger angle at the last `evaluate`, preload and path: F* + F_path [N]. */
  tangentialForce = 0;
  /** Extra moment about the hinge, towards a larger angle positive [N·m]: a port for tests and fast sweeps. */
  extraMoment = 0;
  /** Force on a travel with inertia at the last `evaluate`, in its positive sense [N]. */
  travelForce = 0;
  /** Extra force on it [N]: a port as `extraMoment`. */
  extraTravelForce = 0;

  constructor(settings: BoomSpringsSettings) {
    const { geometry } = settings;
    if (!(geometry.length > 0)) throw new DomainError("boom length", geometry.length, "greater than 0");
    for (const key of ["axial", "axialDamping", "lateral", "lateralDamping", "ownMass", "ownCentre"] as const) {
      if (!(settings[key] >= 0 && Number.isFinite(settings[key]))) {
        throw new DomainError(`boom ${key}`, settings[key], "a finite number, at least 0");
      }
    }
    this.settings = settings;
    this.path = createTangentialPath(settings.tangential);
    const { nonlinear, tangential, preload } = settings;
    const inertial = settings.inertialTravel === true;
    if (nonlinear !== undefined && inertial)
      throw new BugError("a nonlinear snubber needs a jack travel without inertia");
    this.nonlinear = nonlinear === undefined ? null : new NonlinearPath(tangential, nonlinear, preload.tangential);
    this.stateCount = inertial || this.nonlinear !== null || this.path.kind === "relaxing" ? 1 : 0;
  }

  /** Tip position at trim from the hinge [m], carrier axes: L·(−cos Γ*, 0, sin Γ*). */
  tipAtTrim(): [number, number, number] {
    const { length, angleDown } = this.settings.geometry;
    return [-length * Math.cos(angleDown), 0, length * Math.sin(angleDown)];
  }

  /**
   * Force on the tip by the boom and rate of the snubber travel.
   *
   * @param d   tip from hinge [m], shape (3), carrier axes
   * @param v   velocity of the tip relative to the carrier [m/s], shape (3), carrier axes
   * @param g   gravity in carrier axes [m/s²], shape (3)
   * @param snubberTravel s [m]; ignored when the path has no state
   * @param snubberRate   ṡ [m/s]; ignored unless the travel has inertia
   * The tip must not lie on the lateral axis through the hinge, where the swing angle is undefined (the force is NaN
   * there and an integration ends with the outcome "not finite").
   *
   * @cost no allocation; results in `force`, `snubberRate` and `tangentialForce`
   * @source own derivation, README eq. 1–4
   * @verified boom-springs.test.ts (potential by differences, tension over length, power balance);
   *           boom-pendulum.test.ts against analytic/pendulum (period within 1e-5, order one in 1/k_r)
   */
  evaluate(d: Float64Array, v: Float64Array, g: Float64Array, snubberTravel: number, snubberRate = 0): void {
    const s = this.settings;
    const L = s.geometry.length;
    const dx = d[0];
    const dy = d[1];
    const dz = d[2];
    const rho2 = dx * dx + dz * dz;
    const rho = Math.sqrt(rho2);
    const ell2 = rho2 + dy * dy;
    const ell = Math.sqrt(ell2);
    // gradients of ℓ, Γ and λ with respect to d
    const ex = dx / ell;
    const ey = dy / ell;
    const ez = dz / ell;
    const gx = dz / rho2;
    const gz = -dx / rho2;
    const lx = (-dy * dx) / (rho * ell2);
    const ly = rho / ell2;
    const lz = (-dy * dz) / (rho * ell2);
    const ellRate = ex * v[0] + ey * v[1] + ez * v[2];
    const swingRate = gx * v[0] + gz * v[2];
    const lateralRate = lx * v[0] + ly * v[1] + lz * v[2];

    const qAxial = -(s.preload.tension + s.axial * (ell - L) + s.axialDamping * ellRate);
    const x = L * (Math.atan2(dz, -dx) - s.geometry.angleDown);
    const tangential = s.preload.tangential + this.pathForce(x, L * swingRate, snubberTravel, snubberRate);
    this.tangentialForce = tangential;
    const qSwing = -L * tangential + this.extraMoment;
    const qLateral = -L * (s.preload.lateral + L * (s.lateral * Math.atan2(dy, rho) + s.lateralDamping * lateralRate));
    const f = this.force;
    f[0] = qAxial * ex + qSwing * gx + qLateral * lx;
    f[1] = qAxial * ey + qLateral * ly;
    f[2] = qAxial * ez + qSwing * gz + qLateral * lz;
    if (s.ownMass > 0) {
      // own weight m·g at a fixed share of the boom: only its part normal to the boom reaches the tip
      const share = (s.ownMass * s.ownCentre) / ell;
      const along = g[0] * ex + g[1] * ey + g[2] * ez;
      f[0] += share * (g[0] - along * ex);
      f[1] += share * (g[1] - along * ey);
      f[2] += share * (g[2] - along * ez);
    }
  }

  private pathForce(x: number, rate: number, travel: number, travelRate: number): number {
    if (this.settings.inertialTravel === true) {
      const { bending, bendingDamping, accumulator, snubber } = this.settings.tangential;
      const bent = bending * (x - travel) + bendingDamping * (rate - travelRate);
      this.snubberRate = travelRate;
      this.travelForce = bent - accumulator * travel - snubber * travelRate + this.extraTravelForce;
      return bent;
    }
    const { nonlinear, path } = this;
    if (nonlinear !== null) {
      nonlinear.evaluate(x, rate, travel);
      this.snubberRate = nonlinear.travelRate;
      return nonlinear.force;
    }
    if (path.kind === "elastic") {
      this.snubberRate = 0;
      return path.stiffness * x + path.damping * rate;
    }
    const { bending, bendingDamping, accumulator, snubber } = path.rates;
    this.snubberRate =
      (bending * (x - travel) + bendingDamping * rate - accumulator * travel) / (snubber + bendingDamping);
    return accumulator * travel + snubber * this.snubberRate;
  }
}
