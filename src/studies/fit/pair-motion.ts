import { type DistanceQuery, type MotionClearance, motionClearance, type Pose } from "../../physics/shapes/index.ts";
import { carried } from "./frames.ts";
import type { MovingPart } from "./motion.ts";
import type { PartPair } from "./pairs.ts";

/** Bounds come this near to each other: a share of the distance, at least so much [m]. */
const SHARE = 0.05;
export const FINEST = 1e-3;
/** Pairs that come nearer than this are followed closely [m]. */
export const CLOSE = 0.5;
/** Pairs that are farther apart than this everywhere are only bounded, not followed closely [m]. */
export const FAR = 2;

/** One motion of a pair: along the stroke at a fraction, or along the fraction at a share of the stroke. */
export interface PairMotion {
  readonly along: "stroke" | "group";
  readonly from: number;
  readonly to: number;
  /** The coordinate that is held. */
  readonly held: number;
}

/** Certified bounds of a pair over one motion; nothing is taken off yet. */
export function clearanceOver(
  pair: PartPair,
  motion: PairMotion,
  query: DistanceQuery,
  tolerance: number,
  required = 0,
  budget = 400,
): MotionClearance {
  const body = (moving: MovingPart) => {
    const { from, to, held, along } = motion;
    const at = (s: number): number => from + s * (to - from);
    return {
      tree: moving.part.tree,
      path:
        along === "stroke"
          ? {
              poseAt: (s: number, out: Parameters<MovingPart["poseAt"]>[2]) => moving.poseAt(at(s), held, out),
              travelBound: (s0: number, s1: number) => moving.strokeTravel(at(s0), at(s1)),
            }
          : {
              poseAt: (s: number, out: Parameters<MovingPart["poseAt"]>[2]) => moving.poseAt(held, at(s), out),
              travelBound: (s0: number, s1: number) => moving.groupTravel(at(s0), at(s1)),
            },
    };
  };
  return motionClearance(body(pair.a), body(pair.b), query, {
    ...{ required, tolerance, budget },
    resolution: 1e-3,
    contactResolution: 0.05,
  });
}

/** Tolerance that suits a distance. */
export function toleranceFor(distance: number): number {
  if (distance > FAR) return 0.5 * distance;
  return Math.max(FINEST, (distance > CLOSE ? 3 * SHARE : SHARE) * distance);
}

/** Lower bound of the distance of a pair over a motion from the spheres around the parts alone [m]; may be negative. */
export function sphereBound(pair: PartPair, motion: PairMotion, poses: readonly [Pose, Pose]): number {
  const { a, b } = pair;
  const middle = 0.5 * (motion.from + motion.to);
  const [u, f] = motion.along === "stroke" ? [middle, motion.held] : [motion.held, middle];
  a.poseAt(u, f, poses[0]);
  b.poseAt(u, f, poses[1]);
  const [p, q] = [carried(poses[0], a.part.middle), carried(poses[1], b.part.middle)];
  const ways = [travelOver(pair, motion.along, motion.from, middle), travelOver(pair, motion.along, middle, motion.to)];
  return Math.hypot(q[0] - p[0], q[1] - p[1], q[2] - p[2]) - a.part.reach - b.part.reach - Math.max(...ways);
}

/** Ways of both parts over a stretch of a motion, added up [m]. */
export function travelOver({ a, b }: PartPair, along: "stroke" | "group", from: number, to: number): number {
  if (along === "stroke") return a.strokeTravel(from, to) + b.strokeTravel(from, to);
  return a.groupTravel(from, to) + b.groupTravel(from, to);
}
