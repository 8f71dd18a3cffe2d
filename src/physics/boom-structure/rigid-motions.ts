import { nullSpace } from "../../math/dense/index.ts";
import { choleskyFactor } from "../../math/symmetric-eigen/index.ts";
import type { Link } from "./links.ts";
import { apply, dot } from "./matrix.ts";
import type { BoomMesh } from "./mesh.ts";
import { FREEDOMS } from "./types.ts";

/**
 * The motions of the boom as a rigid body, which are the only ones without strain: three shifts along, swing, right, and three
 * turns about these axes through a station, turns in radians.
 *
 * @param station centre of the turns [m]
 * @returns six arrays of shape (6 a node)
 */
export function rigidMotions(mesh: BoomMesh, station: number): Float64Array[] {
  return Array.from({ length: FREEDOMS }, (_, motion) => {
    const u = new Float64Array(mesh.order);
    mesh.nodes.forEach((at, node) => {
      u[FREEDOMS * node + motion] = 1;
      if (motion === 4) u[FREEDOMS * node + 2] = station - at;
      if (motion === 5) u[FREEDOMS * node + 1] = at - station;
    });
    return u;
  });
}

/**
 * Rigid motions that the links do not resist (README eq. 9).
 *
 * The rows are the travels of the links in the six rigid motions about the root, turns scaled by the length of the boom.
 *
 * @returns their displacements, arrays of shape (6 a node); none for a boom that is held
 */
export function freeRigidMotions(mesh: BoomMesh, links: readonly Link[]): Float64Array[] {
  const length = mesh.table.last - mesh.table.first;
  const resisting = links.filter(({ stiffness }) => stiffness > 0);
  const travels = resisting.flatMap(({ station, row: [x, y, z, a, b, c] }) => {
    const arm = station - mesh.table.first;
    return [x, y, z, a / length, (b - arm * z) / length, (c + arm * y) / length];
  });
  const basis = nullSpace(Float64Array.from(travels), resisting.length, FREEDOMS);
  const width = basis.length / FREEDOMS;
  const motions = rigidMotions(mesh, mesh.table.first);
  return Array.from({ length: width }, (_, c) => {
    const u = new Float64Array(mesh.order);
    motions.forEach((motion, i) => {
      const share = basis[i * width + c] / (i < 3 ? 1 : length);
      for (let at = 0; at < mesh.order; at++) u[at] += share * motion[at];
    });
    return u;
  });
}

/** Whether some rigid motion that the links do not resist has no mass either. */
export function movesWithoutMass(mesh: BoomMesh, links: readonly Link[]): boolean {
  const free = freeRigidMotions(mesh, links);
  const momenta = free.map((motion) => apply(mesh.mass, motion));
  const n = free.length;
  const mass = Float64Array.from({ length: n * n }, (_, at) => dot(momenta[Math.floor(at / n)], free[at % n]));
  return !choleskyFactor(mass, n, 1e-12);
}
