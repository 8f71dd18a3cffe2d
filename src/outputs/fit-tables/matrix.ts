/** The clearance matrix: every pair in every configuration, the tightest first. */
import type { FitResult, PairClearance, PosePicture, Station3 } from "../../studies/fit/types.ts";
import { mirroredPairName, pairName, sidelessName } from "../names/index.ts";

/** Angles [deg] nearer than this are the same pose. */
const SAME_ANGLE = 1e-6;

/** One pair of bodies or parts. Lengths in metres, angles in degrees. */
export interface MatrixRow {
  readonly pair: readonly [string, string];
  /** As printed; names both sides where mirrored pairs came out alike. */
  readonly name: string;
  /** "moving" along the stroke or with the gear, "static" at rest in one pose. */
  readonly kind: PairClearance["kind"];
  readonly zone: boolean;
  /** Certified lower bound at each pose of the pictures; null where the pair was not followed along the stroke. */
  readonly atPoses: readonly (number | null)[];
  /** Least along the stroke or the group's travel. */
  readonly least: number;
  /** Less the stack; null where the study gives none. */
  readonly afterStack: { readonly worst: number; readonly rss: number } | null;
  /** In words: at which angle or fraction. */
  readonly where: string;
  readonly point: Station3;
  readonly criterion: { readonly value_m: number; readonly source: string } | null;
  readonly state: string;
}

/**
 * Certified clearance at a boom angle: the ends exactly, in between the bound of the stretch that holds the angle; null
 * where the pair was not followed.
 */
export function lowerAt({ alongStroke, atEnds_m }: PairClearance, boomAngle: number): number | null {
  const first = alongStroke[0]?.boomAngle_deg;
  const last = alongStroke.at(-1)?.boomAngle_deg;
  if (first === undefined || last === undefined) return null;
  const way = last >= first ? 1 : -1;
  if (way * (boomAngle - first) < -SAME_ANGLE || way * (boomAngle - last) > SAME_ANGLE) return null;
  if (alongStroke.length > 1 && Math.abs(boomAngle - first) <= SAME_ANGLE) return atEnds_m.stowed;
  let found: number | null = null;
  for (const { boomAngle_deg, lower_m } of alongStroke) {
    if (way * (boomAngle_deg - boomAngle) > SAME_ANGLE) break;
    found = lower_m;
  }
  return found;
}

/** Clearance that is judged: after the worst-case stack where there is one. */
export function judgedClearance({ least, afterStack }: Pick<MatrixRow, "least" | "afterStack">): number {
  return afterStack?.worst ?? least;
}

/** What is judged less its criterion; without one less nothing. */
export function marginOf(row: Pick<MatrixRow, "least" | "afterStack" | "criterion">): number {
  return judgedClearance(row) - (row.criterion?.value_m ?? 0);
}

function strokeRow(one: PairClearance, poses: readonly PosePicture[]): MatrixRow {
  return {
    pair: one.pair,
    name: pairName(one.pair),
    kind: one.kind,
    zone: one.zone,
    atPoses: poses.map(({ boomAngle_deg }) => lowerAt(one, boomAngle_deg)),
    least: one.least_m,
    afterStack: one.leastAfterStack_m,
    where: `${one.kind === "static" ? "rest" : "boom"} ${one.at.boomAngle_deg.toFixed(1)}°`,
    point: one.at.pointA,
    criterion: one.criterion,
    state: one.state,
  };
}

function gearRows({ gearClearances, stack }: FitResult, poses: readonly PosePicture[]): MatrixRow[] {
  return gearClearances.map((one) => ({
    pair: one.pair,
    name: pairName(one.pair),
    kind: "moving",
    zone: false,
    atPoses: poses.map(() => null),
    least: one.least_m,
    afterStack: { worst: one.least_m - stack.worst_m, rss: one.least_m - stack.rss_m },
    where: `${one.group} ${Math.round(100 * one.at.fraction_1)} %`,
    point: one.at.pointA,
    criterion: null,
    state: one.state,
  }));
}

/** Mirrored pairs that agree to a tenth of a millimetre, and in everything else that is printed, become one row. */
function folded(rows: readonly MatrixRow[]): MatrixRow[] {
  const found = new Map<string, MatrixRow>();
  for (const row of rows) {
    const sides = row.pair.map(sidelessName).join("|");
    const tenths = [row.least, ...row.atPoses].map((value) => (value === null ? "-" : Math.round(1e4 * value)));
    const key = [sides, row.kind, row.zone, row.state, row.where, row.criterion?.value_m ?? "-", ...tenths].join("|");
    const other = found.get(key);
    found.set(key, other === undefined ? row : { ...other, name: mirroredPairName(other.pair) });
  }
  return [...found.values()];
}

/**
 * Rows of all solid pairs, the least margin first, then those of zones. Pairs that only a group moves have no stack of their own:
 * the stack of the study is taken off them too.
 */
export function clearanceMatrix(result: FitResult): MatrixRow[] {
  const rows = [
    ...result.clearances.map((one) => strokeRow(one, result.pictures)),
    ...gearRows(result, result.pictures),
  ];
  return folded(rows).sort((a, b) => Number(a.zone) - Number(b.zone) || marginOf(a) - marginOf(b));
}

/** Whole millimetres, rounded down so that a printed clearance is never larger than the certified one. */
export function millimetres(length: number, minus: "−" | "-" = "−"): string {
  const whole = Math.floor(length * 1000 + 1e-6);
  return whole < 0 ? `${minus}${-whole}` : String(whole);
}
