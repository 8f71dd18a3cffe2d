/** Probe and socket without air, gravity and boom, for closed forms of contact. */
import {
  HookonMotion,
  type HookonSettings,
  hookonParameters,
  type HookonMotion as Motion,
  type MotionWatcher,
} from "../../src/physics/hookon-motion/index.ts";
import * as at from "../../src/physics/hookon-motion/layout.ts";
import * as by from "../../src/physics/hookon-motion/parameter-layout.ts";
import type { SocketSettings } from "../../src/physics/socket/types.ts";
import { testPair, testSocket } from "./hookon-pair.ts";

export const unwatched: MotionWatcher = { step: () => true, event: () => true };

export interface Bare {
  readonly mass: number;
  readonly tipMass: number;
  readonly socket?: Partial<SocketSettings>;
  /** Change of the parameters after they are made. */
  readonly change?: (P: Float64Array) => void;
}

/**
 * A ball of a mass, so heavy to turn that it does not, in front of a socket that nothing holds; k1 is −x. The buffer stands on its
 * stop and the latch's plunger does not push.
 */
export function bareMotion({ mass, tipMass, socket, change }: Bare): Motion {
  const settings: HookonSettings = {
    ...testPair({ socket: testSocket({ dragArea: 0, ...socket }), tipMass: 1e3 }),
    mass: { mass, Ixx: 1e12, Iyy: 1e12, Izz: 1e12, Ixy: 0, Ixz: 0, Iyz: 0 },
    probe: [0, 0, 0],
  };
  const parameters = hookonParameters(settings);
  const { P } = parameters;
  P.fill(0, by.P_AREA, by.P_LENGTH);
  P[by.P_AIRSPEED] = 0;
  P[by.P_GRAVITY] = 0;
  P.fill(0, by.P_PRELOAD, by.P_TIP_MASS);
  P[by.P_ELASTIC] = 1;
  P[by.P_TIP_MASS] = tipMass;
  P[by.P_STEM_RADIUS] = -10;
  if (socket?.buffer === undefined) P[by.P_BUFFER] = 1e15;
  P.fill(1e12, by.P_LIMITS, by.P_LIMITS + 3);
  // held by its inertia unless a test frees it
  if (socket?.gimbal === undefined) {
    P.fill(0, by.P_GIMBAL, by.P_GIMBAL + 3);
    P[by.P_GIMBAL + 6] = 1e12;
  }
  change?.(P);
  const motion = new HookonMotion(parameters);
  motion.U[at.U_LATCH] = 3;
  motion.U[at.U_NEAR] = 1;
  motion.X[at.X_ATTITUDE] = 1;
  motion.X.set(parameters.tip, at.X_TIP);
  return motion;
}

/** Puts the head's centre along k1 = −x from the gimbal's centre and off it to the right and down, moving. */
export function placeHead(
  { X, parameters: { tip } }: Motion,
  [along, right, down]: readonly [number, number, number],
  velocity: readonly [number, number, number],
): void {
  X.set([tip[0] - along, tip[1] + right, tip[2] + down]);
  X.set(velocity, at.X_VELOCITY);
}

/** Energy of motion and of everything elastic in a bare motion; contact by its gaps. */
export function bareEnergy({ X, W, P, U }: Motion): number {
  const m = P[by.P_MASS];
  const tipMass = P[by.P_TIP_MASS];
  const head = P[by.P_BUFFER + 6];
  const square = (offset: number): number => X[offset] ** 2 + X[offset + 1] ** 2 + X[offset + 2] ** 2;
  const headSpeed2 = [0, 1, 2].reduce((sum, i) => sum + W[at.W_KO_VELOCITY + i] ** 2, 0);
  let energy =
    0.5 * m * square(at.X_VELOCITY) + 0.5 * (tipMass - head) * square(at.X_TIP_VELOCITY) + 0.5 * head * headSpeed2;
  const I = P[by.P_INERTIA];
  energy += 0.5 * I * square(at.X_RATE);
  const cosB = Math.cos(X[at.X_TILT + 1]);
  energy += 0.5 * P[by.P_GIMBAL + 6] * ((cosB * X[at.X_TILT_RATE]) ** 2 + X[at.X_TILT_RATE + 1] ** 2);
  const tilt2 = X[at.X_TILT] ** 2 + X[at.X_TILT + 1] ** 2;
  energy +=
    0.5 * P[by.P_GIMBAL] * tilt2 + 0.5 * P[by.P_GIMBAL + 5] * Math.max(0, Math.sqrt(tilt2) - P[by.P_GIMBAL + 4]) ** 2;
  for (const gap of [at.EVENT_WALL, at.EVENT_SEAT]) {
    energy += 0.5 * P[by.P_CONTACT] * Math.min(0, W[at.W_EVENTS + gap]) ** 2;
  }
  if (U[at.U_BUFFER_HELD] === 0) {
    const x = X[at.X_BUFFER];
    const past = Math.max(0, x - P[by.P_BUFFER + 4]);
    energy += P[by.P_BUFFER] * x + 0.5 * P[by.P_BUFFER + 1] * x * x + 0.5 * P[by.P_BUFFER + 5] * past * past;
  }
  const L = P[by.P_LENGTH];
  const [dx, dy, dz] = X.subarray(at.X_TIP, at.X_TIP + 3);
  const rho = Math.hypot(dx, dz);
  const ell = Math.hypot(rho, dy);
  energy += 0.5 * P[by.P_AXIAL] * (ell - L) ** 2 + 0.5 * P[by.P_LATERAL] * (L * Math.atan2(dy, rho)) ** 2;
  energy += 0.5 * P[by.P_ELASTIC + 1] * (L * (Math.atan2(dz, -dx) - P[by.P_ANGLE])) ** 2;
  return energy;
}
