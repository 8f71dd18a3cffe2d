import { BugError } from "../../math/errors.ts";
import { createPose, meshRadius, type Pose } from "../../physics/shapes/index.ts";
import { type Bodies, moverAt, type Part } from "./bodies.ts";
import type { Axes3 } from "./frames.ts";
import type { ProvenMotion } from "./proven-motion.ts";
import type { BodyTable } from "./stroke-table.ts";

/**
 * Allowed for the rounding of poses and distances of one part [m]: coordinates of some tens of metres have a spacing of 7e-15 m, so this is
 * more than ten thousand roundings. Not proven.
 */
const ROUNDING = 1e-10;
/** Way over a stretch of which nothing is proven [m]: longer than any distance, so that no clearance is shown over it. */
const UNKNOWN_WAY = 1e6;

/** What drives a part: nothing, a gear group, or the stroke. */
export type DrivenBy = "nothing" | "group" | "stroke";

/** A part with its place for every share of the stroke u and every fraction f of its group, and bounds of its way. */
export interface MovingPart {
  readonly part: Part;
  readonly drivenBy: DrivenBy;
  /** Writes the pose, carrier axes. */
  poseAt(u: number, f: number, out: Pose): void;
  /** At least the way of every point of the part between two shares, or two fractions [m]. */
  strokeTravel(from: number, to: number): number;
  groupTravel(from: number, to: number): number;
  /** Proven: no point of the part is farther than this from where `poseAt` puts it [m]. */
  readonly deviation: number;
  /** Taken off every clearance of the part: faceting, deviation and an allowance for rounding [m]. */
  readonly slack: number;
}

export interface Scene {
  readonly parts: readonly MovingPart[];
  /** What is proven of the motion along the stroke. */
  readonly proven: ProvenMotion;
  /** Boom angle at a share of the stroke [rad]. */
  readonly angleAt: (u: number) => number;
  /** Fraction at which each group stands while the boom moves. */
  readonly standsAt: ReadonlyMap<string, number>;
}

/**
 * Gives every part its motion.
 *
 *     travel ≤ way of the reference + turn·(greatest distance of a corner from it)           (README eq. 5)
 *
 * @param bodies  all parts
 * @param along   poses along the stroke by name of the body, what is proven of them, and the boom angles at shares 0 and 1 [rad]
 * @source `physics/shapes` README eq. 9
 * @verified stroke.test.ts; fit-map.test.ts against dense sampling
 */
export function createScene(
  bodies: Bodies,
  along: {
    readonly tables: ReadonlyMap<string, BodyTable>;
    readonly proven: ProvenMotion;
    readonly stowed: number;
    readonly extended: number;
  },
): Scene {
  const { tables, proven, stowed, extended } = along;
  return {
    parts: bodies.parts.map((part) => movingPart(part, tables, proven)),
    proven,
    angleAt: (u) => stowed + u * (extended - stowed),
    standsAt: new Map(bodies.groups.map((group) => [group, 0])),
  };
}

function movingPart(part: Part, tables: ReadonlyMap<string, BodyTable>, proven: ProvenMotion): MovingPart {
  if (part.owner === "carrier") return restingPart(part, createPose());
  const { hinge } = part;
  if (hinge !== null) {
    const { mover, radius } = hinge;
    return {
      part,
      drivenBy: "group",
      poseAt: (_, f, out) => hinge.poseAt(moverAt(mover, mover.angles, f), out),
      strokeTravel: () => 0,
      groupTravel: (from, to) =>
        radius * Math.abs(moverAt(mover, mover.turned, to) - moverAt(mover, mover.turned, from)),
      deviation: 0,
      slack: part.facetingError + ROUNDING,
    };
  }
  const table = tables.get(part.body);
  const own = proven.deviations.get(part.body);
  if (table === undefined || own === undefined) throw new BugError(`no poses for ${part.body}`);
  const radius = meshRadius(part.mesh, [...table.reference]);
  const deviation = own.way + radius * own.turn;
  const isUnknown = (from: number, to: number): boolean =>
    proven.unresolved.some(([low, high]) => Math.min(from, to) < high && Math.max(from, to) > low);
  return {
    part,
    drivenBy: "stroke",
    poseAt: (u, _, out) => table.poseAt(u, out),
    strokeTravel: (from, to) =>
      isUnknown(from, to)
        ? UNKNOWN_WAY
        : Math.abs(table.wayAt(to) - table.wayAt(from)) + radius * Math.abs(table.turnAt(to) - table.turnAt(from)),
    groupTravel: () => 0,
    deviation,
    slack: part.facetingError + deviation + ROUNDING,
  };
}

/** Fraction of a part's group at a share of the stroke: as drawn while stowed, else where it stands while the boom moves. */
export function fractionAt(scene: Scene, moving: MovingPart, u: number): number {
  const { group } = moving.part;
  return u === 0 || group === null ? 0 : (scene.standsAt.get(group) ?? 0);
}

/** A part that stands still. */
export function restingPart(part: Part, pose: Pose): MovingPart {
  return {
    part,
    drivenBy: "nothing",
    poseAt: (_u, _f, out) => {
      out.rotation.set(pose.rotation);
      out.translation.set(pose.translation);
    },
    strokeTravel: () => 0,
    groupTravel: () => 0,
    deviation: 0,
    slack: part.facetingError + ROUNDING,
  };
}

/** A part of a mover that is stuck at a fraction. */
export function heldPart(moving: MovingPart, fraction: number): MovingPart {
  const pose = createPose();
  moving.poseAt(0, fraction, pose);
  return restingPart(moving.part, pose);
}

/** Middle of the parts of a body, body axes: the reference point of its table. */
export function middleOf(bodies: Bodies, body: string): Axes3 {
  const own = bodies.parts.filter((part) => part.body === body);
  if (own.length === 0) return [0, 0, 0];
  return [0, 1, 2].map((k) => {
    const low = Math.min(...own.map((part) => part.lowest[k]));
    const high = Math.max(...own.map((part) => part.highest[k]));
    return 0.5 * (low + high);
  }) as [number, number, number];
}
