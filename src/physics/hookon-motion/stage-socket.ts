import {
  EVENT_BOTTOM,
  EVENT_BUFFER,
  EVENT_LOAD,
  EVENT_TURN,
  U_BUFFER_HELD,
  U_COMMANDS,
  U_SOCKET_AIR,
  W_AXIAL,
  W_BOOM,
  W_EVENTS,
  W_FORCE,
  W_FUNNEL_MOMENT,
  W_GIMBAL_AXIS,
  W_K1,
  W_K2,
  W_KO_VELOCITY,
  W_PROBE_AXIS,
  W_SIDE,
  W_TILT,
  X_BUFFER,
  X_BUFFER_RATE,
  X_CONTROLS,
  X_IMPULSE,
  X_TILT,
  X_TILT_RATE,
  X_TIP_VELOCITY,
} from "./layout.ts";
import {
  P_ACTUATORS,
  P_AIRSPEED,
  P_BUFFER,
  P_DRAG_AREA,
  P_ENGINE,
  P_GIMBAL,
  P_LIMITS,
  P_TIP_MASS,
} from "./parameter-layout.ts";

/**
 * Boom tip with the socket's head on its buffer, and the funnel on its gimbal.
 *
 *     (m_t − m_h)·a₁ = F₁ − F_buf,   m_t·a⊥ = F⊥ + f⊥,   m_h·(ẍ − a₁) = −f₁ − F_buf        (README eq. 9; ₁ along k1)
 *     on the stop: m_t·a = F + f, ẍ = 0, until the push −f₁ + m_h·a₁ exceeds the preload         (README eq. 10)
 *     I·cos²b·ä = M·k2 + Q_a + 2I·sin b·cos b·ȧ·ḃ,   I·b̈ = M·e + Q_b − I·sin b·cos b·ȧ²       (README eq. 11)
 *
 * @param X  state
 * @param U  inputs: whether the buffer stands on its stop, air at the socket
 * @param P  parameters
 * @param W  reads boom force, contact; writes the tip's acceleration, loads on the probe, events of the buffer
 * @param D  rates of tip, buffer, gimbal and impulse are written
 * @source own derivation, README eq. 9–12
 * @verified contact.test.ts (energy, momentum, impact); right-hand-side.test.ts
 * @cost no allocation
 */
export function socketStage(X: Float64Array, U: Float64Array, P: Float64Array, W: Float64Array, D: Float64Array): void {
  const k1x = W[W_K1];
  const k1y = W[W_K1 + 1];
  const k1z = W[W_K1 + 2];
  // drag against the undisturbed stream, in which the socket is at rest
  const V = P[P_AIRSPEED];
  const sx = U[U_SOCKET_AIR] - V - W[W_KO_VELOCITY];
  const sy = U[U_SOCKET_AIR + 1] - W[W_KO_VELOCITY + 1];
  const sz = U[U_SOCKET_AIR + 2] - W[W_KO_VELOCITY + 2];
  const speed = Math.sqrt(sx * sx + sy * sy + sz * sz);
  const d = P[P_DRAG_AREA];
  const pushX = W[W_FORCE];
  const pushY = W[W_FORCE + 1];
  const pushZ = W[W_FORCE + 2];
  const fx = d * (speed * sx + V * V) - pushX;
  const fy = d * speed * sy - pushY;
  const fz = d * speed * sz - pushZ;
  const bx = W[W_BOOM];
  const by = W[W_BOOM + 1];
  const bz = W[W_BOOM + 2];
  const f1 = fx * k1x + fy * k1y + fz * k1z;
  const b1 = bx * k1x + by * k1y + bz * k1z;
  const tipMass = P[P_TIP_MASS];
  const headMass = P[P_BUFFER + 6];
  const held = U[U_BUFFER_HELD];
  const x = X[X_BUFFER];
  const dx = X[X_BUFFER_RATE];
  const damping = dx > 0 ? P[P_BUFFER + 2] : P[P_BUFFER + 3];
  const beyond = x - P[P_BUFFER + 4];
  const bottom = beyond > 0 ? P[P_BUFFER + 5] * beyond : 0;
  const buffer = Math.max(0, P[P_BUFFER] + P[P_BUFFER + 1] * x + bottom + damping * dx);
  const together = (b1 + f1) / tipMass;
  const apart = (b1 - buffer) / (tipMass - headMass);
  const a1 = held > 0 ? together : apart;
  const change = a1 - together;
  const ax = (bx + fx) / tipMass + change * k1x;
  const ay = (by + fy) / tipMass + change * k1y;
  const az = (bz + fz) / tipMass + change * k1z;
  D[X_TIP_VELOCITY] = ax;
  D[X_TIP_VELOCITY + 1] = ay;
  D[X_TIP_VELOCITY + 2] = az;
  D[X_BUFFER] = held > 0 ? 0 : dx;
  D[X_BUFFER_RATE] = held > 0 ? 0 : a1 - (f1 + buffer) / headMass;
  const over = headMass * a1 - f1 - P[P_BUFFER];
  W[W_EVENTS + EVENT_BUFFER] = held > 0 ? over : x;
  W[W_EVENTS + EVENT_BOTTOM] = beyond;
  W[W_EVENTS + EVENT_TURN] = held > 0 ? 1 : dx;

  const a = X[X_TILT];
  const b = X[X_TILT + 1];
  const da = X[X_TILT_RATE];
  const db = X[X_TILT_RATE + 1];
  const tilt = W[W_TILT + 2];
  const past = tilt - P[P_GIMBAL + 4];
  const stop = past > 0 ? (P[P_GIMBAL + 5] * past) / tilt : 0;
  const fade = P[P_GIMBAL + 3];
  const resist = P[P_GIMBAL + 1] + P[P_GIMBAL + 2] / Math.sqrt(da * da + db * db + fade * fade);
  const spring = P[P_GIMBAL] + stop;
  const mx = W[W_FUNNEL_MOMENT];
  const my = W[W_FUNNEL_MOMENT + 1];
  const mz = W[W_FUNNEL_MOMENT + 2];
  const qa = mx * W[W_K2] + my * W[W_K2 + 1] + mz * W[W_K2 + 2] - spring * a - resist * da;
  const qb = mx * W[W_GIMBAL_AXIS] + my * W[W_GIMBAL_AXIS + 1] + mz * W[W_GIMBAL_AXIS + 2] - spring * b - resist * db;
  const I = P[P_GIMBAL + 6];
  const cosB = W[W_TILT];
  const sinB = W[W_TILT + 1];
  D[X_TILT] = da;
  D[X_TILT + 1] = db;
  D[X_TILT_RATE] = (qa / I + 2 * sinB * cosB * da * db) / (cosB * cosB);
  D[X_TILT_RATE + 1] = qb / I - sinB * cosB * da * da;

  const whole2 = pushX * pushX + pushY * pushY + pushZ * pushZ;
  const axial = pushX * W[W_PROBE_AXIS] + pushY * W[W_PROBE_AXIS + 1] + pushZ * W[W_PROBE_AXIS + 2];
  const side = Math.sqrt(Math.max(0, whole2 - axial * axial));
  W[W_AXIAL] = axial;
  W[W_SIDE] = side;
  W[W_EVENTS + EVENT_LOAD] = Math.max(Math.abs(axial) / P[P_LIMITS], side / P[P_LIMITS + 1]) - 1;
  D[X_IMPULSE] = Math.sqrt(whole2);
}

/**
 * Surfaces and engine: a lag whose rate and command are limited.
 *
 *     δ̇ = clip((clip(δ_c, travel) − δ)/T, ± rate)                                                        (README eq. 13)
 *
 * @source own derivation, README eq. 13
 * @verified right-hand-side.test.ts
 * @cost no allocation
 */
export function actuatorStage(X: Float64Array, U: Float64Array, P: Float64Array, D: Float64Array): void {
  const e = Math.max(P[P_ACTUATORS + 2], Math.min(P[P_ACTUATORS + 3], U[U_COMMANDS]));
  const a = Math.max(P[P_ACTUATORS + 6], Math.min(P[P_ACTUATORS + 7], U[U_COMMANDS + 1]));
  const r = Math.max(P[P_ACTUATORS + 10], Math.min(P[P_ACTUATORS + 11], U[U_COMMANDS + 2]));
  const t = Math.max(P[P_ENGINE + 1], Math.min(P[P_ENGINE + 2], U[U_COMMANDS + 3]));
  const eMost = P[P_ACTUATORS + 1];
  const aMost = P[P_ACTUATORS + 5];
  const rMost = P[P_ACTUATORS + 9];
  D[X_CONTROLS] = Math.max(-eMost, Math.min(eMost, (e - X[X_CONTROLS]) / P[P_ACTUATORS]));
  D[X_CONTROLS + 1] = Math.max(-aMost, Math.min(aMost, (a - X[X_CONTROLS + 1]) / P[P_ACTUATORS + 4]));
  D[X_CONTROLS + 2] = Math.max(-rMost, Math.min(rMost, (r - X[X_CONTROLS + 2]) / P[P_ACTUATORS + 8]));
  D[X_CONTROLS + 3] = (t - X[X_CONTROLS + 3]) / P[P_ENGINE];
}
