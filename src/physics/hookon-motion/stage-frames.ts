import {
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
  W_KO,
  W_KO_VELOCITY,
  W_OFF,
  W_OFF_AXIS,
  W_PROBE_AXIS,
  W_ROTATION,
  W_SPIN,
  W_TILT,
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
} from "./layout.ts";
import {
  P_GIMBAL,
  P_HEAD_RADIUS,
  P_K1,
  P_K2,
  P_K3,
  P_LIMITS,
  P_MOUTH,
  P_PROBE,
  P_PROBE_AXIS,
} from "./parameter-layout.ts";

/**
 * Where probe head and funnel are, and how they move, in H.
 *
 *     n = cos b·(cos a·k1 − sin a·k3) + sin b·k2,   e = cos a·k3 + sin a·k1,   ω_F = ȧ·k2 + ḃ·e,   Ko = tip − x·k1   (README eq. 4)
 *
 * @param X  state
 * @param P  parameters
 * @param W  rotation, head, funnel axes, head from Ko along and off the funnel's axis; events of mouth, stop, tumbling, distance
 * @source own derivation, README eq. 4
 * @verified right-hand-side.test.ts (sine and cosine of the tilt); contact.test.ts (energy, momentum: every moment goes with the turning that it works on)
 * @cost no allocation
 */
export function framesStage(X: Float64Array, P: Float64Array, W: Float64Array): void {
  const qw = X[X_ATTITUDE];
  const qx = X[X_ATTITUDE + 1];
  const qy = X[X_ATTITUDE + 2];
  const qz = X[X_ATTITUDE + 3];
  const R0 = qw * qw + qx * qx - qy * qy - qz * qz;
  W[W_ROTATION] = R0;
  const R1 = 2 * (qx * qy - qw * qz);
  W[W_ROTATION + 1] = R1;
  const R2 = 2 * (qx * qz + qw * qy);
  W[W_ROTATION + 2] = R2;
  const R3 = 2 * (qx * qy + qw * qz);
  W[W_ROTATION + 3] = R3;
  const R4 = qw * qw - qx * qx + qy * qy - qz * qz;
  W[W_ROTATION + 4] = R4;
  const R5 = 2 * (qy * qz - qw * qx);
  W[W_ROTATION + 5] = R5;
  const R6 = 2 * (qx * qz - qw * qy);
  W[W_ROTATION + 6] = R6;
  const R7 = 2 * (qy * qz + qw * qx);
  W[W_ROTATION + 7] = R7;
  const R8 = qw * qw - qx * qx - qy * qy + qz * qz;
  W[W_ROTATION + 8] = R8;
  const px = P[P_PROBE];
  const py = P[P_PROBE + 1];
  const pz = P[P_PROBE + 2];
  const ux = P[P_PROBE_AXIS];
  const uy = P[P_PROBE_AXIS + 1];
  const uz = P[P_PROBE_AXIS + 2];
  const ax = R0 * px + R1 * py + R2 * pz;
  const ay = R3 * px + R4 * py + R5 * pz;
  const az = R6 * px + R7 * py + R8 * pz;
  const p = X[X_RATE];
  const q = X[X_RATE + 1];
  const r = X[X_RATE + 2];
  const wx = R0 * p + R1 * q + R2 * r;
  W[W_SPIN] = wx;
  const wy = R3 * p + R4 * q + R5 * r;
  W[W_SPIN + 1] = wy;
  const wz = R6 * p + R7 * q + R8 * r;
  W[W_SPIN + 2] = wz;
  const hx = X[X_CG] + ax;
  W[W_HEAD] = hx;
  const hy = X[X_CG + 1] + ay;
  W[W_HEAD + 1] = hy;
  const hz = X[X_CG + 2] + az;
  W[W_HEAD + 2] = hz;

  // axes at rest turn with the carrier, small angles
  const tx = W[W_CARRIER_ANGLE];
  const ty = W[W_CARRIER_ANGLE + 1];
  const tz = W[W_CARRIER_ANGLE + 2];
  const K1x = P[P_K1];
  const K1y = P[P_K1 + 1];
  const K1z = P[P_K1 + 2];
  const K2x = P[P_K2];
  const K2y = P[P_K2 + 1];
  const K2z = P[P_K2 + 2];
  const K3x = P[P_K3];
  const K3y = P[P_K3 + 1];
  const K3z = P[P_K3 + 2];
  const k1x = K1x - tz * K1y + ty * K1z;
  W[W_K1] = k1x;
  const k1y = K1y - tx * K1z + tz * K1x;
  W[W_K1 + 1] = k1y;
  const k1z = K1z - ty * K1x + tx * K1y;
  W[W_K1 + 2] = k1z;
  const k2x = K2x - tz * K2y + ty * K2z;
  W[W_K2] = k2x;
  const k2y = K2y - tx * K2z + tz * K2x;
  W[W_K2 + 1] = k2y;
  const k2z = K2z - ty * K2x + tx * K2y;
  W[W_K2 + 2] = k2z;
  const k3x = K3x - tz * K3y + ty * K3z;
  const k3y = K3y - tx * K3z + tz * K3x;
  const k3z = K3z - ty * K3x + tx * K3y;
  const a = X[X_TILT];
  const b = X[X_TILT + 1];
  // sine and cosine of small angles as polynomials (README eq. 19)
  const S0 = -0.1666666666666663;
  const S1 = 0.008333333333322144;
  const S2 = -0.00019841269829581678;
  const S3 = 2.755731361031136e-6;
  const S4 = -2.5050744880136922e-8;
  const S5 = 1.5896003738010764e-10;
  const C0 = 0.041666666666666595;
  const C1 = -0.0013888888888873758;
  const C2 = 2.4801587289243534e-5;
  const C3 = -2.755731428050215e-7;
  const C4 = 2.087571314405598e-9;
  const C5 = -1.1359105631535182e-11;
  const a2 = a * a;
  const sinA = a2 < 0.616 ? a + a * a2 * (S0 + a2 * (S1 + a2 * (S2 + a2 * (S3 + a2 * (S4 + a2 * S5))))) : Math.sin(a);
  const cosA =
    a2 < 0.616
      ? 1 - (0.5 * a2 - a2 * a2 * (C0 + a2 * (C1 + a2 * (C2 + a2 * (C3 + a2 * (C4 + a2 * C5))))))
      : Math.cos(a);
  const b2 = b * b;
  const sinB = b2 < 0.616 ? b + b * b2 * (S0 + b2 * (S1 + b2 * (S2 + b2 * (S3 + b2 * (S4 + b2 * S5))))) : Math.sin(b);
  W[W_TILT + 1] = sinB;
  const cosB =
    b2 < 0.616
      ? 1 - (0.5 * b2 - b2 * b2 * (C0 + b2 * (C1 + b2 * (C2 + b2 * (C3 + b2 * (C4 + b2 * C5))))))
      : Math.cos(b);
  W[W_TILT] = cosB;
  const nx = cosB * (cosA * k1x - sinA * k3x) + sinB * k2x;
  W[W_AXIS] = nx;
  const ny = cosB * (cosA * k1y - sinA * k3y) + sinB * k2y;
  W[W_AXIS + 1] = ny;
  const nz = cosB * (cosA * k1z - sinA * k3z) + sinB * k2z;
  W[W_AXIS + 2] = nz;
  const ex = cosA * k3x + sinA * k1x;
  W[W_GIMBAL_AXIS] = ex;
  const ey = cosA * k3y + sinA * k1y;
  W[W_GIMBAL_AXIS + 1] = ey;
  const ez = cosA * k3z + sinA * k1z;
  W[W_GIMBAL_AXIS + 2] = ez;
  const da = X[X_TILT_RATE];
  const db = X[X_TILT_RATE + 1];
  const x = X[X_BUFFER];
  const dx = X[X_BUFFER_RATE];
  const kx = X[X_TIP] - x * k1x;
  W[W_KO] = kx;
  const ky = X[X_TIP + 1] - x * k1y;
  W[W_KO + 1] = ky;
  const kz = X[X_TIP + 2] - x * k1z;
  W[W_KO + 2] = kz;
  const fx = hx - kx;
  W[W_FROM_KO] = fx;
  const fy = hy - ky;
  W[W_FROM_KO + 1] = fy;
  const fz = hz - kz;
  W[W_FROM_KO + 2] = fz;
  const along = fx * nx + fy * ny + fz * nz;
  W[W_ALONG] = along;
  const ox = fx - along * nx;
  const oy = fy - along * ny;
  const oz = fz - along * nz;
  const off = Math.sqrt(ox * ox + oy * oy + oz * oz);
  W[W_OFF] = off;
  const perOff = off > 1e-12 ? 1 / off : 0;
  // any direction across the axis serves where the head is on it
  const onAxis = off > 1e-12 ? 0 : 1;

  W[W_HEAD_VELOCITY] = X[X_VELOCITY] + wy * az - wz * ay;
  W[W_HEAD_VELOCITY + 1] = X[X_VELOCITY + 1] + wz * ax - wx * az;
  W[W_HEAD_VELOCITY + 2] = X[X_VELOCITY + 2] + wx * ay - wy * ax;
  W[W_PROBE_AXIS] = R0 * ux + R1 * uy + R2 * uz;
  W[W_PROBE_AXIS + 1] = R3 * ux + R4 * uy + R5 * uz;
  W[W_PROBE_AXIS + 2] = R6 * ux + R7 * uy + R8 * uz;
  W[W_FUNNEL_SPIN] = da * k2x + db * ex;
  W[W_FUNNEL_SPIN + 1] = da * k2y + db * ey;
  W[W_FUNNEL_SPIN + 2] = da * k2z + db * ez;
  W[W_KO_VELOCITY] = X[X_TIP_VELOCITY] - dx * k1x;
  W[W_KO_VELOCITY + 1] = X[X_TIP_VELOCITY + 1] - dx * k1y;
  W[W_KO_VELOCITY + 2] = X[X_TIP_VELOCITY + 2] - dx * k1z;
  W[W_OFF_AXIS] = ox * perOff + onAxis * ex;
  W[W_OFF_AXIS + 1] = oy * perOff + onAxis * ey;
  W[W_OFF_AXIS + 2] = oz * perOff + onAxis * ez;
  const tilt = Math.sqrt(a2 + b2);
  W[W_TILT + 2] = tilt;
  const fromMouth = along - P[P_MOUTH];
  const away = P[P_LIMITS + 2];
  W[W_EVENTS + EVENT_STOP] = tilt - P[P_GIMBAL + 4];
  W[W_EVENTS + EVENT_TUMBLE] = tilt - P[P_GIMBAL + 7];
  W[W_EVENTS + EVENT_MOUTH] = fromMouth - P[P_HEAD_RADIUS];
  W[W_EVENTS + EVENT_AWAY] = fromMouth * fromMouth + off * off - away * away;
}
