import { createDistanceQuery, minimumDistance, type Pose } from "../../physics/shapes/index.ts";
import { toStation } from "./frames.ts";
import type { GroundInput } from "./inputs.ts";
import type { MovingPart } from "./motion.ts";
import type { LoadingStep, Station3 } from "./types.ts";

/** Poses shown while rolling and while going up. */
const ROLL_STEPS = 8;
const LIFT_STEPS = 4;

/** The way of the carried aircraft into its place, and what it passes. */
export interface Way {
  readonly moving: readonly MovingPart[];
  readonly standing: readonly { readonly part: MovingPart; readonly pose: Pose }[];
  /** Declared apart: they meet in the stowed place by design. */
  readonly meets: (a: MovingPart, b: MovingPart) => boolean;
  /** Carried aircraft under its stowed place, level, by its height over the ground; carrier axes. */
  under(raised: number): Pose;
  /** From the start of the dolly to under the stowed place [m], x. */
  readonly roll: number;
  readonly stowed: Pose;
}

interface Nearest {
  readonly clearance: number;
  readonly pair: readonly [string, string] | null;
  readonly pointA: Station3 | null;
  readonly pointB: Station3 | null;
}

/** Pose on the dolly, `left` metres before the place under the stowed one. */
export function onDolly(way: Way, raised: number, left: number): Pose {
  const pose = way.under(raised);
  pose.translation[0] -= left;
  return pose;
}

/** Looks at every pair until one says no. */
export function eachPair(way: Way, look: (moving: MovingPart, standing: Way["standing"][number]) => boolean): boolean {
  for (const moving of way.moving) for (const standing of way.standing) if (!look(moving, standing)) return false;
  return true;
}

/** Poses of the loading with their least clearance. */
export function loadingSteps(ground: GroundInput, way: Way, raised: number): LoadingStep[] {
  const height = (pose: Pose): number => -pose.translation[2] - (ground.line - raised);
  const step = (name: string, pose: Pose, left: number, joins: boolean): LoadingStep => {
    const { clearance, pair, pointA, pointB } = nearestAt(way, pose, joins);
    return {
      ...{ name, aftOfStowed_m: left, height_m: height(pose), leastClearance_m: clearance, pair, pointA, pointB },
    };
  };
  const rolling = Array.from({ length: ROLL_STEPS + 1 }, (_, i) => {
    const left = way.roll * (1 - i / ROLL_STEPS);
    const name =
      i === 0
        ? "dolly at the start"
        : i === ROLL_STEPS
          ? "dolly under the stowed place"
          : `rolling in, ${Math.abs(left).toFixed(2)} m to go`;
    return step(name, onDolly(way, raised, left), left, false);
  });
  const from = way.under(raised);
  const lifting = Array.from({ length: LIFT_STEPS }, (_, k) => {
    const share = (k + 1) / LIFT_STEPS;
    const pose = between(from, way.stowed, share);
    return step(share === 1 ? "in its stowed place" : `raised ${Math.round(100 * share)} % of the way`, pose, 0, true);
  });
  return [...rolling, ...lifting];
}

/** Part of the way from one pose to another: straight, with the pitch shared out. */
function between(from: Pose, to: Pose, share: number): Pose {
  const pitch = share * Math.atan2(-to.rotation[6], to.rotation[0]);
  const [c, s] = [Math.cos(pitch), Math.sin(pitch)];
  const pose: Pose = { rotation: Float64Array.of(c, 0, s, 0, 1, 0, -s, 0, c), translation: new Float64Array(3) };
  for (let k = 0; k < 3; k++) {
    pose.translation[k] = from.translation[k] + share * (to.translation[k] - from.translation[k]);
  }
  return pose;
}

/** Least clearance at one pose; on the way up those that hold the aircraft in the end do not count. */
function nearestAt(way: Way, pose: Pose, joins: boolean): Nearest {
  let least: Nearest = { clearance: Infinity, pair: null, pointA: null, pointB: null };
  const query = createDistanceQuery();
  eachPair(way, (moving, other) => {
    if (joins && (other.part.part.owner === "mechanism" || way.meets(moving, other.part))) return true;
    const found = minimumDistance(moving.part.tree, pose, other.part.part.tree, other.pose, query);
    const clearance = Math.max(0, found.distance - moving.slack - other.part.slack);
    if (clearance >= least.clearance) return true;
    least = {
      clearance,
      pair: [moving.part.name, other.part.part.name],
      pointA: toStation(found.pointA),
      pointB: toStation(found.pointB),
    };
    return true;
  });
  return least;
}
