import {
  U_GUST,
  U_GUST_SLOPE,
  U_START,
  U_TIME,
  W_ARC,
  W_FORCE,
  W_HALF,
  W_MOMENT,
  W_ROTATION,
  X_ATTITUDE,
  X_CONTROLS,
  X_RATE,
  X_VELOCITY,
} from "./layout.ts";
import {
  P_AIRSPEED,
  P_ALPHA0,
  P_AREA,
  P_CHORD,
  P_DENSITY,
  P_DRAG,
  P_GRAVITY,
  P_INERTIA,
  P_INVERSE,
  P_LIFT,
  P_MASS,
  P_PITCH,
  P_REFERENCE,
  P_ROLL,
  P_SIDE,
  P_SPAN,
  P_STABILITY_MOMENTS,
  P_THRUST,
  P_WIND_SIDE,
  P_YAW,
} from "./parameter-layout.ts";
import { arcStage } from "./stage-arc.ts";

/**
 * Six degrees of freedom of the carried aircraft: Newton and Euler with the coefficient build-up of `physics/airloads`.
 *
 *     m·a = m·g + R·F + f,   I·ω̇ + ω×Iω = M + m_f,   (F, M) = (F, M)₀ + (F, M)_α̇·α̇              (README eq. 1)
 *     α̇ = (e·(a − a_air) + …)/(1 − …): the α̇ derivatives are a matrix of rank one, taken out in closed form   (README eq. 2)
 *
 * @param X  state; quaternion, velocity, rates, controls are read
 * @param U  inputs: time, gust and its slope
 * @param P  parameters
 * @param W  reads rotation, force and moment by the socket (H, about the c.g.); writes accelerations
 * @param D  rates of state, the aircraft's are written
 * @source own derivation, README eq. 1–2; bodies README eq. 1, 2, 5; airloads README eq. 1–9
 * @verified right-hand-side.test.ts against `PairMotion` (1e-10)
 * @cost no allocation
 */
export function aircraftStage(
  X: Float64Array,
  U: Float64Array,
  P: Float64Array,
  W: Float64Array,
  D: Float64Array,
): void {
  const R0 = W[W_ROTATION];
  const R1 = W[W_ROTATION + 1];
  const R2 = W[W_ROTATION + 2];
  const R3 = W[W_ROTATION + 3];
  const R4 = W[W_ROTATION + 4];
  const R5 = W[W_ROTATION + 5];
  const R6 = W[W_ROTATION + 6];
  const R7 = W[W_ROTATION + 7];
  const R8 = W[W_ROTATION + 8];
  const p = X[X_RATE];
  const q = X[X_RATE + 1];
  const r = X[X_RATE + 2];
  const since = U[U_TIME] - U[U_START];
  const gu = U[U_GUST] + U[U_GUST_SLOPE] * since;
  const gv = U[U_GUST + 1] + U[U_GUST_SLOPE + 1] * since;
  const gw = U[U_GUST + 2] + U[U_GUST_SLOPE + 2] * since;
  const gp = U[U_GUST + 3] + U[U_GUST_SLOPE + 3] * since;
  const gq = U[U_GUST + 4] + U[U_GUST_SLOPE + 4] * since;
  const gr = U[U_GUST + 5] + U[U_GUST_SLOPE + 5] * since;
  const V = P[P_AIRSPEED];
  // motion against the air, body axes
  const hx = X[X_VELOCITY] + V - gu;
  const hy = X[X_VELOCITY + 1] - gv;
  const hz = X[X_VELOCITY + 2] - gw;
  const bu = R0 * hx + R3 * hy + R6 * hz;
  const bv = R1 * hx + R4 * hy + R7 * hz;
  const bw = R2 * hx + R5 * hy + R8 * hz;
  const pa = p - (R0 * gp + R3 * gq + R6 * gr);
  const qa = q - (R1 * gp + R4 * gq + R7 * gr);
  const ra = r - (R2 * gp + R5 * gq + R8 * gr);
  // flow at the reference point
  const rx = P[P_REFERENCE];
  const ry = P[P_REFERENCE + 1];
  const rz = P[P_REFERENCE + 2];
  const u = bu + qa * rz - ra * ry;
  const v = bv + ra * rx - pa * rz;
  const w = bw + pa * ry - qa * rx;
  const inPlane2 = u * u + w * w;
  const inPlane = Math.sqrt(inPlane2);
  const speed = Math.sqrt(inPlane2 + v * v);
  const perPlane = inPlane > 0 ? 1 / inPlane : 0;
  const perSpeed = speed > 0 ? 1 / speed : 0;
  const cosA = inPlane > 0 ? u * perPlane : 1;
  const sinA = w * perPlane;
  const cosB = speed > 0 ? inPlane * perSpeed : 1;
  const sinB = v * perSpeed;
  // tangents of half the angles
  const halfA = w / Math.max(inPlane + u, 1e-9);
  const halfB = v / Math.max(speed + inPlane, 1e-9);
  W[W_HALF] = halfA;
  W[W_HALF + 1] = halfB;
  arcStage(W);
  const alpha = halfA * halfA < 0.19 ? W[W_ARC] : Math.atan2(w, u);
  const beta = halfB * halfB < 0.19 ? W[W_ARC + 1] : Math.atan2(v, inPlane);
  const incidence = alpha - P[P_ALPHA0];
  const stability = P[P_STABILITY_MOMENTS];
  const rollRate = stability > 0 ? pa * cosA + ra * sinA : pa;
  const yawRate = stability > 0 ? ra * cosA - pa * sinA : ra;
  const chord = P[P_CHORD];
  const span = P[P_SPAN];
  const perRate = 0.25 * P[P_DENSITY] * speed * P[P_AREA];
  const pressureArea = 2 * perRate * speed;
  const perPitchRate = perRate * chord;
  const perLateralRate = perRate * span;
  // coefficients
  const elevator = X[X_CONTROLS];
  const aileron = X[X_CONTROLS + 1];
  const rudder = X[X_CONTROLS + 2];
  const thrust = X[X_CONTROLS + 3];
  const stillLift = P[P_LIFT] + P[P_LIFT + 1] * incidence + P[P_LIFT + 2] * elevator;
  const drag = P[P_DRAG] + P[P_DRAG + 1] * stillLift * stillLift + P[P_DRAG + 2] * incidence + P[P_DRAG + 3] * elevator;
  const stillPitch = P[P_PITCH] + P[P_PITCH + 1] * incidence + P[P_PITCH + 2] * elevator;
  const L = pressureArea * stillLift + perPitchRate * P[P_LIFT + 3] * qa;
  const Dr = pressureArea * drag;
  const sideForce =
    pressureArea * (P[P_SIDE] * beta + P[P_SIDE + 3] * aileron + P[P_SIDE + 4] * rudder) +
    perLateralRate * (P[P_SIDE + 1] * rollRate + P[P_SIDE + 2] * yawRate);
  const wind = P[P_WIND_SIDE];
  const along = wind > 0 ? -Dr * cosB - sideForce * sinB : -Dr * cosB;
  const fx = along * cosA + L * sinA;
  const fy = wind > 0 ? sideForce * cosB - Dr * sinB : sideForce;
  const fz = along * sinA - L * cosA;
  const rollMoment =
    span *
    (pressureArea * (P[P_ROLL] * beta + P[P_ROLL + 3] * aileron + P[P_ROLL + 4] * rudder) +
      perLateralRate * (P[P_ROLL + 1] * rollRate + P[P_ROLL + 2] * yawRate));
  const yawMoment =
    span *
    (pressureArea * (P[P_YAW] * beta + P[P_YAW + 3] * aileron + P[P_YAW + 4] * rudder) +
      perLateralRate * (P[P_YAW + 1] * rollRate + P[P_YAW + 2] * yawRate));
  const mx = (stability > 0 ? rollMoment * cosA - yawMoment * sinA : rollMoment) + ry * fz - rz * fy;
  const my = chord * (pressureArea * stillPitch + perPitchRate * P[P_PITCH + 3] * qa) + rz * fx - rx * fz;
  const mz = (stability > 0 ? rollMoment * sinA + yawMoment * cosA : yawMoment) + rx * fy - ry * fx;
  // load per α̇, and α̇ per acceleration of the c.g. in body axes
  const perLift = perPitchRate * P[P_LIFT + 4];
  const ax = perLift * sinA;
  const az = -perLift * cosA;
  const amx = ry * az;
  const amy = perPitchRate * chord * P[P_PITCH + 4] + rz * ax - rx * az;
  const amz = -ry * ax;
  const floored = Math.max(inPlane2, 1);
  const perU = -w / floored;
  const perW = u / floored;
  // what of the body-axis acceleration is not Rᵀ·a; the gust's own as a frozen field of its averaged gradient
  const airY = V * gr;
  const airZ = -V * gq;
  const cx = q * bw - r * bv + (R3 * airY + R6 * airZ);
  const cz = p * bv - q * bu + (R5 * airY + R8 * airZ);
  const eq0 = ry * perW;
  const eq1 = rz * perU - rx * perW;
  const eq2 = -ry * perU;
  // force and moment of the socket in body axes
  const Fx = W[W_FORCE];
  const Fy = W[W_FORCE + 1];
  const Fz = W[W_FORCE + 2];
  const Mx = W[W_MOMENT];
  const My = W[W_MOMENT + 1];
  const Mz = W[W_MOMENT + 2];
  const sx = R0 * Fx + R3 * Fy + R6 * Fz;
  const sy = R1 * Fx + R4 * Fy + R7 * Fz;
  const sz = R2 * Fx + R5 * Fy + R8 * Fz;
  const nx = R0 * Mx + R3 * My + R6 * Mz;
  const ny = R1 * Mx + R4 * My + R7 * Mz;
  const nz = R2 * Mx + R5 * My + R8 * Mz;
  const g = P[P_GRAVITY];
  const perMass = 1 / P[P_MASS];
  const bx = R6 * g + (fx + P[P_THRUST] * thrust + sx) * perMass;
  const by = R7 * g + (fy + P[P_THRUST + 1] * thrust + sy) * perMass;
  const bz = R8 * g + (fz + P[P_THRUST + 2] * thrust + sz) * perMass;
  const Hx = P[P_INERTIA] * p + P[P_INERTIA + 1] * q + P[P_INERTIA + 2] * r;
  const Hy = P[P_INERTIA + 3] * p + P[P_INERTIA + 4] * q + P[P_INERTIA + 5] * r;
  const Hz = P[P_INERTIA + 6] * p + P[P_INERTIA + 7] * q + P[P_INERTIA + 8] * r;
  const tx = mx + P[P_THRUST + 3] * thrust + nx - (q * Hz - r * Hy);
  const ty = my + P[P_THRUST + 4] * thrust + ny - (r * Hx - p * Hz);
  const tz = mz + P[P_THRUST + 5] * thrust + nz - (p * Hy - q * Hx);
  const J0 = P[P_INVERSE];
  const J1 = P[P_INVERSE + 1];
  const J2 = P[P_INVERSE + 2];
  const J4 = P[P_INVERSE + 4];
  const J5 = P[P_INVERSE + 5];
  const J8 = P[P_INVERSE + 8];
  const wx = J0 * tx + J1 * ty + J2 * tz;
  const wy = J1 * tx + J4 * ty + J5 * tz;
  const wz = J2 * tx + J5 * ty + J8 * tz;
  const vx = J0 * amx + J1 * amy + J2 * amz;
  const vy = J1 * amx + J4 * amy + J5 * amz;
  const vz = J2 * amx + J5 * amy + J8 * amz;
  const known = perU * (bx - cx) + perW * (bz - cz) + eq0 * wx + eq1 * wy + eq2 * wz;
  const own = (perU * ax + perW * az) * perMass + eq0 * vx + eq1 * vy + eq2 * vz;
  const alphaRate = known / (1 - own);
  const aX = bx + ax * perMass * alphaRate;
  const aZ = bz + az * perMass * alphaRate;
  const a0 = R0 * aX + R1 * by + R2 * aZ;
  const a1 = R3 * aX + R4 * by + R5 * aZ;
  const a2 = R6 * aX + R7 * by + R8 * aZ;
  const dp = wx + vx * alphaRate;
  const dq = wy + vy * alphaRate;
  const dr = wz + vz * alphaRate;
  D[0] = X[X_VELOCITY];
  D[1] = X[X_VELOCITY + 1];
  D[2] = X[X_VELOCITY + 2];
  const qw = X[X_ATTITUDE];
  const qx = X[X_ATTITUDE + 1];
  const qy = X[X_ATTITUDE + 2];
  const qz = X[X_ATTITUDE + 3];
  // quaternion rate with a pull back to unit length
  const excess = 0.5 * (1 - (qw * qw + qx * qx + qy * qy + qz * qz));
  D[X_ATTITUDE] = 0.5 * (-qx * p - qy * q - qz * r) + excess * qw;
  D[X_ATTITUDE + 1] = 0.5 * (qw * p + qy * r - qz * q) + excess * qx;
  D[X_ATTITUDE + 2] = 0.5 * (qw * q + qz * p - qx * r) + excess * qy;
  D[X_ATTITUDE + 3] = 0.5 * (qw * r + qx * q - qy * p) + excess * qz;
  D[X_VELOCITY] = a0;
  D[X_VELOCITY + 1] = a1;
  D[X_VELOCITY + 2] = a2;
  D[X_RATE] = dp;
  D[X_RATE + 1] = dq;
  D[X_RATE + 2] = dr;
}
