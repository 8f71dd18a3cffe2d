import { DomainError } from "../../../math/errors.ts";
import { requireSize } from "../../../math/require.ts";
import { type Enclosure, enclosure } from "../distance/enclosure.ts";
import { minimumDistance } from "../distance/minimum-distance.ts";
import type { DistanceQuery } from "../distance/query.ts";
import type { DistanceTree } from "../distance/tree.ts";
import { createPose } from "../pose.ts";
import type { BodyPath } from "./paths.ts";
import { createSpanHeap, popLowest, pushSpan, type SpanHeap } from "./span-heap.ts";

/** A stretch of the motion and what is proven of it. */
export interface MotionSpan {
  readonly from: number;
  readonly to: number;
  /**
   * "clear": everywhere above the required clearance, proven. "violated": not above it at both ends of each piece, and each piece
   * proven so or no wider than the contact resolution. "unresolved": neither, because pieces reached the resolution or the budget ended.
   */
  readonly state: "clear" | "violated" | "unresolved";
  /** The clearance is nowhere in the stretch below this [m]; zero where one body is inside the other. */
  readonly lowerBound: number;
  /** Least clearance found in it [m]. */
  readonly upperBound: number;
  /** Which body lies inside the other without their surfaces touching. */
  readonly enclosure: Enclosure;
}

/** Clearance of two bodies along a motion. */
export interface MotionClearance {
  /** The least clearance of the whole motion lies between these two [m]. */
  readonly lowerBound: number;
  readonly upperBound: number;
  /**
   * Where the upper bound was found, and the nearest points there [m], parent axes, with their triangles. Where it is zero by enclosure,
   * the triangles are −1 and the points say nothing.
   */
  readonly atS: number;
  readonly pointA: readonly number[];
  readonly pointB: readonly number[];
  readonly triangleA: number;
  readonly triangleB: number;
  /** Stretches from s = 0 to s = 1 without a hole; neighbours differ in state or enclosure. */
  readonly spans: readonly MotionSpan[];
  /** What kept stretches unresolved, or the two bounds farther apart than the tolerance. */
  readonly limitedBy: "nothing" | "resolution" | "budget";
  /** Distances computed. */
  readonly evaluations: number;
}

/** What `motionClearance` has to show. */
export interface MotionClearanceOptions {
  /** Clearance below or at which a pose counts as violated [m], ≥ 0; default 0, contact. */
  readonly required?: number;
  /** The two bounds of the least clearance shall come this near [m], > 0; default 1e-3. */
  readonly tolerance?: number;
  /** Width in s at which a piece is not divided any more, from 1e-12 to 1; default 1e-4. */
  readonly resolution?: number;
  /**
   * Width in s at which a piece violated at both ends counts as violated between, from `resolution` to 1; default 0.01. A free moment
   * shorter than this inside a contact is not looked for.
   */
  readonly contactResolution?: number;
  /** Most distances to compute, ≥ 2; default 4000. */
  readonly budget?: number;
}

/** A body with its way. */
export interface MovingBody {
  readonly tree: DistanceTree;
  readonly path: BodyPath;
}

/** The nearest pose so far, and how far each sample was. */
interface Progress {
  upperBound: number;
  atS: number;
  readonly pointA: Float64Array;
  readonly pointB: Float64Array;
  triangleA: number;
  triangleB: number;
  evaluations: number;
}

interface Piece {
  readonly from: number;
  readonly to: number;
  readonly state: MotionSpan["state"];
  readonly lowerBound: number;
  readonly upperBound: number;
  /** It could have been divided further. */
  readonly wide: boolean;
}

/**
 * Least clearance along a motion with a proof that nothing was jumped over.
 *
 * No point of either body moves farther than its travel bound, so over a piece with the end distances d₀ and d₁
 *
 *     ½(d₀ + d₁ − L) ≤ d(s) ≤ ½(d₀ + d₁ + L),   L = travel bound of A + travel bound of B       (README eq. 10)
 *
 * The piece with the lowest bound is halved until the least clearance is known to the tolerance and every piece is clear, violated or as
 * narrow as its resolution. What the budget leaves over is unresolved, never clear. In stretches without contact one pose tells whether
 * a body lies inside the other; that is violated, with clearance zero.
 *
 * @param a        first body and its way; poses in common parent axes
 * @param b        second body and its way
 * @param query    room for distances
 * @param options  required clearance, tolerance, resolution, budget
 * @throws {DomainError} for options out of range, a travel bound that is negative or not finite, or a pose that is none
 * @source own derivation, README eq. 10
 * @verified clearance.test.ts: rotating rod past a point, box past box (closed forms); thin plates at coarse steps; sampled poses
 */
export function motionClearance(
  a: MovingBody,
  b: MovingBody,
  query: DistanceQuery,
  options: MotionClearanceOptions = {},
): MotionClearance {
  const { required = 0, tolerance = 1e-3, resolution = 1e-4, budget = 4000 } = options;
  const contactResolution = options.contactResolution ?? Math.max(0.01, resolution);
  const settings = { required, tolerance, resolution, contactResolution, budget };
  checkOptions(settings);
  const [poseA, poseB] = [createPose(), createPose()];
  const progress: Progress = {
    upperBound: Infinity,
    atS: 0,
    pointA: new Float64Array(3),
    pointB: new Float64Array(3),
    triangleA: -1,
    triangleB: -1,
    evaluations: 0,
  };
  const distanceAt = (s: number): number => {
    a.path.poseAt(s, poseA);
    b.path.poseAt(s, poseB);
    const result = minimumDistance(a.tree, poseA, b.tree, poseB, query);
    progress.evaluations += 1;
    if (result.distance < progress.upperBound) {
      progress.upperBound = result.distance;
      progress.atS = s;
      progress.pointA.set(result.pointA);
      progress.pointB.set(result.pointB);
      progress.triangleA = result.triangleA;
      progress.triangleB = result.triangleB;
    }
    return result.distance;
  };
  const travel = (from: number, to: number): number => {
    const bound = a.path.travelBound(from, to) + b.path.travelBound(from, to);
    if (!(bound >= 0 && bound < Infinity)) throw new DomainError("travel bound", bound, "a finite length, at least 0");
    return bound;
  };
  const { pieces, limitedBy } = divide(distanceAt, travel, progress, settings);
  const spans = joinPieces(pieces).map((span) => {
    if (span.state !== "clear") return span;
    const middle = 0.5 * (span.from + span.to);
    a.path.poseAt(middle, poseA);
    b.path.poseAt(middle, poseB);
    const found = enclosure(a.tree, poseA, b.tree, poseB, query);
    if (found === "none") return span;
    if (progress.upperBound > 0) {
      progress.upperBound = 0;
      progress.atS = middle;
      progress.triangleA = -1;
      progress.triangleB = -1;
    }
    return { ...span, state: "violated" as const, lowerBound: 0, upperBound: 0, enclosure: found };
  });
  return {
    lowerBound: Math.min(...spans.map((span) => span.lowerBound)),
    upperBound: progress.upperBound,
    atS: progress.atS,
    pointA: [...progress.pointA],
    pointB: [...progress.pointB],
    triangleA: progress.triangleA,
    triangleB: progress.triangleB,
    spans,
    limitedBy,
    evaluations: progress.evaluations,
  };
}

function checkOptions(settings: Required<MotionClearanceOptions>): void {
  const { required, tolerance, resolution, contactResolution, budget } = settings;
  if (!(required >= 0 && required < Infinity)) throw new DomainError("required clearance", required, "at least 0");
  if (!(tolerance > 0)) throw new DomainError("tolerance of a clearance", tolerance, "above 0");
  if (!(resolution >= 1e-12 && resolution <= 1))
    throw new DomainError("resolution of a motion", resolution, "1e-12 to 1");
  if (!(contactResolution >= resolution && contactResolution <= 1)) {
    throw new DomainError("contact resolution of a motion", contactResolution, "the resolution to 1");
  }
  requireSize("budget of distances", budget, 2);
}

/** Halves the piece with the lowest bound until nothing is open or the budget ends. */
function divide(
  distanceAt: (s: number) => number,
  travel: (from: number, to: number) => number,
  progress: Progress,
  options: Required<MotionClearanceOptions>,
): { pieces: Piece[]; limitedBy: MotionClearance["limitedBy"] } {
  const { required, tolerance, resolution, contactResolution, budget } = options;
  const heap: SpanHeap = createSpanHeap();
  pushSpan(heap, 0, 1, distanceAt(0), distanceAt(1), travel(0, 1));
  const pieces: Piece[] = [];
  for (let span = popLowest(heap); span !== undefined; span = popLowest(heap)) {
    const { from, to, d0, d1, lowerBound } = span;
    const wide = to - from > resolution;
    const clear = lowerBound > required;
    const violated =
      d0 <= required &&
      d1 <= required &&
      (to - from <= contactResolution || 0.5 * (d0 + d1 + travel(from, to)) <= required);
    const loose = lowerBound < progress.upperBound - tolerance;
    const middle = 0.5 * (from + to);
    if (wide && (loose || !(clear || violated)) && progress.evaluations < budget) {
      const d = distanceAt(middle);
      pushSpan(heap, from, middle, d0, d, travel(from, middle));
      pushSpan(heap, middle, to, d, d1, travel(middle, to));
      continue;
    }
    const state = clear ? "clear" : violated ? "violated" : "unresolved";
    pieces.push({ from, to, state, lowerBound, upperBound: Math.min(d0, d1), wide });
  }
  pieces.sort((p, q) => p.from - q.from);
  const left = pieces.filter((p) => p.state === "unresolved" || p.lowerBound < progress.upperBound - tolerance);
  const limitedBy = left.length === 0 ? "nothing" : left.some((p) => p.wide) ? "budget" : "resolution";
  return { pieces, limitedBy };
}

/** Neighbours of one state become one stretch. */
function joinPieces(pieces: readonly Piece[]): MotionSpan[] {
  const spans: MotionSpan[] = [];
  for (const piece of pieces) {
    const last = spans.at(-1);
    if (last === undefined || last.state !== piece.state) {
      const { from, to, state, lowerBound, upperBound } = piece;
      spans.push({ from, to, state, lowerBound, upperBound, enclosure: "none" });
      continue;
    }
    spans[spans.length - 1] = {
      ...last,
      to: piece.to,
      lowerBound: Math.min(last.lowerBound, piece.lowerBound),
      upperBound: Math.min(last.upperBound, piece.upperBound),
    };
  }
  return spans;
}
