/** Pages of the part `control` of `hold`: loops with their margins, pilots, gain sets, roll hold, failures. */
import {
  type FailureCase,
  type HoldControl,
  isLatched,
  isStowed,
  type LoopName,
} from "../../studies/hold-control/types.ts";
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import { type Figure, type FigureDom, failureFigure, loopFigure } from "../figures/index.ts";
import { formatFixed, formatNumber } from "../numbers/index.ts";
import type { FigureCounter } from "./figure-counter.ts";
import { type Html, html, NOTHING } from "./html.ts";
import { growsMark } from "./marks.ts";
import type { PartSection } from "./part-section.ts";
import { dataTable, type RowGroup } from "./tables.ts";

/** Share of a limit from which a failure has a row. */
const SHOWN = 0.5;
const optional = (value: number | null, decimals: number): string =>
  value === null ? "–" : formatFixed(value, decimals);
const held = (state: string): string => (state === "free" ? "free" : `hooked, ${state}`);

/** Rows put together under a title made of some of their keys. */
function grouped<T>(
  all: readonly T[],
  title: (each: T) => string,
  row: (each: T) => readonly (string | Html)[],
): RowGroup[] {
  const groups = new Map<string, (readonly (string | Html)[])[]>();
  for (const each of all) {
    const key = title(each);
    groups.set(key, [...(groups.get(key) ?? []), row(each)]);
  }
  return [...groups].map(([key, rows]) => ({ title: key, rows }));
}

function loopTable({ loops, padeOrder }: HoldControl, variant: string): Html {
  const heads = [
    { text: "Loop", width: 16 },
    { text: "Gain set", width: 10 },
    { text: "Gain up to (×)", numeric: true },
    { text: "Gain down to (×)", numeric: true },
    { text: "Phase margin (deg)", numeric: true },
    { text: "Delay margin (s)", numeric: true },
    { text: "at (rad/s)", numeric: true },
    { text: "Least |1 + L|", numeric: true },
    { text: "Growing roots: open, Padé, exact", numeric: true },
  ];
  const rows = grouped(
    loops,
    ({ condition, mass, state }) => `${condition} × ${mass}, ${held(state)}`,
    (each) => [
      each.stable ? each.loop : html`${each.loop} ${growsMark()}`,
      each.gains,
      optional(each.gainIncrease_1, 2),
      optional(each.gainDecrease_1, 2),
      optional(each.phaseMargin_deg, 1),
      optional(each.delayMargin_s, 3),
      optional(each.crossover_rad_s, 2),
      formatFixed(each.closest_1, 2),
      `${each.growingRootsOpen}, ${each.growingRoots}, ${each.growingRootsExact ?? "unresolved"}`,
    ],
  );
  const caption = `Loops, ${variant}: margins with exact delay; stability by roots (Padé of order ${padeOrder}) and by the exact count of Nyquist`;
  return dataTable(caption, heads, rows, "modes");
}

function pilotTable({ pilots }: HoldControl, variant: string): Html {
  const heads = [
    { text: "Pilot in", width: 10 },
    { text: "Learnt", width: 14 },
    { text: "Gain (–)", numeric: true },
    { text: "Lead (s)", numeric: true },
    { text: "Lag (s)", numeric: true },
    { text: "Slope at the crossover", numeric: true },
    { text: "Resonance (×)", numeric: true },
    { text: "at (rad/s)", numeric: true },
    { text: "Phase delay (s)", numeric: true },
  ];
  const rows = grouped(
    pilots,
    ({ condition, mass, state }) => `${condition} × ${mass}, ${held(state)}`,
    (each) => [
      each.stable ? each.axis : html`${each.axis} ${growsMark()}`,
      each.tunedFor === "free" ? "free" : "as held",
      formatNumber(each.gain_1),
      formatFixed(each.lead_s, 2),
      formatFixed(each.lag_s, 2),
      formatFixed(each.slope_1, 2),
      optional(each.resonance_1, 2),
      optional(each.resonanceAt_rad_s, 2),
      optional(each.phaseDelay_s, 3),
    ],
  );
  return dataTable(`Pilot of crossover type, ${variant}; slope −1 is the crossover model`, heads, rows, "modes");
}

function modeTable({ modes }: HoldControl, variant: string): Html {
  const heads = [
    { text: "Plane", width: 16 },
    { text: "Gain set", width: 14 },
    { text: "Worst ζ (–)", numeric: true },
    { text: "f (Hz)", numeric: true },
    { text: "Double in (s)", numeric: true },
    { text: "Criteria", width: 14 },
  ];
  const rows = grouped(
    modes,
    ({ condition, mass, state }) => `${condition} × ${mass}, ${held(state)}`,
    (each) => [
      each.plane,
      each.gains,
      optional(each.worstDampingRatio, 4),
      optional(each.frequency_Hz, 3),
      optional(each.timeToDouble_s, 1),
      each.meetsCriteria ? "met" : "NOT MET",
    ],
  );
  return dataTable(`Roots with each gain set in each state, ${variant}`, heads, rows, "modes");
}

function authorityTable({ authority }: HoldControl, variant: string): Html {
  const heads = [
    { text: "Surface, full travel", width: 18 },
    { text: "moves (deg)", numeric: true },
    { text: "Change of socket load (kN)", numeric: true },
    { text: "", width: 20 },
  ];
  const rows = grouped(
    authority.filter(({ state }) => isLatched(state)),
    ({ condition, mass, state }) => `${condition} × ${mass}, ${held(state)}`,
    (each) => [
      each.surface,
      formatFixed(each.angle_deg, 2),
      formatFixed(each.load_kN, 1),
      each.movesNothing ? "moves nothing" : "",
    ],
  );
  if (rows.length === 0) return NOTHING;
  const caption = `What each surface moves against the mechanism, ${variant}: pitch by the elevator, bank by the aileron, yaw by the rudder, swung at the pilot's crossover; "moves nothing" below a tenth of the declared upset`;
  return dataTable(caption, heads, rows, "modes");
}

function rollHoldTable({ rollHold }: HoldControl, variant: string): Html {
  const speeds = rollHold[0]?.airspeed_m_s_EAS ?? [];
  const heads = [
    { text: "Engaged, hooked at one point", width: 24 },
    ...speeds.map((speed) => ({ text: `${formatFixed(speed, 0)} m/s`, numeric: true })),
  ];
  const groups = rollHold.map(({ condition, none, alone, others }) => ({
    title: condition,
    rows: [
      ["nothing", ...none.dampingRatio.map((value) => optional(value, 3))],
      ...(alone === null ? [] : [["roll hold alone", ...alone.dampingRatio.map((value) => optional(value, 3))]]),
      ["everything but the roll hold", ...others.dampingRatio.map((value) => optional(value, 3))],
    ],
  }));
  const caption = `Is a roll hold needed? ${variant}: least lateral ζ of all masses against airspeed (EAS); −1 where a real root doubles too fast`;
  return dataTable(caption, heads, groups, "modes");
}

function recoveryWords({ recoveries, limit }: FailureCase): string {
  if (limit === null && recoveries.length === 0) return "–";
  return recoveries
    .map(({ action, outcome, limitAt_s }) =>
      limitAt_s === null ? `${action}: ${outcome}` : `${action}: ${outcome} (${optional(limitAt_s, 1)} s)`,
    )
    .join("; ");
}

function failureTable({ failures, failureSettings }: HoldControl, variant: string): Html {
  const heads = [
    { text: "Function", width: 13 },
    { text: "Failure", width: 20 },
    { text: "Limit", width: 11 },
    { text: "after (s)", numeric: true, width: 8 },
    { text: "Largest share", numeric: true, width: 8 },
    { text: "Action", width: 28 },
    { text: "Release in time", width: 12 },
  ];
  const shown = failures.filter(({ largestShare_1 }) => largestShare_1 >= SHOWN);
  const rows = grouped(
    shown,
    ({ condition, mass, state }) => `${condition} × ${mass}, ${held(state)}`,
    (each) => [
      each.needed ? `${each.function} (needed)` : each.function,
      `${each.kind}${each.detail === "" ? "" : `, ${each.detail}`}`,
      each.timeToLimit_s === null ? "none" : (each.limit ?? "beyond the model"),
      optional(each.timeToLimit_s, 2),
      formatFixed(each.largestShare_1, 2),
      recoveryWords(each),
      each.releaseInTime === null ? "–" : each.releaseInTime ? "yes" : "NO",
    ],
  );
  const { recognition_s, release_s, duration_s } = failureSettings;
  const caption = `Failures, ${variant}: action after ${formatFixed(recognition_s, 2)} s, release complete ${formatFixed(release_s, 2)} s later, followed for ${formatFixed(duration_s, 0)} s; ${failures.length - shown.length} of ${failures.length} that stay below half of every limit are in the result file`;
  return dataTable(caption, heads, rows, "modes");
}

const AUTOPILOT: readonly LoopName[] = ["elevator", "aileron"];
const PILOTS: readonly LoopName[] = ["pilot in pitch", "pilot in bank"];

function figuresOf(control: HoldControl, variant: string, index: number, dom: FigureDom): Figure[] {
  const conditions = [...new Set(control.loops.map(({ condition }) => condition))];
  const first = index === 0 ? conditions : conditions.slice(0, 1);
  const figures = first.flatMap((condition, i) => {
    const id = (what: string) => `fig-v${index + 1}-control${i + 1}-${what}`;
    const all = control.loops.filter((loop) => loop.condition === condition);
    const loops = all.filter(({ state }) => !isLatched(state));
    const held = all.filter(({ state, gains }) => state !== "free" && gains === "hooked");
    const worst = earliest(control.failures.filter((each) => each.condition === condition && !isStowed(each.state)));
    return [
      loopFigure(id("autopilot"), variant, loops, AUTOPILOT, dom),
      loopFigure(id("pilot"), variant, loops, PILOTS, dom),
      ...(all.length > loops.length ? [loopFigure(id("latched"), variant, held, AUTOPILOT, dom)] : []),
      ...worst.map((each, k) => failureFigure(id(`failure${k + 1}`), variant, each, control.failureSettings, dom)),
    ];
  });
  return figures.filter((figure) => figure !== null);
}

/** For each state the case with histories that reaches its limit first. */
function earliest(cases: readonly FailureCase[]): FailureCase[] {
  const chosen = new Map<string, FailureCase>();
  for (const each of cases) {
    if (each.histories.length === 0 || each.timeToLimit_s === null) continue;
    const other = chosen.get(each.state);
    if (other === undefined || each.timeToLimit_s < (other.timeToLimit_s ?? Number.POSITIVE_INFINITY)) {
      chosen.set(each.state, each);
    }
  }
  return [...chosen.values()];
}

function variantPart({ variant, parts }: HoldDepthResult, index: number, counter: FigureCounter, dom: FigureDom): Html {
  const control = parts?.control;
  if (control === undefined) return NOTHING;
  const figures = figuresOf(control, variant, index, dom).map((figure) => counter.print(figure));
  return html`<h3 id="control-v${index + 1}">${variant}</h3>
${figures}${loopTable(control, variant)}${pilotTable(control, variant)}${modeTable(control, variant)}${authorityTable(control, variant)}${rollHoldTable(control, variant)}${failureTable(control, variant)}`;
}

/** Section of the part over all variants; nothing when it ran for none. */
export function holdControlPages(
  results: readonly HoldDepthResult[],
  title: (word: string) => string,
  counter: FigureCounter,
  dom: FigureDom,
): PartSection | null {
  if (!results.some(({ parts }) => parts?.control !== undefined)) return null;
  const name = title("Pilot and autopilot");
  const parts = results.map((result, i) => variantPart(result, i, counter, dom));
  const markup = html`<section id="control"><h2>${name}</h2>
<p>The carried aircraft is another plant when it hangs on the boom: what is tuned in free flight need not suit there. Every loop is
looked at in every state with both gain sets, with aft pins too where the pair has them; margins hold only where the closed loop is stable. Failures begin at trim (a loss and a wrong gain set
with the declared upset) and are followed with and without action.</p>
${parts}</section>
`;
  return { id: "control", title: name, markup };
}
