import { luFactor, luSolve } from "../../math/dense/index.ts";
import { choleskySolve } from "../../math/symmetric-eigen/index.ts";
import { expand, type HeldBoom, project } from "./held-boom.ts";
import { apply, dot } from "./matrix.ts";
import type { NotHeld } from "./statics.ts";
import { FREEDOMS } from "./types.ts";

/** How the tip yields. */
export interface TipCompliance {
  readonly outcome: "solved";
  /** Displacement and rotation of the tip per force and moment on it, shape (6, 6) row-major, symmetric. */
  readonly compliance: Float64Array;
  /** Its displacements per force, shape (3, 3) row-major: along, swing, right [m/N]. */
  readonly translation: Float64Array;
  /** Nodes under each unit load of the tip, six arrays of shape (6 a node). */
  readonly shapes: readonly Float64Array[];
}

/**
 * Compliance of the tip: deflections under unit forces and moments there.
 *
 *     C = Bᵀ (Zᵀ K Z)⁻¹ B,  B = Zᵀ at the tip                                            (README eq. 13)
 *
 * A force along i alone meets the stiffness 1/C_ii, with the tip free to move in every other way.
 *
 * @param boom from `holdBoom`
 * @source own derivation, README eq. 13
 * @verified tip.test.ts: analytic/beam-statics (1e-9), symmetry, turning the boom about its axis
 */
export function tipCompliance(boom: HeldBoom): TipCompliance | NotHeld {
  if (boom.factor === undefined) return { outcome: "not held" };
  const last = boom.mesh.order - FREEDOMS;
  const shapes: Float64Array[] = [];
  for (let i = 0; i < FREEDOMS; i++) {
    const unit = new Float64Array(boom.mesh.order);
    unit[last + i] = 1;
    const q = project(boom, unit);
    choleskySolve(boom.factor, boom.freedoms.length, q);
    shapes.push(expand(boom, q));
  }
  const part = (size: number): Float64Array =>
    Float64Array.from({ length: size * size }, (_, at) => shapes[at % size][last + Math.floor(at / size)]);
  return { outcome: "solved", compliance: part(FREEDOMS), translation: part(3), shapes };
}

/**
 * Mass that moves with the tip when it is displaced along one direction by a force there: φᵀ M φ with φ = 1 at the tip.
 *
 *     m_i = uᵀ M u / u_tip,i²,  u the deflection under a tip force along i                  (README eq. 14)
 *
 * @param mass      M, shape (n, n)
 * @param shape     u, shape (n); its tip is the last node
 * @param direction 0 along, 1 swing, 2 right
 * @returns [kg]; 0 when the tip does not move along the direction
 */
export function massAtTip(mass: Float64Array, shape: Float64Array, direction: number): number {
  const tip = shape[shape.length - FREEDOMS + direction];
  if (tip === 0) return 0;
  return dot(shape, apply(mass, shape)) / (tip * tip);
}

/**
 * Inverse of a small symmetric matrix, made exactly symmetric.
 * @returns `undefined` for a singular one
 */
export function symmetricInverse(a: Float64Array, n: number): Float64Array | undefined {
  const lu = a.slice();
  const pivots = new Int32Array(n);
  if (!luFactor(lu, n, pivots)) return undefined;
  const inverse = Float64Array.from({ length: n * n }, (_, at) => (at % n === Math.floor(at / n) ? 1 : 0));
  luSolve(lu, n, pivots, inverse, n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < i; j++) {
      const mean = (inverse[i * n + j] + inverse[j * n + i]) / 2;
      inverse[i * n + j] = mean;
      inverse[j * n + i] = mean;
    }
  }
  return inverse;
}
