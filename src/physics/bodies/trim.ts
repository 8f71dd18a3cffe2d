import { luFactor, luSolve } from "../../math/dense/index.ts";
import { DomainError } from "../../math/errors.ts";
import type { AirLoad, AirloadModel, AirState, Controls } from "../airloads/types.ts";
import { type CarrierFlow, STANDARD_GRAVITY } from "./ports.ts";

/** Air and flight state that a trim is asked for; level flight, wings level, no sideslip. */
export interface TrimFlight {
  readonly airloads: AirloadModel;
  /** [kg] */
  readonly mass: number;
  /** [m/s] */
  readonly trueAirspeed: number;
  /** [kg/m³] */
  readonly density: number;
  /** [m/s] */
  readonly soundSpeed: number;
  /** Air that the carrier moves, read where a tip is given. */
  readonly flow?: CarrierFlow | undefined;
}

export interface FreeTrim {
  readonly outcome: "trimmed" | "no trim";
  /** Angle of attack = pitch angle in level flight [rad]. */
  readonly alpha: number;
  readonly controls: Controls;
}

export interface HookedTrim extends FreeTrim {
  /** Force on the aircraft by the tip, in H (x forward, z down) [N], shape (3). */
  readonly f_onV_byTip_H: readonly [number, number, number];
}

/** Place of the boom tip aft of and below its hinge [m]. */
interface TipPlace {
  readonly aft: number;
  readonly below: number;
}

const ITERATIONS = 40;
/** Angle of attack and deflections beyond which a balance is no trim: derivatives mean nothing there [rad]. */
const LARGEST_ALPHA = Math.PI / 4;
const LARGEST_DEFLECTION = Math.PI / 3;

export function isReachable(alpha: number, controls: Controls): boolean {
  const { elevator, aileron, rudder } = controls;
  const largest = Math.max(Math.abs(elevator), Math.abs(aileron), Math.abs(rudder));
  return Math.abs(alpha) < LARGEST_ALPHA && largest < LARGEST_DEFLECTION;
}

/** Evaluates the steady airload at an angle of attack and returns it in H (rotated by the pitch angle) and body. */
export class SteadyLoad {
  readonly load: AirLoad = { load: new Float64Array(6), perAcceleration: new Float64Array(36) };
  private readonly flight: TrimFlight;
  private readonly air: AirState;
  private readonly hook: { readonly probe: readonly [number, number, number]; readonly tip?: TipPlace } | undefined;
  constructor(flight: TrimFlight, hook?: SteadyLoad["hook"]) {
    this.flight = flight;
    this.hook = hook;
    this.air = { u: 0, v: 0, w: 0, p: 0, q: 0, r: 0, density: flight.density, soundSpeed: flight.soundSpeed };
  }
  private readonly moved = new Float64Array(3);
  /** Takes off the velocity of the air that the carrier moves, turned from H by the pitch angle. */
  private addFlow(flow: CarrierFlow, below: number, alpha: number): void {
    flow.evaluate(below, this.moved);
    const [x, y, z] = this.moved;
    this.air.u -= x * Math.cos(alpha) - z * Math.sin(alpha);
    this.air.v = -y;
    this.air.w -= x * Math.sin(alpha) + z * Math.cos(alpha);
  }
  /** [forward, right, down force in H; L, M, N in body axes] */
  at(alpha: number, controls: Controls, out: Float64Array): void {
    this.air.u = this.flight.trueAirspeed * Math.cos(alpha);
    this.air.w = this.flight.trueAirspeed * Math.sin(alpha);
    if (this.hook?.tip !== undefined) {
      // the c.g. is where the probe tip is, less the probe's arm turned by the pitch angle
      const [px, , pz] = this.hook.probe;
      this.air.aft = this.hook.tip.aft + px * Math.cos(alpha) + pz * Math.sin(alpha);
      this.air.below = this.hook.tip.below + px * Math.sin(alpha) - pz * Math.cos(alpha);
      if (this.flight.flow !== undefined) this.addFlow(this.flight.flow, this.air.below, alpha);
    }
    this.flight.airloads.evaluate(this.air, controls, this.load);
    const f = this.load.load;
    out[0] = f[0] * Math.cos(alpha) + f[2] * Math.sin(alpha);
    out[1] = f[1];
    out[2] = -f[0] * Math.sin(alpha) + f[2] * Math.cos(alpha);
    for (let i = 3; i < 6; i++) out[i] = f[i];
  }
}

/** Newton iteration on a small system with a forward-difference Jacobian; true when the residual is small. */
export function solveBalance(
  unknowns: Float64Array,
  residual: (x: Float64Array, out: Float64Array) => void,
  scale: Float64Array,
): boolean {
  const n = unknowns.length;
  const r0 = new Float64Array(n);
  const r1 = new Float64Array(n);
  const jacobian = new Float64Array(n * n);
  const pivots = new Int32Array(n);
  for (let iteration = 0; iteration < ITERATIONS; iteration++) {
    residual(unknowns, r0);
    if (r0.every((value, i) => Math.abs(value) <= 1e-12 * scale[i])) return true;
    for (let j = 0; j < n; j++) {
      const kept = unknowns[j];
      const step = 1e-6 * Math.max(1, Math.abs(kept));
      unknowns[j] = kept + step;
      residual(unknowns, r1);
      unknowns[j] = kept;
      for (let i = 0; i < n; i++) jacobian[n * i + j] = (r1[i] - r0[i]) / step / scale[i];
    }
    for (let i = 0; i < n; i++) r1[i] = r0[i] / scale[i];
    if (!luFactor(jacobian, n, pivots)) return false;
    luSolve(jacobian, n, pivots, r1);
    let size = 0;
    for (let i = 0; i < n; i++) {
      unknowns[i] -= r1[i];
      size = Math.max(size, Math.abs(r1[i]) / Math.max(1, Math.abs(unknowns[i])));
    }
    if (!Number.isFinite(size)) return false;
    if (size < 1e-14) break;
  }
  residual(unknowns, r0);
  return r0.every((value, i) => Math.abs(value) <= 1e-9 * scale[i]);
}

export function checkFlight(flight: TrimFlight): number {
  if (!(flight.trueAirspeed > 0)) throw new DomainError("true airspeed", flight.trueAirspeed, "greater than 0");
  if (!(flight.mass > 0)) throw new DomainError("mass", flight.mass, "greater than 0");
  return flight.mass * STANDARD_GRAVITY;
}

/**
 * Trim of the hooked aircraft: the tip carries a share of the weight and, with the thrust given, the tow load.
 *
 *     down:     Z_air + W − s·W = 0          forward:  X_air + f_forward = 0
 *     moments:  M_air + p×Rᵀf = 0            (README eq. 7)
 *
 * Unknowns are α and the elevator, and aileron and rudder when the c.g. or the probe is off the symmetry plane.
 *
 * @param hook  weightShare s [1], thrust [N], probe arm from the c.g. in body axes [m]
 * @returns outcome "no trim" when no balance exists within ±45° angle of attack and ±60° deflection
 * @throws {DomainError} for an airspeed or mass that is not positive
 * @source own derivation, README eq. 7
 * @verified trim.test.ts (residual of the equations of motion, tow load by hand, mirror); generated/hooked-independent (rtol 1e-9)
 */
export function trimHooked(
  flight: TrimFlight,
  hook: {
    readonly weightShare: number;
    readonly thrust: number;
    readonly probe: readonly [number, number, number];
    /** Where the tip is, for airloads that depend on the place below the carrier. */
    readonly tip?: TipPlace;
  },
): HookedTrim {
  const weight = checkFlight(flight);
  const steady = new SteadyLoad(flight, hook);
  const air = new Float64Array(6);
  const controls: Controls = { elevator: 0, aileron: 0, rudder: 0, thrust: hook.thrust };
  const f: [number, number, number] = [0, 0, 0];
  const [px, py, pz] = hook.probe;
  const balance = (x: Float64Array, out: Float64Array): void => {
    controls.elevator = x[1];
    if (x.length === 4) {
      controls.aileron = x[2];
      controls.rudder = x[3];
    }
    steady.at(x[0], controls, air);
    f[0] = -air[0];
    f[1] = -air[1];
    f[2] = -hook.weightShare * weight;
    const c = Math.cos(x[0]);
    const s = Math.sin(x[0]);
    const bx = c * f[0] - s * f[2];
    const bz = s * f[0] + c * f[2];
    out[0] = air[2] + weight + f[2];
    out[1] = air[4] + pz * bx - px * bz;
    const roll = air[3] + py * bz - pz * f[1];
    const yaw = air[5] + px * f[1] - py * bx;
    if (out.length === 4) {
      out[2] = roll;
      out[3] = yaw;
    } else lateral = Math.max(Math.abs(roll), Math.abs(yaw));
  };
  let lateral = 0;
  const unknowns = new Float64Array(2);
  let solved = solveBalance(unknowns, balance, Float64Array.of(weight, weight));
  if (solved && lateral > 1e-9 * weight) {
    const four = Float64Array.of(unknowns[0], unknowns[1], 0, 0);
    solved = solveBalance(four, balance, new Float64Array(4).fill(weight));
    unknowns.set(four.subarray(0, 2));
  }
  const reachable = solved && isReachable(unknowns[0], controls);
  return { outcome: reachable ? "trimmed" : "no trim", alpha: unknowns[0], controls, f_onV_byTip_H: f };
}

/**
 * Trim of the free aircraft in level flight, wings level: angle of attack, elevator and thrust.
 *
 * @returns outcome "no trim" when no balance exists within ±45° angle of attack and ±60° deflection, or something pulls
 * sideways (a c.g. or thrust off the plane of symmetry would need bank or sideslip)
 * @throws {DomainError} for an airspeed or mass that is not positive
 * @source own derivation, README eq. 7 with f = 0
 * @verified trim.test.ts; test/validation/{free-modes,hooked-limits}
 */
export function trimFree(flight: TrimFlight): FreeTrim {
  const weight = checkFlight(flight);
  const steady = new SteadyLoad(flight);
  const air = new Float64Array(6);
  const controls: Controls = { elevator: 0, aileron: 0, rudder: 0, thrust: 0 };
  const balance = (x: Float64Array, out: Float64Array): void => {
    controls.elevator = x[1];
    controls.thrust = x[2] * weight;
    steady.at(x[0], controls, air);
    out[0] = air[2] + weight;
    out[1] = air[4];
    out[2] = air[0];
  };
  const unknowns = new Float64Array(3);
  const solved = solveBalance(unknowns, balance, new Float64Array(3).fill(weight));
  const sideways = Math.max(Math.abs(air[1]), Math.abs(air[3]), Math.abs(air[5]));
  const reachable = solved && sideways <= 1e-9 * weight && isReachable(unknowns[0], controls);
  return { outcome: reachable ? "trimmed" : "no trim", alpha: unknowns[0], controls };
}
