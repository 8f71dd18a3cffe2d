import { requireSize } from "../require.ts";
import { bracketedRoot } from "../roots/index.ts";

/**
 * How the search for the nearest failure ended.
 *
 * "converged": the point is on the limit and its direction is that of the gradient. "on the limit": the point is on the limit, but
 * another may be nearer (a corner of the limit, or the iteration ran out). "not reached": no failure within the radius.
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

const MOST_ITERATIONS = 40;
const MOST_TURNS = 25;
/** Angle between ray and gradient below which a point counts as nearest [rad]. */
const ALIGNED = 0.01;
const STEP = 0.01;
/** |g| below this share of its value at the origin counts as on the limit. */
const NEAR = 1e-6;

/**
 * Shortest distance from the origin of standard normal space to the limit g = 0 (first-order reliability).
 *
 *     min |u|  with  g(u) = 0:   u⁺ = (∇gᵀu − g)/|∇g|²·∇g,  step halved until ½|u|² + c·|g| falls        (2)
 *
 * For a linear g the probability of g < 0 is Φ(−distance) exactly. g > 0 is the safe side.
 *
 * @param g       limit function of u, shape (n); NaN where it has no value
 * @param n       inputs
 * @param radius  where the search gives up [standard deviations]
 * @throws {DomainError} for n below 1
 * @source Hasofer and Lind, J. Eng. Mech. 100 (1974) 111; Rackwitz and Fiessler, Computers and Structures 9 (1978) 489;
 *         merit function of Zhang and Der Kiureghian (1995)
 * @verified reliability.test.ts: plane, sphere, parabola, failing origin, corner of two planes, flat
 * @cost (2 n + a few) evaluations an iteration, five to ten iterations
 */
export function nearestFailure(g: (u: Float64Array) => number, n: number, radius = 8): DesignPoint {
  requireSize("inputs", n, 1);
  let evaluations = 0;
  const value = (u: Float64Array): number => {
    evaluations++;
    return g(u);
  };
  let u: Float64Array = new Float64Array(n);
  const at = new Float64Array(n);
  const origin = value(u);
  let slope: Float64Array = new Float64Array(n);
  const done = (outcome: LimitOutcome, distance: number): DesignPoint => ({
    ...{ outcome, distance, point: u, importance: importanceOf(slope) },
    evaluations,
  });
  if (!Number.isFinite(origin)) return done("no value", 0);
  const sign = origin < 0 ? -1 : 1;
  let here = origin;
  const size = Math.max(Math.abs(origin), 1e-12);
  for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
    slope = gradient(value, u, at);
    const square = dot(slope, slope);
    if (!(square > 0)) return done("flat", 0);
    const factor = (dot(slope, u) - here) / square;
    const direction = Float64Array.from(u, (value, j) => factor * slope[j]! - value);
    const length = Math.sqrt(dot(direction, direction));
    if (length <= 1e-4 * Math.max(1, norm(u)) && Math.abs(here) <= NEAR * size) break;
    const reach = norm(u) + length;
    const weight =
      2 *
      Math.max(norm(u) / Math.sqrt(square), Math.abs(here) > NEAR * size ? (0.5 * reach * reach) / Math.abs(here) : 0);
    const merit = 0.5 * dot(u, u) + weight * Math.abs(here);
    let step = Math.min(1, 3 / Math.max(length, 1e-300));
    let moved = false;
    for (let halving = 0; halving < 12; halving++, step /= 2) {
      const trial = Float64Array.from(u, (value, j) => value + step * direction[j]!);
      if (norm(trial) > radius) continue;
      const found = value(trial);
      if (Number.isNaN(found)) continue;
      if (0.5 * dot(trial, trial) + weight * Math.abs(found) < merit) {
        u = trial;
        here = found;
        moved = true;
        break;
      }
    }
    if (!moved) break;
  }
  const length = norm(u);
  if (length === 0) return origin === 0 ? done("converged", 0) : done("not reached", sign * radius);
  let ray: Float64Array = u.map((x) => x / length);
  let distance = limitAlong(value, ray, sign, 1.3 * length + 0.2, radius);
  if (distance === null) return done("not reached", sign * radius);
  // along the limit: turn the ray against the part of the slope across it, as far as the limit comes nearer
  let aligned = false;
  for (let turn = 0; turn < MOST_TURNS; turn++) {
    u = ray.map((x) => x * distance!);
    slope = gradient(value, u, at);
    const along = dot(slope, ray);
    const across = slope.map((x, j) => x - along * ray[j]!);
    const angle = Math.atan2(norm(across), Math.abs(along));
    aligned = distance < 1e-6 || angle < ALIGNED;
    if (aligned || !(norm(across) > 0)) break;
    const nearer = turned(value, ray, across, angle, sign, distance);
    if (nearer === null) break;
    ({ ray, distance } = nearer);
  }
  u = ray.map((x) => x * distance!);
  return done(aligned ? "converged" : "on the limit", sign * distance);
}

/** Distance at which the limit is crossed along a ray; `null` when it is not crossed within the radius. */
function limitAlong(
  g: (u: Float64Array) => number,
  ray: Float64Array,
  sign: number,
  guess: number,
  radius: number,
): number | null {
  const along = (t: number): number => g(ray.map((x) => x * t));
  const outer = [Math.min(radius, guess), radius].find((t) => along(t) * sign <= 0);
  const root = outer === undefined ? null : bracketedRoot(along, 0, outer, 1e-12);
  return root?.outcome === "converged" ? root.x : null;
}

/** A ray turned in the plane of the slope along which the limit is nearer; `null` when none of the angles tried is. */
function turned(
  g: (u: Float64Array) => number,
  ray: Float64Array,
  across: Float64Array,
  angle: number,
  sign: number,
  distance: number,
): { ray: Float64Array; distance: number } | null {
  const size = norm(across);
  for (let part = 0, by = angle; part < 10; part++, by /= 2) {
    const trial = ray.map((x, j) => Math.cos(by) * x - (sign * Math.sin(by) * across[j]!) / size);
    const found = limitAlong(g, trial, sign, distance, distance);
    if (found !== null && found < distance * (1 - 1e-9)) return { ray: trial, distance: found };
  }
  return null;
}

function gradient(f: (u: Float64Array) => number, u: Float64Array, at: Float64Array): Float64Array {
  at.set(u);
  return Float64Array.from(u, (centre, j) => {
    at[j] = centre + STEP;
    const above = f(at);
    at[j] = centre - STEP;
    const below = f(at);
    at[j] = centre;
    const slope = (above - below) / (2 * STEP);
    return Number.isFinite(slope) ? slope : 0;
  });
}

function importanceOf(slope: Float64Array): Float64Array {
  const square = dot(slope, slope);
  return slope.map((value) => (square > 0 ? (value * value) / square : 0));
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

function norm(a: Float64Array): number {
  return Math.sqrt(dot(a, a));
}
