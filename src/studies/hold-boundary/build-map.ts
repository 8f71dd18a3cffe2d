import type { PairMode } from "../../physics/modes/index.ts";
import type { Level } from "../../physics/stability-boundary/index.ts";
import { allowedGrowth, type BoundaryPiece, type HoldInputs, type Operating, worstDamping } from "../hold/index.ts";
import { checkCurves, gridDistance } from "./check-curves.ts";
import type { MapAxis } from "./map-axes.ts";
import { crossingsOf, shortestDistance } from "./measure.ts";
import type { BoundaryCurve, BoundaryMap } from "./types.ts";

/** What every map is made from, whichever way its curves were found. */
export interface MapParts {
  readonly id: string;
  readonly title: string;
  readonly method: BoundaryMap["method"];
  readonly axes: readonly [MapAxis, MapAxis];
  /** Exact pieces of a level, in map lengths. */
  readonly pieces: (level: Level, limit: number) => readonly BoundaryPiece[];
  /** Longitudinal modes from the nonlinear equations linearised at a place; `null` without trim. */
  readonly modesAt: (x: number, y: number) => readonly PairMode[] | null;
  /** Grid in map lengths and the worst damping on it. */
  readonly grid: { readonly x: readonly number[]; readonly y: readonly number[]; readonly worst: readonly number[] };
}

/** Worst damping below this is drawn as this: deeper than any picture needs. */
const FLOOR = -1;

/** Worst damping of the longitudinal modes as the maps shade it; −1 without trim. */
export function shade(inputs: HoldInputs, modes: readonly PairMode[] | null): number {
  if (modes === null) return FLOOR;
  return Math.max(FLOOR, worstDamping(modes, "longitudinal", inputs.criteria.timeToDouble.value) ?? 1);
}

/** Levels that are always drawn first: the limit of stability and the criterion. */
export function levelsOf(inputs: HoldInputs, further: readonly number[]): number[] {
  return [...new Set([0, inputs.criteria.rigidBodyDamping.value, ...further])].sort((a, b) => a - b);
}

/** Curves, crossings, distance and checks of one map. */
export function buildMap(inputs: HoldInputs, at: Operating, parts: MapParts, further: readonly number[]): BoundaryMap {
  const { axes, grid, modesAt } = parts;
  const criterion = inputs.criteria.rigidBodyDamping.value;
  const levels = levelsOf(inputs, further);
  const byLevel = levels.map((level) => ({
    level,
    pieces: parts.pieces({ kind: "oscillation", dampingRatio: level }, level),
  }));
  const roots = [
    ...parts.pieces({ kind: "real root", growth: 0 }, 0),
    ...parts.pieces({ kind: "real root", growth: allowedGrowth(inputs) }, criterion),
  ];
  const own = [axes[0].toLength(axes[0].own), axes[1].toLength(axes[1].own)] as const;
  const modes = modesAt(...own);
  const worst = shade(inputs, modes);
  const all = [...byLevel.flatMap(({ pieces }) => pieces), ...roots];
  const bordersOf = (level: number): BoundaryPiece[] =>
    (byLevel.find((entry) => entry.level === level)?.pieces ?? []).filter(({ border }) => border);
  const limit = bordersOf(0);
  const away = shortestDistance(limit, own);
  const rigid = limit.filter((piece) => piece.class === "rigid-body-type");
  const miss = checkCurves(
    all.filter(({ border }) => border),
    modesAt,
  );
  return {
    ...{ id: parts.id, title: parts.title, condition: at.condition, mass: at.mass.name, method: parts.method },
    ...{ x: axes[0].axis, y: axes[1].axis },
    grid: { x: grid.x.map((u) => inUnit(axes[0], u)), y: grid.y.map((u) => inUnit(axes[1], u)), worst: grid.worst },
    curves: all.map((piece) => inUnits(piece, axes)),
    at: {
      x: axes[0].own / axes[0].per,
      y: axes[1].own / axes[1].per,
      worst,
      growing: (modes ?? []).filter((mode) => mode.real > 0).length,
    },
    distance_1: away === null ? null : worst < 0 ? -away : away,
    crossings: [0, criterion].flatMap((level) => crossingsOf(bordersOf(level), level, axes, own)),
    check: miss === null ? null : { ...miss, gridDistance_1: gridDistance(rigid, grid.x, grid.y, grid.worst, 0) },
  };
}

function inUnit({ toValue, per }: MapAxis, length: number): number {
  return toValue(length) / per;
}

function inUnits(piece: BoundaryPiece, axes: readonly [MapAxis, MapAxis]): BoundaryCurve {
  const { level } = piece;
  return {
    kind: level.kind,
    level: level.kind === "oscillation" ? level.dampingRatio : level.growth,
    ...{ class: piece.class, border: piece.border },
    x: piece.x.map((u) => inUnit(axes[0], u)),
    y: piece.y.map((u) => inUnit(axes[1], u)),
    frequency_Hz: piece.frequency.map((omega) => omega / (2 * Math.PI)),
  };
}
