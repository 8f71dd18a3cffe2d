import { requireSize } from "../require.ts";
import { dot, gradient, importanceOf, type LimitFunction, limitAlong, nearestAbout, norm } from "./limit-ray.ts";

/**
 * How the search for the nearest failure ended.
 *
 * "converged": the point is on the limit and its direction is that of the gradient. "on the limit": the point is on the limit, but
 * another may be nearer (a corner of the limit, or the iteration ran out). "not reached": none of the ways tried
 * leads to a failure within the radius.
 * "flat": the limit function does not change. "no value": the function has no value at the origin.
 */
export type LimitOutcome = "converged" | "on the limit" | "not reached" | "flat" | "no value";

/** Nearest point of failure in standard normal space. */
export interface DesignPoint {
  readonly outcome: LimitOutcome;
  /** Distance of the limit from the origin [standard deviations]; negative when the origin itself fails; ± the radius when not reached. */
  readonly distance: number;
  /** The point, shape (n). */
  readonly point: Float64Array;
  /** Squared direction cosines of the gradient there: share of each input in crossing the limit; shape (n), sum 1. */
  readonly importance: Float64Array;
  readonly evaluations: number;
}

const MOST_ITERATIONS = 15;
/** |g| below this share of its value at the origin counts as on the limit. */
const NEAR = 1e-6;
/** Crossings from which the nearest is looked for: of the iteration, and of the nearest rays. */
const MOST_POLISHED = 2;

/**
 * Shortest distance from the origin of standard normal space to the limit g = 0 (first-order reliability).
 *
 *     min |u|  with  g(u) = 0:   u⁺ = (∇gᵀu − g)/|∇g|²·∇g,  step halved until ½|u|² + c·|g| falls        (2)
 *
 * For a linear g the probability of g < 0 is Φ(−distance) exactly. g > 0 is the safe side.
 *
 * The iteration, the steepest way from the origin and the rays given each lead to a crossing of the limit; about the nearest of them
 * the ray is turned as long as the limit comes nearer.
 *
 * @param g        limit function of u, shape (n); NaN where it has no value
 * @param n        inputs
 * @param options  radius where the search gives up [standard deviations], 8 when left out; rays: directions in which failures are
 *                 known or feared, shape (n) each, turned round when the origin itself fails
 * @throws {DomainError} for n below 1
 * @source Hasofer and Lind, J. Eng. Mech. 100 (1974) 111; Rackwitz and Fiessler, Computers and Structures 9 (1978) 489;
 *         merit function of Zhang and Der Kiureghian (1995)
 * @verified reliability.test.ts: plane, sphere, parabola, failing origin, corner of two planes, flat
 * @cost (2 n + a few) evaluations an iteration or turn, ten to thirty of them
 */
export function nearestFailure(
  g: LimitFunction,
  n: number,
  options: { readonly radius?: number; readonly rays?: readonly Float64Array[] } = {},
): DesignPoint {
  requireSize("inputs", n, 1);
  const { radius = 8, rays = [] } = options;
  let evaluations = 0;
  const value = (u: Float64Array): number => {
    evaluations++;
    return g(u);
  };
  const zero = new Float64Array(n);
  const origin = value(zero);
  const done = (
    outcome: LimitOutcome,
    distance: number,
    point: Float64Array = zero,
    slope: Float64Array = zero,
  ): DesignPoint => ({
    ...{ outcome, distance, point, importance: importanceOf(slope) },
    evaluations,
  });
  if (!Number.isFinite(origin)) return done("no value", 0);
  if (origin === 0) return done("converged", 0);
  const sign = origin < 0 ? -1 : 1;
  const downhill = gradient(value, zero).map((x) => -sign * x);
  if (!(norm(downhill) > 0) && rays.length === 0) return done("flat", 0);
  const found = iterate(value, origin, downhill, sign, radius);
  const ways: Float64Array[] = [found, downhill, ...rays.map((ray) => ray.map((x) => sign * x))];
  const crossings = ways.flatMap((u) => {
    const length = norm(u);
    if (!(length > 0)) return [];
    const ray = u.map((x) => x / length);
    const distance = limitAlong(value, ray, sign, 1.3 * length + 0.2, radius);
    return distance === null ? [] : [{ ray, distance }];
  });
  if (crossings.length === 0) return done("not reached", sign * radius);
  const nearest = [...crossings]
    .sort((a, b) => a.distance - b.distance)
    .slice(0, MOST_POLISHED)
    .map(({ ray, distance }) => nearestAbout(value, ray, distance, sign))
    .reduce((a, b) => (b.distance < a.distance * (1 - 1e-6) ? b : a));
  const distance = limitAlong(value, nearest.ray, sign, 1.001 * nearest.distance, radius) ?? nearest.distance;
  const point: Float64Array = nearest.ray.map((x) => x * distance);
  return done(nearest.aligned ? "converged" : "on the limit", sign * distance, point, nearest.slope);
}

/** Hasofer–Lind iteration from the origin with a merit function for the step; the last point, on the limit or on its way there. */
function iterate(
  value: LimitFunction,
  origin: number,
  downhill: Float64Array,
  sign: number,
  radius: number,
): Float64Array {
  let u: Float64Array = new Float64Array(downhill.length);
  let here = origin;
  const size = Math.abs(origin);
  for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
    const slope = iteration === 0 ? downhill.map((x) => -sign * x) : gradient(value, u);
    const square = dot(slope, slope);
    if (!(square > 0)) return u;
    const factor = (dot(slope, u) - here) / square;
    const direction = u.map((x, j) => factor * slope[j]! - x);
    const length = norm(direction);
    if (length <= 1e-4 * Math.max(1, norm(u)) && Math.abs(here) <= NEAR * size) return u;
    const reach = norm(u) + length;
    const far = Math.abs(here) > NEAR * size ? (0.5 * reach * reach) / Math.abs(here) : 0;
    const weight = 2 * Math.max(norm(u) / Math.sqrt(square), far);
    const merit = 0.5 * dot(u, u) + weight * Math.abs(here);
    let step = Math.min(1, 3 / Math.max(length, Number.MIN_VALUE));
    let moved = false;
    for (let halving = 0; halving < 12 && !moved; halving++, step /= 2) {
      const trial = u.map((x, j) => x + step * direction[j]!);
      if (norm(trial) > radius) continue;
      const found = value(trial);
      if (!(0.5 * dot(trial, trial) + weight * Math.abs(found) < merit)) continue;
      u = trial;
      here = found;
      moved = true;
    }
    if (!moved) return u;
  }
  return u;
}
