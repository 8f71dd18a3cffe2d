import type { Mesh } from "./types.ts";

/**
 * How often a surface wraps around a point: 1 inside a sound solid, 0 outside, −1 inside one that is inside out.
 *
 *     w = (1/4π) Σ Ω,   tan(Ω/2) = a·(b × c) / (abc + (a·b)c + (b·c)a + (c·a)b)      (README eq. 2)
 *
 * With an open surface w is a fraction; more than ½ is more inside than outside. Overlapping solids add up.
 *
 * @param mesh    [m]
 * @param point   [m] in the axes of the mesh, shape (3) from `offset`
 * @param offset  index of x
 * @source solid angle of a triangle: Van Oosterom and Strackee (1983), from memory; README eq. 2
 * @verified mesh.test.ts: inside, outside, inverted, joined
 */
export function windingNumber(mesh: Mesh, point: Float64Array, offset = 0): number {
  const { vertices: v, triangles: t } = mesh;
  const x = point[offset]!;
  const y = point[offset + 1]!;
  const z = point[offset + 2]!;
  let half = 0;
  for (let i = 0; i < t.length; i += 3) {
    const a = 3 * t[i]!;
    const b = 3 * t[i + 1]!;
    const c = 3 * t[i + 2]!;
    const ax = v[a]! - x;
    const ay = v[a + 1]! - y;
    const az = v[a + 2]! - z;
    const bx = v[b]! - x;
    const by = v[b + 1]! - y;
    const bz = v[b + 2]! - z;
    const cx = v[c]! - x;
    const cy = v[c + 1]! - y;
    const cz = v[c + 2]! - z;
    const la = Math.sqrt(ax * ax + ay * ay + az * az);
    const lb = Math.sqrt(bx * bx + by * by + bz * bz);
    const lc = Math.sqrt(cx * cx + cy * cy + cz * cz);
    const triple = ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
    const rest =
      la * lb * lc +
      (ax * bx + ay * by + az * bz) * lc +
      (bx * cx + by * cy + bz * cz) * la +
      (cx * ax + cy * ay + cz * az) * lb;
    half += Math.atan2(triple, rest);
  }
  return half / (2 * Math.PI);
}
