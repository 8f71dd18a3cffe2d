import { DomainError } from "../../math/errors.ts";
import type { ApproachTrim, OuterGains } from "./settings.ts";

/** Standard acceleration of free fall [m/s²], exact by definition (3rd CGPM, 1901). */
const GRAVITY = 9.80665;

/**
 * Outer loops: from the distance to the demanded point to pitch, bank and thrust.
 *
 *     u_i = v_d,i + clip(k_i·(e_i + k_I·∫e_i dt), ±u_max)                      along, across, down                 (README eq. 8)
 *     pitch  = α₀ + α_L·(V²/(V + v_x)² − 1) + γ_c + k_γ·(γ_c − γ),   γ_c = −u_z/V,  γ = −v_z/V                       (README eq. 9)
 *     bank   = k_vy·(u_y − v_y)/g,   thrust = T₀ + m·(a_d + k_vx·(u_x − v_x))                                      (README eq. 10)
 *
 * α_L is the angle of attack over that of no lift: a faster aircraft needs less of it. The integrals run inside `integralWithin` of the point and stop where a limit binds.
 *
 * @throws {DomainError} for gains that are negative or limits that are not positive
 * @source own derivation, README eq. 8–10
 * @verified guide.test.ts (signs, capture of the free aircraft from 5 m off, both speeds)
 * @cost no array and no object is made in `step`; numbers may be boxed (README)
 */
export class OuterLoop {
  /** Demands: pitch and bank [rad], thrust [N], turn rate that the bank gives [rad/s]. */
  pitch = 0;
  bank = 0;
  thrust = 0;
  readonly #gains: OuterGains;
  readonly #trim: ApproachTrim;
  readonly #least: number;
  readonly #most: number;
  readonly #sum = new Float64Array(3);
  readonly #placeThreshold: number;
  readonly #speedThreshold: number;

  constructor(
    gains: OuterGains,
    trim: ApproachTrim,
    limits: {
      readonly least: number;
      readonly most: number;
      readonly placeThreshold: number;
      readonly speedThreshold: number;
    },
  ) {
    for (const [what, value] of Object.entries(gains)) {
      const isLimit = what.startsWith("largest");
      if (!(isLimit ? value > 0 : value >= 0)) {
        throw new DomainError(`approach, outer loop, ${what}`, value, isLimit ? "greater than 0" : "0 or more");
      }
    }
    this.#gains = gains;
    this.#trim = trim;
    this.#least = limits.least;
    this.#most = limits.most;
    this.#placeThreshold = limits.placeThreshold;
    this.#speedThreshold = limits.speedThreshold;
  }

  restart(): void {
    this.#sum.fill(0);
  }

  /**
   * @param demand  point [m], velocity [m/s] and acceleration [m/s²]; @param seen  place [m] and velocity [m/s] by navigation; all from the aim, in H
   * @param tick    [s]; 0 holds the integrals
   */
  step(
    demand: { readonly point: Float64Array; readonly velocity: Float64Array; readonly acceleration: Float64Array },
    seen: { readonly place: Float64Array; readonly velocity: Float64Array },
    tick: number,
  ): void {
    const g = this.#gains;
    const { alpha, liftAlpha, thrust, mass, trueAirspeed: V } = this.#trim;
    const sum = this.#sum;
    // an error beyond its threshold is the error less what of it lies within; written out as plain arithmetic
    const near = this.#placeThreshold;
    const slow = this.#speedThreshold;
    const fast = g.largestSpeed;
    const dx = demand.point[0] - seen.place[0];
    const dy = demand.point[1] - seen.place[1];
    const dz = demand.point[2] - seen.place[2];
    const ex = dx - Math.max(-near, Math.min(near, dx));
    const ey = dy - Math.max(-near, Math.min(near, dy));
    const ez = dz - Math.max(-near, Math.min(near, dz));
    const ux = demand.velocity[0] + Math.max(-fast, Math.min(fast, g.forward * (ex + sum[0])));
    const uy = demand.velocity[1] + Math.max(-fast, Math.min(fast, g.lateral * (ey + sum[1])));
    const uz = demand.velocity[2] + Math.max(-fast, Math.min(fast, g.vertical * (ez + sum[2])));
    const vx = ux - seen.velocity[0];
    const vy = uy - seen.velocity[1];
    const vz = uz - seen.velocity[2];
    const wx = vx - Math.max(-slow, Math.min(slow, vx));
    const wy = vy - Math.max(-slow, Math.min(slow, vy));
    const wz = vz - Math.max(-slow, Math.min(slow, vz));
    const slowness = V / Math.max(0.5 * V, V + seen.velocity[0]);
    const pitch = liftAlpha * (slowness * slowness - 1) - (uz + g.path * wz) / V;
    const bank = (g.lateralSpeed * wy) / GRAVITY;
    const more = mass * (demand.acceleration[0] + g.forwardSpeed * wx);
    this.pitch = alpha + Math.max(-g.largestPitch, Math.min(g.largestPitch, pitch));
    this.bank = Math.max(-g.largestBank, Math.min(g.largestBank, bank));
    this.thrust = Math.min(this.#most, Math.max(this.#least, thrust + more));
    if (ex * ex + ey * ey + ez * ez > g.integralWithin * g.integralWithin) return;
    const rate = g.integral * tick;
    if (this.thrust === thrust + more) sum[0] += rate * ex;
    if (this.bank === bank) sum[1] += rate * ey;
    if (Math.abs(pitch) <= g.largestPitch) sum[2] += rate * ez;
  }
}
