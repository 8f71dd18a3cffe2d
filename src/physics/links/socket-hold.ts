import { DomainError } from "../../math/errors.ts";
import type { LinkLoad, LinkPort, LinkSight } from "./types.ts";

/** What the socket does to the attitude of the aircraft on the boom. */
export interface SocketHoldSettings {
  /** Probe axis, unit vector in body axes. */
  readonly probeAxis: readonly [number, number, number];
  /** The same axis at trim in boom axes (`boomAxes`): where the socket centres it. */
  readonly socketAxis: readonly [number, number, number];
  /** Centring k_θ [N·m/rad], ≥ 0: moment per tilt between the two axes. */
  readonly centring: number;
  /** Viscous rate c_θ [N·m·s/rad], ≥ 0, against every relative rotation: damper, or equivalent rate of the friction. */
  readonly damping: number;
  /** Coulomb friction M_f [N·m], ≥ 0, with the rate ω_s [rad/s], > 0, below which it fades; absent in a linear model. */
  readonly friction?: { readonly moment: number; readonly fadeRate: number };
}

/**
 * Axes of the boom at a tip place: e_ℓ, e_Γ, e_λ as columns, in carrier axes.
 *
 * @param d   tip from hinge, carrier axes [m], shape (3)
 * @param out row-major, shape (9), written
 */
export function boomAxes(d: Float64Array, out: Float64Array): void {
  const rho = Math.sqrt(d[0] * d[0] + d[2] * d[2]);
  const ell = Math.sqrt(rho * rho + d[1] * d[1]);
  const side = d[1] / ell;
  out[0] = d[0] / ell;
  out[3] = side;
  out[6] = d[2] / ell;
  out[1] = d[2] / rho;
  out[4] = 0;
  out[7] = -d[0] / rho;
  out[2] = (-side * d[0]) / rho;
  out[5] = rho / ell;
  out[8] = (-side * d[2]) / rho;
}

/**
 * Viscous rate that takes as much energy per cycle as Coulomb friction does in a harmonic rotation.
 *
 *     c = 4·M_f/(π·Ω·Θ)                                              (README eq. 6)
 *
 * @param moment    M_f [N·m], ≥ 0
 * @param amplitude Θ [rad], > 0
 * @param frequency Ω [rad/s], > 0
 * @throws {DomainError} for an argument outside its range
 * @source own derivation, README eq. 6
 * @verified links.test.ts (work of the friction over a cycle by quadrature)
 */
export function equivalentFrictionRate(moment: number, amplitude: number, frequency: number): number {
  if (!(moment >= 0)) throw new DomainError("friction moment", moment, "at least 0");
  if (!(amplitude > 0)) throw new DomainError("amplitude of the friction", amplitude, "greater than 0");
  if (!(frequency > 0)) throw new DomainError("frequency of the friction", frequency, "greater than 0");
  return (4 * moment) / (Math.PI * frequency * amplitude);
}

/**
 * Socket that centres the probe axis and resists turning: a moment on the aircraft, its reaction on the boom.
 *
 *     M = k_θ·θ·(n×s)/|n×s| − c_θ·ω_rel − M_f·ω_rel/√(ω_rel² + ω_s²)      (README eq. 4, 5)
 *
 * n is the probe axis, s the axis of the socket, θ the angle between them, ω_rel the rate of the aircraft seen from the boom,
 * which turns with its swing and lateral angle. Turning about the probe axis is resisted, not centred.
 */
export class SocketHold implements LinkPort {
  readonly settings: SocketHoldSettings;
  private readonly axes = new Float64Array(9);
  private readonly n = new Float64Array(3);
  private readonly s = new Float64Array(3);
  private readonly w = new Float64Array(3);
  private readonly M = new Float64Array(3);

  /** @throws {DomainError} for a negative stiffness, rate or friction, or a fade rate that is not positive */
  constructor(settings: SocketHoldSettings) {
    const { centring, damping, friction } = settings;
    const parts = { centring, damping, friction: friction?.moment ?? 0 };
    for (const [name, value] of Object.entries(parts)) {
      if (!(value >= 0 && Number.isFinite(value))) {
        throw new DomainError(`socket ${name}`, value, "a finite number, at least 0");
      }
    }
    if (friction !== undefined && !(friction.fadeRate > 0)) {
      throw new DomainError("fade rate of the socket friction", friction.fadeRate, "greater than 0");
    }
    this.settings = settings;
  }

  /**
   * Adds the moment on the aircraft and the tip force that its reaction on the boom amounts to.
   *
   * @source own derivation, README eq. 4–5
   * @verified links.test.ts (potential by differences, work of friction); attached-pair.test.ts (limits)
   * @cost no allocation
   */
  add(sight: LinkSight, load: LinkLoad): void {
    const { axes: U, n, s, w, M } = this;
    const { centring, damping, friction } = this.settings;
    this.look(sight);
    const d = sight.tip;
    const v = sight.tipVelocity;
    const rho2 = d[0] * d[0] + d[2] * d[2];
    const ell = Math.sqrt(rho2 + d[1] * d[1]);
    const swingRate = (d[2] * v[0] - d[0] * v[2]) / rho2;
    const sideRate = (U[2] * v[0] + U[5] * v[1] + U[8] * v[2]) / ell;
    // the boom turns with swing about the lateral axis and with the lateral angle about −e_Γ
    w[0] += sideRate * U[1];
    w[1] += sideRate * U[4] - swingRate;
    w[2] += sideRate * U[7];
    const cx = n[1] * s[2] - n[2] * s[1];
    const cy = n[2] * s[0] - n[0] * s[2];
    const cz = n[0] * s[1] - n[1] * s[0];
    const sine = Math.sqrt(cx * cx + cy * cy + cz * cz);
    const cosine = n[0] * s[0] + n[1] * s[1] + n[2] * s[2];
    const perSine = sine > 1e-12 ? Math.atan2(sine, cosine) / sine : 1;
    let rate = damping;
    if (friction !== undefined) {
      const size2 = w[0] * w[0] + w[1] * w[1] + w[2] * w[2];
      rate += friction.moment / Math.sqrt(size2 + friction.fadeRate * friction.fadeRate);
    }
    M[0] = centring * perSine * cx - rate * w[0];
    M[1] = centring * perSine * cy - rate * w[1];
    M[2] = centring * perSine * cz - rate * w[2];
    const C = sight.carrier.rotation;
    const R = sight.rotation;
    const hx = C[0] * M[0] + C[1] * M[1] + C[2] * M[2];
    const hy = C[3] * M[0] + C[4] * M[1] + C[5] * M[2];
    const hz = C[6] * M[0] + C[7] * M[1] + C[8] * M[2];
    for (let i = 0; i < 3; i++) load.m_onV_aboutVcm_V[i] += R[i] * hx + R[3 + i] * hy + R[6 + i] * hz;
    // −M on the boom: its swing takes −M_y, its lateral angle M·e_Γ
    const bySwing = -M[1];
    const bySide = M[0] * U[1] + M[1] * U[4] + M[2] * U[7];
    load.f_onTip[0] += (bySwing * d[2]) / rho2 + (bySide * U[2]) / ell;
    load.f_onTip[1] += (bySide * U[5]) / ell;
    load.f_onTip[2] += (-bySwing * d[0]) / rho2 + (bySide * U[8]) / ell;
  }

  energy(sight: LinkSight): number {
    this.look(sight);
    const { n, s } = this;
    const sine = Math.hypot(n[1] * s[2] - n[2] * s[1], n[2] * s[0] - n[0] * s[2], n[0] * s[1] - n[1] * s[0]);
    const tilt = Math.atan2(sine, n[0] * s[0] + n[1] * s[1] + n[2] * s[2]);
    return 0.5 * this.settings.centring * tilt * tilt;
  }

  /** Centring as two springs: tilt of the probe axis seen from the boom, about two axes across it. */
  springs(sight: LinkSight): { readonly stiffness: number; readonly slope: Float64Array }[] {
    this.look(sight);
    const { n, axes: U } = this;
    const C = sight.carrier.rotation;
    const R = sight.rotation;
    const d = sight.tip;
    const rho2 = d[0] * d[0] + d[2] * d[2];
    const ell = Math.sqrt(rho2 + d[1] * d[1]);
    // any direction across the probe axis, and the one across both
    const helper = Math.abs(n[1]) < 0.7 ? [0, 1, 0] : [1, 0, 0];
    const across = helper.map((value, k) => value - (helper[0] * n[0] + helper[1] * n[1] + helper[2] * n[2]) * n[k]);
    const size = Math.hypot(...across);
    const t = across.map((value) => value / size);
    const b = [n[1] * t[2] - n[2] * t[1], n[2] * t[0] - n[0] * t[2], n[0] * t[1] - n[1] * t[0]];
    return [t, b].map((axis) => {
      const slope = new Float64Array(9);
      const h = [0, 1, 2].map((i) => C[3 * i] * axis[0] + C[3 * i + 1] * axis[1] + C[3 * i + 2] * axis[2]);
      for (let k = 0; k < 3; k++) slope[3 + k] = R[k] * h[0] + R[3 + k] * h[1] + R[6 + k] * h[2];
      const side = axis[0] * U[1] + axis[1] * U[4] + axis[2] * U[7];
      const byTip = [
        (-axis[1] * d[2]) / rho2 + (side * U[2]) / ell,
        (side * U[5]) / ell,
        (axis[1] * d[0]) / rho2 + (side * U[8]) / ell,
      ];
      for (let i = 0; i < 3; i++) {
        slope[6 + i] = C[3 * i] * byTip[0] + C[3 * i + 1] * byTip[1] + C[3 * i + 2] * byTip[2];
      }
      return { stiffness: this.settings.centring, slope };
    });
  }

  /** Probe axis, socket axis and rate of the aircraft seen from the carrier, all in carrier axes. */
  private look(sight: LinkSight): void {
    const { n, s, w, axes: U } = this;
    const { probeAxis: a, socketAxis: b } = this.settings;
    const C = sight.carrier.rotation;
    const W = sight.carrier.angularVelocity;
    const R = sight.rotation;
    const q = sight.state;
    boomAxes(sight.tip, U);
    for (let k = 0; k < 3; k++) {
      let axis = 0;
      let rate = 0;
      for (let i = 0; i < 3; i++) {
        const r = 3 * i;
        axis += C[r + k] * (R[r] * a[0] + R[r + 1] * a[1] + R[r + 2] * a[2]);
        rate += C[r + k] * (R[r] * q[10] + R[r + 1] * q[11] + R[r + 2] * q[12] - W[i]);
      }
      n[k] = axis;
      w[k] = rate;
      s[k] = U[3 * k] * b[0] + U[3 * k + 1] * b[1] + U[3 * k + 2] * b[2];
    }
  }
}
