import { createPose, type Mesh, type Pose } from "../../physics/shapes/index.ts";
import { buildBodies } from "./bodies.ts";
import { buildMechanism } from "./mechanism.ts";
import { type OpenReads, readFitInputs } from "./read-pair.ts";
import { sceneOf } from "./scene.ts";
import { traceMechanism } from "./stroke.ts";
import type { PartOwner } from "./types.ts";

/** One shape where it stands. */
export interface PosedPart {
  /** `body.shape`. */
  readonly name: string;
  readonly body: string;
  readonly owner: PartOwner;
  readonly mesh: Mesh;
  /** x_carrier = R·x_body + p; carrier axes have the carrier's datum as origin. */
  readonly pose: Pose;
  /** Bound of the distance between shape and mesh [m]. */
  readonly facetingError: number;
}

export interface PosedBodies {
  /** Range of boom angles that the mechanism reaches, below the horizontal [rad]. */
  readonly angles: { readonly least: number; readonly most: number };
  /** Name of the body that is the boom. */
  readonly boom: string;
  readonly groups: readonly string[];
  /** Pair paths of shapes, hinges and linkage. */
  readonly paths: readonly string[];
  /**
   * Every solid part at a boom angle [rad]; zones to keep out of are left out.
   *
   * @param fractions  where each group of gear and doors stands; a group that is not named stands at 0
   */
  at(boomAngle: number, fractions: ReadonlyMap<string, number>): PosedPart[];
}

/**
 * Bodies of a pair at any pose of its mechanism, for studies that move them on from there.
 *
 * @returns `null` when the pair has no `studies.fit`, or its mechanism does not move
 * @throws {InputError} as `runFit`
 */
export function posedBodies(open: OpenReads): PosedBodies | null {
  if (open().pair.studies?.fit === undefined) return null;
  const { inputs, groups } = readFitInputs(open);
  const bodies = buildBodies(inputs);
  const mechanism = buildMechanism(inputs);
  const traced = traceMechanism(inputs, mechanism);
  if (traced.poses.length < 3) return null;
  const scene = sceneOf(inputs, bodies, mechanism, traced);
  const [first, last] = [traced.angles[0], traced.angles.at(-1)!];
  return {
    angles: { least: Math.min(first, last), most: Math.max(first, last) },
    boom: mechanism.boom,
    groups: bodies.groups,
    paths: [...new Set([...[...groups.bodies.values()].flat(), ...groups.linkage])],
    at(boomAngle, fractions) {
      const u = (boomAngle - first) / (last - first);
      return scene.parts
        .filter(({ part }) => !part.zone)
        .map((moving) => {
          const { part } = moving;
          const pose = createPose();
          moving.poseAt(u, part.group === null ? 0 : (fractions.get(part.group) ?? 0), pose);
          return {
            ...{ name: part.name, body: part.body, owner: part.owner, mesh: part.mesh, pose },
            facetingError: part.facetingError,
          };
        });
    },
  };
}
