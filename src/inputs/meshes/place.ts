import type { MeshAxes, MeshUnit } from "../schema/index.ts";
import { MESH_UNITS } from "../schema/index.ts";
import type { RawMesh } from "./types.ts";

/** Metres in each unit (NIST SP 811, exact). */
export const METRES: Readonly<Record<MeshUnit, number>> = { m: 1, cm: 0.01, mm: 0.001, ft: 0.3048, in: 0.0254 };

/** For each choice of axes the file axis that gives aft, right and up, counted from 1, negative when it points the other way. */
const ALONG: Readonly<Record<MeshAxes, readonly [number, number, number]>> = {
  stations: [1, 2, 3],
  body: [-1, 2, -3],
  "aft up left": [1, -3, 2],
  "left up forward": [-3, -1, 2],
};

/**
 * Corners in stations: FS, BL, WL = origin + unit · (the file's numbers along aft, right, up).
 *
 * Every choice of axes is right-handed, as are the stations, so the turning sense of the triangles stays.
 *
 * @param mesh    in the file's numbers
 * @param metres  in one unit of the file
 * @param axes    where x, y and z of the file point
 * @param origin  stations of the file's origin [m], shape (3)
 * @returns [m], shape (n, 3) row-major
 */
export function inStations(
  mesh: RawMesh,
  metres: number,
  axes: MeshAxes,
  origin: readonly [number, number, number],
): Float64Array {
  const out = new Float64Array(mesh.vertices.length);
  for (let k = 0; k < 3; k++) {
    const along = ALONG[axes][k]!;
    const scale = Math.sign(along) * metres;
    const from = Math.abs(along) - 1;
    for (let i = 0; i < out.length; i += 3) out[i + k] = origin[k]! + scale * mesh.vertices[i + from]!;
  }
  return out;
}

/** Longest side of the box around the corners that triangles use, in the file's numbers. */
export function longestSide({ vertices, triangles }: RawMesh): number {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (const corner of triangles) {
    for (let k = 0; k < 3; k++) {
      const value = vertices[3 * corner + k]!;
      low[k] = Math.min(low[k]!, value);
      high[k] = Math.max(high[k]!, value);
    }
  }
  return Math.max(high[0]! - low[0]!, high[1]! - low[1]!, high[2]! - low[2]!);
}

/** How far the longest side may be from the stated length, as a share of it. */
export const LENGTH_SLACK = 0.1;

const agrees = (side: number, length: number) => Math.abs(side - length) <= LENGTH_SLACK * length;

/**
 * Whether the surface is as long as stated; if not, the unit in which it would be.
 *
 * @param side    longest side in the file's numbers
 * @param unit    of the file's numbers
 * @param length  stated [m]
 */
export function checkLength(
  side: number,
  unit: MeshUnit,
  length: number,
): { readonly ok: true } | { readonly ok: false; readonly fitting: MeshUnit | undefined } {
  if (agrees(side * METRES[unit], length)) return { ok: true };
  return { ok: false, fitting: MESH_UNITS.find((each) => agrees(side * METRES[each], length)) };
}
