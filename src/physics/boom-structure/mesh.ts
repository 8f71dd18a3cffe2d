import { BugError, DomainError } from "../../math/errors.ts";
import { requireFinite, requireSize } from "../../math/require.ts";
import { barElement, beamElement, type ElementPart } from "./element.ts";
import { SectionTable } from "./section-table.ts";
import { type BoomStructureSettings, FREEDOMS, type PointMass } from "./types.ts";

const DEFAULT_ELEMENTS = 24;
/** Matrices are full: more nodes would cost minutes and gigabytes for digits that no section table has. */
const MOST_NODES = 300;

/** The boom by itself, held by nothing: nodes, elastic stiffness and mass. */
export interface BoomMesh {
  readonly settings: BoomStructureSettings;
  readonly table: SectionTable;
  /** Stations of the nodes, rising [m]. */
  readonly nodes: readonly number[];
  /** Number of freedoms, 6 a node. */
  readonly order: number;
  /** K and M of elements and point masses, shape (order, order) row-major, symmetric. */
  readonly stiffness: Float64Array;
  readonly mass: Float64Array;
}

/**
 * Cuts the boom into elements and gathers their matrices (README eq. 2–5, 7).
 *
 * Freedoms of a node: displacement along the boom, towards a larger angle, to the right [m]; rotation about these three axes
 * [rad]. Bending in the swing plane uses (u_swing, θ_right), bending sideways (u_right, −θ_swing).
 *
 * @throws {DomainError} for a bad section table, a station off the boom, a mass or inertia below zero,
 *   more than 300 nodes
 * @source own derivation, README
 * @verified structure.test.ts: symmetry, six rigid motions without strain, mass and moment of inertia of the whole
 */
export function meshBoom(settings: BoomStructureSettings): BoomMesh {
  const theory = settings.theory ?? "Timoshenko";
  if (theory !== "Timoshenko" && theory !== "Euler-Bernoulli") {
    throw new DomainError("beam theory of the boom", theory, "Timoshenko or Euler-Bernoulli");
  }
  const table = new SectionTable(settings.sections, theory);
  const nodes = placeNodes(settings, table);
  const order = FREEDOMS * nodes.length;
  const stiffness = new Float64Array(order * order);
  const mass = new Float64Array(order * order);
  const mesh = { settings, table, nodes, order, stiffness, mass };
  for (let e = 0; e + 1 < nodes.length; e++) {
    for (const { part, places, signs } of elementParts(table, nodes[e], nodes[e + 1])) {
      const at = places.map((place) => FREEDOMS * e + place);
      gather(stiffness, part.stiffness, order, at, signs);
      gather(mass, part.mass, order, at, signs);
    }
  }
  for (const point of settings.masses ?? []) {
    const first = FREEDOMS * nodeAt(mesh, point.station);
    const at = Array.from({ length: FREEDOMS }, (_, i) => first + i);
    gather(mass, pointMassMatrix(point), order, at, undefined);
  }
  return mesh;
}

/** Index of the node at a station. */
export function nodeAt(mesh: Pick<BoomMesh, "nodes" | "table">, station: number): number {
  const near = tolerance(mesh.table);
  const found = mesh.nodes.findIndex((node) => Math.abs(node - station) <= near);
  if (found < 0) {
    throw new DomainError(
      "station on the boom",
      station,
      "a node: an end, an attachment, a mass, or listed under nodes",
    );
  }
  return found;
}

const tolerance = (table: SectionTable): number => 1e-9 * (table.last - table.first);

function placeNodes(settings: BoomStructureSettings, table: SectionTable): number[] {
  const elements = settings.elements ?? DEFAULT_ELEMENTS;
  requireSize("number of elements of the boom", elements, 1);
  // the elements asked for, and one node more for each station that falls between two
  const most =
    elements + 1 + settings.attachments.length + (settings.masses ?? []).length + (settings.nodes ?? []).length;
  if (most > MOST_NODES) throw new DomainError("nodes of the boom", most, `at most ${MOST_NODES}`);
  const near = tolerance(table);
  const asked = [
    ...settings.attachments.map(({ station }) => station),
    ...(settings.masses ?? []).map(({ station }) => station),
    ...(settings.nodes ?? []),
  ];
  for (const station of asked) {
    if (!(station >= table.first - near && station <= table.last + near)) {
      throw new DomainError("station on the boom", station, `from ${table.first} to ${table.last}, as in the table`);
    }
  }
  const fixed: number[] = [];
  for (const station of [table.first, ...asked, table.last].sort((a, b) => a - b)) {
    if (fixed.length === 0 || station - fixed[fixed.length - 1] > near) fixed.push(station);
  }
  fixed[0] = table.first;
  fixed[fixed.length - 1] = table.last;
  const longest = (table.last - table.first) / elements;
  const nodes = [fixed[0]];
  for (let i = 1; i < fixed.length; i++) {
    const gap = fixed[i] - fixed[i - 1];
    const parts = Math.max(1, Math.ceil(gap / longest - 1e-6));
    for (let k = 1; k < parts; k++) nodes.push(fixed[i - 1] + (k * gap) / parts);
    nodes.push(fixed[i]);
  }
  return nodes;
}

interface PlacedPart {
  readonly part: ElementPart;
  /** Freedoms among the twelve of both nodes, and the sign with which each enters. */
  readonly places: readonly number[];
  readonly signs: readonly number[] | undefined;
}

function elementParts(table: SectionTable, from: number, to: number): PlacedPart[] {
  type Column = Parameters<SectionTable["at"]>[0];
  const flexibility = (column: Column) => (row: number, station: number) =>
    1 / table.at(column, row, station, Infinity);
  const inertia = (column: Column) => (row: number, station: number) => table.at(column, row, station, 0);
  const mass = inertia("massPerLength");
  const beam = (bending: Column, shear: Column, rotary: Column): ElementPart =>
    beamElement(table, from, to, {
      bendingFlexibility: flexibility(bending),
      shearFlexibility: flexibility(shear),
      mass,
      rotaryInertia: inertia(rotary),
    });
  const stretch = barElement(table, from, to, flexibility("axial"), mass);
  const twist = barElement(table, from, to, flexibility("torsion"), inertia("polarInertia"));
  const swing = beam("bendingSwing", "shearSwing", "rotaryInertiaSwing");
  const lateral = beam("bendingLateral", "shearLateral", "rotaryInertiaLateral");
  return [
    { part: stretch, places: [0, 6], signs: undefined },
    { part: twist, places: [3, 9], signs: undefined },
    { part: swing, places: [1, 5, 7, 11], signs: undefined },
    { part: lateral, places: [2, 4, 8, 10], signs: [1, -1, 1, -1] },
  ];
}

function gather(
  whole: Float64Array,
  part: Float64Array,
  order: number,
  at: readonly number[],
  signs: readonly number[] | undefined,
): void {
  const size = at.length;
  if (part.length !== size * size) throw new BugError(`element matrix of ${part.length} elements at ${size} freedoms`);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) {
      const sign = signs === undefined ? 1 : signs[i] * signs[j];
      whole[at[i] * order + at[j]] += sign * part[i * size + j];
    }
  }
}

/**
 * Mass matrix of a body at a node: v_centre = u̇ + θ̇ × r.
 *
 *     M = [m·1, −m·S(r); m·S(r), J − m·S(r)·S(r)],  S(r)·x = r × x                     (README eq. 7)
 */
function pointMassMatrix({ mass, offset = [0, 0, 0], inertia = [0, 0, 0] }: PointMass): Float64Array {
  for (const value of [mass, ...inertia]) {
    if (!(value >= 0 && Number.isFinite(value))) {
      throw new DomainError("mass or inertia on the boom", value, "a finite number, at least 0");
    }
  }
  for (const value of offset) requireFinite("offset of a mass on the boom", value);
  const [x, y, z] = offset;
  const cross = [
    [0, -z, y],
    [z, 0, -x],
    [-y, x, 0],
  ];
  const out = new Float64Array(FREEDOMS * FREEDOMS);
  for (let i = 0; i < 3; i++) {
    out[i * FREEDOMS + i] = mass;
    for (let j = 0; j < 3; j++) {
      out[i * FREEDOMS + 3 + j] = -mass * cross[i][j];
      out[(3 + i) * FREEDOMS + j] = mass * cross[i][j];
      // −S² = r²·1 − r rᵀ
      const square = (i === j ? x * x + y * y + z * z : 0) - offset[i] * offset[j];
      out[(3 + i) * FREEDOMS + 3 + j] = mass * square + (i === j ? inertia[i] : 0);
    }
  }
  return out;
}
