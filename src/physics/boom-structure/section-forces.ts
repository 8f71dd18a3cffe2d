import { DomainError } from "../../math/errors.ts";
import type { HeldBoom } from "./held-boom.ts";
import { gaussLegendre } from "./quadrature.ts";
import type { BoomEquilibrium } from "./statics.ts";
import { type BoomVector, FREEDOMS } from "./types.ts";

const ALONG = gaussLegendre(4);

/** What a section of the boom carries: action of the part outboard of it on the part inboard. */
export interface SectionForces {
  readonly station: number;
  readonly side: "inboard" | "outboard";
  /** Tension positive [N]. */
  readonly tension: number;
  /** Shear towards a larger angle and to the right, of the outboard part on the inboard [N]. */
  readonly shearSwing: number;
  readonly shearLateral: number;
  /** Torque about the boom's axis [N·m]. */
  readonly torque: number;
  /** EI·u″: positive bends the outboard part towards a larger angle, or to the right [N·m]. */
  readonly bendingSwing: number;
  readonly bendingLateral: number;
  /** Stress where the table declares fibres and modulus. */
  readonly stress: SectionStress | undefined;
}

/** Direct stress at the outer fibres, tension positive [Pa]. */
export interface SectionStress {
  readonly axial: number;
  /** Sizes of the two bending stresses at their own outer fibres. */
  readonly bendingSwing: number;
  readonly bendingLateral: number;
  /** |axial| and both sizes added: of a corner that is outermost both ways; never too small for any other shape. */
  readonly largest: number;
}

/**
 * Forces and moments in the boom just inboard or just outboard of a station, by balance of the part outboard.
 *
 *     F(s) = Σ f + ∫ ρA·a dx,  M(s) = Σ [m + (x − s)·e × f] + ∫ (x − s)·e × ρA·a dx  over all outboard of s   (README eq. 10)
 *     σ = E·(|N|/EA + |M_swing|·c_swing/EI_swing + |M_lateral|·c_lateral/EI_lateral)                           (README eq. 11)
 *
 * Supports count as loads. Balance does not use the deflections, so the result is as exact as the support forces.
 *
 * @param boom        the held boom
 * @param equilibrium from `solveBoom` for this boom
 * @param station     station of the section [m]
 * @param side        of concentrated loads at the station: "inboard" counts them as outboard of the section
 * @throws {DomainError} for a station off the boom
 * @source own derivation, README eq. 10–11
 * @verified section-forces.test.ts: cantilever, overhang and weight in closed form (1e-8); EI·u″ from deflections
 */
export function sectionForces(
  boom: HeldBoom,
  equilibrium: BoomEquilibrium,
  station: number,
  side: "inboard" | "outboard",
): SectionForces {
  const { mesh } = boom;
  const { table, nodes } = mesh;
  if (!(station >= table.first && station <= table.last)) {
    throw new DomainError("station on the boom", station, `from ${table.first} to ${table.last}`);
  }
  const total = new Float64Array(FREEDOMS);
  const add = (at: number, force: ArrayLike<number>, moment: ArrayLike<number>): void => {
    const arm = at - station;
    for (let i = 0; i < 3; i++) {
      total[i] += force[i];
      total[3 + i] += moment[i];
    }
    // arm·e_along × force
    total[4] -= arm * force[2];
    total[5] += arm * force[1];
  };
  const near = 1e-9 * (table.last - table.first);
  const counts = (at: number): boolean => (side === "inboard" ? at > station - near : at > station + near);
  nodes.forEach((at, node) => {
    const support = equilibrium.support.subarray(FREEDOMS * node, FREEDOMS * (node + 1));
    if (counts(at)) add(at, support.subarray(0, 3), support.subarray(3));
  });
  for (const { station: at, force = [0, 0, 0], moment = [0, 0, 0] } of equilibrium.loads) {
    if (counts(at)) add(at, force, moment);
  }
  addWeight(boom, equilibrium.acceleration, station, counts, add);
  const [tension, shearSwing, shearLateral, torque, aboutSwing, bendingSwing] = total;
  const bendingLateral = aboutSwing === 0 ? 0 : -aboutSwing;
  const carried = { tension, shearSwing, shearLateral, torque, bendingSwing, bendingLateral };
  return { station, side, ...carried, stress: stressOf(boom, station, side, carried) };
}

function addWeight(
  boom: HeldBoom,
  acceleration: BoomVector,
  station: number,
  counts: (at: number) => boolean,
  add: (at: number, force: ArrayLike<number>, moment: ArrayLike<number>) => void,
): void {
  const { table, settings } = boom.mesh;
  if (acceleration.every((part) => part === 0)) return;
  const none = [0, 0, 0];
  for (const { row, from, to } of table.pieces(station, table.last)) {
    const half = (to - from) / 2;
    for (let i = 0; i < ALONG.points.length; i++) {
      const at = from + half * (1 + ALONG.points[i]);
      const mass = half * ALONG.weights[i] * table.at("massPerLength", row, at, 0);
      add(
        at,
        acceleration.map((part) => mass * part),
        none,
      );
    }
  }
  for (const { station: at, mass, offset = [0, 0, 0] } of settings.masses ?? []) {
    if (!counts(at)) continue;
    const [x, y, z] = acceleration.map((part) => mass * part);
    const [a, b, c] = offset;
    add(at, [x, y, z], [b * z - c * y, c * x - a * z, a * y - b * x]);
  }
}

function stressOf(
  boom: HeldBoom,
  station: number,
  side: "inboard" | "outboard",
  carried: { readonly tension: number; readonly bendingSwing: number; readonly bendingLateral: number },
): SectionStress | undefined {
  const { table } = boom.mesh;
  if (!table.has("youngsModulus") || !table.has("fibreSwing") || !table.has("fibreLateral")) return undefined;
  const row = table.rowAt(station, side);
  const value = (column: Parameters<typeof table.at>[0]): number => table.at(column, row, station, Number.NaN);
  const modulus = value("youngsModulus");
  const axial = (modulus * carried.tension) / value("axial");
  const bending = (
    moment: number,
    fibre: "fibreSwing" | "fibreLateral",
    stiffness: "bendingSwing" | "bendingLateral",
  ) => (modulus * Math.abs(moment) * value(fibre)) / value(stiffness);
  const bendingSwing = bending(carried.bendingSwing, "fibreSwing", "bendingSwing");
  const bendingLateral = bending(carried.bendingLateral, "fibreLateral", "bendingLateral");
  return { axial, bendingSwing, bendingLateral, largest: Math.abs(axial) + bendingSwing + bendingLateral };
}

/**
 * Forces along the whole boom: both sides of every node, from root to tip; what a diagram of moments is drawn from.
 *
 * Under loads at nodes alone every line between two nodes is straight; the largest moment is then at a node.
 *
 * @source `sectionForces`
 * @verified section-forces.test.ts
 */
export function forcesAlong(boom: HeldBoom, equilibrium: BoomEquilibrium): SectionForces[] {
  const { nodes } = boom.mesh;
  return nodes.flatMap((station, i) => {
    const sides = i === 0 ? (["outboard"] as const) : i === nodes.length - 1 ? (["inboard"] as const) : BOTH;
    return sides.map((side) => sectionForces(boom, equilibrium, station, side));
  });
}

const BOTH = ["inboard", "outboard"] as const;
