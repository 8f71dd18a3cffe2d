import type { BoundaryPiece } from "../hold/index.ts";
import { toLine } from "./check-curves.ts";
import type { MapAxis } from "./map-axes.ts";
import type { BoundaryCrossings } from "./types.ts";

/** Where lines through a place cross pieces, nearest on each side, along both axes; in axis units. */
export function crossingsOf(
  pieces: readonly BoundaryPiece[],
  level: number,
  axes: readonly [MapAxis, MapAxis],
  place: readonly [number, number],
): BoundaryCrossings[] {
  return (["x", "y"] as const).map((along) => {
    const k = along === "x" ? 0 : 1;
    const { toValue, per } = axes[k];
    const found = pieces.flatMap(({ x, y }) => (along === "x" ? crossed(y, x, place[1]) : crossed(x, y, place[0])));
    const below = found.filter((value) => value < place[k]);
    const above = found.filter((value) => value >= place[k]);
    const inUnit = (length: number): number => toValue(length) / per;
    return {
      ...{ level, along },
      below: below.length === 0 ? null : inUnit(Math.max(...below)),
      above: above.length === 0 ? null : inUnit(Math.min(...above)),
    };
  });
}

/** Values of `v` where a polyline passes u = at. */
function crossed(u: readonly number[], v: readonly number[], at: number): number[] {
  const found: number[] = [];
  for (let i = 1; i < u.length; i++) {
    const [a, b] = [u[i - 1] - at, u[i] - at];
    if (a > 0 === b > 0) continue;
    found.push(v[i - 1] + (a / (a - b)) * (v[i] - v[i - 1]));
  }
  return found;
}

/** Shortest distance of a place from pieces; `null` without any, or of a place at zero on a logarithmic axis. */
export function shortestDistance(pieces: readonly BoundaryPiece[], [px, py]: readonly [number, number]): number | null {
  if (pieces.length === 0 || !Number.isFinite(px) || !Number.isFinite(py)) return null;
  return Math.min(...pieces.map(({ x, y }) => toLine(x, y, px, py)));
}
