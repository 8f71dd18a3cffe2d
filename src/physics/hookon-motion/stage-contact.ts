import {
  EVENT_PLUNGER,
  EVENT_PULL,
  EVENT_RIM,
  EVENT_SEAT,
  EVENT_THROAT,
  EVENT_WALL,
  U_HELD_AT,
  U_HOLDS,
  U_LATCH,
  U_NEAR,
  W_ALONG,
  W_AXIS,
  W_DEPTH,
  W_DIRECTION,
  W_EDGE,
  W_EVENTS,
  W_FORCE,
  W_FROM_KO,
  W_FUNNEL_MOMENT,
  W_FUNNEL_SPIN,
  W_HEAD,
  W_HEAD_VELOCITY,
  W_KO,
  W_KO_VELOCITY,
  W_MOMENT,
  W_NORMAL,
  W_OFF,
  W_OFF_AXIS,
  W_POINT,
  W_PROBE_AXIS,
  W_PULL,
  W_SLIDING,
  W_SPIN,
  X_CG,
} from "./layout.ts";
import {
  P_CONE,
  P_CONTACT,
  P_HEAD_RADIUS,
  P_HOOKS,
  P_LATCH_NODES,
  P_LATCH_TRAVEL,
  P_MOUTH,
  P_MOUTH_RADIUS,
  P_SEAT,
  P_STEM_LENGTH,
  P_STEM_RADIUS,
  P_TABLES,
  P_THROAT,
  P_THROAT_RADIUS,
} from "./parameter-layout.ts";

/** A gap that is no event [m]; no whole number, so that it mixes with others without being boxed. */
const FAR = 1.5;

/**
 * Force between probe and socket: head on cone, bore, edges and seat; stem on throat and rim; plunger and hooks of the latch.
 *
 *     gap = (distance of the head's centre from the nearest point of the profile) − r                     (README eq. 5)
 *     hooks: f = −(k·(s − s₀) + c·ṡ)·n − (k_s·ρ + c·ρ̇)                                                   (README eq. 8)
 *
 * @param X  state; place of the c.g. is read
 * @param U  inputs: whether the head is near, and what the latch does
 * @param P  parameters
 * @param W  reads frames; writes force and moments on aircraft and funnel, gaps, pull
 * @source own derivation, README eq. 5–8
 * @verified contact.test.ts
 * @cost no allocation
 */
export function contactStage(X: Float64Array, U: Float64Array, P: Float64Array, W: Float64Array): void {
  W[W_FORCE] = 0;
  W[W_FORCE + 1] = 0;
  W[W_FORCE + 2] = 0;
  W[W_MOMENT] = 0;
  W[W_MOMENT + 1] = 0;
  W[W_MOMENT + 2] = 0;
  W[W_FUNNEL_MOMENT] = 0;
  W[W_FUNNEL_MOMENT + 1] = 0;
  W[W_FUNNEL_MOMENT + 2] = 0;
  W[W_NORMAL] = 0;
  W[W_SLIDING] = 0;
  W[W_PULL] = 0;
  W[W_EVENTS + EVENT_WALL] = FAR;
  W[W_EVENTS + EVENT_SEAT] = FAR;
  W[W_EVENTS + EVENT_THROAT] = FAR;
  W[W_EVENTS + EVENT_RIM] = FAR;
  W[W_EVENTS + EVENT_PLUNGER] = FAR;
  W[W_EVENTS + EVENT_PULL] = -1;
  if (U[U_NEAR] > 0) {
    headStage(X, U, P, W);
    stemStage(X, P, W);
    latchStage(X, U, P, W);
  }
}

/** Head against the profile (rim, cone, throat, bore) and the seat. */
function headStage(X: Float64Array, U: Float64Array, P: Float64Array, W: Float64Array): void {
  const s = W[W_ALONG];
  const rho = W[W_OFF];
  const mouth = P[P_MOUTH];
  const throat = P[P_THROAT];
  const seat = P[P_SEAT];
  const mouthRadius = P[P_MOUTH_RADIUS];
  const throatRadius = P[P_THROAT_RADIUS];
  const sine = P[P_CONE];
  const cosine = P[P_CONE + 1];
  const side = P[P_CONE + 2];
  // nearest point on the cone's side, counted from the rim; beyond the throat, on the bore
  const run = (mouth - s) * cosine + (mouthRadius - rho) * sine;
  const onCone = Math.max(0, Math.min(side, run));
  const inBore = run > side ? 1 : 0;
  const sAt = inBore * Math.max(seat, Math.min(throat, s)) + (1 - inBore) * (mouth - onCone * cosine);
  const rhoAt = inBore * throatRadius + (1 - inBore) * (mouthRadius - onCone * sine);
  const ds = s - sAt;
  const dr = rho - rhoAt;
  const distance = Math.sqrt(ds * ds + dr * dr);
  const gap = distance - P[P_HEAD_RADIUS];
  W[W_EVENTS + EVENT_WALL] = gap;
  const nx = W[W_AXIS];
  const ny = W[W_AXIS + 1];
  const nz = W[W_AXIS + 2];
  const ux = W[W_OFF_AXIS];
  const uy = W[W_OFF_AXIS + 1];
  const uz = W[W_OFF_AXIS + 2];
  if (gap < 0) {
    const per = 1 / Math.max(distance, 1e-9);
    const cs = ds * per;
    const cr = dr * per;
    W[W_DEPTH] = -gap;
    W[W_DIRECTION] = cs * nx + cr * ux;
    W[W_DIRECTION + 1] = cs * ny + cr * uy;
    W[W_DIRECTION + 2] = cs * nz + cr * uz;
    W[W_POINT] = sAt * nx + rhoAt * ux;
    W[W_POINT + 1] = sAt * ny + rhoAt * uy;
    W[W_POINT + 2] = sAt * nz + rhoAt * uz;
    pressStage(X, P, W);
  }
  // closed hooks hold the head on the seat themselves
  const toSeat = s - seat - P[P_HEAD_RADIUS];
  const hooked = U[U_LATCH] > 1.5 ? (U[U_LATCH] < 2.5 ? 1 : 0) : 0;
  const seatGap = hooked * FAR + (1 - hooked) * toSeat;
  const within = rho < throatRadius ? 1 : 0;
  const inside = within * seatGap + (1 - within) * FAR;
  W[W_EVENTS + EVENT_SEAT] = inside;
  if (inside < 0) {
    W[W_DEPTH] = -inside;
    W[W_DIRECTION] = nx;
    W[W_DIRECTION + 1] = ny;
    W[W_DIRECTION + 2] = nz;
    W[W_POINT] = seat * nx + rho * ux;
    W[W_POINT + 1] = seat * ny + rho * uy;
    W[W_POINT + 2] = seat * nz + rho * uz;
    pressStage(X, P, W);
  }
}

/** Stem against the edges of throat and mouth. */
function stemStage(X: Float64Array, P: Float64Array, W: Float64Array): void {
  W[W_EDGE + 1] = P[P_THROAT];
  W[W_EDGE + 2] = P[P_THROAT_RADIUS];
  edgeStage(X, P, W);
  W[W_EVENTS + EVENT_THROAT] = W[W_EDGE];
  W[W_EDGE + 1] = P[P_MOUTH];
  W[W_EDGE + 2] = P[P_MOUTH_RADIUS];
  edgeStage(X, P, W);
  W[W_EVENTS + EVENT_RIM] = W[W_EDGE];
}

/**
 * Stem against a circular edge: m is normal to the stem in the plane of the stem and the point of the edge nearest to where the stem
 * goes through the edge's plane (README eq. 7).
 */
function edgeStage(X: Float64Array, P: Float64Array, W: Float64Array): void {
  const sEdge = W[W_EDGE + 1];
  const radius = W[W_EDGE + 2];
  // from the head back along the stem
  const ex = -W[W_PROBE_AXIS];
  const ey = -W[W_PROBE_AXIS + 1];
  const ez = -W[W_PROBE_AXIS + 2];
  const nx = W[W_AXIS];
  const ny = W[W_AXIS + 1];
  const nz = W[W_AXIS + 2];
  const slope = ex * nx + ey * ny + ez * nz;
  const safe = Math.max(slope, 0.2);
  const u = (sEdge - W[W_ALONG]) / safe;
  const crosses = slope > 0.2 ? (u > 0 ? (u < P[P_STEM_LENGTH] ? 1 : 0) : 0) : 0;
  // off the axis in the plane of the edge
  const qx = W[W_FROM_KO] + u * ex - sEdge * nx;
  const qy = W[W_FROM_KO + 1] + u * ey - sEdge * ny;
  const qz = W[W_FROM_KO + 2] + u * ez - sEdge * nz;
  const off = Math.sqrt(qx * qx + qy * qy + qz * qz);
  const per = 1 / Math.max(off, 1e-9);
  const ux = qx * per;
  const uy = qy * per;
  const uz = qz * per;
  const lean = ux * ex + uy * ey + uz * ez;
  const flat = Math.sqrt(Math.max(1 - lean * lean, 1e-6));
  const gap = (radius - off) * flat - P[P_STEM_RADIUS];
  const counted = crosses * Math.min(gap, FAR) + (1 - crosses) * FAR;
  W[W_EDGE] = counted;
  // a stem that leaves the circle altogether passes the funnel outside
  if (counted < 0 && off < radius) {
    W[W_DEPTH] = -counted;
    W[W_DIRECTION] = -(ux - lean * ex) / flat;
    W[W_DIRECTION + 1] = -(uy - lean * ey) / flat;
    W[W_DIRECTION + 2] = -(uz - lean * ez) / flat;
    W[W_POINT] = sEdge * nx + radius * ux;
    W[W_POINT + 1] = sEdge * ny + radius * uy;
    W[W_POINT + 2] = sEdge * nz + radius * uz;
    pressStage(X, P, W);
  }
}

/**
 * One contact: normal force that never pulls, and friction that fades with the sliding speed.
 *
 *     F = max(0, k·δ·(1 + λ·δ̇)),   f_t = −μ·F·v_t/√(v_t² + v_c²)                                        (README eq. 6)
 *
 * @param W  reads depth, direction and point of the contact in hand; adds to force and moments
 */
function pressStage(X: Float64Array, P: Float64Array, W: Float64Array): void {
  const depth = W[W_DEPTH];
  const mx = W[W_DIRECTION];
  const my = W[W_DIRECTION + 1];
  const mz = W[W_DIRECTION + 2];
  const cx = W[W_POINT];
  const cy = W[W_POINT + 1];
  const cz = W[W_POINT + 2];
  const ax = W[W_KO] + cx - X[X_CG];
  const ay = W[W_KO + 1] + cy - X[X_CG + 1];
  const az = W[W_KO + 2] + cz - X[X_CG + 2];
  // arm from the head, whose velocity is known
  const bx = W[W_KO] + cx - W[W_HEAD];
  const by = W[W_KO + 1] + cy - W[W_HEAD + 1];
  const bz = W[W_KO + 2] + cz - W[W_HEAD + 2];
  const wx = W[W_SPIN];
  const wy = W[W_SPIN + 1];
  const wz = W[W_SPIN + 2];
  const fx = W[W_FUNNEL_SPIN];
  const fy = W[W_FUNNEL_SPIN + 1];
  const fz = W[W_FUNNEL_SPIN + 2];
  const vx = W[W_HEAD_VELOCITY] + wy * bz - wz * by - (W[W_KO_VELOCITY] + fy * cz - fz * cy);
  const vy = W[W_HEAD_VELOCITY + 1] + wz * bx - wx * bz - (W[W_KO_VELOCITY + 1] + fz * cx - fx * cz);
  const vz = W[W_HEAD_VELOCITY + 2] + wx * by - wy * bx - (W[W_KO_VELOCITY + 2] + fx * cy - fy * cx);
  const opening = vx * mx + vy * my + vz * mz;
  const normal = Math.max(0, P[P_CONTACT] * depth * (1 - P[P_CONTACT + 1] * opening));
  const tx = vx - opening * mx;
  const ty = vy - opening * my;
  const tz = vz - opening * mz;
  const sliding2 = tx * tx + ty * ty + tz * tz;
  const creep = P[P_CONTACT + 3];
  const drag = (P[P_CONTACT + 2] * normal) / Math.sqrt(sliding2 + creep * creep);
  const px = normal * mx - drag * tx;
  const py = normal * my - drag * ty;
  const pz = normal * mz - drag * tz;
  W[W_FORCE] += px;
  W[W_FORCE + 1] += py;
  W[W_FORCE + 2] += pz;
  W[W_MOMENT] += ay * pz - az * py;
  W[W_MOMENT + 1] += az * px - ax * pz;
  W[W_MOMENT + 2] += ax * py - ay * px;
  W[W_FUNNEL_MOMENT] -= cy * pz - cz * py;
  W[W_FUNNEL_MOMENT + 1] -= cz * px - cx * pz;
  W[W_FUNNEL_MOMENT + 2] -= cx * py - cy * px;
  const larger = normal > W[W_NORMAL] ? 1 : 0;
  W[W_SLIDING] = larger > 0 ? Math.sqrt(sliding2) : W[W_SLIDING];
  W[W_NORMAL] = larger > 0 ? normal : W[W_NORMAL];
}

/** Plunger before the trip, closed hooks after the lock; both act at the head's centre. */
function latchStage(X: Float64Array, U: Float64Array, P: Float64Array, W: Float64Array): void {
  const s = W[W_ALONG];
  const nx = W[W_AXIS];
  const ny = W[W_AXIS + 1];
  const nz = W[W_AXIS + 2];
  const dx = W[W_FROM_KO];
  const dy = W[W_FROM_KO + 1];
  const dz = W[W_FROM_KO + 2];
  const fx = W[W_FUNNEL_SPIN];
  const fy = W[W_FUNNEL_SPIN + 1];
  const fz = W[W_FUNNEL_SPIN + 2];
  // velocity of the head against the funnel there
  const vx = W[W_HEAD_VELOCITY] - W[W_KO_VELOCITY] - (fy * dz - fz * dy);
  const vy = W[W_HEAD_VELOCITY + 1] - W[W_KO_VELOCITY + 1] - (fz * dx - fx * dz);
  const vz = W[W_HEAD_VELOCITY + 2] - W[W_KO_VELOCITY + 2] - (fx * dy - fy * dx);
  const open = U[U_LATCH] < 0.5 ? 1 : 0;
  const hooked = U[U_LATCH] > 1.5 ? (U[U_LATCH] < 2.5 ? 1 : 0) : 0;
  const travel = P[P_SEAT] + P[P_HEAD_RADIUS] + P[P_LATCH_TRAVEL] - s;
  const inBore = open > 0 ? (W[W_OFF] < P[P_THROAT_RADIUS] ? 1 : 0) : 0;
  W[W_EVENTS + EVENT_PLUNGER] = inBore > 0 ? Math.min(-travel, FAR) : FAR;
  let plunger = 0;
  if (inBore > 0 && travel > 0) {
    const last = (P[P_LATCH_NODES] | 0) - 1;
    let k = 0;
    while (k < last - 1 && travel > P[P_TABLES + k + 1]) k += 1;
    const forces = P_TABLES + last + 1;
    const share = Math.min(1, (travel - P[P_TABLES + k]) / (P[P_TABLES + k + 1] - P[P_TABLES + k]));
    plunger = P[forces + k] + share * (P[forces + k + 1] - P[forces + k]);
  }
  const along = vx * nx + vy * ny + vz * nz;
  const off = W[W_OFF];
  const pull = P[P_HOOKS] * (s - U[U_HELD_AT]) + P[P_HOOKS + 1] * along;
  W[W_PULL] = hooked > 0 ? pull : 0;
  W[W_EVENTS + EVENT_PULL] = hooked > 0 ? pull / U[U_HOLDS] - 1 : -1;
  const axial = hooked > 0 ? -pull : plunger;
  const c = hooked > 0 ? P[P_HOOKS + 1] : 0;
  const sideways = hooked > 0 ? P[P_HOOKS + 2] * off : 0;
  const px = axial * nx - sideways * W[W_OFF_AXIS] - c * (vx - along * nx);
  const py = axial * ny - sideways * W[W_OFF_AXIS + 1] - c * (vy - along * ny);
  const pz = axial * nz - sideways * W[W_OFF_AXIS + 2] - c * (vz - along * nz);
  const ax = W[W_HEAD] - X[X_CG];
  const ay = W[W_HEAD + 1] - X[X_CG + 1];
  const az = W[W_HEAD + 2] - X[X_CG + 2];
  W[W_FORCE] += px;
  W[W_FORCE + 1] += py;
  W[W_FORCE + 2] += pz;
  W[W_MOMENT] += ay * pz - az * py;
  W[W_MOMENT + 1] += az * px - ax * pz;
  W[W_MOMENT + 2] += ax * py - ay * px;
  W[W_FUNNEL_MOMENT] -= dy * pz - dz * py;
  W[W_FUNNEL_MOMENT + 1] -= dz * px - dx * pz;
  W[W_FUNNEL_MOMENT + 2] -= dx * py - dy * px;
}
