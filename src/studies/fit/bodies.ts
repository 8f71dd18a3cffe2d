import { BugError } from "../../math/errors.ts";
import {
  createPose,
  createTree,
  type DistanceTree,
  hingePath,
  inspectMesh,
  type Mesh,
  type MeshProblem,
  meshProperties,
  type Pose,
} from "../../physics/shapes/index.ts";
import { type Axes3, toAxes, toStation } from "./frames.ts";
import type { FitInputs, MoverInput, PartInput, ShapeForm } from "./inputs.ts";
import { mirroredSurface, type PartSurface, partSurface } from "./shape-mesh.ts";
import type { FitPart, PartOwner } from "./types.ts";

/** A carrier part on a hinge, with its place in the drawing. */
export interface Mover {
  readonly body: string;
  readonly group: string;
  readonly fractions: Float64Array;
  /** [rad] */
  readonly angles: Float64Array;
  /** Sum of |change| of the angle from fraction 0 to each row [rad]. */
  readonly turned: Float64Array;
  readonly hingeAt: Axes3;
  readonly hingeAxis: Axes3;
  /** Carrier shapes that it hangs on or is stowed in; `null`: any of them. */
  readonly hangsOn: readonly string[] | null;
}

/** One shape with everything that distances need. */
export interface Part {
  /** `body.shape`. */
  readonly name: string;
  readonly body: string;
  readonly owner: PartOwner;
  readonly group: string | null;
  readonly zone: boolean;
  readonly kind: ShapeForm["kind"];
  readonly pieces: readonly Mesh[];
  readonly mesh: Mesh;
  readonly tree: DistanceTree;
  readonly facetingError: number;
  readonly faults: readonly string[];
  /** Bounds in body axes [m], middle and half diagonal. */
  readonly lowest: Axes3;
  readonly highest: Axes3;
  readonly middle: Axes3;
  readonly reach: number;
  /** For parts of a mover: pose at an angle and largest distance of a corner from the hinge line [m]. */
  readonly hinge: { readonly mover: Mover; poseAt(angle: number, out: Pose): void; readonly radius: number } | null;
}

export interface Bodies {
  readonly parts: readonly Part[];
  readonly movers: readonly Mover[];
  readonly groups: readonly string[];
}

/**
 * Builds all parts: meshes in the axes of their bodies, mirrored ones, faults, trees.
 *
 * @param inputs  shapes and hinges of the pair
 * @throws {InputError} for a shape that cannot be
 * @source `physics/shapes`; mirrored turn: an axis (a_x, a_y, a_z) becomes (−a_x, a_y, −a_z) at the same angle (README eq. 2)
 * @verified bodies.test.ts
 */
export function buildBodies(inputs: FitInputs): Bodies {
  const movers: Mover[] = [];
  const mirrored = new Map<string, Mover>();
  const own = new Map<string, Mover>();
  for (const input of inputs.movers) {
    const mover = moverOf(input);
    own.set(input.body, mover);
    movers.push(mover);
    if (input.mirroredBody === null) continue;
    const other = mirroredMover(mover, input.mirroredBody, input.mirroredHangsOn);
    mirrored.set(input.body, other);
    movers.push(other);
  }
  const parts: Part[] = [];
  for (const input of inputs.parts) {
    const surface = partSurface(input);
    const mover = input.owner === "gear" ? own.get(input.body) : undefined;
    if (input.owner === "gear" && mover === undefined) throw new BugError(`no hinge for ${input.body}`);
    parts.push(partOf(input, input.body, surface, mover));
    const other = mirrored.get(input.body);
    if (other !== undefined) parts.push(partOf(input, other.body, mirroredSurface(surface), other));
  }
  return { parts, movers, groups: [...new Set(movers.map((mover) => mover.group))].sort() };
}

function moverOf(input: MoverInput): Mover {
  const { body, group, fractions, angles, hangsOn } = input;
  const turned = new Float64Array(angles.length);
  for (let i = 1; i < turned.length; i++) turned[i] = turned[i - 1] + Math.abs(angles[i] - angles[i - 1]);
  return {
    ...{ body, group, fractions, angles, turned, hangsOn },
    hingeAt: toAxes(input.hingeAt),
    hingeAxis: toAxes(input.hingeAxis),
  };
}

function mirroredMover(mover: Mover, body: string, hangsOn: Mover["hangsOn"]): Mover {
  const [x, y, z] = mover.hingeAt;
  const [u, v, w] = mover.hingeAxis;
  return { ...mover, body, hangsOn, hingeAt: [x, -y, z], hingeAxis: [-u, v, -w] };
}

function partOf(input: PartInput, body: string, surface: PartSurface, mover: Mover | undefined): Part {
  const { mesh, pieces, facetingError } = surface;
  const { lowest, highest } = meshProperties(mesh);
  const middle = [0, 1, 2].map((k) => 0.5 * (lowest[k] + highest[k])) as [number, number, number];
  const reach = 0.5 * Math.hypot(highest[0] - lowest[0], highest[1] - lowest[1], highest[2] - lowest[2]);
  return {
    name: `${body}.${input.shape}`,
    body,
    ...{ owner: input.owner, group: input.group, zone: input.zone, kind: input.form.kind },
    ...{ pieces, mesh, facetingError, lowest, highest, middle, reach },
    tree: createTree(mesh),
    faults: pieces.flatMap((piece) => inspectMesh(piece).problems.map(faultInWords)),
    hinge: mover === undefined ? null : hingeOf(mesh, mover),
  };
}

function hingeOf(mesh: Mesh, mover: Mover): Part["hinge"] {
  const path = hingePath(mesh, {
    point: [...mover.hingeAt],
    axis: [...mover.hingeAxis],
    fromAngle: 0,
    toAngle: 1,
    pose: createPose(),
  });
  return { mover, poseAt: path.poseAt, radius: path.travelBound(0, 1) };
}

const WORDS: Readonly<Record<MeshProblem["fault"], string>> = {
  "open edge": "open: edges with one face",
  "edge of more than two faces": "edges of more than two faces",
  "neighbours face opposite sides": "neighbouring faces look to opposite sides",
  "inside out": "inside out: faces look inwards",
  "no thickness": "no thickness",
  "triangle without area": "triangles without area",
};

function faultInWords({ fault, count, places }: MeshProblem): string {
  const where = places[0];
  if (where === undefined) return WORDS[fault];
  const [fs, bl, wl] = toStation(where).map((value) => value.toFixed(3));
  return `${WORDS[fault]} (${count}), first at FS ${fs}, BL ${bl}, WL ${wl}`;
}

/** Angle of a mover at a fraction, straight between the rows of its table [rad]; `along` picks angle or turned way. */
export function moverAt(mover: Mover, along: Float64Array, fraction: number): number {
  const { fractions } = mover;
  let i = 0;
  while (i < fractions.length - 2 && fraction > fractions[i + 1]) i++;
  const share = Math.min(1, Math.max(0, (fraction - fractions[i]) / (fractions[i + 1] - fractions[i])));
  return along[i] + share * (along[i + 1] - along[i]);
}

/** The part as the result document lists it. */
export function describePart(part: Part): FitPart {
  return {
    ...{ name: part.name, body: part.body, owner: part.owner, group: part.group, zone: part.zone },
    triangles: part.mesh.triangles.length / 3,
    facetingError_m: part.facetingError,
    faults: part.faults,
  };
}
