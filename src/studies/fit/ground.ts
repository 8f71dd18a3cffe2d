import { createPose } from "../../physics/shapes/index.ts";
import { DEGREE, toStation } from "./frames.ts";
import type { GroundInput } from "./inputs.ts";
import { hasWheels } from "./map-words.ts";
import { fractionAt, type MovingPart, type Scene } from "./motion.ts";
import type { FitResult, GroundState, GroundStateName, RotationLimit, Station3 } from "./types.ts";

/** Ground line of each state: tyres and struts let the carrier down, the line rises. */
export function groundLines(ground: GroundInput): { name: GroundStateName; line: number }[] {
  const { line, flatTyre, bottomedStrut } = ground;
  return [
    { name: "static", line },
    { name: "flat tyre", line: line + flatTyre },
    { name: "bottomed strut", line: line + bottomedStrut },
    { name: "flat tyre and bottomed strut", line: line + flatTyre + bottomedStrut },
  ];
}

/** A pose of the mechanism for which rotation is asked. */
export interface GroundPose {
  readonly name: string;
  readonly u: number;
  /** Without the carried aircraft: it was let go, the mechanism is stuck. */
  readonly empty: boolean;
}

/**
 * Heights over the ground and rotation limits in every state of tyres and struts.
 *
 * A corner at (FS, WL), a = FS − FS_wheel behind the contact and h = WL − WL_ground above the ground, comes down to it at
 *
 *     θ = atan2(h, a) − asin(e/√(a² + h²)),   a > 0                            (README eq. 8)
 *
 * e is what is taken off for faceting and interpolation. Bodies with wheels stand on the ground and do not count. Groups with wheels stand extended, the others as `groundFraction` says.
 *
 * @param ground  lines and contact
 * @param scene   all parts
 * @param shares  points of the stroke, 0 … 1
 * @param poses   for the rotation limits
 * @source plane geometry, own derivation, README eq. 8
 * @verified ground.test.ts: by hand
 */
export function groundResult(
  ground: GroundInput,
  scene: Scene,
  shares: readonly number[],
  poses: readonly GroundPose[],
): NonNullable<FitResult["ground"]> {
  const onWheels = new Set(scene.parts.filter(({ part }) => part.kind === "wheel").map(({ part }) => part.body));
  const solid = scene.parts.filter(({ part }) => !part.zone && !onWheels.has(part.body));
  const lowest = shares.map((u) => solid.map((moving) => lowestPoint(scene, moving, u)));
  const contact = ground.mainWheels;
  const states = groundLines(ground).map(({ name, line }): GroundState => {
    const above = (index: number) =>
      solid.map((moving, i) => ({
        part: moving.part.name,
        clearance_m: lowest[index][i][2] - line - moving.slack,
        point: lowest[index][i],
      }));
    const parts = above(0);
    const least = leastOf(parts);
    return {
      name,
      groundLine_m: line,
      clearance_m: least.clearance_m,
      at: { part: least.part, point: least.point },
      alongStroke: shares.map((u, index) => {
        const { clearance_m, part } = leastOf(above(index));
        return { boomAngle_deg: scene.angleAt(u) / DEGREE, clearance_m, part };
      }),
      parts,
      rotationLimits: poses.map((pose) => rotationLimit(scene, solid, pose, contact.FS, line)),
      tipBack_deg:
        ground.aftCg === null ? null : Math.atan2(contact.FS - ground.aftCg.FS, ground.aftCg.WL - line) / DEGREE,
    };
  });
  return { mainContact_m: [contact.FS, contact.BL], states };
}

function leastOf<T extends { readonly clearance_m: number }>(all: readonly T[]): T {
  return all.reduce((least, one) => (one.clearance_m < least.clearance_m ? one : least));
}

/** On the ground a group with wheels is extended; another is as drawn while stowed and where it stands for the boom otherwise. */
export function groundFraction(scene: Scene, moving: MovingPart, u: number): number {
  const { group } = moving.part;
  return group !== null && hasWheels(scene, group) ? 1 : fractionAt(scene, moving, u);
}

/** Calls back with every corner of a part in stations. */
function eachCorner(scene: Scene, moving: MovingPart, u: number, look: (at: Station3) => void): void {
  const pose = createPose();
  moving.poseAt(u, groundFraction(scene, moving, u), pose);
  const { rotation: r, translation: p } = pose;
  const { vertices } = moving.part.mesh;
  const at = new Float64Array(3);
  for (let i = 0; i < vertices.length; i += 3) {
    for (let k = 0; k < 3; k++) {
      at[k] = r[3 * k] * vertices[i] + r[3 * k + 1] * vertices[i + 1] + r[3 * k + 2] * vertices[i + 2] + p[k];
    }
    look(toStation(at));
  }
}

function lowestPoint(scene: Scene, moving: MovingPart, u: number): Station3 {
  let found: Station3 = [0, 0, Infinity];
  eachCorner(scene, moving, u, (at) => {
    if (at[2] < found[2]) found = at;
  });
  return found;
}

function rotationLimit(
  scene: Scene,
  solid: readonly MovingPart[],
  pose: GroundPose,
  wheelFS: number,
  line: number,
): RotationLimit {
  let limit = Infinity;
  let found: { part: string; point: Station3 } | null = null;
  for (const moving of solid) {
    if (pose.empty && moving.part.owner === "carried") continue;
    eachCorner(scene, moving, pose.u, (at) => {
      const behind = at[0] - wheelFS;
      const height = at[2] - line;
      // What is at or below the ground already leaves no rotation, wherever it is; the lowest is named.
      const isDown = height - moving.slack <= 0;
      if (behind <= 0 && !isDown) return;
      const slack = Math.asin(Math.min(1, moving.slack / Math.hypot(behind, height)));
      const angle = isDown ? height - moving.slack : Math.atan2(height, behind) - slack;
      if (angle >= limit) return;
      limit = angle;
      found = { part: moving.part.name, point: at };
    });
  }
  const held = found as { part: string; point: Station3 } | null;
  return {
    pose: pose.name,
    boomAngle_deg: scene.angleAt(pose.u) / DEGREE,
    limit_deg: held === null ? null : Math.max(0, limit) / DEGREE,
    part: held?.part ?? null,
    point: held?.point ?? null,
  };
}
