/** The "hold here" card as data: where a hooked pair may be held, for how long, in how rough air, and what to do when it moves. */
import type { Limit } from "../../studies/finding/types.ts";
import type { HoldPoint, ModePlane } from "../../studies/hold/types.ts";
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import { capitalise } from "../figures/index.ts";
import { formatFixed, formatNumber } from "../numbers/index.ts";

export interface CardLine {
  readonly what: string;
  readonly value: string;
  /** What it rests on, or why there is no value. */
  readonly because: string;
}

export interface HoldHereCard {
  readonly condition: string;
  readonly masses: readonly string[];
  /** Whether the condition's own airspeed lies in an analysed range of both planes and nothing grows there. */
  readonly analysed: boolean;
  /** In a few words: may the pair be held as the condition says? */
  readonly headline: string;
  readonly lines: readonly CardLine[];
  /** What to do when an oscillation grows, first things first. */
  readonly actions: readonly string[];
}

const PLANES: readonly ModePlane[] = ["longitudinal", "lateral"];
const NONE = "not analysed";
/** Beginning of the assumption that names the control law. */
const CONTROLS = "Controls: ";

interface Span {
  readonly from: number;
  readonly to: number;
}

/** Ranges of airspeed in which a plane meets every criterion. */
function analysedSpans(limits: readonly Limit[], condition: string, plane: ModePlane): Span[] {
  const id = `hold.${condition}.airspeed-${plane}`;
  return limits
    .filter((limit) => (limit.id === id || limit.id.startsWith(`${id}-`)) && limit.status === "analysed")
    .flatMap(({ lower, upper }) => (lower === null || upper === null ? [] : [{ from: lower, to: upper }]));
}

function overlaps(a: readonly Span[], b: readonly Span[]): Span[] {
  return a
    .flatMap((x) => b.map((y) => ({ from: Math.max(x.from, y.from), to: Math.min(x.to, y.to) })))
    .filter(({ from, to }) => from < to);
}

const speed = (value: number): string => `${formatFixed(value, 1)} m/s EAS`;
/** A band printed from inside: its lower end never below, its upper never above what was found. */
const band = ({ from, to }: Span): string =>
  `${formatFixed(Math.ceil(from * 10) / 10, 1)} to ${formatFixed(Math.floor(to * 10) / 10, 1)} m/s EAS`;
const inside = (spans: readonly Span[], at: number): Span | undefined =>
  spans.find(({ from, to }) => at >= from && at <= to);

/** One card a condition. */
export function holdHereCards(result: HoldDepthResult): HoldHereCard[] {
  const names = [...new Set(result.points.map((point) => point.condition))];
  return names.map((condition) =>
    cardOf(
      result,
      condition,
      result.points.filter((point) => point.condition === condition),
    ),
  );
}

function cardOf(result: HoldDepthResult, condition: string, points: readonly HoldPoint[]): HoldHereCard {
  const at = points[0].airspeed_m_s_EAS;
  const spans = {
    longitudinal: analysedSpans(result.limits, condition, "longitudinal"),
    lateral: analysedSpans(result.limits, condition, "lateral"),
  };
  const both = overlaps(spans.longitudinal, spans.lateral);
  const missed = PLANES.filter((plane) => inside(spans[plane], at) === undefined);
  const growing = points.filter((point) => point.trim === null || point.modes.some((mode) => mode.real_1_s > 0));
  const beyond = beyondTrim(result, condition, points);
  const analysed = missed.length === 0 && beyond.length === 0 && growing.every((point) => point.trim !== null);
  return {
    condition,
    masses: points.map((point) => point.mass),
    analysed,
    headline: analysed
      ? `Analysed for holding at ${speed(at)}; not demonstrated`
      : `Do not hold at ${speed(at)}: ${[...missed, ...beyond].join(", ") || "trim"} not cleared`,
    lines: [
      airspeedLine(result, at, both),
      angleLine(points),
      ruleLine(result, condition),
      roughnessLine(result, condition),
      dwellLine(result, condition, points),
      loadLine(result, points),
    ],
    actions: actionsOf(result, condition, at, spans),
  };
}

/** What the trim itself asks beyond a limit: the limits of airspeed do not see it. */
function beyondTrim(result: HoldDepthResult, condition: string, points: readonly HoldPoint[]): string[] {
  const kinds = [
    ["elevator", (mass: string) => `hold.${condition}.${mass}.elevator`],
    ["hook load", (mass: string) => `hold.${condition}.equilibrium.${mass}.hook-load`],
    ["jack load", (mass: string) => `hold.${condition}.equilibrium.${mass}.jack-load-band`],
  ] as const;
  const missed = new Set(result.findings.flatMap(({ id, verdict }) => (verdict === "not met" ? [id] : [])));
  return kinds.filter(([, idOf]) => points.some(({ mass }) => missed.has(idOf(mass)))).map(([name]) => name);
}

function airspeedLine(result: HoldDepthResult, at: number, both: readonly Span[]): CardLine {
  const what = "Airspeed";
  if (both.length === 0) {
    const because = "no airspeed of the searched range meets the criteria of both planes";
    return { what, value: "none", because };
  }
  const value = both.map(band).join("; ");
  const where =
    inside(both, at) === undefined ? `the condition's ${speed(at)} lies outside` : `the condition has ${speed(at)}`;
  const controls = result.assumptions.find((line) => line.startsWith(CONTROLS))?.slice(CONTROLS.length, -1);
  const law = controls === undefined ? "" : `, ${controls}`;
  return { what, value, because: `both planes meet their criteria at all masses${law}; ${where}` };
}

function angleLine(points: readonly HoldPoint[]): CardLine {
  const [{ boomAngle_deg, weightShare_1, altitude_m }] = points;
  return {
    what: "Boom angle under load",
    value: `${formatFixed(boomAngle_deg, 1)}° below horizontal`,
    because: `weight share ${formatFixed(100 * weightShare_1, 0)} %, ${formatFixed(altitude_m, 0)} m pressure altitude, as the condition says`,
  };
}

function ruleLine(result: HoldDepthResult, condition: string): CardLine {
  const what = "Retracting";
  const rules = (result.parts?.attachment?.rules ?? []).filter((rule) => rule.condition === condition);
  if (rules.length === 0) return { what, value: NONE, because: "states of attachment were not looked at" };
  const worst = rules.find(
    ({ outcome, rule_deg }) => outcome === "unstable extended" || (outcome === "lost" && rule_deg === null),
  );
  const open = rules.find(
    ({ uncertainty_deg, outcome }) => uncertainty_deg === null && outcome !== "stable throughout",
  );
  const angles = rules.flatMap(({ rule_deg }) => (rule_deg === null ? [] : [rule_deg]));
  const latched = "not before the aft pins are latched";
  if (worst !== undefined || open !== undefined) {
    const { plane } = (worst ?? open)!;
    return {
      what,
      value: latched,
      because: `${plane}: no boom angle is far enough from instability, uncertainty counted`,
    };
  }
  if (angles.length === 0) return { what, value: "no angle forbidden", because: "stable along the whole stroke" };
  return {
    what,
    value: `not up past ${formatFixed(Math.max(...angles), 0)}° (to smaller angles) ${latched.replace("not before", "before")}`,
    because: "boundary over masses, airspeeds and uncertainty, with the project's margin, rounded up",
  };
}

function roughnessLine(result: HoldDepthResult, condition: string): CardLine {
  const what = "Rough air, σ of vertical gusts";
  const rough = result.parts?.roughAir;
  const points = rough?.points.filter((point) => point.condition === condition) ?? [];
  if (rough === undefined || points.length === 0) return { what, value: NONE, because: "rough air was not looked at" };
  const grows = points.find((point) => point.answer === null);
  if (grows !== undefined) return { what, value: "none", because: `${grows.outcome}, mass ${grows.mass}` };
  const [worst] = points
    .map((point) => ({ mass: point.mass, answer: point.answer! }))
    .sort((a, b) => a.answer.sigma_m_s - b.answer.sigma_m_s);
  const { sigma_m_s, severity, limiting } = worst.answer;
  const title = points[0].quantities.find(({ key }) => key === limiting)?.title.toLowerCase() ?? limiting;
  const name = severity === null ? "" : ` (${severity})`;
  return {
    what,
    value: `at most ${formatFixed(Math.floor(sigma_m_s * 100) / 100, 2)} m/s${name}`,
    because: `${title} gives way first, mass ${worst.mass}; probability ${formatNumber(100 * rough.probability_1)} % in ${formatNumber(rough.timeHooked_s / 60)} min`,
  };
}

function dwellLine(result: HoldDepthResult, condition: string, points: readonly HoldPoint[]): CardLine {
  const what = "Time hooked at one point";
  const ids = new Set(points.map((point) => point.id));
  const times = result.pilotTime.filter(({ pointId, time_s }) => ids.has(pointId) && time_s !== null);
  if (times.length > 0) {
    const shortest = times.reduce((a, b) => (a.time_s! <= b.time_s! ? a : b));
    const because = `${shortest.plane} motion grows from ${formatNumber(shortest.upset_deg)}° to ${formatNumber(shortest.limit_deg)}° in that time, nobody acting`;
    return { what, value: `none; limit after ${formatFixed(shortest.time_s!, 1)} s`, because };
  }
  const rough = result.parts?.roughAir;
  const stationary = rough?.points.filter((point) => point.condition === condition) ?? [];
  if (rough === undefined || stationary.length === 0)
    return { what, value: NONE, because: "rough air was not looked at" };
  const without = stationary.find(({ answer }) => answer === null);
  if (without !== undefined) return { what, value: "none", because: `${without.outcome}, mass ${without.mass}` };
  return {
    what,
    value: `at most ${formatNumber(rough.timeHooked_s / 60)} min`,
    because: "the time for which the limit on rough air holds",
  };
}

function loadLine(result: HoldDepthResult, points: readonly HoldPoint[]): CardLine {
  const what = "Tow load to expect";
  const loads = points.flatMap(({ trim }) => (trim === null ? [] : [trim.towLoad_N]));
  if (loads.length === 0) return { what, value: "none", because: `no trim in ${result.variant}` };
  const [low, high] = [Math.min(...loads), Math.max(...loads)];
  return {
    what,
    value: low === high ? towWords(low) : `${towWords(low)} to ${towWords(high)}`,
    because: "steady, over the masses; another load means another state than the one analysed",
  };
}

/** What to do when an oscillation grows: what the numbers of this result say, then release. */
function actionsOf(
  result: HoldDepthResult,
  condition: string,
  at: number,
  spans: Readonly<Record<ModePlane, readonly Span[]>>,
): string[] {
  const actions = ["Say so at once; the carrier holds attitude and airspeed, the boom is not moved."];
  for (const plane of PLANES) {
    if (inside(spans[plane], at) !== undefined) continue;
    const nearest = [...spans[plane]].sort((a, b) => distance(a, at) - distance(b, at))[0];
    if (nearest === undefined) continue;
    const [word, to] = nearest.from > at ? ["faster", nearest.from] : ["slower", nearest.to];
    const other = plane === "lateral" ? "longitudinal" : "lateral";
    const there = inside(spans[other], to) === undefined ? `; ${other} motion is not cleared there` : "";
    actions.push(
      `${capitalise(plane)} motion: fly ${word}, towards ${speed(to)}, where every ${plane} criterion is met${there}.`,
    );
  }
  const need = result.parts?.control?.rollHold.find((each) => each.condition === condition);
  const criterion = result.stiffness[0]?.criterion_1;
  const alone = need?.alone?.worst?.value;
  if (need !== undefined && criterion !== undefined && alone !== undefined && alone >= criterion) {
    const without = need.none.worst?.value ?? null;
    if (without === null || without < criterion) {
      actions.push(
        `Lateral motion: engage the roll hold; with it the least damping ratio is ${formatFixed(alone, 3)}.`,
      );
    }
  }
  const control = result.parts?.control;
  const limits =
    control === undefined
      ? "the declared limits"
      : `${formatNumber(control.failureSettings.pitchLimit_deg)}° pitch or ${formatNumber(control.failureSettings.bankLimit_deg)}° bank from trim`;
  actions.push(`Release before ${limits} is reached, or when the motion has not begun to decay after two cycles.`);
  return actions;
}

function distance({ from, to }: Span, at: number): number {
  return Math.max(from - at, at - to, 0);
}

/** A tow load with its sign as a word. */
function towWords(load_N: number): string {
  return `${formatNumber(Math.abs(load_N) / 1000)} kN ${load_N < 0 ? "aft" : "forward"}`;
}
