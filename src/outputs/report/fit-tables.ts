/** Tables of the study `fit`. */
import type { FitResult, GroundState, JackLoad, StrokePoint } from "../../studies/fit/types.ts";
import { greatestLoad, loadName } from "../figures/index.ts";
import {
  clearanceMatrix,
  heldRows,
  type MatrixRow,
  marginOf,
  millimetres,
  pathSummary,
  refusal,
  standing,
  strokeRows,
  telling,
  zoneStretches,
} from "../fit-tables/index.ts";
import { pairName, partName } from "../names/index.ts";
import { formatFixed, formatShort } from "../numbers/index.ts";
import { dotted, type Html, html, NOTHING } from "./html.ts";
import { clearanceMark, zoneMark } from "./marks.ts";
import { dataTable, type Head, type RowGroup } from "./tables.ts";

/** Rows of the matrix that are printed; the result file holds all. */
const MOST_PAIRS = 25;
const STROKE_ROWS = 14;
const MOST_CONTRIBUTORS = 20;

const fixed = (value: number | null | undefined, decimals: number) =>
  value == null ? "–" : formatFixed(value, decimals);

function matrixRow(row: MatrixRow): (string | Html)[] {
  const [fs, bl, wl] = row.point;
  const where = `FS ${formatFixed(fs, 3)}, BL ${formatFixed(bl, 3)}, WL ${formatFixed(wl, 3)}`;
  const after =
    row.afterStack === null ? "–" : `${millimetres(row.afterStack.worst)} / ${millimetres(row.afterStack.rss)}`;
  const limit =
    row.criterion === null
      ? html`–`
      : html`${formatShort(1000 * row.criterion.value_m)}<br><span class="soft">${row.criterion.source}</span>`;
  return [
    row.name,
    ...row.atPoses.map((value) => (value === null ? "–" : millimetres(value))),
    html`<strong>${millimetres(row.least)}</strong>`,
    after,
    limit,
    html`${row.where}<br><span class="soft">${where}</span>`,
    clearanceMark(row.state, row.criterion !== null && marginOf(row) < 0),
  ];
}

/** Every pair of bodies at every pose, the worst value with its place, what the stack leaves. */
export function matrixTable(result: FitResult): Html {
  const rows = clearanceMatrix(result);
  const shown = rows.slice(0, MOST_PAIRS);
  const heads: readonly Head[] = [
    { text: "Pair", width: 19 },
    ...result.pictures.map(
      ({ pose, boomAngle_deg }): Head => ({
        text: `${pose} ${formatFixed(boomAngle_deg, 0)}°`,
        numeric: true,
        width: 8,
      }),
    ),
    { text: "Least", numeric: true, width: 7 },
    { text: "After stack, worst / RSS", numeric: true, width: 11 },
    { text: "Criterion", width: 10 },
    { text: "Where", width: 18 },
    { text: "State", width: 11 },
  ];
  const groups: RowGroup[] = [
    {
      title: "In motion",
      rows: shown.filter((row) => row.kind === "moving" && !row.zone).map(matrixRow),
    },
    {
      title: "At rest, stowed or extended",
      rows: shown.filter((row) => row.kind === "static" && !row.zone).map(matrixRow),
    },
    { title: "Zones", rows: shown.filter((row) => row.zone).map(matrixRow) },
  ].filter((group) => group.rows.length > 0);
  if (groups.length === 0) return NOTHING;
  const more =
    rows.length > shown.length
      ? html`<p>${rows.length - shown.length} more rows, all with larger margins or beside zones, are in the result file.</p>
`
      : NOTHING;
  const still = result.groups.length === 0 ? "" : `, ${standing(result.groups)} unless a travel is named`;
  const caption = `Clearance in millimetres, rounded down, ${result.variant}; certified over the stroke${still}; the criterion is for the value after the worst-case stack`;
  return html`${dataTable(caption, heads, groups, "matrix")}${more}`;
}

/** Load of one case at a point of the stroke. */
function loadText({ jackLoads }: StrokePoint, wanted: JackLoad | null): string {
  const own = wanted === null ? undefined : jackLoads.find((one) => loadName(one) === loadName(wanted));
  return own?.load_N == null ? "–" : formatFixed(own.load_N / 1000, 1);
}

/** Poses, ratios, load of the governing case along the stroke. */
export function strokeTable({ stroke, variant }: FitResult): Html {
  if (stroke.length === 0) return NOTHING;
  const greatest = greatestLoad(stroke);
  const heads: readonly Head[] = [
    { text: "Boom (°)" },
    { text: "Jack (m)", numeric: true },
    { text: "Travel (m)", numeric: true },
    { text: "Tip per jack (–)", numeric: true },
    { text: "Transm. angle (°)", numeric: true },
    { text: "Jack load (kN)", numeric: true },
    { text: "Carried pitch (°)", numeric: true },
    { text: "Error RSS (°)", numeric: true },
    { text: "Socket FS, WL (m)", numeric: true, width: 14 },
  ];
  const rows = strokeRows(stroke, STROKE_ROWS).map((point) => [
    formatFixed(point.boomAngle_deg, 1),
    formatFixed(point.jackLength_m, 3),
    formatFixed(point.jackTravel_m, 3),
    fixed(point.tipPerJack_1, 3),
    formatFixed(point.transmissionAngle_deg, 1),
    loadText(point, greatest),
    formatFixed(point.carriedPitch_deg, 2),
    fixed(point.attitudeError_deg?.rss, 3),
    `${formatFixed(point.socket_m[0], 3)}, ${formatFixed(point.socket_m[2], 3)}`,
  ]);
  const load = greatest === null ? "" : `; jack load for ${loadName(greatest)}, the other cases are in the picture`;
  return dataTable(`Mechanism along the stroke, ${variant}${load}`, heads, [{ rows }], "stroke");
}

/** Clearance to the ground in every state of tyres and struts. */
export function groundTable({ ground, variant }: FitResult): Html {
  if (ground === null) return NOTHING;
  const heads: readonly Head[] = [
    { text: "Tyres and struts", width: 28 },
    { text: "Ground WL (m)", numeric: true, width: 12 },
    { text: "Clearance stowed (m)", numeric: true, width: 14 },
    { text: "Lowest part", width: 20 },
    { text: "Extended (m)", numeric: true, width: 13 },
    { text: "Tip-back (°)", numeric: true, width: 13 },
  ];
  const rows = ground.states.map((state) => [
    state.name,
    formatFixed(state.groundLine_m, 2),
    formatFixed(state.clearance_m, 3),
    partName(state.at.part),
    fixed(state.alongStroke.at(-1)?.clearance_m, 3),
    fixed(state.tipBack_deg, 1),
  ]);
  return dataTable(`Ground clearance, ${variant}; negative is below the ground`, heads, [{ rows }], "ground");
}

function rotationCell({ rotationLimits }: GroundState, pose: string): string | Html {
  const own = rotationLimits.find((one) => one.pose === pose);
  if (own === undefined) return "–";
  if (own.limit_deg === null) return "nothing aft of the wheels";
  const part = own.part === null ? NOTHING : html`<br><span class="soft">${partName(own.part)}</span>`;
  return html`${formatFixed(own.limit_deg, 1)}°${part}`;
}

/** Nose-up rotation about the main wheels until something touches, a column for each pose. */
export function rotationTable({ ground, variant }: FitResult): Html {
  if (ground === null) return NOTHING;
  const poses = [...new Set(ground.states.flatMap(({ rotationLimits }) => rotationLimits.map(({ pose }) => pose)))];
  if (poses.length === 0) return NOTHING;
  const heads: readonly Head[] = [{ text: "Tyres and struts", width: 20 }, ...poses.map((text): Head => ({ text }))];
  const rows = ground.states.map((state) => [state.name, ...poses.map((pose) => rotationCell(state, pose))]);
  const caption = `Rotation about the main wheels until the named part touches, by pose, ${variant}`;
  return dataTable(caption, heads, [{ rows }], "rotation");
}

/** Steps of loading on the ground. */
export function loadingTable({ loading, variant }: FitResult): Html {
  if (loading === null || loading.steps.length === 0) return NOTHING;
  const heads: readonly Head[] = [
    { text: "Step", width: 34 },
    { text: "Aft of stowed (m)", numeric: true, width: 12 },
    { text: "WL 0 above ground (m)", numeric: true, width: 14 },
    { text: "Least clearance (mm)", numeric: true, width: 13 },
    { text: "Nearest", width: 27 },
  ];
  const rows = loading.steps.map((step, i) => [
    `${i + 1}. ${step.name}`,
    formatFixed(step.aftOfStowed_m, 2),
    formatFixed(step.height_m, 3),
    millimetres(step.leastClearance_m),
    step.pair === null ? "–" : pairName(step.pair),
  ]);
  return dataTable(`Loading on the ground, carrier raised as required, ${variant}`, heads, [{ rows }], "loading");
}

/** What is left while one member of a group is stuck. */
export function heldTable({ maps, variant }: FitResult): Html {
  const rows = heldRows(maps);
  if (rows.length === 0) return NOTHING;
  const heads: readonly Head[] = [
    { text: "Stuck", width: 22 },
    { text: "At", numeric: true, width: 7 },
    { text: "Way out", width: 34 },
    { text: "Boom’s whole stroke with the others at", width: 19 },
    { text: "Others’ whole travel with the boom at", width: 18 },
  ];
  const printed = rows.map(({ name, at, map, boom, others }) => [
    name,
    at,
    refusal(map) ?? pathSummary(map) ?? "–",
    boom,
    others,
  ]);
  return dataTable(
    `With one member stuck, ${variant}; mirrored members that came out alike together`,
    heads,
    [{ rows: printed }],
    "held",
  );
}

/** Parts against propeller discs, slipstreams and jets. */
export function zoneTable({ zones, variant }: FitResult): Html {
  if (zones.length === 0) return NOTHING;
  const heads: readonly Head[] = [
    { text: "Zone", width: 24 },
    { text: "Part", width: 24 },
    { text: "State", width: 16 },
    { text: "Boom angles inside", width: 18 },
    { text: "Least (m)", numeric: true, width: 9 },
    { text: "At (°)", numeric: true, width: 9 },
  ];
  const rows = telling(zones).map((zone) => [
    partName(zone.zone),
    partName(zone.part),
    zoneMark(zone.inside),
    zone.inside ? zoneStretches(zone) : "–",
    formatFixed(zone.least_m, 2),
    formatFixed(zone.at_boomAngle_deg, 1),
  ]);
  return dataTable(
    `Zones against the path, ${variant}: every part inside, of the others the nearest to each zone`,
    heads,
    [{ rows }],
    "zones",
  );
}

/** Contributors to the attitude error by pose, and the stack that is taken off clearances. */
export function toleranceTable({ tolerance, variant }: FitResult): Html {
  if (tolerance.length === 0) return NOTHING;
  const heads: readonly Head[] = [
    { text: "Dimension", width: 36 },
    { text: "Tolerance (mm)", numeric: true, width: 12 },
    { text: "Derivative (°/mm)", numeric: true, width: 14 },
    { text: "Contribution (°)", numeric: true, width: 14 },
    { text: "Of squares", numeric: true, width: 12 },
    { text: "Of worst case", numeric: true, width: 12 },
  ];
  const groups: RowGroup[] = tolerance.map((one) => ({
    title:
      `${one.pose}, boom ${formatFixed(one.boomAngle_deg, 1)}°: worst case ±${formatFixed(one.worst_deg, 3)}°, root sum square ` +
      `±${formatFixed(one.rss_deg, 3)}°, 99.73 % of ${one.monteCarlo.samples} samples within ±${formatFixed(one.monteCarlo.within99_73_deg, 3)}°`,
    rows: one.contributors
      .slice(0, MOST_CONTRIBUTORS)
      .map((part) => [
        part.dimension,
        `± ${formatFixed(1000 * part.tolerance_m, 2)}`,
        formatFixed(part.derivative_deg_mm, 4),
        formatFixed(part.contribution_deg, 3),
        `${formatFixed(100 * part.shareOfSquares_1, 1)} %`,
        `${formatFixed(100 * part.shareOfWorst_1, 1)} %`,
      ]),
  }));
  return dataTable(
    `Pitch of the carried aircraft from the tolerances of the mechanism, ${variant}`,
    heads,
    groups,
    "tolerance",
  );
}

/** Shapes that were measured, with what is wrong with them. */
export function partTable({ parts, variant }: FitResult): Html {
  if (parts.length === 0) return NOTHING;
  const heads: readonly Head[] = [
    { text: "Part", width: 34 },
    { text: "Belongs to", width: 14 },
    { text: "Solid", width: 9 },
    { text: "Triangles", numeric: true, width: 10 },
    { text: "Faceting (mm)", numeric: true, width: 12 },
    { text: "Faults", width: 21 },
  ];
  const rows = parts.map((part) => [
    dotted(part.name),
    part.group ?? part.owner,
    part.zone ? "zone" : "solid",
    String(part.triangles),
    formatFixed(1000 * part.facetingError_m, 1),
    part.faults.length === 0 ? "none" : part.faults.join("; "),
  ]);
  return dataTable(
    `Shapes that were measured, ${variant}; the faceting error is taken off every clearance`,
    heads,
    [{ rows }],
    "parts",
  );
}
