import {
  createDistanceQuery,
  createPose,
  type DistanceQuery,
  enclosure,
  minimumDistance,
  type Pose,
} from "../../physics/shapes/index.ts";
import { DEGREE, toStation } from "./frames.ts";
import type { FitInputs } from "./inputs.ts";
import { fractionAt, type MovingPart, type Scene } from "./motion.ts";
import { CLOSE, clearanceOver, FINEST, toleranceFor, travelOver } from "./pair-motion.ts";
import type { PartPair } from "./pairs.ts";
import type { ClearanceState, FitResult, PairClearance, Station3, ZoneResult } from "./types.ts";

/** The least clearance of pairs that come this near is bounded this closely [m]. */
const LEAST_FINEST = 5e-4;
const LEAST_SHARE = 4e-3;

interface Stretch {
  readonly lower: number;
  readonly upper: number;
  readonly at: number;
  readonly pointA: Station3;
  readonly pointB: Station3;
}

/** Distance of a pair at one place of a motion, with the nearest points in stations. */
interface Sample {
  readonly distance: number;
  readonly pointA: Station3;
  readonly pointB: Station3;
}

function sampleAt(pair: PartPair, u: number, f: number, query: DistanceQuery, poses: readonly [Pose, Pose]): Sample {
  pair.a.poseAt(u, f, poses[0]);
  pair.b.poseAt(u, f, poses[1]);
  const found = minimumDistance(pair.a.part.tree, poses[0], pair.b.part.tree, poses[1], query);
  return { distance: found.distance, pointA: toStation(found.pointA), pointB: toStation(found.pointB) };
}

/**
 * Bounds over each step of a grid, each to the tolerance that its distance wants; those that may hold the least clearance are looked
 * at again, closely. Where the two ends of a step alone give the bound, that is enough:
 *
 *     ½(d₀ + d₁ − L) ≤ d ≤ min(d₀, d₁)                                         (README eq. 6)
 */
function stretches(pair: PartPair, grid: readonly number[], along: "stroke" | "group", held: number): Stretch[] {
  const query = createDistanceQuery();
  const poses = [createPose(), createPose()] as const;
  const samples = grid.map((at) =>
    along === "stroke" ? sampleAt(pair, at, held, query, poses) : sampleAt(pair, held, at, query, poses),
  );
  const over = (i: number, tolerance: number): Stretch => {
    const [from, to] = [grid[i], grid[i + 1]];
    const found = clearanceOver(pair, { along, from, to, held }, query, tolerance, 0, 1000);
    return {
      lower: Math.max(0, found.lowerBound - pair.slack),
      upper: found.upperBound,
      at: from + found.atS * (to - from),
      pointA: toStation(found.pointA),
      pointB: toStation(found.pointB),
    };
  };
  const rough = grid.slice(0, -1).map((from, i): Stretch => {
    const [d0, d1] = [samples[i].distance, samples[i + 1].distance];
    const travel = travelOver(pair, along, from, grid[i + 1]);
    const upper = Math.min(d0, d1);
    const lower = 0.5 * (d0 + d1 - travel);
    if (upper - lower > toleranceFor(upper)) return over(i, toleranceFor(upper));
    const nearer = d1 < d0 ? i + 1 : i;
    const { pointA, pointB } = samples[nearer];
    return { lower: Math.max(0, lower - pair.slack), upper, at: grid[nearer], pointA, pointB };
  });
  const least = Math.min(...rough.map((one) => one.upper));
  const isInside = rough.every((one) => one.lower > 0) && isInsideAt(pair, grid[0], along, held, query, poses);
  if (isInside) return rough.map((one) => ({ ...one, lower: 0, upper: 0 }));
  if (least > CLOSE) return rough;
  const finest = Math.max(LEAST_FINEST, LEAST_SHARE * least);
  return rough.map((one, i) =>
    one.lower < least - finest && one.upper - one.lower > finest + pair.slack ? over(i, finest) : one,
  );
}

/** Surfaces that never touch stay inside or outside each other: one pose tells. */
function isInsideAt(
  pair: PartPair,
  at: number,
  along: "stroke" | "group",
  held: number,
  query: DistanceQuery,
  poses: readonly [Pose, Pose],
): boolean {
  sampleAt(pair, along === "stroke" ? at : held, along === "stroke" ? held : at, query, poses);
  return enclosure(pair.a.part.tree, poses[0], pair.b.part.tree, poses[1], query) !== "none";
}

/** Bounds as the result keeps them: to 10 µm, outwards. */
function down(lower: number): number {
  return Math.floor(lower * 1e5) / 1e5;
}
function up(upper: number): number {
  return Math.ceil(upper * 1e5) / 1e5;
}

function leastOf(all: readonly Stretch[]): Stretch {
  return all.reduce((least, one) =>
    one.lower < least.lower || (one.lower === least.lower && one.upper < least.upper) ? one : least,
  );
}

function stateOf(least: Stretch, near: number): ClearanceState {
  if (least.upper <= 0) return "contact";
  if (least.lower <= 0) return "unresolved";
  return least.lower < near ? "near" : "clear";
}

/** Stack of build, deflection, thermal growth …, in metres: worst case and root-sum-square. */
export function stackOf(inputs: FitInputs): FitResult["stack"] {
  const terms = inputs.stack.map(({ name, value }) => ({ name, value_m: value }));
  const worst = terms.reduce((sum, { value_m }) => sum + value_m, 0);
  const squares = terms.reduce((sum, { value_m }) => sum + value_m ** 2, 0);
  return { terms, worst_m: worst, rss_m: Math.sqrt(squares) };
}

/**
 * Where each group stands while the boom moves: as drawn, or extended if as drawn it is in the boom's way and extended it is not.
 *
 * @param scene  parts and groups
 * @param pairs  all solid pairs
 * @verified fit-clearance.test.ts: closed bay doors
 */
export function standingFractions(scene: Scene, pairs: readonly PartPair[]): ReadonlyMap<string, number> {
  const query = createDistanceQuery();
  const blocks = (group: string, fraction: number): boolean =>
    pairs.some((pair) => {
      const { a, b } = pair;
      const own = (one: MovingPart) => one.drivenBy === "group" && one.part.group === group;
      if (!(own(a) || own(b)) || !(a.drivenBy === "stroke" || b.drivenBy === "stroke")) return false;
      const motion = { along: "stroke" as const, from: 0, to: 1, held: fraction };
      const { spans } = clearanceOver(pair, motion, query, 1e6, pair.slack, 2000);
      return spans.some((span) => span.state === "violated");
    });
  const groups = [...scene.standsAt.keys()];
  return new Map(groups.map((group) => [group, blocks(group, 0) && !blocks(group, 1) ? 1 : 0]));
}

/** Fraction that counts for a pair: that of the group which drives one of the two. */
function heldFraction(scene: Scene, { a, b }: PartPair, u: number): number {
  return fractionAt(scene, a.drivenBy === "group" ? a : b, u);
}

/**
 * Clearance of a pair along the whole stroke, groups where they stand while the boom moves, with bounds that hold between the poses; then at rest at each end
 * where it is near.
 *
 * @param inputs    near, stack and criteria
 * @param scene     boom angles
 * @param pair      two parts
 * @param steps     points of the stroke, shares 0 … 1
 * @source `physics/shapes` README eq. 10; README eq. 6
 * @verified fit-clearance.test.ts: rod past a point (closed form)
 */
export function strokeClearances(
  inputs: FitInputs,
  scene: Scene,
  pair: PartPair,
  steps: readonly number[],
): PairClearance[] {
  const all = stretches(pair, steps, "stroke", heldFraction(scene, pair, 1));
  const ends = [0, 1].map((u) => stretchAt(pair, u, heldFraction(scene, pair, u)));
  const angle = (u: number): number => scene.angleAt(u) / DEGREE;
  const stack = stackOf(inputs);
  const record = (kind: PairClearance["kind"], list: readonly Stretch[], starts: readonly number[]): PairClearance => {
    const least = leastOf(list);
    const wanted = kind === "moving" ? inputs.criteria.movingClearance : inputs.criteria.staticClearance;
    return {
      pair: [pair.a.part.name, pair.b.part.name],
      ...{ kind, zone: pair.b.part.zone },
      alongStroke: list.map(({ lower, upper }, i) => ({
        // The distance was found in the interpolated motion; where they were found to touch, they touch.
        ...{
          boomAngle_deg: angle(starts[i]),
          lower_m: down(lower),
          upper_m: up(upper > 0 ? upper + pair.deviation : 0),
        },
      })),
      least_m: least.lower,
      at: { boomAngle_deg: angle(least.at), pointA: least.pointA, pointB: least.pointB },
      atEnds_m: { stowed: ends[0].lower, extended: ends[1].lower },
      leastAfterStack_m: { worst: least.lower - stack.worst_m, rss: least.lower - stack.rss_m },
      criterion: wanted === null ? null : { value_m: wanted.value, source: wanted.source },
      state: stateOf(least, inputs.near),
    };
  };
  const near = ends.filter((end) => end.lower < inputs.near);
  return [record("moving", [...all, ends[1]], steps), ...near.map((end) => record("static", [end], [end.at]))];
}

function stretchAt(pair: PartPair, u: number, held: number): Stretch {
  const motion = { along: "stroke" as const, from: u, to: u, held };
  const found = clearanceOver(pair, motion, createDistanceQuery(), FINEST);
  return {
    ...{ lower: Math.max(0, found.lowerBound - pair.slack), upper: found.upperBound, at: u },
    ...{ pointA: toStation(found.pointA), pointB: toStation(found.pointB) },
  };
}

/** Clearance of a pair that moves with a gear group only, along the fraction at the stowed pose. */
export function groupClearance(inputs: FitInputs, pair: PartPair, group: string): FitResult["gearClearances"][number] {
  const grid = Array.from({ length: 21 }, (_, i) => i / 20);
  const all = stretches(pair, grid, "group", 0);
  const least = leastOf(all);
  return {
    pair: [pair.a.part.name, pair.b.part.name],
    group,
    alongFraction: all.map((one, i) => ({ fraction_1: grid[i], lower_m: down(one.lower), upper_m: up(one.upper) })),
    least_m: least.lower,
    at: { fraction_1: least.at, pointA: least.pointA, pointB: least.pointB },
    state: stateOf(least, inputs.near),
  };
}

/** Where along the stroke a part is in a zone: it touches it or lies inside. */
export function zoneResult(scene: Scene, pair: PartPair): ZoneResult {
  const motion = { along: "stroke" as const, from: 0, to: 1, held: 0 };
  const found = clearanceOver(pair, motion, createDistanceQuery(), 0.01, pair.slack, 2000);
  const angle = (u: number): number => scene.angleAt(u) / DEGREE;
  const angles: [number, number][] = [];
  for (const { from, to, state } of found.spans) {
    if (state === "clear") continue;
    const last = angles.at(-1);
    if (last !== undefined && last[1] === angle(from)) last[1] = angle(to);
    else angles.push([angle(from), angle(to)]);
  }
  return {
    zone: pair.b.part.name,
    part: pair.a.part.name,
    inside: angles.length > 0,
    angles_deg: angles,
    least_m: Math.max(0, found.upperBound - pair.slack),
    at_boomAngle_deg: angle(found.atS),
  };
}
