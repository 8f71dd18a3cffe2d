import {
  EVENT_RIM,
  EVENT_STOP,
  EVENT_WALL,
  U_BUFFER_HELD,
  U_LATCH,
  U_NEAR,
  W_EVENTS,
  W_HEAD_VELOCITY,
  W_KO_VELOCITY,
  W_NORMAL,
  W_SPIN,
  X_TILT_RATE,
} from "./layout.ts";
import * as at from "./parameter-layout.ts";

/** Steps as shares of 1/ω and of a relaxation time: free flight and ring-down, contact. */
const FREE_SHARE = 0.75;
const CONTACT_SHARE = 0.2;
const RELAXING_SHARE = 1.2;
/** Friction makes the motion stiffer without limit; steps stay above this share of the contact's. */
const SHORTEST_SHARE = 1 / 40;

/** Longest steps that stiffness, masses and dampers allow [s]. */
export interface StepLengths {
  readonly free: number;
  readonly touching: number;
  /** Closed hooks: buffer on its stop, and moving. */
  readonly hooked: number;
  readonly hookedMoving: number;
  /** Buffer moving without hooks. */
  readonly buffer: number;
  /** c·m/μ: with a normal force F the friction relaxes within this over F. */
  readonly perFriction: number;
  /** Farthest that anything touches from the centre about which it turns [m]. */
  readonly reach: number;
}

/**
 * Step lengths from stiffness and mass, so that they depend on nothing that chance decides.
 *
 * @source own derivation, README eq. 16
 * @verified run.test.ts (steps halved change no outcome)
 */
export function stepLengths(P: Float64Array): StepLengths {
  const tip = P[at.P_TIP_MASS];
  const head = P[at.P_BUFFER + 6];
  const inertia = P[at.P_GIMBAL + 6];
  const mouth = Math.max(Math.abs(P[at.P_MOUTH]), Math.abs(P[at.P_SEAT]), 0.05);
  const elastic = P[at.P_ELASTIC] > 0;
  const swing = elastic ? P[at.P_ELASTIC + 1] : P[at.P_BENDING];
  const swingDamping = elastic ? P[at.P_ELASTIC + 2] : P[at.P_BENDING_DAMPING];
  const oscillating = (share: number, ...pairs: [number, number][]): number =>
    pairs.reduce((step, [k, m]) => (k > 0 ? Math.min(step, share * Math.sqrt(m / k)) : step), 0.02);
  const relaxing = (...pairs: [number, number][]): number =>
    pairs.reduce((step, [c, m]) => (c > 0 ? Math.min(step, (RELAXING_SHARE * m) / c) : step), 0.02);
  const gimbalFriction = P[at.P_GIMBAL + 1] + P[at.P_GIMBAL + 2] / P[at.P_GIMBAL + 3];
  const settling = elastic
    ? 0.02
    : relaxing([P[at.P_BENDING] + P[at.P_ACCUMULATOR], P[at.P_BENDING_DAMPING] + P[at.P_SNUBBER]]);
  const free = Math.min(
    oscillating(FREE_SHARE, [P[at.P_AXIAL], tip], [P[at.P_LATERAL], tip], [swing, tip], [P[at.P_GIMBAL], inertia]),
    relaxing(
      [P[at.P_AXIAL_DAMPING], tip],
      [P[at.P_LATERAL_DAMPING], tip],
      [swingDamping, tip],
      [gimbalFriction, inertia],
    ),
    relaxing([1, P[at.P_ACTUATORS]], [1, P[at.P_ACTUATORS + 4]], [1, P[at.P_ACTUATORS + 8]], [1, P[at.P_ENGINE]]),
    settling,
  );
  const light = Math.min(head, inertia / (mouth * mouth));
  const moving = oscillating(0.4, [P[at.P_BUFFER + 1] + P[at.P_BUFFER + 5], head]);
  const damped = relaxing([Math.max(P[at.P_BUFFER + 2], P[at.P_BUFFER + 3]), head]);
  const buffer = Math.min(free, moving, damped);
  const stops = oscillating(0.4, [P[at.P_GIMBAL + 5], inertia]);
  const touching = Math.min(oscillating(CONTACT_SHARE, [P[at.P_CONTACT], light]), stops, buffer);
  const hooks = P[at.P_HOOKS];
  const sideways = P[at.P_HOOKS + 2];
  const arm = P[at.P_SEAT] + P[at.P_HEAD_RADIUS];
  const hooked = (mass: number): number =>
    Math.min(
      free,
      oscillating(FREE_SHARE, [hooks + P[at.P_AXIAL], mass], [sideways + P[at.P_AXIAL], tip]),
      oscillating(FREE_SHARE, [sideways * arm * arm, inertia]),
      relaxing([P[at.P_HOOKS + 1], mass]),
      stops,
    );
  return {
    free,
    touching,
    hooked: hooked(tip),
    hookedMoving: Math.min(hooked(head), buffer),
    buffer,
    reach: mouth + P[at.P_MOUTH_RADIUS] + P[at.P_STEM_LENGTH],
    perFriction: P[at.P_CONTACT + 2] > 0 ? (RELAXING_SHARE * P[at.P_CONTACT + 3] * light) / P[at.P_CONTACT + 2] : 1e9,
  };
}

/**
 * Longest step at a state that has been evaluated. Where a gap could close and open again within a step, the step is that of a contact,
 * so that no touch falls between two looks.
 *
 * @param out written at `place` [s]
 * @cost no allocation
 */
export function stepAt(
  lengths: StepLengths,
  X: Float64Array,
  U: Float64Array,
  W: Float64Array,
  out: Float64Array,
  place: number,
): void {
  const hooked = U[U_LATCH] > 1.5 && U[U_LATCH] < 2.5;
  const held = U[U_BUFFER_HELD] > 0;
  let step = hooked ? (held ? lengths.hooked : lengths.hookedMoving) : held ? lengths.free : lengths.buffer;
  const a = X[X_TILT_RATE];
  const b = X[X_TILT_RATE + 1];
  const tilting = Math.sqrt(a * a + b * b);
  if (W[W_EVENTS + EVENT_STOP] > -2 * tilting * step) step = Math.min(step, lengths.touching);
  if (U[U_NEAR] > 0) {
    const x = W[W_HEAD_VELOCITY] - W[W_KO_VELOCITY];
    const y = W[W_HEAD_VELOCITY + 1] - W[W_KO_VELOCITY + 1];
    const z = W[W_HEAD_VELOCITY + 2] - W[W_KO_VELOCITY + 2];
    const p = W[W_SPIN];
    const q = W[W_SPIN + 1];
    const r = W[W_SPIN + 2];
    const turning = tilting + Math.sqrt(p * p + q * q + r * r);
    const reach = 2 * step * (Math.sqrt(x * x + y * y + z * z) + turning * lengths.reach);
    for (let i = EVENT_WALL; i <= EVENT_RIM; i++) {
      if (W[W_EVENTS + i] < reach) step = Math.min(step, lengths.touching);
    }
    const normal = W[W_NORMAL];
    if (normal * step > lengths.perFriction) {
      step = Math.max(lengths.perFriction / normal, lengths.touching * SHORTEST_SHARE);
    }
  }
  out[place] = step;
}
