import { eulerFromQuaternion } from "../../math/rotation/index.ts";
import type { LatchState } from "../latch/types.ts";
import type { HookonColumn } from "./columns.ts";
import * as at from "./layout.ts";
import type { HookonMotion } from "./motion.ts";
import { P_MOUTH } from "./parameter-layout.ts";

const LATCH_STATES: readonly LatchState[] = ["open", "tripped", "locked", "half-locked", "broken"];

/** Course of a run. */
export interface HookonHistory {
  readonly columns: readonly HookonColumn[];
  /** Shape (rows, columns), row-major. */
  readonly values: Float64Array;
  readonly events: readonly { readonly time: number; readonly what: string }[];
  /** The run's row. */
  readonly row: Float64Array;
}

const column = (name: string, title: string, unit = ""): HookonColumn => ({ name, title, unit });
const axes = (stem: string, title: string, unit: string, key: string): HookonColumn[] =>
  ["x", "y", "z"].map((axis) => column(`${stem}${axis.toUpperCase()}_${key}`, `${title}, ${axis}`, unit));

/** Columns of a history. Places in H from the boom hinge at rest. */
export const historyColumns: readonly HookonColumn[] = [
  column("time_s", "Time", "s"),
  column("phase", "Phase of the approach, place in its list"),
  { name: "latch", title: "Latch", unit: "", words: LATCH_STATES },
  ...axes("cg", "Aircraft's centre of mass", "m", "m"),
  column("yaw_rad", "Yaw", "rad"),
  column("pitch_rad", "Pitch", "rad"),
  column("bank_rad", "Bank", "rad"),
  ...axes("head", "Probe head", "m", "m"),
  ...axes("mouth", "Centre of the socket's mouth", "m", "m"),
  ...axes("tip", "Boom tip", "m", "m"),
  column("closure_m_s", "Closure speed along the funnel's axis", "m/s"),
  column("along_m", "Head from the mouth along the funnel's axis", "m"),
  column("off_m", "Head off the funnel's axis", "m"),
  column("axialLoad_N", "Load on the probe along its axis, into the aircraft negative", "N"),
  column("sideLoad_N", "Load on the probe across its axis", "N"),
  column("tiltRight_rad", "Tilt of the funnel about k2", "rad"),
  column("tiltUp_rad", "Tilt of the funnel about its other axis", "rad"),
  column("bufferTravel_m", "Travel of the buffer", "m"),
  column("snubberTravel_m", "Travel across the snubber", "m"),
  column("elevator_rad", "Elevator", "rad"),
  column("aileron_rad", "Aileron", "rad"),
  column("rudder_rad", "Rudder", "rad"),
  column("thrust_N", "Thrust", "N"),
  ...axes("gust", "Gust at the aircraft", "m/s", "m_s"),
];

/** One row of a history at the state in hand. */
export function historyRow({ X, W, U, P, time }: HookonMotion, phase: number, latch: LatchState): number[] {
  const angles = new Float64Array(3);
  eulerFromQuaternion(X, at.X_ATTITUDE, angles, 0);
  const three = (from: Float64Array, offset: number): number[] => [...from.subarray(offset, offset + 3)];
  const mouth = [0, 1, 2].map((i) => W[at.W_KO + i] + P[P_MOUTH] * W[at.W_AXIS + i]);
  const relative = [0, 1, 2].map((i) => W[at.W_HEAD_VELOCITY + i] - W[at.W_KO_VELOCITY + i]);
  const closure = -[0, 1, 2].reduce((sum, i) => sum + relative[i] * W[at.W_AXIS + i], 0);
  const since = time - U[at.U_START];
  return [
    time,
    Math.max(0, phase),
    LATCH_STATES.indexOf(latch),
    ...three(X, at.X_CG),
    ...angles,
    ...three(W, at.W_HEAD),
    ...mouth,
    ...three(X, at.X_TIP),
    closure,
    W[at.W_ALONG] - P[P_MOUTH],
    W[at.W_OFF],
    W[at.W_AXIAL],
    W[at.W_SIDE],
    X[at.X_TILT],
    X[at.X_TILT + 1],
    X[at.X_BUFFER],
    X[at.X_TRAVEL],
    ...X.subarray(at.X_CONTROLS, at.X_CONTROLS + 4),
    ...[0, 1, 2].map((i) => U[at.U_GUST + i] + U[at.U_GUST_SLOPE + i] * since),
  ];
}
