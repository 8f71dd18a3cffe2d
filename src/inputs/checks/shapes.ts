import type { Context } from "./context.ts";
import { keysAt, pointAt, quantityAt, report, spell, tableAt, wordAt } from "./context.ts";

type Path = readonly string[];

/** Where the pair may hold shapes. */
function shapeSets(context: Context): Path[] {
  const bodies = ["mechanism", "linkage", "bodies"];
  return [
    ["carrier", "shapes"],
    ...keysAt(context, ["carrier", "moving"]).map((part) => ["carrier", "moving", part, "shapes"]),
    ["carried", "shapes"],
    ...keysAt(context, bodies).map((body) => [...bodies, body, "shapes"]),
  ];
}

/** Sizes inside each shape against each other. */
export function checkShapes(context: Context): void {
  for (const set of shapeSets(context)) {
    for (const shape of keysAt(context, set)) {
      const path = [...set, shape];
      switch (wordAt(context, [...path, "kind"])) {
        case "fuselage":
          checkSections(context, [...path, "sections"]);
          break;
        case "panel":
          checkRoot(context, path);
          break;
        case "box":
          checkCorners(context, path, undefined);
          break;
        case "bay":
          checkCorners(context, path, quantityAt(context, [...path, "wall"])?.si);
          break;
        case "strut":
          checkEnds(context, path);
          break;
        case "wheel":
          checkWheel(context, path);
          break;
        case "jet cone":
          checkCone(context, path);
          break;
        default:
      }
    }
  }
}

/** A section of no width or height closes the body, which only its ends may do. */
function checkSections(context: Context, path: Path): void {
  const table = tableAt(context, path);
  if (table === undefined) return;
  const { FS, halfWidth, halfHeight } = table.columns;
  for (let i = 0; i < table.rows; i++) {
    const [width, height] = [halfWidth![i]!, halfHeight![i]!];
    if (width > 0 && height > 0) continue;
    const where = `the section at FS ${spell(FS![i]!)} m`;
    const end = i === 0 || i === table.rows - 1;
    if (width > 0 !== height > 0) {
      report(context, path, `${where} has a width or a height, but not both`, "both, or neither at a pointed end");
    } else if (!end || table.rows < 3) {
      report(context, path, `${where} is a point inside the body`, "points at the ends only");
    }
  }
}

function checkRoot(context: Context, path: Path): void {
  const root = quantityAt(context, [...path, "root", "BL"]);
  if (wordAt(context, [...path, "sides"]) !== "both" || root === undefined || root.si >= 0) return;
  report(
    context,
    [...path, "root", "BL"],
    "the root of the right panel lies left of the symmetry plane",
    "0 m or more",
  );
}

const AXES = ["FS", "BL", "WL"] as const;

/** Corners that differ along every axis; for a bay, walls that leave room. */
function checkCorners(context: Context, path: Path, wall: number | undefined): void {
  const from = pointAt(context, [...path, "from"]);
  const to = pointAt(context, [...path, "to"]);
  if (from === undefined || to === undefined) return;
  AXES.forEach((axis, k) => {
    const size = Math.abs(to[k]! - from[k]!);
    if (size === 0) report(context, [...path, "to", axis], `the two corners have the same ${axis}`, "opposite corners");
    else if (wall !== undefined && size <= (axis === "WL" ? 1 : 2) * wall) {
      report(
        context,
        [...path, "wall"],
        `the walls leave no room along ${axis}`,
        `less than ${spell(size / (axis === "WL" ? 1 : 2))} m`,
      );
    }
  });
}

function checkEnds(context: Context, path: Path): void {
  const from = pointAt(context, [...path, "from"]);
  const to = pointAt(context, [...path, "to"]);
  if (from === undefined || to === undefined) return;
  if (from.every((value, k) => value === to[k]))
    report(context, [...path, "to"], "both ends are the same point", "two points");
}

function checkWheel(context: Context, path: Path): void {
  const edge = quantityAt(context, [...path, "edgeRadius"])?.si;
  const radius = quantityAt(context, [...path, "radius"])?.si;
  const width = quantityAt(context, [...path, "width"])?.si;
  if (edge === undefined || radius === undefined || width === undefined) return;
  if (edge <= width / 2 && edge < radius) return;
  const allowed = `up to ${spell(width / 2)} m (half the width) and below the radius`;
  report(context, [...path, "edgeRadius"], "the shoulders are rounder than the wheel is wide or high", allowed);
}

function checkCone(context: Context, path: Path): void {
  const radius = quantityAt(context, [...path, "exitRadius"])?.si;
  const angle = quantityAt(context, [...path, "halfAngle"])?.si;
  if (radius === 0 && angle === 0)
    report(context, [...path, "exitRadius"], "the cone has no width anywhere", "larger than zero");
}
