import * as layout from "./layout.ts";
import * as parameters from "./parameter-layout.ts";

const {
  EVENT_AWAY,
  EVENT_MOUTH,
  EVENT_STOP,
  EVENT_TUMBLE,
  W_ALONG,
  W_AXIS,
  W_CARRIER_ANGLE,
  W_EVENTS,
  W_FROM_KO,
  W_FUNNEL_SPIN,
  W_GIMBAL_AXIS,
  W_HEAD,
  W_HEAD_VELOCITY,
  W_K1,
  W_K2,
  W_K3,
  W_KO,
  W_KO_VELOCITY,
  W_OFF,
  W_OFF_AXIS,
  W_ROTATION,
  W_SPIN,
  X_ATTITUDE,
  X_BUFFER,
  X_BUFFER_RATE,
  X_CG,
  X_RATE,
  X_TILT,
  X_TILT_RATE,
  X_TIP,
  X_TIP_VELOCITY,
  X_VELOCITY,
} = layout;
const { P_GIMBAL, P_HEAD_RADIUS, P_K1, P_K2, P_K3, P_LIMITS, P_MOUTH, P_PROBE } = parameters;

/**
 * Where probe head and funnel are, and how they move, in H.
 *
 *     n = cos b·(cos a·k1 − sin a·k3) + sin b·k2,   e = cos a·k3 + sin a·k1,   ω_F = ȧ·k2 + ḃ·e,   Ko = tip − x·k1   (README eq. 4)
 *
 * @param X  state
 * @param P  parameters
 * @param W  rotation, head, funnel axes, head from Ko along and off the funnel's axis; events of mouth, stop, tumbling, distance
 * @source own derivation, README eq. 4
 * @verified contact.test.ts (energy, momentum: every moment goes with the turning that it works on)
 * @cost no allocation
 */
export function framesStage(X: Float64Array, P: Float64Array, W: Float64Array): void {
  const qw = X[X_ATTITUDE];
  const qx = X[X_ATTITUDE + 1];
  const qy = X[X_ATTITUDE + 2];
  const qz = X[X_ATTITUDE + 3];
  const R0 = qw * qw + qx * qx - qy * qy - qz * qz;
  const R1 = 2 * (qx * qy - qw * qz);
  const R2 = 2 * (qx * qz + qw * qy);
  const R3 = 2 * (qx * qy + qw * qz);
  const R4 = qw * qw - qx * qx + qy * qy - qz * qz;
  const R5 = 2 * (qy * qz - qw * qx);
  const R6 = 2 * (qx * qz - qw * qy);
  const R7 = 2 * (qy * qz + qw * qx);
  const R8 = qw * qw - qx * qx - qy * qy + qz * qz;
  const px = P[P_PROBE];
  const py = P[P_PROBE + 1];
  const pz = P[P_PROBE + 2];
  const ax = R0 * px + R1 * py + R2 * pz;
  const ay = R3 * px + R4 * py + R5 * pz;
  const az = R6 * px + R7 * py + R8 * pz;
  const p = X[X_RATE];
  const q = X[X_RATE + 1];
  const r = X[X_RATE + 2];
  const wx = R0 * p + R1 * q + R2 * r;
  const wy = R3 * p + R4 * q + R5 * r;
  const wz = R6 * p + R7 * q + R8 * r;
  const hx = X[X_CG] + ax;
  const hy = X[X_CG + 1] + ay;
  const hz = X[X_CG + 2] + az;

  // axes at rest turn with the carrier, small angles
  const tx = W[W_CARRIER_ANGLE];
  const ty = W[W_CARRIER_ANGLE + 1];
  const tz = W[W_CARRIER_ANGLE + 2];
  const k1x = P[P_K1] - tz * P[P_K1 + 1] + ty * P[P_K1 + 2];
  const k1y = P[P_K1 + 1] - tx * P[P_K1 + 2] + tz * P[P_K1];
  const k1z = P[P_K1 + 2] - ty * P[P_K1] + tx * P[P_K1 + 1];
  const k2x = P[P_K2] - tz * P[P_K2 + 1] + ty * P[P_K2 + 2];
  const k2y = P[P_K2 + 1] - tx * P[P_K2 + 2] + tz * P[P_K2];
  const k2z = P[P_K2 + 2] - ty * P[P_K2] + tx * P[P_K2 + 1];
  const k3x = P[P_K3] - tz * P[P_K3 + 1] + ty * P[P_K3 + 2];
  const k3y = P[P_K3 + 1] - tx * P[P_K3 + 2] + tz * P[P_K3];
  const k3z = P[P_K3 + 2] - ty * P[P_K3] + tx * P[P_K3 + 1];
  const a = X[X_TILT];
  const b = X[X_TILT + 1];
  const cosA = Math.cos(a);
  const sinA = Math.sin(a);
  const cosB = Math.cos(b);
  const sinB = Math.sin(b);
  const nx = cosB * (cosA * k1x - sinA * k3x) + sinB * k2x;
  const ny = cosB * (cosA * k1y - sinA * k3y) + sinB * k2y;
  const nz = cosB * (cosA * k1z - sinA * k3z) + sinB * k2z;
  const ex = cosA * k3x + sinA * k1x;
  const ey = cosA * k3y + sinA * k1y;
  const ez = cosA * k3z + sinA * k1z;
  const da = X[X_TILT_RATE];
  const db = X[X_TILT_RATE + 1];
  const x = X[X_BUFFER];
  const dx = X[X_BUFFER_RATE];
  const kx = X[X_TIP] - x * k1x;
  const ky = X[X_TIP + 1] - x * k1y;
  const kz = X[X_TIP + 2] - x * k1z;
  const fx = hx - kx;
  const fy = hy - ky;
  const fz = hz - kz;
  const along = fx * nx + fy * ny + fz * nz;
  const ox = fx - along * nx;
  const oy = fy - along * ny;
  const oz = fz - along * nz;
  const off = Math.sqrt(ox * ox + oy * oy + oz * oz);
  const perOff = off > 1e-12 ? 1 / off : 0;
  // any direction across the axis serves where the head is on it
  const onAxis = off > 1e-12 ? 0 : 1;

  W[W_ROTATION] = R0;
  W[W_ROTATION + 1] = R1;
  W[W_ROTATION + 2] = R2;
  W[W_ROTATION + 3] = R3;
  W[W_ROTATION + 4] = R4;
  W[W_ROTATION + 5] = R5;
  W[W_ROTATION + 6] = R6;
  W[W_ROTATION + 7] = R7;
  W[W_ROTATION + 8] = R8;
  W[W_HEAD] = hx;
  W[W_HEAD + 1] = hy;
  W[W_HEAD + 2] = hz;
  W[W_HEAD_VELOCITY] = X[X_VELOCITY] + wy * az - wz * ay;
  W[W_HEAD_VELOCITY + 1] = X[X_VELOCITY + 1] + wz * ax - wx * az;
  W[W_HEAD_VELOCITY + 2] = X[X_VELOCITY + 2] + wx * ay - wy * ax;
  W[W_SPIN] = wx;
  W[W_SPIN + 1] = wy;
  W[W_SPIN + 2] = wz;
  W[W_K1] = k1x;
  W[W_K1 + 1] = k1y;
  W[W_K1 + 2] = k1z;
  W[W_K2] = k2x;
  W[W_K2 + 1] = k2y;
  W[W_K2 + 2] = k2z;
  W[W_K3] = k3x;
  W[W_K3 + 1] = k3y;
  W[W_K3 + 2] = k3z;
  W[W_AXIS] = nx;
  W[W_AXIS + 1] = ny;
  W[W_AXIS + 2] = nz;
  W[W_GIMBAL_AXIS] = ex;
  W[W_GIMBAL_AXIS + 1] = ey;
  W[W_GIMBAL_AXIS + 2] = ez;
  W[W_FUNNEL_SPIN] = da * k2x + db * ex;
  W[W_FUNNEL_SPIN + 1] = da * k2y + db * ey;
  W[W_FUNNEL_SPIN + 2] = da * k2z + db * ez;
  W[W_KO] = kx;
  W[W_KO + 1] = ky;
  W[W_KO + 2] = kz;
  W[W_KO_VELOCITY] = X[X_TIP_VELOCITY] - dx * k1x;
  W[W_KO_VELOCITY + 1] = X[X_TIP_VELOCITY + 1] - dx * k1y;
  W[W_KO_VELOCITY + 2] = X[X_TIP_VELOCITY + 2] - dx * k1z;
  W[W_FROM_KO] = fx;
  W[W_FROM_KO + 1] = fy;
  W[W_FROM_KO + 2] = fz;
  W[W_ALONG] = along;
  W[W_OFF] = off;
  W[W_OFF_AXIS] = ox * perOff + onAxis * ex;
  W[W_OFF_AXIS + 1] = oy * perOff + onAxis * ey;
  W[W_OFF_AXIS + 2] = oz * perOff + onAxis * ez;
  const tilt = Math.sqrt(a * a + b * b);
  const fromMouth = along - P[P_MOUTH];
  const away = P[P_LIMITS + 2];
  W[W_EVENTS + EVENT_STOP] = tilt - P[P_GIMBAL + 4];
  W[W_EVENTS + EVENT_TUMBLE] = tilt - P[P_GIMBAL + 7];
  W[W_EVENTS + EVENT_MOUTH] = fromMouth - P[P_HEAD_RADIUS];
  W[W_EVENTS + EVENT_AWAY] = fromMouth * fromMouth + off * off - away * away;
}
