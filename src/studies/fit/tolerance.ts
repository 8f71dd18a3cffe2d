import { BugError } from "../../math/errors.ts";
import {
  coordinateAt,
  type Drive,
  sampleStack,
  summariseSamples,
  type Toleranced,
  toleranceStack,
  type Vector3,
} from "../../physics/linkage/index.ts";
import { DEGREE } from "./frames.ts";
import { CARRIED, type FitInputs } from "./inputs.ts";
import { JACK, type Mechanism } from "./mechanism.ts";
import type { TracedStroke } from "./stroke.ts";
import type { StrokePoint, ToleranceResult } from "./types.ts";

/** Samples of each Monte Carlo, and the seed that every finding names. */
const SAMPLES = 1000;
export const TOLERANCE_SEED = 1;
/** Gap that play may take up in a sample [m]: the mechanism is planar, its hinges repeat each other's lateral rows. */
const PLAY = 1e-6;

const PITCH = [{ kind: "turn", body: CARRIED, axis: [0, 1, 0] }] as const;

/**
 * Places of the joints in the plane of motion, with their tolerances. A joint has one place: what counts is where its two bodies
 * disagree about it, so that the deviation is put on the first body alone. Both ends of the jack count too; its length is held.
 */
export function tolerancedDimensions(inputs: FitInputs, mechanism: Mechanism): Toleranced[] {
  const { tolerances } = inputs.linkage;
  if (tolerances === null) return [];
  const places = [
    ...mechanism.joints.map(({ name }) => ({ name, joint: name, what: "point on first" as const })),
    { name: `${JACK}.from`, joint: JACK, what: "point on first" as const },
    { name: `${JACK}.to`, joint: JACK, what: "point on second" as const },
  ];
  return places.flatMap(({ name, joint, what }) => {
    const own = tolerances[name];
    if (own === undefined) throw new BugError(`no tolerance for ${name}`);
    const dimension = (direction: "FS" | "WL", vector: Vector3): Toleranced => ({
      ...{ name: `${name} ${direction}`, tolerance: own[direction], parts: [{ joint, what, direction: vector }] },
    });
    return [dimension("FS", [-1, 0, 0]), dimension("WL", [0, 0, -1])];
  });
}

/** The stroke's points with the attitude error that the tolerances make, the jack held at its length. */
export function withAttitudeError(
  inputs: FitInputs,
  mechanism: Mechanism,
  traced: TracedStroke,
  points: readonly StrokePoint[],
): StrokePoint[] {
  const dimensions = tolerancedDimensions(inputs, mechanism);
  if (dimensions.length === 0 || inputs.linkage.attached === "single point") return [...points];
  return points.map((point, i) => {
    if (point.tipPerJack_1 === null) return point;
    const state = traced.stroke.states[traced.indices[i]];
    const { measures } = toleranceStack(mechanism.linkage, state, held(mechanism, state), dimensions, PITCH);
    const [{ worstCase, rootSumSquare }] = measures;
    return { ...point, attitudeError_deg: { worst: worstCase / DEGREE, rss: rootSumSquare / DEGREE } };
  });
}

function held(mechanism: Mechanism, state: Float64Array): Drive[] {
  return [{ joint: JACK, value: coordinateAt(mechanism.linkage, state, JACK) }];
}

/**
 * Attitude of the carried aircraft against every dimension: worst case, root-sum-square and sampled, contributors ranked.
 *
 * @param inputs     tolerances
 * @param mechanism  the linkage
 * @param traced     poses
 * @param points     of the result; those at a dead point of the jack are left out
 * @source `physics/linkage` README eq. 15–17
 * @verified stroke.test.ts
 */
export function toleranceResults(
  inputs: FitInputs,
  mechanism: Mechanism,
  traced: TracedStroke,
  points: readonly StrokePoint[],
): ToleranceResult[] {
  const dimensions = tolerancedDimensions(inputs, mechanism);
  if (dimensions.length === 0 || points.length === 0 || inputs.linkage.attached === "single point") return [];
  const last = points.length - 1;
  const wanted = [
    { pose: "stowed", at: 0 },
    { pose: "mid", at: Math.round(0.5 * last) },
    { pose: "extended", at: last },
  ].filter(({ at }, i, all) => points[at].tipPerJack_1 !== null && all.findIndex((one) => one.at === at) === i);
  return wanted.map(({ pose, at }) => {
    const state = traced.stroke.states[traced.indices[at]];
    const drives = held(mechanism, state);
    const [stack] = toleranceStack(mechanism.linkage, state, drives, dimensions, PITCH).measures;
    const samples = sampleStack(mechanism.linkage, {
      ...{ state, drives, dimensions, measures: PITCH, method: "solved", play: PLAY },
      ...{ seed: TOLERANCE_SEED, first: 0, count: SAMPLES },
    });
    const summary = summariseSamples(samples, 0);
    const toleranceBy = new Map(dimensions.map(({ name, tolerance }) => [name, tolerance]));
    return {
      pose,
      boomAngle_deg: points[at].boomAngle_deg,
      worst_deg: stack.worstCase / DEGREE,
      rss_deg: stack.rootSumSquare / DEGREE,
      monteCarlo: {
        samples: SAMPLES,
        seed: TOLERANCE_SEED,
        notClosed: summary.notClosed,
        standardDeviation_deg: summary.standardDeviation / DEGREE,
        within99_73_deg: summary.withinShare / DEGREE,
        largest_deg: Math.max(Math.abs(summary.least), Math.abs(summary.most)) / DEGREE,
      },
      contributors: stack.contributors.map((one) => ({
        dimension: one.dimension,
        tolerance_m: toleranceBy.get(one.dimension) ?? 0,
        derivative_deg_mm: one.derivative / DEGREE / 1e3,
        contribution_deg: one.contribution / DEGREE,
        shareOfSquares_1: one.shareOfSquares,
        shareOfWorst_1: one.shareOfWorst,
      })),
    };
  });
}
