/** Terminal text of the study `fit`: verdicts first, then stroke, clearances, order of moves, ground, loading, tolerances. */
import type { FitResult, GearMap, LoadingResult, StrokePoint } from "../../studies/fit/types.ts";
import {
  cellShares,
  clearanceMatrix,
  heldRows,
  leftOutWords,
  mapName,
  marginOf,
  mayMove,
  millimetres,
  pathSummary,
  refusal,
  regionCount,
  standing,
  strokeRows,
  telling,
  zoneStretches,
} from "../fit-tables/index.ts";
import { pairName, partName, sidelessName } from "../names/index.ts";
import { formatFixed } from "../numbers/index.ts";
import { type Column, paragraph, table } from "./columns.ts";
import { bullets, headLines, type Look, PLAIN, type StudyTextMeta, section, tailLines } from "./study-text.ts";
import { type TextOptions, widthOf } from "./words.ts";

/** Rows printed of long tables. */
const STROKE_ROWS = 9;
const PAIRS = 12;
const CONTRIBUTORS = 8;
/** Columns from which the clearances are printed pose by pose. */
const WIDE = 96;

const fixed = (value: number | null, decimals: number) =>
  value === null ? "-" : formatFixed(value, decimals, PLAIN.minus);
const right = (heading: string, width: number): Column => ({ heading, width, align: "right" });

/** Load of the case that is greatest anywhere on the stroke. */
function governingCase(stroke: readonly StrokePoint[]): { readonly index: number; readonly name: string } | null {
  let best: { index: number; name: string; size: number } | null = null;
  for (const { jackLoads } of stroke) {
    jackLoads.forEach(({ load_N, mass, weightShare_1 }, index) => {
      const size = Math.abs(load_N ?? 0);
      const name = `${mass}, ${formatFixed(100 * weightShare_1, 0)} % of the weight`;
      if (best === null || size > best.size) best = { index, name, size };
    });
  }
  return best;
}

function strokeTable({ stroke, strokeOutcome, strokeEvents }: FitResult, { width }: Look): string[] {
  const load = governingCase(stroke);
  const columns: Column[] = [
    right("boom °", 6),
    right("jack m", 6),
    right("tip/jack", 8),
    right("angle °", 7),
    right("load kN", 8),
    right("pitch °", 7),
    right("error °", 7),
    right("socket FS, WL", 14),
  ];
  const rows = strokeRows(stroke, STROKE_ROWS).map((point) => {
    const newtons = load === null ? null : (point.jackLoads[load.index]?.load_N ?? null);
    return [
      fixed(point.boomAngle_deg, 1),
      fixed(point.jackLength_m, 3),
      fixed(point.tipPerJack_1, 3),
      fixed(point.transmissionAngle_deg, 1),
      fixed(newtons === null ? null : newtons / 1000, 1),
      fixed(point.carriedPitch_deg, 2),
      fixed(point.attitudeError_deg?.rss ?? null, 3),
      `${fixed(point.socket_m[0], 3)}, ${fixed(point.socket_m[2], 3)}`,
    ];
  });
  const events = strokeEvents.map(
    ({ kind, boomAngle_deg, joint }) => `${kind} at ${fixed(boomAngle_deg, 1)}°${joint === null ? "" : `, ${joint}`}`,
  );
  const said = [
    ...(load === null ? [] : [`load: ${load.name}; positive pushes the jack's ends apart`]),
    "angle: smaller of the transmission angles; error: pitch, root sum square of the tolerances",
    ...(strokeOutcome === "complete" ? [] : [`the stroke ends early: ${strokeOutcome}`]),
    ...events,
  ];
  return [...table(columns, rows, "  "), ...bullets(said, width)];
}

function clearanceTable(result: FitResult, { width }: Look): string[] {
  const rows = clearanceMatrix(result);
  const poses = width < WIDE ? [] : result.pictures.map(({ pose }) => pose);
  const columns: Column[] = [
    { heading: "pair", width: width - 49 - 10 * poses.length },
    ...poses.map((pose) => right(pose, 8)),
    right("least", 6),
    right("stack", 6),
    right("limit", 5),
    { heading: "where", width: 13 },
    { heading: "", width: 5 },
  ];
  const shown = rows.slice(0, PAIRS);
  const printed = shown.map((row) => [
    row.name,
    ...row.atPoses.slice(0, poses.length).map((value) => (value === null ? "-" : millimetres(value, "-"))),
    millimetres(row.least, "-"),
    row.afterStack === null ? "-" : millimetres(row.afterStack.worst, "-"),
    row.criterion === null ? "-" : fixed(1000 * row.criterion.value_m, 1).replace(/\.0$/, ""),
    row.where,
    row.criterion !== null && marginOf(row) < 0 ? "SHORT" : "",
  ]);
  const more = rows.length - shown.length;
  const said = [
    `millimetres, rounded down; certified along the stroke${result.groups.length === 0 ? "" : `, ${standing(result.groups)}`}; stack: least less the worst-case stack, which is what the limit is for`,
    ...shown
      .filter(({ kind }) => kind === "moving")
      .slice(0, 3)
      .map((row) => {
        const [fs, bl, wl] = row.point;
        return `${row.name}: ${row.state}, least at FS ${fixed(fs, 3)}, BL ${fixed(bl, 3)}, WL ${fixed(wl, 3)}`;
      }),
    ...(more > 0 ? [`${more} more rows, with larger margins or beside zones`] : []),
  ];
  return [...table(columns, printed, "  "), ...bullets(said, width)];
}

function mapLines(map: GearMap, width: number): string[] {
  const none = refusal(map);
  const summary = pathSummary(map);
  const steps = map.path?.steps ?? [];
  return [
    ...paragraph(`${mapName(map)}: ${cellShares(map)}; ${regionCount(map)}`, width, "  ", "    "),
    ...steps.flatMap((step, i) => paragraph(`${i + 1}. ${step}`, width, "    ", "       ")),
    ...(summary === null ? [] : paragraph(summary.replaceAll("−", "-"), width, "    ")),
    ...(none === null ? [] : paragraph(none, width, "    ")),
    ...paragraph(mayMove(map), width, "    "),
  ];
}

/** What is left while one member is stuck, mirrored members together. */
function heldLines({ maps }: FitResult, { width }: Look): string[] {
  const rows = heldRows(maps);
  if (rows.length === 0) return [];
  const columns: Column[] = [
    { heading: "stuck", width: width - 61 },
    right("at", 5),
    { heading: "way", width: 4 },
    { heading: "boom's whole stroke at", width: 22 },
    { heading: "others' travel at", width: 20 },
  ];
  const printed = rows.map(({ name, at, map, boom, others }) => [
    name,
    at,
    map.path === null ? "NONE" : "yes",
    boom,
    others,
  ]);
  const reasons = rows.flatMap(({ name, at, map }) => {
    const none = refusal(map);
    return none === null ? [] : [`${name} at ${at}: ${none}`];
  });
  return [
    "",
    ...paragraph("With one member stuck:", width, "  "),
    ...table(columns, printed, "  "),
    ...bullets(reasons, width),
  ];
}

function groundLines({ ground }: FitResult, { width }: Look): string[] {
  if (ground === null) return [];
  const poses = [...new Set(ground.states.flatMap(({ rotationLimits }) => rotationLimits.map(({ pose }) => pose)))];
  const columns: Column[] = [
    { heading: "state", width: 28 },
    right("WL, m", 6),
    right("clear, m", 8),
    { heading: "part", width: width - 63 },
    right("tip-back, °", 11),
  ];
  const rows = ground.states.map((state) => [
    state.name,
    fixed(state.groundLine_m, 2),
    fixed(state.clearance_m, 3),
    partName(state.at.part),
    fixed(state.tipBack_deg, 1),
  ]);
  const rotations = ground.states.map((state) => {
    const limits = poses.map((pose) => {
      const own = state.rotationLimits.find((one) => one.pose === pose);
      const part = own?.part == null ? "" : ` (${partName(own.part)})`;
      return `${pose} ${own?.limit_deg == null ? "free" : `${fixed(own.limit_deg, 1)}°${part}`}`;
    });
    return `rotation, ${state.name}: ${limits.join(", ")}`;
  });
  return [...table(columns, rows, "  "), ...bullets(rotations, width)];
}

function loadingLines(loading: LoadingResult, { width }: Look): string[] {
  const required =
    loading.requiredJacking_m === null
      ? "no height up to the limit lets everything pass"
      : `the carrier has to be raised by ${fixed(loading.requiredJacking_m, 3)} m`;
  const governing = loading.governing === null ? "" : `, set by ${pairName(loading.governing)}`;
  const half = Math.floor((width - 36) / 2);
  const columns: Column[] = [
    { heading: "step", width: half },
    right("aft, m", 8),
    right("height, m", 9),
    right("clear, mm", 9),
    { heading: "pair", width: half },
  ];
  const rows = loading.steps.map((step) => [
    step.name,
    fixed(step.aftOfStowed_m, 2),
    fixed(step.height_m, 3),
    millimetres(step.leastClearance_m, "-"),
    step.pair === null ? "-" : pairName(step.pair),
  ]);
  const margin = `margin ${fixed(1000 * loading.margin_m, 0)} mm`;
  const raw = `without it the least clearance is ${millimetres(loading.unraisedClearance_m, "-")} mm`;
  return [...paragraph(`${required}${governing} (${margin}); ${raw}`, width, "  "), ...table(columns, rows, "  ")];
}

function zoneLines({ zones }: FitResult, { width }: Look): string[] {
  return bullets(
    telling(zones).map((zone) =>
      zone.inside
        ? `${partName(zone.part)} is in ${partName(zone.zone)}: ${zoneStretches(zone)}`
        : `${partName(zone.part)} comes nearest to ${sidelessName(zone.zone)}: ${fixed(zone.least_m, 2)} m (at ${fixed(zone.at_boomAngle_deg, 1)}°)`,
    ),
    width,
  );
}

function toleranceLines({ tolerance, stack }: FitResult, { width }: Look): string[] {
  const terms = stack.terms.map(({ name, value_m }) => `${name} ${fixed(1000 * value_m, 1)}`).join(", ");
  const taken =
    stack.terms.length === 0
      ? []
      : bullets(
          [
            `stack taken off clearances, mm: ${terms}; worst ${fixed(1000 * stack.worst_m, 1)}, root sum square ${fixed(1000 * stack.rss_m, 1)}`,
          ],
          width,
        );
  const worst = tolerance.reduce<FitResult["tolerance"][number] | null>(
    (a, b) => (a === null || b.rss_deg > a.rss_deg ? b : a),
    null,
  );
  if (worst === null) return taken;
  const columns: Column[] = [
    { heading: "dimension", width: width - 50 },
    right("± mm", 6),
    right("°/mm", 8),
    right("°", 7),
    right("squares", 8),
    right("worst", 7),
  ];
  const rows = worst.contributors
    .slice(0, CONTRIBUTORS)
    .map((one) => [
      one.dimension,
      fixed(1000 * one.tolerance_m, 2),
      fixed(one.derivative_deg_mm, 4),
      fixed(one.contribution_deg, 3),
      `${fixed(100 * one.shareOfSquares_1, 0)} %`,
      `${fixed(100 * one.shareOfWorst_1, 0)} %`,
    ]);
  const poses = tolerance.map(
    (one) =>
      `${one.pose}, ${fixed(one.boomAngle_deg, 1)}°: worst ±${fixed(one.worst_deg, 3)}°, root sum square ±${fixed(one.rss_deg, 3)}°, ` +
      `99.73 % within ±${fixed(one.monteCarlo.within99_73_deg, 3)}° (${one.monteCarlo.samples} samples, seed ${one.monteCarlo.seed}` +
      `${one.monteCarlo.notClosed === 0 ? "" : `, ${one.monteCarlo.notClosed} did not close`})`,
  );
  return [
    ...paragraph(`pitch of the carried aircraft, ${worst.pose}:`, width, "  "),
    ...table(columns, rows, "  "),
    ...bullets(poses, width),
    ...taken,
  ];
}

/**
 * Text of one `FitResult` for a terminal: at most 100 columns, understood without colour, a newline at the end.
 */
export function fitText(result: FitResult, meta: StudyTextMeta, options: TextOptions = {}): string {
  const look = { width: widthOf(options), colour: options.colour === true };
  const lines = [
    ...headLines("Fit", "subject", result, meta, look),
    ...section("STROKE", result.stroke.length === 0 ? [] : strokeTable(result, look)),
    ...section("CLEARANCES", result.clearances.length === 0 ? [] : clearanceTable(result, look)),
    ...section("NOT LOOKED AT", bullets(leftOutWords(result.leftOut), look.width)),
    ...section("ORDER OF MOVES", [
      ...result.maps.filter(({ held }) => held === null).flatMap((map) => mapLines(map, look.width)),
      ...heldLines(result, look),
    ]),
    ...section("ZONES", zoneLines(result, look)),
    ...section("GROUND", groundLines(result, look)),
    ...section("LOADING", result.loading === null ? [] : loadingLines(result.loading, look)),
    ...section("TOLERANCES", toleranceLines(result, look)),
    ...tailLines(result, meta, look),
  ];
  return `${lines.join("\n")}\n`;
}
