import type { Mesh } from "../../src/physics/shapes/index.ts";

/**
 * A sphere with waves.
 *
 * @param around     divisions of a parallel
 * @param downwards  divisions of a meridian
 * @param radius     [m]
 * @param wave       height of the waves [m]
 * @param waves      waves per half turn
 */
export function bumpySphere(around: number, downwards: number, radius: number, wave: number, waves: number): Mesh {
  const vertices: number[] = [];
  const triangles: number[] = [];
  for (let i = 0; i <= downwards; i++) {
    const theta = (Math.PI * i) / downwards;
    const ring = i === 0 || i === downwards ? 1 : around;
    for (let j = 0; j < ring; j++) {
      const phi = (2 * Math.PI * j) / around;
      const r = radius + wave * Math.sin(waves * theta) * Math.cos(waves * phi);
      vertices.push(r * Math.sin(theta) * Math.cos(phi), r * Math.sin(theta) * Math.sin(phi), r * Math.cos(theta));
    }
  }
  const at = (i: number, j: number): number =>
    i === 0 ? 0 : i === downwards ? 1 + (downwards - 1) * around : 1 + (i - 1) * around + (j % around);
  for (let i = 0; i < downwards; i++) {
    for (let j = 0; j < around; j++) {
      if (i > 0) triangles.push(at(i, j), at(i + 1, j), at(i, j + 1));
      if (i < downwards - 1) triangles.push(at(i, j + 1), at(i + 1, j), at(i + 1, j + 1));
    }
  }
  return { vertices: Float64Array.from(vertices), triangles: Uint32Array.from(triangles) };
}

/**
 * A ring with waves, about z.
 *
 * @param around  divisions along the ring
 * @param across  divisions of its section
 * @param radius  of the ring [m]
 * @param tube    radius of the section [m]
 * @param wave    height of the waves [m]
 * @param waves   waves along the ring and around the section
 */
export function bumpyRing(
  around: number,
  across: number,
  radius: number,
  tube: number,
  wave: number,
  waves: number,
): Mesh {
  const vertices: number[] = [];
  const triangles: number[] = [];
  for (let i = 0; i < across; i++) {
    for (let j = 0; j < around; j++) {
      const [theta, phi] = [(2 * Math.PI * i) / across, (2 * Math.PI * j) / around];
      const r = tube + wave * Math.sin(waves * (theta + phi));
      const out = radius + r * Math.cos(theta);
      vertices.push(out * Math.cos(phi), out * Math.sin(phi), r * Math.sin(theta));
      const next = (j + 1) % around;
      const up = ((i + 1) % across) * around;
      triangles.push(i * around + j, i * around + next, up + j, i * around + next, up + next, up + j);
    }
  }
  return { vertices: Float64Array.from(vertices), triangles: Uint32Array.from(triangles) };
}
