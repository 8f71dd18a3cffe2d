/** Points of a limit along rays from the origin, and the vector sums that the search needs. */
import { bracketedRoot } from "../roots/index.ts";

/** A function of n numbers; NaN where it has no value. */
export type LimitFunction = (u: Float64Array) => number;

/** A crossing of the limit: unit ray and distance along it. */
export interface Crossing {
  readonly ray: Float64Array;
  readonly distance: number;
  /** Whether the gradient there lies along the ray. */
  readonly aligned: boolean;
  /** Gradient at the crossing. */
  readonly slope: Float64Array;
}

/** Turns of a ray at most, and parts of a turn that are tried. */
const MOST_TURNS = 12;
const MOST_PARTS = 6;
/** Angle between ray and gradient below which a point counts as nearest [rad]. */
const ALIGNED = 0.01;
const STEP = 0.01;
/** Accuracy of a distance on the way. */
const ROUGH = 1e-5;

/** Distance at which the limit is crossed along a ray; `null` when it is not crossed within the radius. */
export function limitAlong(
  g: LimitFunction,
  ray: Float64Array,
  sign: number,
  guess: number,
  radius: number,
  tolerance = 1e-12,
): number | null {
  const along = (t: number): number => g(ray.map((x) => x * t));
  const outer = [guess, 0.5 * radius, 0.75 * radius, radius].find((t) => t <= radius && along(t) * sign <= 0);
  const root = outer === undefined ? null : bracketedRoot(along, 0, outer, tolerance);
  return root?.outcome === "converged" ? root.x : null;
}

/**
 * The crossing that is nearest near a ray: the ray is turned against the part of the slope across it as long as the limit comes nearer.
 *
 * @param sign  1 where g is positive at the origin, −1 where it is negative
 */
export function nearestAbout(g: LimitFunction, start: Float64Array, from: number, sign: number): Crossing {
  let ray = start;
  let distance = from;
  for (let turn = 0; ; turn++) {
    const slope = gradient(
      g,
      ray.map((x) => x * distance),
    );
    const along = dot(slope, ray);
    const across = slope.map((x, j) => x - along * ray[j]!);
    const angle = Math.atan2(norm(across), Math.abs(along));
    const aligned = distance < 1e-6 || angle < ALIGNED;
    const nearer =
      aligned || turn === MOST_TURNS || !(norm(across) > 0) ? null : turned(g, ray, across, angle, sign, distance);
    if (nearer === null) return { ray, distance, aligned, slope };
    ({ ray, distance } = nearer);
  }
}

/** A ray turned in the plane of the slope along which the limit is nearer; `null` when none of the angles tried is. */
function turned(
  g: LimitFunction,
  ray: Float64Array,
  across: Float64Array,
  angle: number,
  sign: number,
  distance: number,
): { ray: Float64Array; distance: number } | null {
  const size = norm(across);
  for (let part = 0, by = angle; part < MOST_PARTS; part++, by /= 2) {
    const trial = ray.map((x, j) => Math.cos(by) * x - (sign * Math.sin(by) * across[j]!) / size);
    const found = limitAlong(g, trial, sign, distance, distance, ROUGH);
    if (found !== null && found < distance * (1 - 1e-4)) return { ray: trial, distance: found };
  }
  return null;
}

export function gradient(f: LimitFunction, u: Float64Array): Float64Array {
  const at = u.slice();
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

export function importanceOf(slope: Float64Array): Float64Array {
  const square = dot(slope, slope);
  return slope.map((value) => (square > 0 ? (value * value) / square : 0));
}

export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

export function norm(a: Float64Array): number {
  return Math.sqrt(dot(a, a));
}
