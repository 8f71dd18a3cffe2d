import { drivenIndex } from "./assemble.ts";
import { PARTIALS } from "./joint-rows.ts";
import { LeastSquares } from "./least-squares.ts";
import { type Linkage, ROWS } from "./linkage.ts";
import { generalisedLoad, type LoadCase } from "./loads.ts";
import { unitMotion } from "./motion.ts";
import { createWork, factorAt, RANK_TOLERANCE } from "./settle.ts";

/**
 * Force of a drive that holds a load case, by virtual work.
 *
 *     F·dL + Q·dq = 0  ⇒  F = −Q·q′                                             (README eq. 13)
 *
 * @param linkage   the linkage
 * @param state     a closed state, shape (bodies, 7)
 * @param drive     name of the jack, hinge or slider whose force is wanted
 * @param loadCase  what acts
 * @param held      names of other drives that are held
 * @returns for a jack [N]: positive pushes its ends apart (the jack is compressed), negative pulls them together; for a hinge
 *          [N·m] and a slider [N]: on the second body, in the sense of its coordinate. `undefined` at a dead point of the drive
 * @throws {DomainError} if a name is unknown
 * @source principle of virtual work; own derivation, README eq. 13
 * @verified statics.test.ts: direct balance of a lever, multipliers, differences of the potential energy
 */
export function driveForce(
  linkage: Linkage,
  state: Float64Array,
  drive: string,
  loadCase: LoadCase,
  held: readonly string[] = [],
): number | undefined {
  const motion = unitMotion(linkage, state, [...held, drive], drive);
  if (motion === undefined) return undefined;
  const load = generalisedLoad(linkage, state, loadCase);
  let work = 0;
  for (let k = 0; k < load.length; k++) work += load[k] * motion[k];
  return -work;
}

/** Force and moment in one joint; the components are in carrier axes. */
export interface JointForce {
  readonly joint: string;
  /** On the second body by the first [N]. */
  readonly f_onSecond_byFirst: Float64Array;
  /** On the second body by the first, about the second's joint point [N·m]. */
  readonly m_onSecond_byFirst: Float64Array;
  /** Whether statics alone give each component: force x, y, z, then moment x, y, z. If not, the shortest solution is given. */
  readonly determinate: readonly boolean[];
}

export type JointForces =
  | {
      readonly outcome: "balanced";
      readonly joints: readonly JointForce[];
      /** As `driveForce`, in the order of the drives. */
      readonly drives: readonly { readonly joint: string; readonly force: number }[];
      /** Whether every component of every joint follows from statics. */
      readonly determinate: boolean;
    }
  /** A free motion is left that the load would start: the part of the load that nothing holds [N]. */
  | { readonly outcome: "not held"; readonly unheld: number };

/** A component that a self-stress of unit size changes by less than this share is determinate. */
const UNTOUCHED = 1e-7;
/** Share of the load that may stay unheld by rounding. */
const HELD = 1e-8;

/**
 * Forces in all joints that hold a load case.
 *
 *     Jᵀ λ = −Q                                                                 (README eq. 14)
 *
 * With redundant joints λ is not unique: components that a self-stress (Jᵀ λ = 0) can change are marked.
 *
 * @param linkage   the linkage
 * @param state     a closed state, shape (bodies, 7)
 * @param drives    names of the drives that hold
 * @param loadCase  what acts
 * @throws {DomainError} if a name is unknown
 * @source Lagrange multipliers; own derivation, README eq. 14
 * @verified statics.test.ts: balance of every body, direct balance of a lever, planar mechanism with redundant hinges
 */
export function jointForces(
  linkage: Linkage,
  state: Float64Array,
  drives: readonly string[],
  loadCase: LoadCase,
): JointForces {
  const work = createWork(
    linkage,
    drives.map((name) => drivenIndex(linkage, name)),
  );
  factorAt(work, state);
  const { columns, matrix, rows, squares } = work;
  const load = generalisedLoad(linkage, state, loadCase).map((value) => -value);
  const lambda = new Float64Array(rows.count);
  const unheld = squares.solveTransposed(load, lambda);
  if (unheld > HELD * Math.hypot(...load)) return { outcome: "not held", unheld };
  const stresses = selfStresses(matrix, rows.count, columns);
  const joints = linkage.joints.flatMap((joint, index): JointForce[] => {
    if (ROWS[joint.kind] === 0) return [];
    const wrench = wrenchOf(rows, index, lambda);
    const touched = stresses.map((stress) => wrenchOf(rows, index, stress));
    return [
      {
        joint: joint.name,
        f_onSecond_byFirst: wrench.slice(0, 3),
        m_onSecond_byFirst: wrench.slice(3, 6),
        determinate: Array.from(wrench, (_, k) =>
          touched.every((one) => Math.abs(one[k]) < UNTOUCHED * (k < 3 ? 1 : linkage.size)),
        ),
      },
    ];
  });
  const forces = drives.map((joint, at) => ({
    joint,
    force: lambda[rows.count - drives.length + at] * rows.weights[at],
  }));
  return { outcome: "balanced", joints, drives: forces, determinate: stresses.length === 0 };
}

/** Orthonormal multipliers that balance each other without any load: a basis of Jᵀ λ = 0. */
function selfStresses(matrix: Float64Array, count: number, columns: number): Float64Array[] {
  const transposed = new Float64Array(matrix.length);
  for (let r = 0; r < count; r++) {
    for (let c = 0; c < columns; c++) transposed[c * count + r] = matrix[r * columns + c];
  }
  const squares = new LeastSquares(columns, count);
  squares.factor(transposed, RANK_TOLERANCE);
  return Array.from({ length: count - squares.rank }, (_, c) => {
    const stress = new Float64Array(count);
    squares.nullVector(c, stress, 0);
    return stress;
  });
}

/** Force and moment on the second body of a joint for given multipliers, shape (6); the rows of drives do not count. */
function wrenchOf(
  rows: { count: number; joints: Int32Array; partials: Float64Array; driven: Int32Array },
  index: number,
  lambda: Float64Array,
): Float64Array {
  const wrench = new Float64Array(6);
  for (let row = 0; row < rows.count - rows.driven.length; row++) {
    if (rows.joints[row] !== index) continue;
    for (let k = 0; k < 6; k++) wrench[k] += lambda[row] * rows.partials[PARTIALS * row + 6 + k];
  }
  return wrench;
}
