import { DomainError } from "../../math/errors.ts";

/** A point in station axes of one aircraft: FS aft, BL right, WL up [m]. */
export interface StationPoint {
  readonly FS: number;
  readonly BL: number;
  readonly WL: number;
}

/** Mass [kg], inertia about the c.g. in body axes [kg·m²] with the products as ∫xy dm and so on. */
export interface MassProperties {
  readonly mass: number;
  readonly Ixx: number;
  readonly Iyy: number;
  readonly Izz: number;
  readonly Ixy: number;
  readonly Ixz: number;
  readonly Iyz: number;
}

/**
 * Inertia matrix about the c.g. in body axes, row-major, shape (9) [kg·m²]; products enter with a minus sign.
 *
 * @throws {DomainError} if the mass or a principal moment is not positive, or the triangle rule fails
 * @source own derivation, README eq. 12
 * @verified rigid-body.test.ts (sign, bodies that may and may not exist)
 */
export function inertiaMatrix(properties: MassProperties): Float64Array {
  const { mass, Ixx, Iyy, Izz, Ixy, Ixz, Iyz } = properties;
  if (!(mass > 0 && Number.isFinite(mass))) throw new DomainError("mass", mass, "greater than 0");
  const trace = Ixx + Iyy + Izz;
  // ∫x² dm and so on: ½·trace·1 − I must be positive semidefinite for a body of positive mass
  const [xx, yy, zz] = [trace / 2 - Ixx, trace / 2 - Iyy, trace / 2 - Izz];
  const slack = 1e-12 * trace * trace;
  const minors = [xx * yy - Ixy * Ixy, yy * zz - Iyz * Iyz, xx * zz - Ixz * Ixz];
  const determinant = xx * (yy * zz - Iyz * Iyz) - Ixy * (Ixy * zz - Iyz * Ixz) + Ixz * (Ixy * Iyz - yy * Ixz);
  const exists = [xx, yy, zz].every((m) => m >= -1e-9 * trace) && minors.every((m) => m >= -slack);
  if (!(trace > 0) || !exists || !(determinant >= -1e-12 * trace ** 3)) {
    throw new DomainError("inertia", [Ixx, Iyy, Izz, Ixy, Ixz, Iyz], "moments of a body that can exist");
  }
  return Float64Array.of(Ixx, -Ixy, -Ixz, -Ixy, Iyy, -Iyz, -Ixz, -Iyz, Izz);
}

/**
 * Arm from the c.g. to a point, from station axes to body axes: x forward, y right, z down [m].
 *
 *     p_VcmP_V = (−(FS − FS_cg), BL − BL_cg, −(WL − WL_cg))            (README eq. 13)
 *
 * @source own derivation, README eq. 13
 * @verified rigid-body.test.ts
 */
export function armFromStation(cg: StationPoint, point: StationPoint): [number, number, number] {
  return [cg.FS - point.FS, point.BL - cg.BL, cg.WL - point.WL];
}
