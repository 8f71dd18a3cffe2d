import { DomainError } from "../../math/errors.ts";
import { newtonSystem } from "../../math/roots/index.ts";
import {
  eulerFromQuaternion,
  quaternionFromRotationVector,
  quaternionMultiply,
  rotateToBody,
  rotationMatrix,
} from "../../math/rotation/index.ts";
import {
  boomAxes,
  type DeadBand,
  type LinkPort,
  PinLink,
  SocketHold,
  type SocketHoldSettings,
} from "../links/index.ts";
import type { ControlLaw } from "../pilot/index.ts";
import { type HookedPair, type HookedPairSettings, type LinksAt, pairOnTrim } from "./hooked-pair.ts";
import type { PairMotion } from "./pair-motion.ts";
import { STANDARD_GRAVITY } from "./ports.ts";
import { checkFlight, type HookedTrim, isReachable, SteadyLoad, solveBalance } from "./trim.ts";

/** An aft pin with the leg of the yoke that holds it. */
export interface AttachedPin {
  readonly name: string;
  /** Pin from the c.g., body axes; root of the leg from the boom hinge, carrier axes [m]. */
  readonly pin: readonly [number, number, number];
  readonly root: readonly [number, number, number];
  readonly along: DeadBand;
  readonly lateral: DeadBand;
  /** How much the unloaded leg is too long, and how far its end stands too far right [m]; it makes the built-in load. */
  readonly misfit?: { readonly along: number; readonly lateral: number };
}

/** What the socket does to the attitude; absent: it turns freely. */
export type SocketTurning = Pick<SocketHoldSettings, "centring" | "damping" | "friction">;

export interface AttachedSettings {
  /** Aircraft, air, boom; `weightShare` is not used, it follows from the attitude. */
  readonly pair: HookedPairSettings;
  /** Pitch angle that the linkage gives the aircraft [rad], nose up, against H. */
  readonly pitch: number;
  /** Elevator [rad], or the one with which the pins carry nothing. */
  readonly elevator: number | "pins unloaded";
  /** Pins that are latched; at least one. */
  readonly pins: readonly AttachedPin[];
  readonly socket?: SocketTurning;
  /** Law under which the rest is sought; default: the pair's. One that acts on deviations from the rest needs `controlsFixed` here. */
  readonly restLaw?: ControlLaw;
}

/** The pair held at socket and aft pins, at rest. */
export interface AttachedPair {
  /** "no trim": no balance, or one beyond what the derivatives or the attitude allow. */
  readonly outcome: "trimmed" | "no trim";
  readonly pair: HookedPair;
  readonly motion: PairMotion;
  readonly state: Float64Array;
  readonly links: readonly PinLink[];
  /** Force on the aircraft by the socket, in H [N]. */
  readonly f_onV_bySocket_H: readonly [number, number, number];
  /** By pin: tension of its leg and load on its leg to the right [N]; force on the aircraft, in H. */
  readonly pins: readonly {
    readonly name: string;
    readonly tension: number;
    readonly lateral: number;
    readonly f_onV_H: readonly [number, number, number];
  }[];
  /** Yaw, pitch, roll at rest [rad]. */
  readonly attitude: readonly [number, number, number];
  readonly elevator: number;
}

/** Bank or pitch away from the linkage's attitude beyond which the rest is none that the method covers [rad]. */
const LARGEST_LEAN = Math.PI / 6;
/** Parts in which a load is taken off when the rest is not found at once. */
const LOAD_STEPS = 40;

/**
 * Probe and socket as links at a place: the socket centres the probe where it stands, so that it carries no moment at trim.
 *
 * @param turning what the socket does
 * @param state   c.g. and attitude in H from 0 and 3
 * @param tip     boom tip in carrier axes
 * @returns the link, or nothing for a socket that turns freely
 * @source own derivation, `physics/links` README eq. 4
 * @verified attached-pair.test.ts
 */
export function socketLinks(
  turning: SocketTurning | undefined,
  state: Float64Array,
  tip: readonly [number, number, number],
): LinkPort[] {
  if (turning === undefined) return [];
  const R = new Float64Array(9);
  const U = new Float64Array(9);
  const axis = new Float64Array(3);
  rotationMatrix(state, 3, R);
  boomAxes(Float64Array.from(tip), U);
  // the probe axis stands up from the aircraft
  const inCarrier = Float64Array.of(-R[2], -R[5], -R[8]);
  rotateToBody(U, inCarrier, 0, axis, 0);
  return [new SocketHold({ probeAxis: [0, 0, -1], socketAxis: [axis[0], axis[1], axis[2]], ...turning })];
}

/**
 * The pair held by probe and aft pins at an attitude that the linkage sets, at rest.
 *
 * In the plane of symmetry the loads are determinate, the legs being free to swing:
 *
 *     X + f_x − ΣT·e_x = 0,  Z + W + f_z − ΣT·e_z = 0,  M + (p×Rᵀf)_y − ΣT·(a×Rᵀe)_y = 0       (README eq. 16)
 *
 * Pins share T by their stiffness. Whatever is left (one pin, a c.g. off the plane, misfit) moves the pair on its springs until
 * the equations of motion rest, by Newton's method in the place and attitude of the aircraft and every other state.
 *
 * @param settings pair, attitude, pins
 * @throws {DomainError} for settings outside their range, or no pin
 * @source own derivation, README eq. 16–17
 * @verified attached-pair.test.ts (statics by hand, closed-form frequencies, limits); generated/attached-independent
 */
export function attachedPair(settings: AttachedSettings): AttachedPair {
  const { pair: own, pins } = settings;
  if (pins.length === 0) throw new DomainError("number of pins", 0, "at least 1");
  const placed = legs(settings);
  const balance = planarBalance(settings, placed);
  let made: PinLink[] = [];
  const links: LinksAt = (state, tip) => {
    made = pins.map((pin, i) => pinLink(pin, placed[i], balance.tensions[i]));
    return [...made, ...socketLinks(settings.socket, state, tip)];
  };
  const { restLaw = own.law } = settings;
  const resting = pairOnTrim({ ...own, law: restLaw }, balance.trim, undefined, links);
  const rest = resting.state.slice();
  const rests = balance.trim.outcome === "trimmed" && comeToRest(resting.motion, rest);
  const pair = restLaw === own.law ? resting : pairOnTrim(own, balance.trim, undefined, links);
  const state = pair.state.slice();
  // the states of a law come last
  state.set(rest.subarray(0, Math.min(rest.length, state.length)));
  if (pair !== resting) {
    state.fill(0, pair.motion.layout.law);
    if (rests) pair.motion.derivative(0, state, new Float64Array(pair.motion.stateCount));
  }
  const attitude = new Float64Array(3);
  if (rests) eulerFromQuaternion(state, 3, attitude);
  const lean = Math.max(Math.abs(attitude[2]), Math.abs(attitude[0]), Math.abs(attitude[1] - settings.pitch));
  const R = new Float64Array(9);
  rotationMatrix(state, 3, R);
  return {
    outcome: rests && lean < LARGEST_LEAN ? "trimmed" : "no trim",
    ...{ pair, motion: pair.motion, state, links: made },
    f_onV_bySocket_H: [pair.motion.jointForce[0], pair.motion.jointForce[1], pair.motion.jointForce[2]],
    pins: pins.map(({ name, pin, root }, i) => {
      const { tension, lateralLoad } = made[i];
      const arm = [0, 1, 2].map(
        (k) => state[k] + R[3 * k] * pin[0] + R[3 * k + 1] * pin[1] + R[3 * k + 2] * pin[2] - root[k],
      );
      const length = Math.hypot(...arm);
      const force = arm.map((value, k) => (-tension * value) / length - (k === 1 ? lateralLoad : 0));
      return { name, tension, lateral: lateralLoad, f_onV_H: force as [number, number, number] };
    }),
    attitude: [attitude[0], attitude[1], attitude[2]],
    elevator: balance.trim.controls.elevator,
  };
}

interface Leg {
  readonly length: number;
  /** Root to pin, unit vector in H. */
  readonly direction: readonly [number, number, number];
}

/** Legs with the boom tip at its place under load and the aircraft at the linkage's pitch. */
function legs({ pair: { boom, probe }, pitch, pins }: AttachedSettings): Leg[] {
  const [c, s] = [Math.cos(pitch), Math.sin(pitch)];
  const tip = [-boom.length * Math.cos(boom.angleDown), 0, boom.length * Math.sin(boom.angleDown)];
  return pins.map(({ pin, root }) => {
    const [x, y, z] = [0, 1, 2].map((k) => pin[k] - probe[k]);
    const arm = [tip[0] + c * x + s * z - root[0], tip[1] + y - root[1], tip[2] - s * x + c * z - root[2]];
    const length = Math.hypot(...arm);
    if (!(length > 0)) throw new DomainError("length of a leg", length, "greater than 0");
    return { length, direction: [arm[0] / length, arm[1] / length, arm[2] / length] };
  });
}

/** Loads in the plane of symmetry, and the elevator when it is the one that unloads the pins. */
function planarBalance(settings: AttachedSettings, placed: readonly Leg[]) {
  const { pair: own, pitch, pins } = settings;
  const weight = checkFlight({ airloads: own.airloads, mass: own.mass.mass, ...own.air });
  const { length, angleDown } = own.boom;
  const tip = { aft: length * Math.cos(angleDown), below: length * Math.sin(angleDown) };
  const steady = new SteadyLoad({ airloads: own.airloads, mass: own.mass.mass, ...own.air }, { probe: own.probe, tip });
  const air = new Float64Array(6);
  const stiffness = pins.reduce((sum, pin) => sum + pin.along.stiffness, 0);
  const shares = pins.map((pin) => (stiffness > 0 ? pin.along.stiffness / stiffness : 1 / pins.length));
  const [c, s] = [Math.cos(pitch), Math.sin(pitch)];
  const [px, , pz] = own.probe;
  // per unit of the sum of tensions: force on the aircraft in H and its pitching moment
  const unit = [0, 0, 0];
  placed.forEach(({ direction: [ex, , ez] }, i) => {
    const [bx, bz] = [c * ex - s * ez, s * ex + c * ez];
    unit[0] -= shares[i] * ex;
    unit[1] -= shares[i] * ez;
    unit[2] -= shares[i] * (pins[i].pin[2] * bx - pins[i].pin[0] * bz);
  });
  const controls = { elevator: 0, aileron: 0, rudder: 0, thrust: own.thrust };
  const unloaded = settings.elevator === "pins unloaded";
  const residual = (x: Float64Array, out: Float64Array): void => {
    controls.elevator = unloaded ? x[2] : (settings.elevator as number);
    steady.at(pitch, controls, air);
    const [fx, fz, T] = [x[0] * weight, x[1] * weight, unloaded ? 0 : x[2] * weight];
    const [bx, bz] = [c * fx - s * fz, s * fx + c * fz];
    out[0] = air[0] + fx + T * unit[0];
    out[1] = air[2] + weight + fz + T * unit[1];
    out[2] = air[4] + pz * bx - px * bz + T * unit[2];
  };
  const x = new Float64Array(3);
  const solved = solveBalance(x, residual, new Float64Array(3).fill(weight));
  const trim: HookedTrim = {
    outcome: solved && isReachable(pitch, controls) ? "trimmed" : "no trim",
    alpha: pitch,
    controls,
    f_onV_byTip_H: [x[0] * weight, 0, x[1] * weight],
  };
  const total = unloaded ? 0 : x[2] * weight;
  return { trim, tensions: shares.map((share) => share * total) };
}

/** A leg that carries a tension where it stands, its pin against the side of its clearance that the tension asks for. */
function pinLink({ pin, root, along, lateral, misfit }: AttachedPin, leg: Leg, tension: number): PinLink {
  const slack = Math.sign(tension) * along.clearance;
  const stretch = along.stiffness > 0 ? tension / along.stiffness + slack : 0;
  return new PinLink({
    ...{ pin, root, along, lateral },
    restLength: leg.length - stretch + (misfit?.along ?? 0),
    restLateral: leg.length * leg.direction[1] + (misfit?.lateral ?? 0),
  });
}

/** Moves the state until nothing accelerates; false when no rest is found. Also leaves the loads evaluated there. */
function comeToRest(motion: PairMotion, state: Float64Array): boolean {
  const { layout } = motion;
  const extra = motion.stateCount - layout.snubber;
  const start = state.slice();
  const rate = new Float64Array(motion.stateCount);
  const turn = new Float64Array(4);
  const R = new Float64Array(9);
  const [px, py, pz] = motion.settings.probe!;
  const place = (x: Float64Array): void => {
    state.set(start);
    for (let i = 0; i < 3; i++) state[i] += x[i];
    quaternionFromRotationVector(x[3], x[4], x[5], turn, 0);
    quaternionMultiply(start, 3, turn, 0, state, 3);
    rotationMatrix(state, 3, R);
    for (let i = 0; i < 3; i++) {
      state[layout.tip + i] = state[i] + R[3 * i] * px + R[3 * i + 1] * py + R[3 * i + 2] * pz;
    }
    for (let e = 0; e < extra; e++) state[layout.snubber + e] += x[6 + e];
  };
  const residual = (x: Float64Array, out: Float64Array): void => {
    place(x);
    motion.derivative(0, state, rate);
    for (let i = 0; i < 6; i++) out[i] = motion.acceleration[i] / STANDARD_GRAVITY;
    for (let e = 0; e < extra; e++) out[6 + e] = rate[layout.snubber + e];
  };
  const n = 6 + extra;
  const options = { tolerance: 1e-9, scales: 0.1 };
  let found = newtonSystem(residual, new Float64Array(n), options);
  if (found.outcome !== "converged") {
    // take the load that has no balance at the start off in parts: R(x) = (1 − t)·R(0)
    const first = new Float64Array(n);
    residual(first.slice(), first);
    let x: Float64Array = new Float64Array(n);
    for (let t = 1 / LOAD_STEPS; t < 1 + 0.5 / LOAD_STEPS; t += 1 / LOAD_STEPS) {
      const left = 1 - Math.min(1, t);
      const eased = (y: Float64Array, out: Float64Array): void => {
        residual(y, out);
        for (let i = 0; i < n; i++) out[i] -= left * first[i];
      };
      found = newtonSystem(eased, x, options);
      if (found.outcome !== "converged") return false;
      x = found.x;
    }
  }
  residual(found.x, found.residual.slice());
  return found.outcome === "converged";
}
