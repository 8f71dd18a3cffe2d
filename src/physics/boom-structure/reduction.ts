import { BugError, DomainError } from "../../math/errors.ts";
import { type HeldBoom, holdMesh } from "./held-boom.ts";
import { apply, dot } from "./matrix.ts";
import type { BoomMesh } from "./mesh.ts";
import type { NotHeld } from "./statics.ts";
import { symmetricInverse, tipCompliance } from "./tip.ts";
import type { BoomAttachment, BoomVector } from "./types.ts";
import { boomModes } from "./vibration.ts";

/** The boom as its tip feels it: three displacements of the tip and some motions with the tip held still. */
export interface TipReduction {
  readonly outcome: "found";
  /** 3 + number of motions. */
  readonly order: number;
  /** Shape (order, order) row-major; coordinates: tip along, swing, right [m], then the motions [m·√kg]. */
  readonly stiffness: Float64Array;
  readonly mass: Float64Array;
  /** Nodes for each coordinate, `order` arrays of shape (6 a node). */
  readonly shapes: readonly Float64Array[];
}

/**
 * Reduces the boom to its tip without losing its bending modes (component modes with the tip fixed).
 *
 *     u ≈ Ψ·u_tip + Φ·η,  Ψ static shapes of unit tip displacements, Φ modes with the tip's displacement held
 *     K̂ = diag(C₃⁻¹, ω²),  M̂ = [ΨᵀMΨ, ΨᵀMΦ; ·, 1]                                       (README eq. 17)
 *
 * The coordinates of the tip are those of a body hung there, so the matrices add to its own. Frequencies of the sum come
 * down to those of the whole boom as `motions` grows.
 *
 * @param boom    from `holdBoom`; its tip must be free to move in all three directions
 * @param motions number of modes with the tip fixed, at least 1; fewer come back when the mesh has no more
 * @throws {DomainError} for a tip that a support holds in some direction
 * @source own derivation, README eq. 17; after Craig and Bampton, AIAA J. 6 (1968), 1313–1319
 * @verified reduction.test.ts: static stiffness exact, total mass, frequencies with a body on the tip (from above, 1e-4)
 */
export function reduceToTip(boom: HeldBoom, motions: number): TipReduction | NotHeld {
  const tip = tipCompliance(boom);
  if (tip.outcome === "not held") return tip;
  const held = (i: number): boolean => !(tip.translation[4 * i] > 0);
  if ([0, 1, 2].some(held))
    throw new DomainError("tip of the boom", "held by a support", "free to move, to be reduced to");
  const stiff = symmetricInverse(tip.translation, 3);
  if (stiff === undefined) throw new DomainError("compliance of the boom's tip", tip.translation, "not singular");
  const shapes: Float64Array[] = [0, 1, 2].map((i) =>
    tip.shapes[0].map((u, at) => u * stiff[i] + tip.shapes[1][at] * stiff[3 + i] + tip.shapes[2][at] * stiff[6 + i]),
  );
  const fixed = boomModes(holdMesh(boom.mesh, [...boom.attachments, ...fixedTip(boom.mesh)]), motions);
  if (fixed.outcome !== "found") throw new BugError("a boom that is held has modes without stiffness and mass");
  shapes.push(...fixed.modes.map(({ shape }) => shape));
  const order = shapes.length;
  const stiffness = new Float64Array(order * order);
  const mass = new Float64Array(order * order);
  for (let i = 0; i < order; i++) {
    const momentum = apply(boom.mesh.mass, shapes[i]);
    for (let j = 0; j <= i; j++) {
      const value = dot(momentum, shapes[j]);
      mass[i * order + j] = value;
      mass[j * order + i] = value;
    }
    if (i >= 3) stiffness[i * order + i] = fixed.modes[i - 3].frequency ** 2;
    else for (let j = 0; j < 3; j++) stiffness[i * order + j] = stiff[3 * i + j];
  }
  return { outcome: "found", order, stiffness, mass, shapes };
}

/** Rigid supports that hold the tip's displacement. */
export function fixedTip(mesh: BoomMesh): BoomAttachment[] {
  const directions: readonly BoomVector[] = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  return directions.map((direction) => ({ kind: "prop", station: mesh.table.last, direction }));
}
