import { contourLines } from "../../math/contour/index.ts";
import { bracketedRoot } from "../../math/roots/index.ts";
import type { PairMode } from "../../physics/modes/index.ts";
import type { Level } from "../../physics/stability-boundary/index.ts";
import { type BoundaryPiece, ownMode } from "../hold/index.ts";
import type { BoundaryCheck } from "./types.ts";

/** Half-width along the normal in which the exact zero is looked for, as a share of the parameters. */
const REACH = 0.01;
const PLACES = 12;

/**
 * Distance of drawn curves from the exact zero: at middles of chords, where they are farthest from it, the place along the
 * normal at which the root of the directly linearised pair is at the level, by bracketed root finding.
 *
 * @param pieces  in map lengths
 * @param modesAt longitudinal modes at a place, from the nonlinear equations linearised there
 * @returns number of places and largest distance; a place without a zero within 1 % counts as 1 %
 */
export function checkCurves(
  pieces: readonly BoundaryPiece[],
  modesAt: ModesAt,
): Pick<BoundaryCheck, "places" | "largestMiss_1"> | null {
  const chords = pieces.flatMap((piece) =>
    Array.from({ length: piece.x.length - 1 }, (_, i) => ({ piece, i })).filter(
      ({ i }) => chordLength(piece, i) > 1e-6,
    ),
  );
  if (chords.length === 0) return null;
  const count = Math.min(PLACES, chords.length);
  let largest = 0;
  for (let k = 0; k < count; k++) {
    const { piece, i } = chords[Math.floor(((k + 0.5) * chords.length) / count)];
    largest = Math.max(largest, missAt(piece, i, modesAt));
  }
  return { places: count, largestMiss_1: toMillionth(largest) };
}

function chordLength({ x, y }: BoundaryPiece, i: number): number {
  return Math.hypot(x[i + 1] - x[i], y[i + 1] - y[i]);
}

function missAt(piece: BoundaryPiece, i: number, modesAt: ModesAt): number {
  const { x, y, frequency, level } = piece;
  const size = chordLength(piece, i);
  const normal = [-(y[i + 1] - y[i]) / size, (x[i + 1] - x[i]) / size] as const;
  const at = [0.5 * (x[i] + x[i + 1]), 0.5 * (y[i] + y[i + 1])] as const;
  const found = zeroAlong(offAlong(level, at, normal, 0.5 * (frequency[i] + frequency[i + 1]), modesAt));
  return found === null ? REACH : Math.abs(found);
}

/** Longitudinal modes at a place of a map; `null` where there is no trim. */
export type ModesAt = (x: number, y: number) => readonly PairMode[] | null;

/** How far the root of the pair nearest to a level is from it, along a direction from a place; NaN where there is none. */
function offAlong(
  level: Level,
  [x, y]: readonly [number, number],
  [dx, dy]: readonly [number, number],
  frequency: number,
  modesAt: ModesAt,
): (t: number) => number {
  return (t) => {
    const modes = modesAt(x + t * dx, y + t * dy);
    const own = modes === null ? undefined : ownMode(modes, level, frequency);
    if (own === undefined) return Number.NaN;
    return level.kind === "real root"
      ? own.real - level.growth
      : -own.real / Math.hypot(own.real, own.imag) - level.dampingRatio;
  };
}

/** Distance along a normal to the nearest zero, by brackets that grow outwards; `null` when it is not within 1 %. */
function zeroAlong(off: (t: number) => number): number | null {
  for (let reach = 1e-4; reach <= REACH; reach *= 10) {
    const found = bracketedRoot(off, -reach, reach, 1e-8);
    if (found.outcome === "converged") return found.x;
  }
  return null;
}

/** Median distance of the exact pieces of one level from the grid's interpolated contour; `null` without either. */
export function gridDistance(
  pieces: readonly BoundaryPiece[],
  xs: readonly number[],
  ys: readonly number[],
  worst: readonly number[],
  level: number,
): number | null {
  const lines = contourLines(xs, ys, worst, level);
  const distances = pieces.flatMap((piece) =>
    piece.x.map((px, k) => Math.min(...lines.map((line) => toLine(line.x, line.y, px, piece.y[k])))),
  );
  if (lines.length === 0 || distances.length === 0) return null;
  return toMillionth(distances.sort((a, b) => a - b)[distances.length >> 1]);
}

/** A measured distance, rounded up to a millionth: its further digits are rounding of the search. */
function toMillionth(value: number): number {
  return Math.ceil(value * 1e6) / 1e6;
}

/** Distance of a point from a polyline. */
export function toLine(x: ArrayLike<number>, y: ArrayLike<number>, px: number, py: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 1; i < x.length; i++) {
    const [dx, dy] = [x[i] - x[i - 1], y[i] - y[i - 1]];
    const square = dx * dx + dy * dy;
    const along = square > 0 ? ((px - x[i - 1]) * dx + (py - y[i - 1]) * dy) / square : 0;
    const part = Math.min(1, Math.max(0, along));
    least = Math.min(least, Math.hypot(px - x[i - 1] - part * dx, py - y[i - 1] - part * dy));
  }
  return least;
}
