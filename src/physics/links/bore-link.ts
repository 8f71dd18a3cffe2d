import { requireNotNegative, requirePositive } from "../../math/require.ts";
import { boomAxes } from "./socket-hold.ts";
import type { LinkLoad, LinkPort, LinkSight } from "./types.ts";

/** Bore of the socket that holds the probe's tip sideways, with hooks that hold it along the axis until they are drawn back. */
export interface BoreLinkSettings {
  /** Probe tip from the c.g., body axes [m]. */
  readonly probe: readonly [number, number, number];
  /** Axis of the bore, out of the socket, boom axes (`boomAxes`), unit vector. */
  readonly axis: readonly [number, number, number];
  /** Travel along the axis after which the probe is out of the bore [m]. */
  readonly depth: number;
  /** Hooks and seat along the axis, and the bore across it [N/m], [N·s/m]. */
  readonly axial: number;
  readonly axialDamping: number;
  readonly lateral: number;
  readonly lateralDamping: number;
  /** Coefficient of friction between probe and bore, friction of the seals [N], speed below which both fade [m/s]. */
  readonly friction: number;
  readonly sealFriction: number;
  readonly creepSpeed: number;
  /** Force on the boom by the probe with the probe's tip on the boom's tip [N], carrier axes. */
  readonly preload: readonly [number, number, number];
}

/**
 * Probe in the bore of the socket: held across the axis; along it by hooks and seat, after release by the seat alone.
 *
 *     L = L₀ + k_l·r_l + c_l·ṙ_l,   T = T₀ + k_a·s + c_a·ṡ, after release min(0, T)              (README eq. 8)
 *     F_f = −(μ·|L| + F_s)·ṡ/√(ṡ² + v_c²) after release,   f_onV = −L − T·a + F_f·a                            (README eq. 9)
 *
 * r is the probe tip from the boom tip, s = r·a its travel out of the bore, r_l the rest. The reaction acts on the boom where the
 * probe is: a force at the boom's tip and the moment r×f. `engaged` false: the probe is out, nothing acts.
 */
export class BoreLink implements LinkPort {
  readonly settings: BoreLinkSettings;
  /** Hooks closed behind the probe. */
  hooked = true;
  /** Probe within the bore; whoever integrates clears it when `travel` passes the depth, or when the probe is cut. */
  engaged = true;
  /** After the last `add`: s [m], ṡ [m/s], |L| [N], T [N] and friction [N] along the axis. */
  travel = 0;
  rate = 0;
  sideLoad = 0;
  pull = 0;
  frictionForce = 0;
  private readonly axes = new Float64Array(9);
  private readonly a = new Float64Array(3);
  private readonly r = new Float64Array(3);
  private readonly v = new Float64Array(3);
  private readonly f = new Float64Array(3);
  private readonly m = new Float64Array(3);
  private readonly pull0: number;
  private readonly side0: Float64Array;

  /**
   * @param tip boom tip from the hinge at which the preload holds, carrier axes [m]
   * @throws {DomainError} for a negative stiffness, damping or friction, or a depth or creep speed that is not positive
   */
  constructor(settings: BoreLinkSettings, tip: ArrayLike<number>) {
    requirePositive("depth of the bore", settings.depth);
    requirePositive("creep speed of the bore", settings.creepSpeed);
    for (const key of [
      ...(["axial", "axialDamping", "lateral", "lateralDamping", "friction", "sealFriction"] as const),
    ]) {
      requireNotNegative(`bore, ${key}`, settings[key]);
    }
    this.settings = settings;
    boomAxes(Float64Array.from(tip), this.axes);
    this.turnAxis();
    const { preload: L } = settings;
    this.pull0 = L[0] * this.a[0] + L[1] * this.a[1] + L[2] * this.a[2];
    // kept in boom axes, with which it turns
    const U = this.axes;
    this.side0 = Float64Array.from({ length: 3 }, (_, k) =>
      [0, 1, 2].reduce((sum, i) => sum + U[3 * i + k] * (L[i] - this.pull0 * this.a[i]), 0),
    );
  }

  private turnAxis(): void {
    const U = this.axes;
    const b = this.settings.axis;
    for (let i = 0; i < 3; i++) this.a[i] = U[3 * i] * b[0] + U[3 * i + 1] * b[1] + U[3 * i + 2] * b[2];
  }

  /** Place and speed of the probe tip from the boom tip, carrier axes, and the axis as the boom stands. */
  private look(sight: LinkSight): void {
    const { state, rotation: R, carrier, tip, tipVelocity } = sight;
    const p = this.settings.probe;
    const C = carrier.rotation;
    const W = carrier.angularVelocity;
    boomAxes(tip, this.axes);
    this.turnAxis();
    const wx = state[11] * p[2] - state[12] * p[1];
    const wy = state[12] * p[0] - state[10] * p[2];
    const wz = state[10] * p[1] - state[11] * p[0];
    const { f, m } = this;
    for (let i = 0; i < 3; i++) {
      f[i] = state[i] + R[3 * i] * p[0] + R[3 * i + 1] * p[1] + R[3 * i + 2] * p[2] - carrier.hinge[i];
      m[i] = state[7 + i] + R[3 * i] * wx + R[3 * i + 1] * wy + R[3 * i + 2] * wz - carrier.hingeVelocity[i];
    }
    const vx = m[0] - (W[1] * f[2] - W[2] * f[1]);
    const vy = m[1] - (W[2] * f[0] - W[0] * f[2]);
    const vz = m[2] - (W[0] * f[1] - W[1] * f[0]);
    for (let k = 0; k < 3; k++) {
      this.r[k] = C[k] * f[0] + C[3 + k] * f[1] + C[6 + k] * f[2] - tip[k];
      this.v[k] = C[k] * vx + C[3 + k] * vy + C[6 + k] * vz - tipVelocity[k];
    }
    const { r, v, a } = this;
    this.travel = r[0] * a[0] + r[1] * a[1] + r[2] * a[2];
    this.rate = v[0] * a[0] + v[1] * a[1] + v[2] * a[2];
  }

  /**
   * Adds the force on the aircraft at the probe's tip and its reaction on the boom.
   *
   * @source own derivation, README eq. 8–9
   * @verified bore-link.test.ts (rest at the preload, potential by differences, work of friction, withdrawal in closed form)
   * @cost no allocation
   */
  add(sight: LinkSight, load: LinkLoad): void {
    this.look(sight);
    if (!this.engaged) {
      this.sideLoad = 0;
      this.pull = 0;
      this.frictionForce = 0;
      return;
    }
    const { settings: k, a, r, v, f, m, axes: U, side0 } = this;
    const s = this.travel;
    const rate = this.rate;
    let side = 0;
    for (let i = 0; i < 3; i++) {
      const rest = U[3 * i] * side0[0] + U[3 * i + 1] * side0[1] + U[3 * i + 2] * side0[2];
      f[i] = rest + k.lateral * (r[i] - s * a[i]) + k.lateralDamping * (v[i] - rate * a[i]);
      side += f[i] * f[i];
    }
    side = Math.sqrt(side);
    const held = this.pull0 + k.axial * s + k.axialDamping * rate;
    const pull = this.hooked ? held : Math.min(0, held);
    // what hooks hold does not slide
    const friction = this.hooked
      ? 0
      : (-(k.friction * side + k.sealFriction) * rate) / Math.sqrt(rate * rate + k.creepSpeed ** 2);
    this.sideLoad = side;
    this.pull = pull;
    this.frictionForce = friction;
    // force on the boom by the probe, carrier axes
    for (let i = 0; i < 3; i++) f[i] += (pull - friction) * a[i];
    m[0] = r[1] * f[2] - r[2] * f[1];
    m[1] = r[2] * f[0] - r[0] * f[2];
    m[2] = r[0] * f[1] - r[1] * f[0];
    addToTip(sight.tip, U, f, m, load.f_onTip);
    const C = sight.carrier.rotation;
    const R = sight.rotation;
    const p = k.probe;
    const hx = -(C[0] * f[0] + C[1] * f[1] + C[2] * f[2]);
    const hy = -(C[3] * f[0] + C[4] * f[1] + C[5] * f[2]);
    const hz = -(C[6] * f[0] + C[7] * f[1] + C[8] * f[2]);
    load.f_onV_H[0] += hx;
    load.f_onV_H[1] += hy;
    load.f_onV_H[2] += hz;
    // of what links put on the tip only a couple passes straight to the hinge; this force the tip itself takes (README eq. 7)
    load.f_onCarrier_H[0] -= hx;
    load.f_onCarrier_H[1] -= hy;
    load.f_onCarrier_H[2] -= hz;
    const bx = R[0] * hx + R[3] * hy + R[6] * hz;
    const by = R[1] * hx + R[4] * hy + R[7] * hz;
    const bz = R[2] * hx + R[5] * hy + R[8] * hz;
    load.m_onV_aboutVcm_V[0] += p[1] * bz - p[2] * by;
    load.m_onV_aboutVcm_V[1] += p[2] * bx - p[0] * bz;
    load.m_onV_aboutVcm_V[2] += p[0] * by - p[1] * bx;
  }

  /** Strain energy of the springs beyond the preload [J]. */
  energy(sight: LinkSight): number {
    this.look(sight);
    if (!this.engaged) return 0;
    const { settings: k, a, r, travel: s, axes: U, side0 } = this;
    let sum = 0;
    for (let i = 0; i < 3; i++) {
      const lateral = r[i] - s * a[i];
      const rest = U[3 * i] * side0[0] + U[3 * i + 1] * side0[1] + U[3 * i + 2] * side0[2];
      sum += rest * lateral + 0.5 * k.lateral * lateral * lateral;
    }
    const held = this.pull0 * s + 0.5 * k.axial * s * s;
    return this.hooked || this.pull0 + k.axial * s < 0 ? sum + held : sum;
  }

  /** Springs along the axis and across it, as travel per coordinate. */
  springs(sight: LinkSight): { readonly stiffness: number; readonly slope: Float64Array }[] {
    this.look(sight);
    const C = sight.carrier.rotation;
    const R = sight.rotation;
    const p = this.settings.probe;
    const { a, axes: U } = this;
    const helper = Math.abs(a[1]) < 0.7 ? [0, 1, 0] : [U[0], U[3], U[6]];
    const part = helper[0] * a[0] + helper[1] * a[1] + helper[2] * a[2];
    const across = helper.map((value, i) => value - part * a[i]);
    const size = Math.hypot(...across);
    const t = across.map((value) => value / size);
    const n = [a[1] * t[2] - a[2] * t[1], a[2] * t[0] - a[0] * t[2], a[0] * t[1] - a[1] * t[0]];
    return [Array.from(a), t, n].map((axis, which) => {
      const h = [0, 1, 2].map((i) => C[3 * i] * axis[0] + C[3 * i + 1] * axis[1] + C[3 * i + 2] * axis[2]);
      const b = [0, 1, 2].map((j) => R[j] * h[0] + R[3 + j] * h[1] + R[6 + j] * h[2]);
      const slope = new Float64Array(9);
      slope.set(h);
      slope.set([p[1] * b[2] - p[2] * b[1], p[2] * b[0] - p[0] * b[2], p[0] * b[1] - p[1] * b[0]], 3);
      slope.set(
        h.map((value) => -value),
        6,
      );
      return { stiffness: which === 0 ? this.settings.axial : this.settings.lateral, slope };
    });
  }
}

/**
 * Force on the boom at its tip and a moment on the boom there, as a force at the tip alone: the boom turns with swing and
 * lateral angle, which take the moment's shares Q/ℓ.
 *
 * @param d   tip from hinge, carrier axes
 * @param U   `boomAxes` there
 * @param f   force [N], @param m moment [N·m], carrier axes
 * @param out added to
 */
function addToTip(d: Float64Array, U: Float64Array, f: Float64Array, m: Float64Array, out: Float64Array): void {
  const rho2 = d[0] * d[0] + d[2] * d[2];
  const ell = Math.sqrt(rho2 + d[1] * d[1]);
  const bySwing = m[1];
  const bySide = -(m[0] * U[1] + m[1] * U[4] + m[2] * U[7]);
  out[0] += f[0] + (bySwing * d[2]) / rho2 + (bySide * U[2]) / ell;
  out[1] += f[1] + (bySide * U[5]) / ell;
  out[2] += f[2] - (bySwing * d[0]) / rho2 + (bySide * U[8]) / ell;
}
