import { DomainError } from "../../math/errors.ts";
import { requirePositive } from "../../math/require.ts";
import type { AirLoad, AirloadModel, AirState, Controls } from "../airloads/types.ts";
import { STANDARD_GRAVITY } from "../bodies/index.ts";

/** The hooked pair as its balance needs it: level flight, wings level, jack held at its length. SI and radians. */
export interface StaticsSettings {
  readonly airloads: AirloadModel;
  /** [kg] */
  readonly mass: number;
  /** Probe tip from the c.g., body axes [m]. */
  readonly probe: readonly [number, number, number];
  readonly density: number;
  readonly soundSpeed: number;
  readonly thrust: number;
  readonly boom: {
    readonly length: number;
    /** Static tangential stiffness at the tip, bending and accumulator in series [N/m]; Infinity: rigid. */
    readonly stiffness: number;
    /** Boom angle without load on the tip [rad]: what the jack is set to. */
    readonly unloadedAngleDown: number;
    readonly ownMass: number;
    readonly ownCentre: number;
  };
}

/** Residuals and loads of one state; all zero residuals are a balance. */
export interface StaticState {
  /** Moment on the aircraft about the probe over weight times length of the boom [1]. */
  moment: number;
  /** Load that the boom has too much, towards a larger angle, over the weight [1]. */
  boom: number;
  /** Support load over the weight [1]. */
  weightShare: number;
  /** Force on the aircraft by the tip, forward and down [N]. */
  forward: number;
  down: number;
}

/**
 * Balance of the hooked pair with the jack at its length.
 *
 *     forces:  f = −(X_air, Z_air + W)                                                    (README eq. 1)
 *     pitch:   M_air + p×Rᵀf = 0                                                          (README eq. 2)
 *     boom:    k·L·(Γ − Γ_u) = −(f_x·sin Γ + f_z·cos Γ) + m_b·(c_b/L)·g·cos Γ             (README eq. 3)
 */
export class HookedStatics {
  readonly settings: StaticsSettings;
  readonly weight: number;
  private readonly load: AirLoad = { load: new Float64Array(6), perAcceleration: new Float64Array(36) };
  private readonly air: AirState;
  private readonly controls: Controls;

  /** @throws {DomainError} for a mass, length, stiffness or density that is not positive */
  constructor(settings: StaticsSettings) {
    requirePositive("mass", settings.mass);
    requirePositive("boom length", settings.boom.length);
    requirePositive("air density", settings.density);
    if (!(settings.boom.stiffness > 0)) {
      throw new DomainError("static tangential stiffness", settings.boom.stiffness, "greater than 0");
    }
    this.settings = settings;
    this.weight = settings.mass * STANDARD_GRAVITY;
    const { density, soundSpeed, thrust } = settings;
    this.air = { u: 0, v: 0, w: 0, p: 0, q: 0, r: 0, density, soundSpeed };
    this.controls = { elevator: 0, aileron: 0, rudder: 0, thrust };
  }

  /**
   * Residuals and loads at a true airspeed, angle of attack, elevator and boom angle.
   *
   * @param speed     true airspeed [m/s]
   * @param alpha     angle of attack, in level flight the pitch angle [rad]
   * @param elevator  trailing edge down [rad]
   * @param angleDown Γ [rad]
   * @param out       written
   * @source own derivation, README eq. 1–3
   * @verified equilibrium.test.ts: rest of the equations of motion (1e-5 m/s²), trim, analytic/torsion-divergence
   */
  at(speed: number, alpha: number, elevator: number, angleDown: number, out: StaticState): void {
    const { airloads, probe, boom } = this.settings;
    const { air, controls, load, weight } = this;
    const [c, s] = [Math.cos(alpha), Math.sin(alpha)];
    air.u = speed * c;
    air.w = speed * s;
    controls.elevator = elevator;
    airloads.evaluate(air, controls, load);
    const [X, , Z, , M] = load.load;
    const forward = -(X * c + Z * s);
    const down = -(-X * s + Z * c) - weight;
    const bx = c * forward - s * down;
    const bz = s * forward + c * down;
    out.forward = forward;
    out.down = down;
    out.weightShare = -down / weight;
    out.moment = (M + probe[2] * bx - probe[0] * bz) / (weight * boom.length);
    const [sinG, cosG] = [Math.sin(angleDown), Math.cos(angleDown)];
    const own = ((boom.ownMass * boom.ownCentre) / boom.length) * STANDARD_GRAVITY * cosG;
    const tangential = -(forward * sinG + down * cosG) + own;
    const spring = boom.length * (angleDown - boom.unloadedAngleDown);
    // a rigid boom stays where the jack holds it
    out.boom = boom.stiffness === Infinity ? -spring / boom.length : (tangential - boom.stiffness * spring) / weight;
  }
}

/** A state to write into. */
export function staticState(): StaticState {
  return { moment: 0, boom: 0, weightShare: 0, forward: 0, down: 0 };
}
