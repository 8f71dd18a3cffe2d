/** Terminal text of the study `balance`: verdicts first, then loading, courses, changes of state, wheels. */
import type { BalanceResult } from "../../studies/balance/types.ts";
import { missionTime } from "../names/index.ts";
import { formatFixed } from "../numbers/index.ts";
import { type Column, table } from "./columns.ts";
import { bullets, headLines, type Look, PLAIN, type StudyTextMeta, section, tailLines } from "./study-text.ts";
import { type TextOptions, widthOf } from "./words.ts";

const right = (heading: string, width: number): Column => ({ heading, width, align: "right" });
const fixed = (value: number, decimals: number): string => formatFixed(value, decimals, PLAIN.minus);
const signed = (value: number, decimals: number): string => `${value > 0 ? "+" : ""}${fixed(value, decimals)}`;

function loadingTable({ totals }: BalanceResult, { width }: Look): string[] {
  const columns: Column[] = [
    { heading: "loading", width: width - 55 },
    right("mass kg", 9),
    right("largest kg", 10),
    right("% MAC", 7),
    right("limits % MAC", 15),
  ];
  const rows = totals.map((total) => [
    total.name,
    fixed(total.mass_kg, 0),
    total.largest_kg === null ? "-" : fixed(total.largest_kg, 0),
    fixed(total.cg_percentMac, 2),
    `${fixed(total.forward_percentMac, 1)} to ${fixed(total.aft_percentMac, 1)}`,
  ]);
  return table(columns, rows, "  ");
}

function courseTable({ branches }: BalanceResult, { width }: Look): string[] {
  const columns: Column[] = [
    { heading: "course", width: width - 68 },
    right("margin %", 8),
    { heading: "limit", width: 7 },
    { heading: "in leg", width: 16 },
    right("time", 8),
    right("mass kg", 7),
    right("% MAC", 6),
  ];
  const rows = branches.map(({ title, worst }) => [
    title,
    fixed(worst.margin_percentMac, 2),
    worst.side,
    worst.leg,
    missionTime(worst.time_s),
    fixed(worst.mass_kg, 0),
    fixed(worst.cg_percentMac, 2),
  ]);
  return table(columns, rows, "  ");
}

function changeTable({ changes, condition }: BalanceResult, look: Look): string[] {
  if (changes.length === 0) return [];
  const columns: Column[] = [
    { heading: "change", width: look.width - 60 },
    right("mass kg", 12),
    right("% MAC", 12),
    right("shift %", 7),
    right("n step", 7),
    right("elevator", 8),
  ];
  const rows = changes.map(({ title, before, after, shift_percentMac, trim }) => [
    title,
    `${fixed(before.mass_kg, 0)} ${fixed(after.mass_kg, 0)}`,
    `${fixed(before.cg_percentMac, 2)} ${fixed(after.cg_percentMac, 2)}`,
    signed(shift_percentMac, 2),
    signed(before.mass_kg / after.mass_kg - 1, 3),
    trim?.elevator_deg == null ? "-" : `${signed(trim.elevator_deg, 2)}°`,
  ]);
  const said = `mass and c.g. before and after; shift towards the tail, elevator trailing edge down positive; trim at ${fixed(condition.airspeed_m_s_EAS, 1)} m/s EAS`;
  return [...table(columns, rows, "  "), ...bullets([said], look.width)];
}

function groundTable({ ground }: BalanceResult, { width }: Look): string[] {
  if (ground === null) return [];
  const columns: Column[] = [
    { heading: "on the ground", width: width - 64 },
    right("mass kg", 8),
    right("% MAC", 7),
    right("nose kN", 8),
    right("share %", 8),
    right("main kN", 8),
    right("tip-back", 9),
  ];
  const rows = ground.map((state) => [
    state.title,
    fixed(state.mass_kg, 0),
    fixed(state.cg_percentMac, 2),
    fixed(state.nose_N / 1000, 1),
    fixed(100 * state.noseShare_1, 1),
    fixed(Math.max(state.mainLeft_N, state.mainRight_N) / 1000, 1),
    `${fixed(state.tipBack_deg, 1)}°`,
  ]);
  return table(columns, rows, "  ");
}

/** Text of one `BalanceResult` for a terminal: at most 100 columns, understood without colour, a newline at the end. */
export function balanceText(result: BalanceResult, meta: StudyTextMeta, options: TextOptions = {}): string {
  const look = { width: widthOf(options), colour: options.colour === true };
  const lines = [
    ...headLines("Carrier balance", "subject", result, meta, look),
    ...section("LOADING", loadingTable(result, look)),
    ...section("CENTRE OF GRAVITY", courseTable(result, look)),
    ...section("CHANGES OF STATE", changeTable(result, look)),
    ...section("GROUND", groundTable(result, look)),
    ...tailLines(result, meta, look),
  ];
  return `${lines.join("\n")}\n`;
}
