import type { AircraftMotion } from "../pilot/index.ts";

/**
 * Attitude, height and rates relative to H and the motion through the air, for the control law.
 *
 * @param state of the pair
 * @param R     body axes to H, row-major
 * @param wind  velocity of the air in H [m/s]
 * @param s     written
 * @cost no allocation
 */
export function sense(state: Float64Array, R: Float64Array, wind: Float64Array, s: AircraftMotion): void {
  s.bank = Math.atan2(R[7], R[8]);
  s.pitch = Math.asin(Math.max(-1, Math.min(1, -R[6])));
  s.rollRate = state[10];
  s.pitchRate = state[11];
  s.yawRate = state[12];
  s.yaw = Math.atan2(R[3], R[0]);
  s.height = -state[2];
  s.verticalSpeed = -state[9];

  const rx = state[7] - wind[0];
  const ry = state[8] - wind[1];
  const rz = state[9] - wind[2];
  const u = R[0] * rx + R[3] * ry + R[6] * rz;
  const v = R[1] * rx + R[4] * ry + R[7] * rz;
  const w = R[2] * rx + R[5] * ry + R[8] * rz;
  s.airspeed = Math.sqrt(u * u + v * v + w * w);
  s.angleOfAttack = Math.atan2(w, u);
  s.sideslip = s.airspeed > 0 ? Math.asin(Math.max(-1, Math.min(1, v / s.airspeed))) : 0;
}
