import { createDistanceQuery, createPose, motionClearance, type Pose, slidePath } from "../../physics/shapes/index.ts";
import { groundFraction } from "./ground.ts";
import { CARRIED, type FitInputs, type GroundInput, type LoadingInput } from "./inputs.ts";
import { eachPair, loadingSteps, onDolly, type Way } from "./loading-steps.ts";
import { fractionAt, type MovingPart, type Scene } from "./motion.ts";
import { declaredApart } from "./pairs.ts";
import type { LoadingResult } from "./types.ts";

/** Highest raising of the carrier that is looked at, coarse step and fineness of the answer [m]. */
const HIGHEST = 3;
const COARSE = 0.1;
const FINE = 1e-3;
/** Room between the two aircraft where the dolly starts [m]. */
const START = 1;

/**
 * Loading on the ground: the carried aircraft rolls in level on its dolly, then goes up to its stowed place. Finds the least height by
 * which the carrier has to be raised so that everything passes on the way in with the margin.
 *
 *     WL_carried = WL_ground − H + h_dolly                                     (README eq. 9)
 *
 * Groups with wheels stand extended, others as while the boom moves, the mechanism stowed. The way in is proven by its travel bound. H is looked for upwards in steps and
 * then by bisection to 1 mm, always on the side that passes.
 *
 * @param inputs   loading and ground
 * @param ground   ground line
 * @param loading  dolly and margin
 * @param scene    all parts
 * @source own derivation, README eq. 9
 * @verified ground.test.ts: by hand
 */
export function loadingResult(
  inputs: FitInputs,
  ground: GroundInput,
  loading: LoadingInput,
  scene: Scene,
): LoadingResult | null {
  const way = wayIn(inputs, ground, loading, scene);
  if (way === null) return null;
  const passes = (raised: number): boolean => rollPasses(way, raised, loading.margin);
  const required = leastRaise(passes);
  const governing = required === null || required === 0 ? null : blocking(way, required, loading.margin);
  return {
    requiredJacking_m: required,
    margin_m: loading.margin,
    steps: required === null ? [] : loadingSteps(ground, way, required),
    governing,
    unraisedClearance_m: rollClearance(way, 0),
  };
}

function wayIn(inputs: FitInputs, ground: GroundInput, loading: LoadingInput, scene: Scene): Way | null {
  const moving = scene.parts.filter(({ part }) => part.body === CARRIED && !part.zone);
  const others = scene.parts.filter(({ part }) => part.body !== CARRIED && !part.zone);
  if (moving.length === 0 || others.length === 0) return null;
  const standing = others.map((part) => {
    const pose = createPose();
    // Bay doors and the like are out of the way, as for the boom.
    part.poseAt(0, Math.max(groundFraction(scene, part, 0), fractionAt(scene, part, 1)), pose);
    return { part, pose };
  });
  const stowed = createPose();
  moving[0].poseAt(0, 0, stowed);
  // Level: the carried aircraft's stations run along the carrier's.
  const under = (raised: number): Pose => {
    const pose = createPose();
    pose.translation.set(stowed.translation);
    pose.translation[2] = -(ground.line - raised + loading.dollyHeight);
    return pose;
  };
  const x = (list: readonly { part: MovingPart; pose: Pose }[], side: 1 | -1) =>
    Math.max(...list.map(({ part, pose }) => side * (pose.translation[0] + extreme(part, pose, side))));
  const own = moving.map((part) => ({ part, pose: under(0) }));
  // From aft the carried nose starts behind everything; from forward its tail starts before everything.
  const roll = loading.from === "aft" ? x(own, 1) + x(standing, -1) + START : -(x(standing, 1) + x(own, -1) + START);
  return {
    ...{ moving, standing, under, stowed },
    roll: loading.from === "aft" ? Math.max(0, roll) : Math.min(0, roll),
    meets: (a, b) => declaredApart(inputs, a, b),
  };
}

/** Largest (side 1) or smallest (side −1) x of the corners, turned but not moved. */
function extreme({ part }: MovingPart, pose: Pose, side: 1 | -1): number {
  const { vertices } = part.mesh;
  const r = pose.rotation;
  let most = -Infinity;
  for (let i = 0; i < vertices.length; i += 3) {
    most = Math.max(most, side * (r[0] * vertices[i] + r[1] * vertices[i + 1] + r[2] * vertices[i + 2]));
  }
  return side * most;
}

/** Least and largest y and z of a part's corners in carrier axes [m]. */
function spanAcross({ part }: MovingPart, pose: Pose): Float64Array {
  const { vertices } = part.mesh;
  const { rotation: r, translation: p } = pose;
  const span = Float64Array.of(Infinity, -Infinity, Infinity, -Infinity);
  for (let i = 0; i < vertices.length; i += 3) {
    for (let k = 1; k < 3; k++) {
      const at = r[3 * k] * vertices[i] + r[3 * k + 1] * vertices[i + 1] + r[3 * k + 2] * vertices[i + 2] + p[k];
      span[2 * k - 2] = Math.min(span[2 * k - 2], at);
      span[2 * k - 1] = Math.max(span[2 * k - 1], at);
    }
  }
  return span;
}

/** Seen along the way in, the two stay this far apart at least, wherever they are along it [m]. */
function gapAcross(way: Way, raised: number, moving: MovingPart, other: Way["standing"][number]): number {
  const a = spanAcross(moving, way.under(raised));
  const b = spanAcross(other.part, other.pose);
  const gap = (k: number): number => Math.max(0, a[k] - b[k + 1], b[k] - a[k + 1]);
  return Math.hypot(gap(0), gap(2));
}

/** Bounds of one pair over the way in. */
function overRoll(
  way: Way,
  raised: number,
  moving: MovingPart,
  other: Way["standing"][number],
  required: number,
  tolerance: number,
) {
  const path = slidePath(onDolly(way, raised, way.roll), [way.roll, 0, 0]);
  const standing = slidePath(other.pose, [0, 0, 0]);
  return motionClearance(
    { tree: moving.part.tree, path },
    { tree: other.part.part.tree, path: standing },
    createDistanceQuery(),
    { required, tolerance, resolution: 1e-5, contactResolution: 0.05, budget: 4000 },
  );
}

function rollPasses(way: Way, raised: number, margin: number): boolean {
  return eachPair(way, (moving, other) => {
    const required = margin + moving.slack + other.part.slack;
    if (gapAcross(way, raised, moving, other) > required) return true;
    const found = overRoll(way, raised, moving, other, required, 1e6);
    return found.spans.every((span) => span.state === "clear");
  });
}

function leastRaise(passes: (raised: number) => boolean): number | null {
  if (passes(0)) return 0;
  let low = 0;
  let high = COARSE;
  while (high <= HIGHEST + 1e-9 && !passes(high)) {
    low = high;
    high += COARSE;
  }
  if (high > HIGHEST + 1e-9) return null;
  while (high - low > FINE) {
    const middle = 0.5 * (low + high);
    if (passes(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** The pair that does not pass just below the required height. */
function blocking(way: Way, required: number, margin: number): readonly [string, string] | null {
  let found: readonly [string, string] | null = null;
  eachPair(way, (moving, other) => {
    const needed = margin + moving.slack + other.part.slack;
    const { spans } = overRoll(way, required - FINE, moving, other, needed, 1e6);
    if (spans.every((span) => span.state === "clear")) return true;
    found = [moving.part.name, other.part.part.name];
    return false;
  });
  return found;
}

function rollClearance(way: Way, raised: number): number {
  let least = Infinity;
  eachPair(way, (moving, other) => {
    if (gapAcross(way, raised, moving, other) - moving.slack - other.part.slack > least) return true;
    const { lowerBound } = overRoll(way, raised, moving, other, 0, 5e-3);
    least = Math.min(least, Math.max(0, lowerBound - moving.slack - other.part.slack));
    return least > 0;
  });
  return least;
}
