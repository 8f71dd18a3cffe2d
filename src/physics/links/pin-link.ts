import { DomainError } from "../../math/errors.ts";
import { beyond, type DeadBand, deadBandForce, requireDeadBand } from "./dead-band.ts";
import type { LinkLoad, LinkPort, LinkSight } from "./types.ts";

/** A leg of the yoke: from a hinge on the carrier to a pin on the aircraft. */
export interface PinLinkSettings {
  /** Pin from the c.g., body axes [m]. */
  readonly pin: readonly [number, number, number];
  /** Root from the boom hinge, carrier axes [m]. */
  readonly root: readonly [number, number, number];
  /** Length without load [m], > 0. */
  readonly restLength: number;
  /** Pin right of the root without load [m]. */
  readonly restLateral: number;
  readonly along: DeadBand;
  readonly lateral: DeadBand;
}

/**
 * Leg that holds a pin along its length and sideways, and swings freely about its lateral hinge.
 *
 *     T = F(ℓ − ℓ₀),  Y = F(y − y₀),  f_onV = −T·e_ℓ − Y·e_y                  (README eq. 3)
 *
 * ℓ is the distance root to pin, y how far the pin stands to the right of the root, e_y the carrier's lateral axis. Both follow
 * from a potential, so that leg and pin without dampers keep energy in any motion. The carrier takes the reaction at the root.
 */
export class PinLink implements LinkPort {
  readonly settings: PinLinkSettings;
  /** After the last `add`: tension T and load on the leg to the right Y [N]. */
  tension = 0;
  lateralLoad = 0;
  /** After the last `add`: travel from the unloaded pin, along and to the right [m]. */
  readonly travel = new Float64Array(2);
  private readonly d = new Float64Array(3);
  private readonly v = new Float64Array(3);
  private readonly arm = new Float64Array(3);
  private readonly base = new Float64Array(3);
  private length = 0;

  /** @throws {DomainError} for a rest length that is not positive, or a negative stiffness, damping or clearance */
  constructor(settings: PinLinkSettings) {
    if (!(settings.restLength > 0)) throw new DomainError("length of a leg", settings.restLength, "greater than 0");
    requireDeadBand("leg along its length", settings.along);
    requireDeadBand("leg sideways", settings.lateral);
    this.settings = settings;
  }

  /**
   * Adds the force of the leg on the aircraft and its reaction on the carrier.
   *
   * @source own derivation, README eq. 3
   * @verified links.test.ts (potential by differences, reaction, closed-form frequencies of a pinned body)
   * @cost no allocation
   */
  add(sight: LinkSight, load: LinkLoad): void {
    const { d, v, arm, base } = this;
    this.look(sight);
    const C = sight.carrier.rotation;
    const [ex, ey, ez] = d;
    const rate = ex * v[0] + ey * v[1] + ez * v[2];
    const sideRate = C[1] * v[0] + C[4] * v[1] + C[7] * v[2];
    const T = deadBandForce(this.settings.along, this.travel[0], rate);
    const Y = deadBandForce(this.settings.lateral, this.travel[1], sideRate);
    this.tension = T;
    this.lateralLoad = Y;
    const fx = -T * ex - Y * C[1];
    const fy = -T * ey - Y * C[4];
    const fz = -T * ez - Y * C[7];
    load.f_onV_H[0] += fx;
    load.f_onV_H[1] += fy;
    load.f_onV_H[2] += fz;
    const R = sight.rotation;
    const bx = R[0] * fx + R[3] * fy + R[6] * fz;
    const by = R[1] * fx + R[4] * fy + R[7] * fz;
    const bz = R[2] * fx + R[5] * fy + R[8] * fz;
    const p = this.settings.pin;
    load.m_onV_aboutVcm_V[0] += p[1] * bz - p[2] * by;
    load.m_onV_aboutVcm_V[1] += p[2] * bx - p[0] * bz;
    load.m_onV_aboutVcm_V[2] += p[0] * by - p[1] * bx;
    load.f_onCarrier_H[0] -= fx;
    load.f_onCarrier_H[1] -= fy;
    load.f_onCarrier_H[2] -= fz;
    // the lateral force acts at the pin, the tension along the leg: one moment for both, taken at the pin
    const ax = base[0] + arm[0];
    const ay = base[1] + arm[1];
    const az = base[2] + arm[2];
    load.m_onCarrier_aboutHo_H[0] -= ay * fz - az * fy;
    load.m_onCarrier_aboutHo_H[1] -= az * fx - ax * fz;
    load.m_onCarrier_aboutHo_H[2] -= ax * fy - ay * fx;
  }

  energy(sight: LinkSight): number {
    this.look(sight);
    const { along, lateral } = this.settings;
    const [a, b] = [beyond(this.travel[0], along.clearance), beyond(this.travel[1], lateral.clearance)];
    return 0.5 * along.stiffness * a * a + 0.5 * lateral.stiffness * b * b;
  }

  springs(sight: LinkSight): { readonly stiffness: number; readonly slope: Float64Array }[] {
    this.look(sight);
    const C = sight.carrier.rotation;
    const R = sight.rotation;
    const p = this.settings.pin;
    const axes = [
      [this.d[0], this.d[1], this.d[2]],
      [C[1], C[4], C[7]],
    ];
    return axes.map((e, k) => {
      const b = [0, 1, 2].map((j) => R[j] * e[0] + R[3 + j] * e[1] + R[6 + j] * e[2]);
      const slope = new Float64Array(9);
      slope.set(e);
      slope.set([p[1] * b[2] - p[2] * b[1], p[2] * b[0] - p[0] * b[2], p[0] * b[1] - p[1] * b[0]], 3);
      return { stiffness: (k === 0 ? this.settings.along : this.settings.lateral).stiffness, slope };
    });
  }

  /** Unit vector root to pin in `d`, velocity of the pin seen from the carrier in `v`, both in H; travel. */
  private look(sight: LinkSight): void {
    const { state, rotation: R, carrier } = sight;
    const { pin: p, root, restLength, restLateral } = this.settings;
    const { d, v, arm, base } = this;
    const C = carrier.rotation;
    const W = carrier.angularVelocity;
    const wx = state[11] * p[2] - state[12] * p[1];
    const wy = state[12] * p[0] - state[10] * p[2];
    const wz = state[10] * p[1] - state[11] * p[0];
    for (let i = 0; i < 3; i++) {
      base[i] = C[3 * i] * root[0] + C[3 * i + 1] * root[1] + C[3 * i + 2] * root[2];
      arm[i] = state[i] + R[3 * i] * p[0] + R[3 * i + 1] * p[1] + R[3 * i + 2] * p[2] - carrier.hinge[i] - base[i];
      v[i] = state[7 + i] + R[3 * i] * wx + R[3 * i + 1] * wy + R[3 * i + 2] * wz - carrier.hingeVelocity[i];
    }
    const [ax, ay, az] = [base[0] + arm[0], base[1] + arm[1], base[2] + arm[2]];
    v[0] -= W[1] * az - W[2] * ay;
    v[1] -= W[2] * ax - W[0] * az;
    v[2] -= W[0] * ay - W[1] * ax;
    this.length = Math.sqrt(arm[0] * arm[0] + arm[1] * arm[1] + arm[2] * arm[2]);
    for (let i = 0; i < 3; i++) d[i] = arm[i] / this.length;
    this.travel[0] = this.length - restLength;
    this.travel[1] = C[1] * arm[0] + C[4] * arm[1] + C[7] * arm[2] - restLateral;
  }
}
