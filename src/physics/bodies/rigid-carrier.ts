import { luFactor, luSolve } from "../../math/dense/index.ts";
import { BugError, DomainError } from "../../math/errors.ts";
import { type DerivativeSet, derivativeModel } from "../airloads/index.ts";
import type { AirLoad, AirloadModel, AirState, Controls } from "../airloads/types.ts";
import { inertiaMatrix, type MassProperties } from "./mass-properties.ts";
import { type CarrierPort, carrierVectors, type Environment, emptySurroundings, STANDARD_GRAVITY } from "./ports.ts";

/** A carrier that moves as a rigid body; carrier axes, origin at its c.g., equal to H at trim. */
export interface RigidCarrierSettings {
  readonly mass: MassProperties;
  readonly airloads: AirloadModel;
  /** Held where they are at trim. */
  readonly controls: Controls;
  /** Air and gravity at the carrier's c.g. */
  readonly environment: Environment;
  /** Boom hinge from the c.g., carrier axes [m]. */
  readonly hinge: readonly [number, number, number];
  /** Load on the carrier by the boom at trim, in H: force [N], moment about the hinge [N·m]; shape (6). */
  readonly trimLoad: Float64Array;
}

/** Place of each state of `rigidCarrier` behind its offset. */
export const RIGID_CARRIER_STATES = { place: 0, attitude: 3, velocity: 6, rotation: 9, count: 12 } as const;

/**
 * Carrier that answers the hook load, gusts and its own motion as a rigid body with its airloads; everything rests in H at
 * the hook condition.
 *
 * States: c.g. from its trim place in H (3), roll, pitch and yaw against H (3), velocity in H (3), angular velocity in
 * carrier axes (3); shape (12).
 *
 *     m·a = m·g + R·(F(state) + F₀) + f,   I·ω̇ + ω×Iω = M(state) + M₀ + Rᵀm_h + h×Rᵀf          (README eq. 21)
 *
 * f, m_h: load by the boom at the hinge, h the hinge from the c.g. F₀ and M₀ hold in carrier axes what balances the trim:
 * thrust and what the controls add, both constant.                                             (README eq. 22)
 *
 * @throws {DomainError} for a mass or inertia that no body has
 * @source own derivation, README eq. 21–22
 * @verified rigid-carrier.test.ts (momentum, energy, limit of a large mass, turned frame; published/etkin-reid-747 as carrier)
 * @cost no allocation in `evaluate` and `derivative`
 */
export function rigidCarrier(settings: RigidCarrierSettings): CarrierPort {
  const { mass, hinge, trimLoad } = settings;
  const inertia = inertiaMatrix(mass);
  const vectors = carrierVectors();
  const { rotation: R, angularVelocity } = vectors;
  const load = new CarrierLoad(settings);
  const balance = load.balance(trimLoad);
  const [hx, hy, hz] = hinge;
  const A = new Float64Array(36);
  const b = new Float64Array(6);
  const pivots = new Int32Array(6);
  return {
    stateCount: RIGID_CARRIER_STATES.count,
    ...vectors,
    evaluate(state, offset) {
      writeRotation(state, offset + 3, R);
      const p = state[offset + 9];
      const q = state[offset + 10];
      const r = state[offset + 11];
      const sx = q * hz - r * hy;
      const sy = r * hx - p * hz;
      const sz = p * hy - q * hx;
      for (let i = 0; i < 3; i++) {
        const [a, c, e] = [R[3 * i], R[3 * i + 1], R[3 * i + 2]];
        angularVelocity[i] = a * p + c * q + e * r;
        vectors.hinge[i] = state[offset + i] + a * hx + c * hy + e * hz - hinge[i];
        vectors.hingeVelocity[i] = state[offset + 6 + i] + a * sx + c * sy + e * sz;
      }
    },
    derivative(state, offset, onHinge, out, time) {
      writeRotation(state, offset + 3, R);
      const { airLoad, gravity } = load.at(state, offset, R, time);
      const P = airLoad.perAcceleration;
      const p = state[offset + 9];
      const q = state[offset + 10];
      const r = state[offset + 11];
      // force at the hinge and moment about it, turned to carrier axes
      const fx = R[0] * onHinge[0] + R[3] * onHinge[1] + R[6] * onHinge[2];
      const fy = R[1] * onHinge[0] + R[4] * onHinge[1] + R[7] * onHinge[2];
      const fz = R[2] * onHinge[0] + R[5] * onHinge[1] + R[8] * onHinge[2];
      for (let i = 0; i < 3; i++) {
        const g = R[i] * gravity[0] + R[3 + i] * gravity[1] + R[6 + i] * gravity[2];
        b[i] = mass.mass * g + load.steady[i] + balance[i];
        b[3 + i] = load.steady[3 + i] + balance[3 + i];
        b[3 + i] += R[i] * onHinge[3] + R[3 + i] * onHinge[4] + R[6 + i] * onHinge[5];
      }
      b[0] += fx;
      b[1] += fy;
      b[2] += fz;
      const I = inertia;
      const gx = I[0] * p + I[1] * q + I[2] * r;
      const gy = I[3] * p + I[4] * q + I[5] * r;
      const gz = I[6] * p + I[7] * q + I[8] * r;
      b[3] += hy * fz - hz * fy - (q * gz - r * gy);
      b[4] += hz * fx - hx * fz - (r * gx - p * gz);
      b[5] += hx * fy - hy * fx - (p * gy - q * gx);
      for (let i = 0; i < 36; i++) A[i] = -P[i];
      for (let i = 0; i < 3; i++) {
        A[7 * i] += mass.mass;
        for (let k = 0; k < 3; k++) A[6 * (3 + i) + 3 + k] += I[3 * i + k];
      }
      if (!luFactor(A, 6, pivots)) throw new BugError("the carrier's equations of motion are singular");
      luSolve(A, 6, pivots, b);
      const cosRoll = Math.cos(state[offset + 3]);
      const sinRoll = Math.sin(state[offset + 3]);
      const turn = q * sinRoll + r * cosRoll;
      const cosPitch = Math.cos(state[offset + 4]);
      out[offset + 3] = p + turn * (Math.sin(state[offset + 4]) / cosPitch);
      out[offset + 4] = q * cosRoll - r * sinRoll;
      out[offset + 5] = turn / cosPitch;
      for (let i = 0; i < 3; i++) {
        out[offset + i] = state[offset + 6 + i];
        out[offset + 6 + i] = R[3 * i] * b[0] + R[3 * i + 1] * b[1] + R[3 * i + 2] * b[2];
        out[offset + 9 + i] = b[3 + i];
      }
    },
  };
}

/** Rotation carrier axes → H from roll, pitch, yaw at `at`, row-major. */
function writeRotation(state: Float64Array, at: number, R: Float64Array): void {
  const [cx, sx] = [Math.cos(state[at]), Math.sin(state[at])];
  const [cy, sy] = [Math.cos(state[at + 1]), Math.sin(state[at + 1])];
  const [cz, sz] = [Math.cos(state[at + 2]), Math.sin(state[at + 2])];
  R[0] = cy * cz;
  R[1] = sx * sy * cz - cx * sz;
  R[2] = cx * sy * cz + sx * sz;
  R[3] = cy * sz;
  R[4] = sx * sy * sz + cx * cz;
  R[5] = cx * sy * sz - sx * cz;
  R[6] = -sy;
  R[7] = sx * cy;
  R[8] = cx * cy;
}

/** Airload of the carrier in the air at its c.g. */
class CarrierLoad {
  readonly airLoad: AirLoad = { load: new Float64Array(6), perAcceleration: new Float64Array(36) };
  /** Part of the airload that does not follow the accelerations, carrier axes; shape (6). */
  readonly steady = new Float64Array(6);
  private readonly air: AirState = { u: 0, v: 0, w: 0, p: 0, q: 0, r: 0, density: 0, soundSpeed: 0 };
  private readonly around = emptySurroundings();
  private readonly place = new Float64Array(3);
  private readonly settings: RigidCarrierSettings;
  constructor(settings: RigidCarrierSettings) {
    this.settings = settings;
  }

  at(state: Float64Array, offset: number, R: Float64Array, time: number) {
    const { hinge, environment, airloads, controls } = this.settings;
    const { air, around, airLoad, steady } = this;
    for (let i = 0; i < 3; i++) this.place[i] = state[offset + i] - hinge[i];
    environment.evaluate(this.place, around, time);
    const { airVelocity: wind, airRotation: spin, airAcceleration: gust } = around;
    const x = state[offset + 6] - wind[0];
    const y = state[offset + 7] - wind[1];
    const z = state[offset + 8] - wind[2];
    air.u = R[0] * x + R[3] * y + R[6] * z;
    air.v = R[1] * x + R[4] * y + R[7] * z;
    air.w = R[2] * x + R[5] * y + R[8] * z;
    const p = state[offset + 9];
    const q = state[offset + 10];
    const r = state[offset + 11];
    air.p = p - (R[0] * spin[0] + R[3] * spin[1] + R[6] * spin[2]);
    air.q = q - (R[1] * spin[0] + R[4] * spin[1] + R[7] * spin[2]);
    air.r = r - (R[2] * spin[0] + R[5] * spin[1] + R[8] * spin[2]);
    air.density = around.density;
    air.soundSpeed = around.soundSpeed;
    airloads.evaluate(air, controls, airLoad);
    // (u̇, v̇, ẇ) = Rᵀ(a − a_air) − ω×V: what is not Rᵀa is known
    const cx = q * air.w - r * air.v + (R[0] * gust[0] + R[3] * gust[1] + R[6] * gust[2]);
    const cy = r * air.u - p * air.w + (R[1] * gust[0] + R[4] * gust[1] + R[7] * gust[2]);
    const cz = p * air.v - q * air.u + (R[2] * gust[0] + R[5] * gust[1] + R[8] * gust[2]);
    const P = airLoad.perAcceleration;
    for (let i = 0; i < 6; i++) {
      steady[i] = airLoad.load[i] - P[6 * i] * cx - P[6 * i + 1] * cy - P[6 * i + 2] * cz;
    }
    return { airLoad, gravity: around.gravity };
  }

  /** F₀ and M₀ in carrier axes: the negative sum of everything else at trim. */
  balance(trimLoad: Float64Array): Float64Array {
    const R = Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1);
    const { gravity } = this.at(new Float64Array(RIGID_CARRIER_STATES.count), 0, R, 0);
    const onCg = aboutCg(trimLoad, this.settings.hinge);
    const m = this.settings.mass.mass;
    return Float64Array.from(onCg, (hook, i) => -(hook + this.steady[i] + (i < 3 ? m * gravity[i] : 0)));
  }
}

/** Load at the hinge moved to the c.g.: force, moment + h×force. */
function aboutCg(load: Float64Array, [hx, hy, hz]: readonly [number, number, number]): Float64Array {
  const [fx, fy, fz, mx, my, mz] = load;
  return Float64Array.of(fx, fy, fz, mx + hy * fz - hz * fy, my + hz * fx - hx * fz, mz + hx * fy - hy * fx);
}

/**
 * Derivative set of the carrier with the lift and the pitching moment that balance level flight with the hook load; its
 * angles count from the trim, so that its stability axes are H.
 *
 *     C_L = (m·g + f_z)/(qS),   M_air + (m_h + h×f)_y = 0, thrust through the c.g.              (README eq. 23)
 *
 * @param set      derivatives about trim; `referenceAlpha`, `lift.atReference` and `pitch.atReference` are replaced
 * @param flight   mass [kg], density [kg/m³], trueAirspeed [m/s]
 * @param hinge    boom hinge from the c.g., carrier axes [m]
 * @param trimLoad load on the carrier by the boom at trim, in H; shape (6)
 * @throws {DomainError} for an airspeed, density or mass that is not positive
 * @source own derivation, README eq. 23
 * @verified rigid-carrier.test.ts (balance by hand)
 */
export function carrierAtTrim(
  set: DerivativeSet,
  flight: {
    readonly mass: number;
    readonly density: number;
    readonly trueAirspeed: number;
    readonly soundSpeed: number;
  },
  hinge: readonly [number, number, number],
  trimLoad: Float64Array,
): DerivativeSet {
  const { mass, density, trueAirspeed, soundSpeed } = flight;
  const pressureArea = 0.5 * density * trueAirspeed * trueAirspeed * set.area;
  if (!(pressureArea > 0)) throw new DomainError("dynamic pressure of the carrier", pressureArea, "greater than 0");
  if (!(mass > 0)) throw new DomainError("carrier mass", mass, "greater than 0");
  const lift = (mass * STANDARD_GRAVITY + trimLoad[2]) / pressureArea;
  const level = { ...set, referenceAlpha: 0, lift: { ...set.lift, atReference: lift } };
  const air = { u: trueAirspeed, v: 0, w: 0, p: 0, q: 0, r: 0, density, soundSpeed };
  const out: AirLoad = { load: new Float64Array(6), perAcceleration: new Float64Array(36) };
  const still = { ...level, pitch: { ...set.pitch, atReference: 0 } };
  derivativeModel(still).evaluate(air, { elevator: 0, aileron: 0, rudder: 0, thrust: 0 }, out);
  const missing = -(aboutCg(trimLoad, hinge)[4] + out.load[4]);
  return { ...level, pitch: { ...set.pitch, atReference: missing / (pressureArea * set.chord) } };
}
