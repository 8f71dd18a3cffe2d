/** Figure: states of a group × stroke map, regions named, the shortest safe path drawn. */
import * as Plot from "@observablehq/plot";
import type { GearMap, MapPath, MapState } from "../../studies/fit/types.ts";
import {
  type HeldRow,
  heldRows,
  mayMove,
  numbered,
  pathSummary,
  refusal,
  standing,
  travelEnds,
} from "../fit-tables/index.ts";
import { pairName, wordsOf } from "../names/index.ts";
import { formatFixed, formatShort } from "../numbers/index.ts";
import { cellOutlines } from "./cell-outline.ts";
import { composeFigure, type LegendItem, type Panel } from "./compose.ts";
import { type Frame, fromPixelX, fromPixelY, plotFrame, toPixelX, toPixelY } from "./frame.ts";
import { type Piece, piecesOf } from "./map-pieces.ts";
import { INK, pattern, SLATE, WARN } from "./style.ts";
import { capitalise, fitText, textWidth } from "./text.ts";
import type { Figure, FigureDom } from "./types.ts";

const MARGINS = { left: 62, right: 18, top: 8, bottom: 48 };
/** Room round the map in percent, so that a path along its edge stays visible. */
const EDGE = 2.5;
/** Panels below this width [px] break names over lines. */
const NARROW = 500;
const BAR = "#1c7d6b";
const STATES: readonly MapState[] = ["free", "near", "collides", "unresolved"];

const STYLES: Readonly<Record<MapState, { tint: string; hatch: "none" | "dots" | "cross" | "level"; ink: string }>> = {
  free: { tint: "#eaf1fa", hatch: "none", ink: SLATE },
  near: { tint: "#fbf0d9", hatch: "dots", ink: "#7a5b13" },
  collides: { tint: "#eccfcf", hatch: "cross", ink: WARN },
  unresolved: { tint: "#e3e5e8", hatch: "level", ink: SLATE },
};

const stateName = (state: MapState, { near_m }: GearMap) =>
  state === "free"
    ? `free (over ${formatShort(1000 * near_m)} mm)`
    : state === "near"
      ? `near (up to ${formatShort(1000 * near_m)} mm)`
      : state;

/** Edges of the cells: half way between nodes, cut at the ends. */
export function cellEdges(nodes: readonly number[]): number[] {
  const inner = nodes.slice(1).map((node, i) => (node + nodes[i]!) / 2);
  return [nodes[0]!, ...inner, nodes.at(-1)!];
}

function frameOf(map: GearMap, width: number, height: number): Frame {
  const [low, high] = [map.boomAngles_deg[0]!, map.boomAngles_deg.at(-1)!];
  return {
    width,
    height,
    margins: MARGINS,
    x: {
      label: `${capitalise(wordsOf(map.group))}: travel (%), ${travelEnds(map.group).join(" → ")}`,
      from: -EDGE,
      to: 100 + EDGE,
      log: false,
    },
    y: {
      label: "Boom angle (deg), stowed → ext.",
      from: low - (EDGE / 100) * (high - low),
      to: high + (EDGE / 100) * (high - low),
      log: false,
    },
  };
}

function stateMarks(id: string, map: GearMap): unknown[] {
  const xs = cellEdges(map.fractions).map((fraction) => 100 * fraction);
  const ys = cellEdges(map.boomAngles_deg);
  const [columns, rows] = [map.fractions.length, map.boomAngles_deg.length];
  return STATES.map((state) => {
    const loops = cellOutlines(columns, rows, (c, r) => map.state[r * columns + c] === state);
    // one path for all loops, so that a hole stays open; a gap parts them
    const points = loops.flatMap((loop) => [
      ...loop.map(([c, r]) => ({ x: xs[c]!, y: ys[r]! })),
      { x: xs[loop[0]![0]]!, y: ys[loop[0]![1]]! },
      { x: Number.NaN, y: Number.NaN },
    ]);
    return Plot.line(points, {
      x: "x",
      y: "y",
      fill: `url(#${id}-${state})`,
      stroke: state === "free" ? "none" : STYLES[state].ink,
      strokeWidth: 0.9,
    });
  });
}

/** Bars outside the map: where the whole group may move (right) and where the boom may move through (top). */
function edgeBars({ groupMayMove_deg, boomMayMove_1 }: GearMap, frame: Frame): unknown[] {
  const right = groupMayMove_deg.map(([y1, y2]) => ({ x1: 100 + 0.6 * EDGE, x2: 100 + 0.6 * EDGE, y1, y2 }));
  const top = frame.y.to - 0.4 * (EDGE / 100) * (frame.y.to - frame.y.from);
  const above = boomMayMove_1.map(([from, to]) => ({ x1: 100 * from, x2: 100 * to, y1: top, y2: top }));
  return [Plot.link([...right, ...above], { x1: "x1", x2: "x2", y1: "y1", y2: "y2", stroke: BAR, strokeWidth: 4.5 })];
}

function pieceText(map: GearMap, piece: Piece, narrow: boolean): string {
  if (piece.kind === "blocked") {
    const pair = piece.pair < 0 ? undefined : map.pairs[piece.pair];
    if (pair === undefined) return piece.state;
    const name = pairName(pair);
    // a narrow panel gets a line for each part
    return narrow ? `${piece.state}:\n${name.replace(" – ", " –\n")}` : `${piece.state}: ${name}`;
  }
  const region = map.regions[piece.region];
  if (map.regions.length === 1) return "one region";
  const name = `region ${piece.region + 1}`;
  return region?.holdsStart === true ? `${name} (start)` : region?.holdsEnd === true ? `${name} (end)` : name;
}

/** Names of regions and of what blocks, inside the area where it is wide enough. */
function pieceMarks(map: GearMap, frame: Frame, taken: readonly (readonly [number, number])[]): unknown[] {
  const placed: { x: number; y: number; text: string; state: boolean; half: number; py: number; px: number }[] = [];
  const inner = frame.width - MARGINS.left - MARGINS.right;
  for (const piece of piecesOf(map, taken)) {
    const lines = pieceText(map, piece, frame.width < NARROW)
      .split("\n")
      .map((line) => fitText(line, inner - 16, 11.5));
    const text = lines.join("\n");
    const half = Math.max(...lines.map((line) => textWidth(line, 11.5))) / 2 + 3;
    const tall = 8 * lines.length + 1;
    const px = Math.min(
      frame.width - MARGINS.right - half,
      Math.max(MARGINS.left + half, toPixelX(frame, 100 * piece.fraction)),
    );
    const py = Math.min(
      frame.height - MARGINS.bottom - tall,
      Math.max(MARGINS.top + tall, toPixelY(frame, piece.boomAngle)),
    );
    const covered = placed.some((one) => Math.abs(one.px - px) < one.half + half && Math.abs(one.py - py) < 7 + tall);
    if (covered) continue;
    const [x, y] = [fromPixelX(frame, px), fromPixelY(frame, py)];
    placed.push({ x, y, text, state: piece.kind === "blocked", half, px, py });
  }
  const text = (blocked: boolean) =>
    Plot.text(
      placed.filter((one) => one.state === blocked),
      {
        x: "x",
        y: "y",
        text: "text",
        fontSize: 11.5,
        fontWeight: 600,
        fontStyle: blocked ? "normal" : "italic",
        fill: blocked ? WARN : INK,
        stroke: "white",
        strokeWidth: 4,
      },
    );
  return [text(false), text(true)];
}

/** The path as a cased line with a number on every move, a ring at its start and a square at its end. */
function pathMarks({ moves, nodes }: MapPath): unknown[] {
  const points = nodes.map(({ fraction_1, boomAngle_deg }) => ({ x: 100 * fraction_1, y: boomAngle_deg }));
  const numbers = moves.map(({ from, to }, i) => ({
    x: 50 * (from.fraction_1 + to.fraction_1),
    y: (from.boomAngle_deg + to.boomAngle_deg) / 2,
    text: String(i + 1),
  }));
  return [
    Plot.line(points, { x: "x", y: "y", stroke: "white", strokeWidth: 7, strokeLinejoin: "round" }),
    Plot.line(points, { x: "x", y: "y", stroke: INK, strokeWidth: 3.2, strokeLinejoin: "round" }),
    Plot.dot(points.slice(0, 1), { x: "x", y: "y", r: 6, fill: "white", stroke: INK, strokeWidth: 2.6 }),
    Plot.dot(points.slice(-1), {
      x: "x",
      y: "y",
      r: 6,
      symbol: "square",
      fill: INK,
      stroke: "white",
      strokeWidth: 1.6,
    }),
    Plot.dot(numbers, { x: "x", y: "y", r: 8.5, fill: "white", stroke: INK, strokeWidth: 1.4 }),
    Plot.text(numbers, { x: "x", y: "y", text: "text", fontWeight: 700, fontSize: 11.5, fill: INK }),
  ];
}

function panel(id: string, map: GearMap, width: number, height: number, heading: string | null, dom: FigureDom): Panel {
  const frame = frameOf(map, width, height);
  const line = map.path === null ? [] : map.path.nodes.map((node) => [node.fraction_1, node.boomAngle_deg] as const);
  const marks = [
    ...stateMarks(id, map),
    ...edgeBars(map, frame),
    ...(map.path === null ? [] : pathMarks(map.path)),
    ...pieceMarks(map, frame, line),
  ];
  return { svg: plotFrame(frame, marks, dom), width, height, ...(heading === null ? {} : { heading }) };
}

function legendOf(id: string, maps: readonly GearMap[]): LegendItem[] {
  const first = maps[0]!;
  const states: LegendItem[] = STATES.filter((state) => maps.some((map) => map.counts[state] > 0)).map((state) => ({
    kind: "area",
    label: stateName(state, first),
    fill: `url(#${id}-${state})`,
    stroke: STYLES[state].ink,
  }));
  if (maps.some((map) => map.groupMayMove_deg.length + map.boomMayMove_1.length > 0))
    states.push({ kind: "line", label: "at the edges: whole travel may be used", stroke: BAR, width: 4.5 });
  if (!maps.some((map) => map.path !== null)) return states;
  return [
    ...states,
    { kind: "line", label: "shortest safe path, moves numbered", stroke: INK, width: 3.2 },
    { kind: "symbol", label: "start", symbol: "circle", fill: "#ffffff", stroke: INK },
    { kind: "symbol", label: "end", symbol: "square", fill: INK, stroke: INK },
  ];
}

function patterns(id: string): string {
  return STATES.map((state) =>
    pattern(`${id}-${state}`, STYLES[state].hatch, STYLES[state].tint, STYLES[state].ink),
  ).join("");
}

function counts({ counts: found, state }: GearMap): string {
  return STATES.filter((one) => found[one] > 0)
    .map((one) => `${one} ${formatFixed((100 * found[one]) / state.length, 1)} %`)
    .join(", ");
}

/** Where the other groups stand. */
function meanwhile({ others }: GearMap): string {
  return others.length === 0 ? "" : `; meanwhile ${standing(others)}`;
}

/** What the path says, for descriptions: its moves, or why there is none. */
function orderSentence(map: GearMap): string {
  const none = refusal(map);
  return none ?? `Order of moves: ${numbered(map.path?.steps ?? [])} ${pathSummary(map) ?? ""}`;
}

/** Map of the states of one group's travel against the stroke with the shortest safe path. */
export function gearMapFigure(id: string, variant: string, map: GearMap, dom: FigureDom): Figure {
  return composeFigure({
    id,
    title: `When ${wordsOf(map.group)} and boom may move (${variant})`,
    caption:
      `Each cell reaches half a step round its node and its state holds for the whole cell; an unresolved cell is treated as blocked${meanwhile(map)}. ` +
      `Cells: ${counts(map)}. ${refusal(map) ?? pathSummary(map) ?? ""} ${mayMove(map)}`,
    description: `Map of ${map.fractions.length} by ${map.boomAngles_deg.length} cells: ${counts(map)}; ${map.regions.length} regions that can be moved in. ${orderSentence(map)}`,
    panels: [panel(id, map, 760, 430, null, dom)],
    legend: legendOf(id, [map]),
    defs: patterns(id),
  });
}

/** Held maps drawn; the table holds all. */
const MOST_HELD = 4;

/** The most restrictive maps with one member of a group stuck, two in a row; null when there are none. */
export function heldMapsFigure(id: string, variant: string, maps: readonly GearMap[], dom: FigureDom): Figure | null {
  const rows = heldRows(maps);
  if (rows.length === 0) return null;
  const shown = rows.slice(0, MOST_HELD);
  const columns = shown.length === 1 ? 1 : 2;
  const height = columns === 1 ? 330 : 270;
  const title = ({ name, at }: HeldRow) => `${capitalise(name)} stuck at ${at}`;
  const said = shown.map((row) => `${title(row)}: ${refusal(row.map) ?? pathSummary(row.map) ?? ""}`).join(" ");
  const left = rows.length - shown.length;
  const rest = left === 0 ? "" : ` ${left} more cases, which leave more room, are in the table.`;
  return composeFigure({
    id,
    title: `What may still move while one member is stuck (${variant})`,
    caption: `As the maps before, but one member of the group stays where it is while the others move. ${said}${rest}`,
    description: `${shown.length} maps. ${shown.map((row) => `${title(row)}: ${orderSentence(row.map)}`).join(" ")}`,
    panels: shown.map((row) => panel(id, row.map, 760 / columns, height, title(row), dom)),
    columns,
    legend: legendOf(
      id,
      shown.map(({ map }) => map),
    ),
    defs: patterns(id),
  });
}
