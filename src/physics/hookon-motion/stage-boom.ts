import {
  U_BOOM_RATE,
  W_ARC,
  W_BOOM,
  W_CARRIER_ANGLE,
  W_CARRIER_RATE,
  W_HALF,
  W_HINGE,
  W_HINGE_LOAD,
  W_HINGE_VELOCITY,
  X_TIP,
  X_TIP_VELOCITY,
  X_TRAVEL,
  X_ZERO,
} from "./layout.ts";
import {
  P_ACCUMULATOR,
  P_ANGLE,
  P_AXIAL,
  P_AXIAL_DAMPING,
  P_BENDING,
  P_BENDING_DAMPING,
  P_ELASTIC,
  P_FREE_PLAY,
  P_GRAVITY,
  P_LATERAL,
  P_LATERAL_DAMPING,
  P_LENGTH,
  P_OWN_CENTRE,
  P_OWN_MASS,
  P_PRELOAD,
  P_SNUBBER,
  P_STEERING_LIMIT,
} from "./parameter-layout.ts";
import { arcStage } from "./stage-arc.ts";

/**
 * Force of the boom on its tip, of `physics/boom` eq. 1–4 with the path of `physics/snubber` eq. 5–9, 13–14; steering moves the zero of
 * the swing spring.
 *
 *     Q_Γ = −L·(F* + F_path(x − z, ẋ − ż, s)),  ż = clip(commanded rate, ± limit)                       (README eq. 3)
 *
 * @param X  state; tip, snubber travel, zero are read
 * @param U  inputs: steering rate
 * @param P  parameters
 * @param W  reads hinge and carrier rotation; writes the force on the tip and the load on the carrier, in H
 * @param D  rates of tip, snubber travel and zero are written, but for the tip's acceleration
 * @source boom README eq. 1–4; snubber README eq. 5–9, 13–14
 * @verified right-hand-side.test.ts against `PairMotion` with `BoomSprings`, every kind of path (1e-10)
 * @cost no allocation
 */
export function boomStage(X: Float64Array, U: Float64Array, P: Float64Array, W: Float64Array, D: Float64Array): void {
  const tx = W[W_CARRIER_ANGLE];
  const ty = W[W_CARRIER_ANGLE + 1];
  const tz = W[W_CARRIER_ANGLE + 2];
  const ox = X[X_TIP] - W[W_HINGE];
  const oy = X[X_TIP + 1] - W[W_HINGE + 1];
  const oz = X[X_TIP + 2] - W[W_HINGE + 2];
  const wx = W[W_CARRIER_RATE];
  const wy = W[W_CARRIER_RATE + 1];
  const wz = W[W_CARRIER_RATE + 2];
  const rx = X[X_TIP_VELOCITY] - W[W_HINGE_VELOCITY] - (wy * oz - wz * oy);
  const ry = X[X_TIP_VELOCITY + 1] - W[W_HINGE_VELOCITY + 1] - (wz * ox - wx * oz);
  const rz = X[X_TIP_VELOCITY + 2] - W[W_HINGE_VELOCITY + 2] - (wx * oy - wy * ox);
  // into carrier axes, small angles
  const dx = ox + tz * oy - ty * oz;
  const dy = oy + tx * oz - tz * ox;
  const dz = oz + ty * ox - tx * oy;
  const vx = rx + tz * ry - ty * rz;
  const vy = ry + tx * rz - tz * rx;
  const vz = rz + ty * rx - tx * ry;
  const g = P[P_GRAVITY];
  const gx = -ty * g;
  const gy = tx * g;
  const gz = g;

  const L = P[P_LENGTH];
  const rho2 = dx * dx + dz * dz;
  const rho = Math.sqrt(rho2);
  const ell2 = rho2 + dy * dy;
  const ell = Math.sqrt(ell2);
  const ex = dx / ell;
  const ey = dy / ell;
  const ez = dz / ell;
  const sx = dz / rho2;
  const sz = -dx / rho2;
  const perLateral = 1 / (rho * ell2);
  const lx = -dy * dx * perLateral;
  const ly = rho / ell2;
  const lz = -dy * dz * perLateral;
  const ellRate = ex * vx + ey * vy + ez * vz;
  const swingRate = sx * vx + sz * vz;
  const lateralRate = lx * vx + ly * vy + lz * vz;

  const limit = P[P_STEERING_LIMIT];
  const zeroRate = Math.max(-limit, Math.min(limit, U[U_BOOM_RATE]));
  const halfS = dz / Math.max(rho - dx, 1e-9);
  const halfL = dy / Math.max(rho + ell, 1e-9);
  W[W_HALF] = halfS;
  W[W_HALF + 1] = halfL;
  arcStage(W);
  const swing = halfS * halfS < 0.19 ? W[W_ARC] : Math.atan2(dz, -dx);
  const x = L * (swing - P[P_ANGLE]) - X[X_ZERO];
  const rate = L * swingRate - zeroRate;
  const s = X[X_TRAVEL];
  const preload = P[P_PRELOAD + 1];
  // free play opens where the joint loses the load that it has at trim
  const kb = P[P_BENDING];
  const cb = P[P_BENDING_DAMPING];
  const play = P[P_FREE_PLAY];
  const sense = preload < 0 ? -1 : 1;
  const bent = kb * (x - s);
  const loaded = Math.abs(preload) + sense * bent;
  const beyond = loaded + kb * play;
  const parted = play > 0 ? (loaded < 0 ? 1 : 0) : 0;
  const elastic = parted > 0 ? -preload + (beyond < 0 ? sense * beyond : 0) : bent;
  const c = parted > 0 ? (beyond < 0 ? cb : 0) : cb;
  // speed across the snubber from the balance of forces
  const C1 = P[P_SNUBBER];
  const C2 = P[P_SNUBBER + 1];
  const relief = P[P_SNUBBER + 2];
  const reliefRate = P[P_SNUBBER + 3];
  const load = elastic + c * rate - P[P_ACCUMULATOR] * s;
  const net = Math.abs(load) - P[P_SNUBBER + 4];
  const over = Math.max(net, 0);
  const line = c + C1;
  const size = line + Math.sqrt(line * line + 4 * C2 * over);
  const closed = over > 0 ? (2 * over) / size : 0;
  const b = C2 * (reliefRate + c);
  const a = c * reliefRate + C1 * (reliefRate + c);
  const both = over * reliefRate + c * relief;
  const through = (2 * both) / (a + Math.sqrt(a * a + 4 * b * both));
  const passed = reliefRate > 0 ? through + (C1 * through + C2 * through * through - relief) / reliefRate : 0;
  const opened = reliefRate > 0 ? passed : (over - relief) / c;
  const size1 = C1 * closed + C2 * closed * closed > relief ? opened : closed;
  const travelRate = load < 0 ? -size1 : size1;
  const relaxing = elastic + c * (rate - travelRate);
  const isElastic = P[P_ELASTIC];
  const path = isElastic > 0 ? P[P_ELASTIC + 1] * x + P[P_ELASTIC + 2] * rate : relaxing;

  const qAxial = -(P[P_PRELOAD] + P[P_AXIAL] * (ell - L) + P[P_AXIAL_DAMPING] * ellRate);
  const qSwing = -L * (preload + path);
  const lateral = halfL * halfL < 0.19 ? W[W_ARC + 1] : Math.atan2(dy, rho);
  const qLateral = -L * (P[P_PRELOAD + 2] + L * (P[P_LATERAL] * lateral + P[P_LATERAL_DAMPING] * lateralRate));
  const share = (P[P_OWN_MASS] * P[P_OWN_CENTRE]) / ell;
  const along = gx * ex + gy * ey + gz * ez;
  const fx = qAxial * ex + qSwing * sx + qLateral * lx + share * (gx - along * ex);
  const fy = qAxial * ey + qLateral * ly + share * (gy - along * ey);
  const fz = qAxial * ez + qSwing * sz + qLateral * lz + share * (gz - along * ez);
  // back into H
  const hx = fx - tz * fy + ty * fz;
  const hy = fy - tx * fz + tz * fx;
  const hz = fz - ty * fx + tx * fy;
  W[W_BOOM] = hx;
  W[W_BOOM + 1] = hy;
  W[W_BOOM + 2] = hz;
  // what the boom gives to the tip it takes from the carrier, its own weight adds
  W[W_HINGE_LOAD] = -hx;
  W[W_HINGE_LOAD + 1] = -hy;
  W[W_HINGE_LOAD + 2] = P[P_OWN_MASS] * g - hz;
  const mz = share * g - hz;
  W[W_HINGE_LOAD + 3] = oy * mz + oz * hy;
  W[W_HINGE_LOAD + 4] = -oz * hx - ox * mz;
  W[W_HINGE_LOAD + 5] = -ox * hy + oy * hx;
  D[X_TIP] = X[X_TIP_VELOCITY];
  D[X_TIP + 1] = X[X_TIP_VELOCITY + 1];
  D[X_TIP + 2] = X[X_TIP_VELOCITY + 2];
  D[X_TRAVEL] = isElastic > 0 ? 0 : travelRate;
  D[X_ZERO] = zeroRate;
}
