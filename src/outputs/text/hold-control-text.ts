/** Terminal text of the part `control` of `hold`: loops, pilot, gain sets, failures that reach a limit. */
import { type ControlLoop, type FailureCase, type HoldControl, isLatched } from "../../studies/hold-control/types.ts";
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import { formatFixed } from "../numbers/index.ts";
import { paragraph, table } from "./columns.ts";
import type { Look } from "./study-text.ts";

const optional = (value: number | null, decimals: number): string =>
  value === null ? "" : formatFixed(value, decimals, "-");

/** Of each loop in each state with each gain set the mass that comes nearest to −1, an unstable one before all. */
function nearest(loops: readonly ControlLoop[]): ControlLoop[] {
  const chosen = new Map<string, ControlLoop>();
  const distance = ({ stable, closest_1 }: ControlLoop): number => (stable ? closest_1 : -closest_1);
  for (const each of loops) {
    const key = [each.condition, each.state, each.gains, each.loop].join("|");
    const other = chosen.get(key);
    if (other === undefined || distance(each) < distance(other)) chosen.set(key, each);
  }
  return [...chosen.values()];
}

function loopTable({ loops }: HoldControl): string[] {
  const columns = [
    { heading: "loop", width: 14 },
    { heading: "mass", width: 10 },
    { heading: "held", width: 15 },
    { heading: "gains", width: 6 },
    { heading: "gain ×", width: 11, align: "right" as const },
    { heading: "phase °", width: 7, align: "right" as const },
    { heading: "delay s", width: 7, align: "right" as const },
    { heading: "", width: 10 },
  ];
  const shown = loops.filter(({ state, gains }) => !isLatched(state) || gains === "hooked");
  const rows = nearest(shown).map((each) => [
    each.loop,
    each.mass,
    each.state.replace(" aft pin,", ",").replace(" point,", ","),
    each.gains,
    `${optional(each.gainDecrease_1, 2)}..${optional(each.gainIncrease_1, 2)}`,
    optional(each.phaseMargin_deg, 0),
    optional(each.delayMargin_s, 2),
    each.stable ? "" : "NOT STABLE",
  ]);
  return table(columns, rows, "  ");
}

/** Where there is no trim, and by state the surfaces that move nothing against the mechanism. */
function idleLines({ authority, noTrim }: HoldControl, width: number): string[] {
  const missing = noTrim.map(({ state, mass }) => `${state} at mass ${mass}`);
  const none = missing.length === 0 ? [] : paragraph(`No trim: ${missing.join("; ")}.`, width, "  ", "    ");
  const idle = authority.filter(({ state, movesNothing }) => isLatched(state) && movesNothing);
  const lines = [...new Set(idle.map(({ state }) => state))].flatMap((state) => {
    const surfaces = [...new Set(idle.filter((each) => each.state === state).map(({ surface }) => surface))];
    return paragraph(
      `${state}: ${surfaces.join(", ")} at full travel: nothing moves that a function could hold.`,
      width,
      "  ",
      "    ",
    );
  });
  return none.length + lines.length === 0 ? [] : [...none, ...lines, ""];
}

/** Of each kind of failure of each function in each state the case that reaches a limit first, with how many do. */
function earliest(failures: readonly FailureCase[]) {
  const groups = new Map<string, FailureCase[]>();
  for (const each of failures) {
    const key = [each.condition, each.state, each.function, each.kind].join("|");
    groups.set(key, [...(groups.get(key) ?? []), each]);
  }
  return [...groups.values()].flatMap((all) => {
    const reached = all.filter(({ timeToLimit_s }) => timeToLimit_s !== null);
    if (reached.length === 0) return [];
    const first = reached.reduce((a, b) => ((b.timeToLimit_s as number) < (a.timeToLimit_s as number) ? b : a));
    return [{ first, count: reached.length, of: all.length }];
  });
}

function failureLines({ failures }: HoldControl, width: number): string[] {
  const lines = earliest(failures).flatMap(({ first: each, count, of }) => {
    const actions = each.recoveries.map(({ action, outcome }) => `${action}: ${outcome}`).join("; ");
    const what = `${each.function}${each.needed ? " (needed)" : ""}, ${each.kind}${each.detail === "" ? "" : ` ${each.detail}`}`;
    const when = `${each.limit ?? "beyond the model"} after ${formatFixed(each.timeToLimit_s as number, 2, "-")} s`;
    const share = `${count} of ${of} cases reach a limit`;
    return paragraph(`${each.state}, ${what}: ${when} at mass ${each.mass}; ${share}. ${actions}`, width, "  ", "    ");
  });
  const inside = failures.filter(({ timeToLimit_s }) => timeToLimit_s === null).length;
  return [...lines, ...paragraph(`${inside} of ${failures.length} failures stay inside every limit.`, width, "  ")];
}

/** Lines of the part; nothing when it did not run. */
export function holdControlText(result: HoldDepthResult, look: Look): string[] {
  const control = result.parts?.control;
  if (control === undefined) return [];
  const { recognition_s, release_s } = control.failureSettings;
  return [
    "PILOT AND AUTOPILOT IN THE LOOP",
    "  at the mass whose loop comes nearest to its limit",
    ...loopTable(control),
    "",
    ...idleLines(control, look.width),
    ...paragraph(
      `Failures, action after ${formatFixed(recognition_s, 2, "-")} s, release complete ${formatFixed(release_s, 2, "-")} s later:`,
      look.width,
      "  ",
    ),
    ...failureLines(control, look.width),
    "",
  ];
}
