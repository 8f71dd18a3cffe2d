import type { GltfNode } from "./gltf-schema.ts";

/** Affine map, 4 × 4, column after column. */
export type Matrix = readonly number[];

export const IDENTITY: Matrix = [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1];

/**
 * Map of a node into its parent: its matrix, or translation · rotation · scale.
 *
 *     R = rotation of the unit quaternion [x, y, z, w]
 *
 * @source Khronos Group, glTF 2.0 specification (ISO/IEC 12113), section 3.5.3, from memory
 */
export function nodeMatrix(node: GltfNode): Matrix {
  if (node.matrix !== undefined) return node.matrix;
  const [sx, sy, sz] = (node.scale ?? [1, 1, 1]) as [number, number, number];
  const [tx, ty, tz] = (node.translation ?? [0, 0, 0]) as [number, number, number];
  const q = node.rotation ?? [0, 0, 0, 1];
  const size = Math.hypot(...q);
  const [x, y, z, w] = (size > 0 ? q.map((part) => part / size) : [0, 0, 0, 1]) as [number, number, number, number];
  return [
    sx * (1 - 2 * (y * y + z * z)),
    sx * 2 * (x * y + z * w),
    sx * 2 * (x * z - y * w),
    0,
    sy * 2 * (x * y - z * w),
    sy * (1 - 2 * (x * x + z * z)),
    sy * 2 * (y * z + x * w),
    0,
    sz * 2 * (x * z + y * w),
    sz * 2 * (y * z - x * w),
    sz * (1 - 2 * (x * x + y * y)),
    0,
    tx,
    ty,
    tz,
    1,
  ];
}

/** a · b. */
export function multiply(a: Matrix, b: Matrix): Matrix {
  return Array.from({ length: 16 }, (_, i) => {
    const [row, column] = [i % 4, 4 * Math.floor(i / 4)];
    return (
      a[row]! * b[column]! + a[4 + row]! * b[column + 1]! + a[8 + row]! * b[column + 2]! + a[12 + row]! * b[column + 3]!
    );
  });
}

/** True when the map mirrors: negative determinant of its 3 × 3 part. */
export function turnsOver(m: Matrix): boolean {
  const [a, b, c, , d, e, f, , g, h, i] = m;
  return a! * (e! * i! - f! * h!) - d! * (b! * i! - c! * h!) + g! * (b! * f! - c! * e!) < 0;
}
