import { mirroredName, type Pair, type Quantity, type Shape } from "../../inputs/index.ts";
import { BugError, InputError, type Issue } from "../../math/errors.ts";
import { CARRIED, CARRIER, type FitInputs, type MoverInput, type PartInput, type ShapeForm } from "./inputs.ts";
import { readLinkage } from "./read-linkage.ts";
import { readGround, readLoading, readSettings } from "./read-settings.ts";
import type { Station3 } from "./types.ts";

/** Opens a view of the pair that notes every value read through it. */
export type OpenReads = () => { readonly pair: Pair; paths(): string[] };

/** Pair paths by what they feed, so that each finding rests on what it uses and nothing else. */
export interface ReadGroups {
  /** Shapes, hinge and travel of each body by name; mirrored bodies share those of the drawn one. */
  readonly bodies: ReadonlyMap<string, readonly string[]>;
  /** Joints, jack, stroke and boom length. */
  readonly linkage: readonly string[];
  readonly tolerances: readonly string[];
  readonly masses: readonly string[];
  readonly capacity: readonly string[];
  readonly ground: readonly string[];
  readonly rotation: readonly string[];
  readonly loading: readonly string[];
  readonly criteria: readonly string[];
  readonly settings: readonly string[];
}

/** Nodes of the maps along each side. */
const MAP_NODES = 101;

/**
 * Pair → physics arguments of `fit`, group by group, with the paths that each group read.
 *
 * @throws {InputError} naming what the pair lacks
 */
export function readFitInputs(open: OpenReads): { inputs: FitInputs; groups: ReadGroups } {
  requireParts(open().pair);
  const views = {
    ...{ linkage: open(), tolerances: open(), masses: open(), capacity: open(), ground: open() },
    ...{ rotation: open(), loading: open(), criteria: open(), settings: open() },
  };
  const issues: Issue[] = [];
  const bodies = readBodies(open, issues);
  if (issues.length > 0) throw new InputError(issues);
  const { carried } = views.masses.pair;
  const inputs: FitInputs = {
    parts: bodies.parts,
    movers: bodies.movers,
    ...readLinkage(views),
    masses: Object.entries(carried.massStates).map(([name, state]) => ({
      ...{ name, mass: state.mass.si, cg: station(state.cg) },
    })),
    ground: readGround(views.ground.pair, views.rotation.pair),
    loading: readLoading(views.loading.pair),
    ...readSettings(views.criteria.pair, views.settings.pair),
    mapNodes: MAP_NODES,
  };
  const groups: ReadGroups = {
    bodies: new Map([...bodies.views].map(([name, view]) => [name, view.paths()])),
    linkage: views.linkage.paths(),
    tolerances: views.tolerances.paths(),
    masses: views.masses.paths(),
    capacity: views.capacity.paths(),
    ground: views.ground.paths(),
    rotation: views.rotation.paths(),
    loading: views.loading.paths(),
    criteria: views.criteria.paths(),
    settings: views.settings.paths(),
  };
  return { inputs, groups };
}

/** The study needs settings and a mechanism; shapes and ground may be missing, with less to say. */
function requireParts(pair: Pair): void {
  const issues: Issue[] = [];
  if (pair.studies?.fit === undefined) {
    issues.push({ path: "studies.fit", message: "is missing: the study needs its criteria and what counts as near" });
  }
  if (pair.mechanism.linkage === undefined) {
    issues.push({ path: "mechanism.linkage", message: "is missing: the study needs the joints and the jack as drawn" });
  }
  if (issues.length > 0) throw new InputError(issues);
}

export function station(p: { readonly FS: Quantity; readonly BL: Quantity; readonly WL: Quantity }): Station3 {
  return [p.FS.si, p.BL.si, p.WL.si];
}

interface ReadBodies {
  readonly parts: PartInput[];
  readonly movers: MoverInput[];
  readonly views: Map<string, { paths(): string[] }>;
}

function readBodies(open: OpenReads, issues: Issue[]): ReadBodies {
  const parts: PartInput[] = [];
  const movers: MoverInput[] = [];
  const views = new Map<string, { paths(): string[] }>();
  const names = open().pair;
  const take = (
    body: string,
    owner: PartInput["owner"],
    group: string | null,
    path: string,
    shapesOf: (pair: Pair) => Readonly<Record<string, Shape>> | undefined,
  ): Pair => {
    const view = open();
    views.set(body, view);
    for (const [shape, given] of Object.entries(shapesOf(view.pair) ?? {})) {
      const zone = given.zone === true;
      parts.push({ ...{ body, shape, owner, group, zone }, form: readShape(given), path: `${path}.${shape}` });
    }
    return view.pair;
  };
  take(CARRIER, "carrier", null, "carrier.shapes", (pair) => pair.carrier.shapes);
  for (const body of Object.keys(names.carrier.moving ?? {})) {
    const path = `carrier.moving.${body}`;
    const group = names.carrier.moving?.[body].group ?? "";
    const pair = take(body, "gear", group, `${path}.shapes`, (one) => one.carrier.moving?.[body].shapes);
    const mover = readMover(pair, body, path, Object.keys(names.carrier.shapes ?? {}), issues);
    movers.push(mover);
    const drawn = views.get(body);
    if (mover.mirroredBody !== null && drawn !== undefined) views.set(mover.mirroredBody, drawn);
  }
  for (const body of Object.keys(names.mechanism.linkage?.bodies ?? {})) {
    const path = `mechanism.linkage.bodies.${body}.shapes`;
    take(body, "mechanism", null, path, (pair) => pair.mechanism.linkage?.bodies[body].shapes);
  }
  take(CARRIED, "carried", null, "carried.shapes", (pair) => pair.carried.shapes);
  return { parts, movers, views };
}

/** The carrier's shape of the other side; itself where there is none, as for a wing of both sides. */
function mirroredShape(shape: string, shapes: readonly string[]): string {
  const other = mirroredName(shape);
  return other !== undefined && shapes.includes(other) ? other : shape;
}

function readMover(
  pair: Pair,
  body: string,
  path: string,
  carrierShapes: readonly string[],
  issues: Issue[],
): MoverInput {
  const moving = pair.carrier.moving?.[body];
  if (moving === undefined) throw new BugError(`${path} was there a moment ago`);
  const { fraction, angle } = moving.travel.columns;
  const bad = (message: string, value: number, allowed: string) =>
    issues.push({ path: `${path}.travel`, message, value: String(value), allowed });
  if (fraction.length < 2) bad("has too few rows", fraction.length, "at least two");
  for (let i = 1; i < fraction.length; i++) {
    if (!(fraction[i] > fraction[i - 1]))
      bad("runs backwards: the fraction must rise", fraction[i], "rising from 0 to 1");
  }
  if (fraction[0] !== 0) bad("must start at fraction 0", fraction[0], "0");
  if (fraction.at(-1) !== 1) bad("must end at fraction 1", fraction.at(-1) ?? Number.NaN, "1");
  const other = moving.mirrored === true ? mirroredName(body) : undefined;
  if (moving.mirrored === true && other === undefined) {
    issues.push({ path: `${path}.mirrored`, message: "needs Right or Left in the name of the part", value: body });
  }
  return {
    ...{ body, group: moving.group, path, fractions: fraction, angles: angle },
    hingeAt: station(moving.hinge.at),
    hingeAxis: station(moving.hinge.axis),
    mirroredBody: other ?? null,
    hangsOn: moving.hangsOn ?? null,
    mirroredHangsOn: moving.hangsOn?.map((shape) => mirroredShape(shape, carrierShapes)) ?? null,
  };
}

function readShape(given: Shape): ShapeForm {
  switch (given.kind) {
    case "fuselage": {
      const { FS, halfWidth, halfHeight, WL } = given.sections.columns;
      return { kind: given.kind, stations: { FS, halfWidth, halfHeight, WL }, BL: given.BL?.si ?? 0 };
    }
    case "panel":
      return {
        ...{ kind: given.kind, root: station(given.root), sides: given.sides },
        ...{ rootChord: given.rootChord.si, tipChord: given.tipChord.si, span: given.span.si },
        ...{ sweep: given.sweep.si, tipUp: given.tipUp?.si ?? 0, thickness: given.thickness.si },
      };
    case "bay":
      return { kind: given.kind, from: station(given.from), to: station(given.to), wall: given.wall.si };
    case "box":
      return { kind: given.kind, from: station(given.from), to: station(given.to) };
    case "strut":
      return { kind: given.kind, from: station(given.from), to: station(given.to), radius: given.radius.si };
    case "wheel":
      return {
        ...{ kind: given.kind, centre: station(given.centre), radius: given.radius.si, width: given.width.si },
        edgeRadius: given.edgeRadius?.si ?? 0,
      };
    case "propeller disc":
      return {
        ...{ kind: given.kind, centre: station(given.centre) },
        ...{ diameter: given.diameter.si, thickness: given.thickness.si },
      };
    case "jet cone":
      return {
        ...{ kind: given.kind, exit: station(given.exit), exitRadius: given.exitRadius.si },
        ...{ halfAngle: given.halfAngle.si, length: given.length.si },
      };
    case "mesh":
      return { kind: given.kind, stations: given.file.vertices, triangles: given.file.triangles };
  }
}
