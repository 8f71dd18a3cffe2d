import type { Pose } from "../types.ts";

/** What the bounds of one query share. */
export interface GapScratch {
  /** Out: squared lower bound of the distance of the last two nodes [m²]. */
  readonly gap: Float64Array;
  /** Pairs whose bound reaches this squared distance do not matter [m²]. */
  readonly cut: Float64Array;
  /** Direction from A to B of the nearest pair so far: in A's axes (3), in B's axes (3); zero while there is none. */
  readonly direction: Float64Array;
}

/**
 * Squared lower bound of the distance of two nodes, by three bounds of rising cost; it stops at the first that reaches the cut.
 *
 *     spheres:    g = |c| − ρ_a − ρ_b
 *     direction:  g = u·c − Σ|u·a_i| h_i − Σ|u·b_j| k_j     with u along the nearest pair so far
 *     boxes:      g² = Σ max(0, |a_i·c| − h_i − Σ_j |a_i·b_j| k_j)², and the same in the axes of b; the larger    (README eq. 8)
 *
 * @param a         nodes of A, record from `at`: see `NODE`
 * @param at        index of its first number
 * @param b         nodes of B, record from `bt`
 * @param bt        index of its first number
 * @param relative  pose of B in the axes of A
 * @param work      scratch; `gap` is written
 * @source own derivation, README eq. 8: projections on a unit vector and on an orthonormal set never lengthen a distance
 * @verified tree.test.ts: below the distance of any two points of two boxes
 */
export function nodeGap(
  a: Float64Array,
  at: number,
  b: Float64Array,
  bt: number,
  relative: Pose,
  work: GapScratch,
): void {
  const r = relative.rotation;
  const p = relative.translation;
  const { gap, cut, direction } = work;
  const bx = b[bt]!;
  const by = b[bt + 1]!;
  const bz = b[bt + 2]!;
  const cx = r[0]! * bx + r[1]! * by + r[2]! * bz + p[0]! - a[at]!;
  const cy = r[3]! * bx + r[4]! * by + r[5]! * bz + p[1]! - a[at + 1]!;
  const cz = r[6]! * bx + r[7]! * by + r[8]! * bz + p[2]! - a[at + 2]!;
  const limit = cut[0]!;
  const spheres = Math.sqrt(cx * cx + cy * cy + cz * cz) - a[at + 3]! - b[bt + 3]!;
  let best = spheres > 0 ? spheres * spheres : 0;
  gap[0] = best;
  if (best >= limit) return;
  const h0 = a[at + 4]!;
  const h1 = a[at + 5]!;
  const h2 = a[at + 6]!;
  const a00 = a[at + 7]!;
  const a01 = a[at + 8]!;
  const a02 = a[at + 9]!;
  const a10 = a[at + 10]!;
  const a11 = a[at + 11]!;
  const a12 = a[at + 12]!;
  const a20 = a[at + 13]!;
  const a21 = a[at + 14]!;
  const a22 = a[at + 15]!;
  const ux = direction[0]!;
  const uy = direction[1]!;
  const uz = direction[2]!;
  const vx = direction[3]!;
  const vy = direction[4]!;
  const vz = direction[5]!;
  const along =
    ux * cx +
    uy * cy +
    uz * cz -
    Math.abs(ux * a00 + uy * a01 + uz * a02) * h0 -
    Math.abs(ux * a10 + uy * a11 + uz * a12) * h1 -
    Math.abs(ux * a20 + uy * a21 + uz * a22) * h2 -
    Math.abs(vx * b[bt + 7]! + vy * b[bt + 8]! + vz * b[bt + 9]!) * b[bt + 4]! -
    Math.abs(vx * b[bt + 10]! + vy * b[bt + 11]! + vz * b[bt + 12]!) * b[bt + 5]! -
    Math.abs(vx * b[bt + 13]! + vy * b[bt + 14]! + vz * b[bt + 15]!) * b[bt + 6]!;
  if (along > 0 && along * along > best) {
    best = along * along;
    gap[0] = best;
    if (best >= limit) return;
  }
  let g0 = Math.abs(a00 * cx + a01 * cy + a02 * cz) - h0;
  let g1 = Math.abs(a10 * cx + a11 * cy + a12 * cz) - h1;
  let g2 = Math.abs(a20 * cx + a21 * cy + a22 * cz) - h2;
  let inB = 0;
  for (let j = 0; j < 3; j++) {
    const k = b[bt + 4 + j]!;
    const ax = b[bt + 7 + 3 * j]!;
    const ay = b[bt + 8 + 3 * j]!;
    const az = b[bt + 9 + 3 * j]!;
    const wx = r[0]! * ax + r[1]! * ay + r[2]! * az;
    const wy = r[3]! * ax + r[4]! * ay + r[5]! * az;
    const wz = r[6]! * ax + r[7]! * ay + r[8]! * az;
    const m0 = Math.abs(a00 * wx + a01 * wy + a02 * wz);
    const m1 = Math.abs(a10 * wx + a11 * wy + a12 * wz);
    const m2 = Math.abs(a20 * wx + a21 * wy + a22 * wz);
    g0 -= m0 * k;
    g1 -= m1 * k;
    g2 -= m2 * k;
    const g = Math.abs(wx * cx + wy * cy + wz * cz) - k - m0 * h0 - m1 * h1 - m2 * h2;
    if (g > 0) inB += g * g;
  }
  let inA = 0;
  if (g0 > 0) inA += g0 * g0;
  if (g1 > 0) inA += g1 * g1;
  if (g2 > 0) inA += g2 * g2;
  if (inA > best) best = inA;
  gap[0] = Math.max(inB, best);
}
