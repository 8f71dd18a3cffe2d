/**
 * Nearest points of two segments p1p2 and q1q2.
 *
 *     s = −n·(r × d₂)/|n|²,  n = d₁ × d₂,  r = p₁ − q₁, clamped to the segments      (README eq. 6)
 *
 * The cross product keeps the error at rounding level for segments at any small angle. Points are allowed as segments of no
 * length.
 *
 * @param p    first segment: its ends [m] at `p1` and `p2`
 * @param p1   index of x of the first end
 * @param p2   index of x of the second end
 * @param q    second segment: its ends [m] at `q1` and `q2`
 * @param q1   index of x of the first end
 * @param q2   index of x of the second end
 * @param out  written: [squared distance [m²], nearest point on p (3), nearest point on q (3)]
 * @source own derivation, README eq. 6; order of clamping as in Ericson, Real-Time Collision Detection (2005), ch. 5 (from memory)
 * @verified segments.test.ts: published/segment-distance-cases (rtol 1e-15), dense search, nearly parallel crossings
 */
export function segmentSegment(
  p: Float64Array,
  p1: number,
  p2: number,
  q: Float64Array,
  q1: number,
  q2: number,
  out: Float64Array,
): void {
  const px = p[p1]!;
  const py = p[p1 + 1]!;
  const pz = p[p1 + 2]!;
  const qx = q[q1]!;
  const qy = q[q1 + 1]!;
  const qz = q[q1 + 2]!;
  const ux = p[p2]! - px;
  const uy = p[p2 + 1]! - py;
  const uz = p[p2 + 2]! - pz;
  const vx = q[q2]! - qx;
  const vy = q[q2 + 1]! - qy;
  const vz = q[q2 + 2]! - qz;
  const rx = px - qx;
  const ry = py - qy;
  const rz = pz - qz;
  const uu = ux * ux + uy * uy + uz * uz;
  const vv = vx * vx + vy * vy + vz * vz;
  const ur = ux * rx + uy * ry + uz * rz;
  const vr = vx * rx + vy * ry + vz * rz;
  let s = 0;
  let t = 0;
  if (!(vv > 0)) {
    s = uu > 0 ? -ur / uu : 0;
    s = Math.max(0, Math.min(1, s));
  } else if (!(uu > 0)) {
    t = vr / vv;
    t = Math.max(0, Math.min(1, t));
  } else {
    const nx = uy * vz - uz * vy;
    const ny = uz * vx - ux * vz;
    const nz = ux * vy - uy * vx;
    const nn = nx * nx + ny * ny + nz * nz;
    const uv = ux * vx + uy * vy + uz * vz;
    // Below an angle of 1e-14 the segments count as parallel: the distance changes by 1e-14 of their length at most. So do
    // specks below 1e-50 m.
    if (nn > 1e-200 && nn > 1e-28 * uu * vv) {
      s = -(nx * (ry * vz - rz * vy) + ny * (rz * vx - rx * vz) + nz * (rx * vy - ry * vx)) / nn;
      s = Math.max(0, Math.min(1, s));
    }
    t = (uv * s + vr) / vv;
    if (t < 0) {
      t = 0;
      s = -ur / uu;
      s = Math.max(0, Math.min(1, s));
    } else if (t > 1) {
      t = 1;
      s = (uv - ur) / uu;
      s = Math.max(0, Math.min(1, s));
    }
  }
  const ax = px + s * ux;
  const ay = py + s * uy;
  const az = pz + s * uz;
  const bx = qx + t * vx;
  const by = qy + t * vy;
  const bz = qz + t * vz;
  out[0] = (ax - bx) * (ax - bx) + (ay - by) * (ay - by) + (az - bz) * (az - bz);
  out[1] = ax;
  out[2] = ay;
  out[3] = az;
  out[4] = bx;
  out[5] = by;
  out[6] = bz;
}
