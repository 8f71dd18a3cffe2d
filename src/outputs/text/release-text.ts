/** Terminal text of the study `release`: verdicts first, then cases, edges, envelope, rough air, hang-ups, what falls, the carrier. */
import type { ReleaseEnvelope, ReleaseOutcome, ReleaseResult } from "../../studies/release/types.ts";
import { OUTCOME_LETTERS } from "../names/index.ts";
import { formatFixed, formatQuantity } from "../numbers/index.ts";
import { type Column, paragraph, table } from "./columns.ts";
import { bullets, headLines, type Look, PLAIN, type StudyTextMeta, section, tailLines } from "./study-text.ts";
import { type TextOptions, widthOf } from "./words.ts";

const right = (heading: string, width: number): Column => ({ heading, width, align: "right" });
const percent = (share: number): string => `${formatFixed(100 * share, 1)} %`;
const fixed = (value: number | null, digits: number): string =>
  value === null ? "-" : formatFixed(value, digits, PLAIN.minus);

function caseTable({ cases }: ReleaseResult, { width }: Look): string[] {
  const columns: Column[] = [
    { heading: "case", width: width - 66 },
    { heading: "mass", width: 7 },
    right("boom", 4),
    { heading: "outcome", width: 12 },
    right("free s", 6),
    right("out m/s", 7),
    right("deg/s", 6),
    right("least m", 7),
  ];
  const rows = cases.map((one) => [
    one.name,
    one.mass,
    `${formatFixed(one.boomAngle_deg, 0)}°`,
    one.outcome,
    fixed(one.leftAt_s, 2),
    fixed(one.exitSpeed_m_s, 2),
    fixed(one.exitPitchRate_deg_s, 1),
    fixed(one.clearance_m, 2),
  ]);
  return [
    ...table(columns, rows, "  "),
    ...bullets(
      ["free: probe out or cut; out, deg/s: speed of the probe and pitch rate of the aircraft as it leaves"],
      width,
    ),
  ];
}

function withdrawalLines({ cases, edges }: ReleaseResult, { width }: Look): string[] {
  const first = cases.filter(({ name, offered_N }, i) => offered_N !== null && i === firstOf(cases, name, i));
  const pulls = first
    .filter(({ name }) => name === cases[0]?.name)
    .map(
      ({ mass, offered_N, needed_N }) =>
        `${mass}: at the nose's command ${formatQuantity(offered_N!, "N", PLAIN)} offered along the bore, ${formatQuantity(needed_N!, "N", PLAIN)} needed`,
    );
  const said = edges.map(({ mass, quantity, limit, unit, wholeRange, because }) => {
    const what = quantity === "airspeed" ? "least airspeed" : "largest thrust";
    if (limit === null) return `${mass}: ${what}: clean nowhere in the range (${because})`;
    const end = wholeRange ? "clean in the whole range" : `beyond it: ${because}`;
    return `${mass}: ${what} ${formatQuantity(limit, unit, PLAIN)}; ${end}`;
  });
  return bullets([...pulls, ...said], width);
}

/** Index of the first entry with the same name and mass. */
function firstOf(cases: ReleaseResult["cases"], name: string, i: number): number {
  return cases.findIndex((one) => one.name === name && one.mass === cases[i]!.mass);
}

function envelopeLines(map: ReleaseEnvelope, width: number): string[] {
  const letter = (outcome: ReleaseOutcome): string => OUTCOME_LETTERS[outcome];
  const rows = map.loadFactor_1.map((n, i) => {
    const cells = map.outcome[i]!.map((cell) => letter(cell).padStart(5)).join("");
    return `    ${formatFixed(n, 2, PLAIN.minus).padStart(6)} g ${cells}`;
  });
  const speeds = map.airspeed_m_s_EAS.map((v) => formatFixed(v, 0).padStart(5)).join("");
  return [...paragraph(`${map.mass}, m/s EAS across:`, width, "  "), `             ${speeds}`, ...rows.reverse()];
}

function roughLines({ batches, criteria }: ReleaseResult, { width }: Look): string[] {
  const columns: Column[] = [
    { heading: "turbulence", width: width - 54 },
    { heading: "mass", width: 7 },
    right("clean", 8),
    right("interval", 17),
    right("m, 5, 50 %", 10),
  ];
  const rows = batches.map(({ sigma, sigma_m_s, mass, clean, clearance_m }) => [
    `${sigma}, σ ${formatFixed(sigma_m_s, 1)} m/s`,
    mass,
    `${clean.count} of ${clean.of}`,
    `${percent(clean.lower_1)} to ${percent(clean.upper_1)}`,
    clearance_m === null ? "-" : `${fixed(clearance_m.p05, 2)}, ${fixed(clearance_m.p50, 2)}`,
  ]);
  return [
    ...table(columns, rows, "  "),
    ...bullets([`two-sided intervals of Clopper and Pearson, ${percent(criteria.confidence_1)}`], width),
  ];
}

function hangUpLines({ hangUps }: ReleaseResult, { width }: Look): string[] {
  return bullets(
    hangUps.map(({ left, mass, outcome, bank_deg, pins, worstMode, timeToDouble_s, dampingRatio_1, waysOut }) => {
      const loads = pins.map(
        ({ name, tension_N, lateral_N }) =>
          `${name} pin ${formatQuantity(tension_N, "N", PLAIN)} along, ${formatQuantity(lateral_N, "N", PLAIN)} sideways`,
      );
      const motion =
        worstMode === null
          ? []
          : timeToDouble_s === null
            ? [`steady: ${worstMode}, damping ratio ${fixed(dampingRatio_1, 3)}`]
            : [`grows: ${worstMode} doubles in ${fixed(timeToDouble_s, 2)} s`];
      const ways = waysOut.map(({ way, outcome: end }) => `${way}: ${end}`);
      const bank = bank_deg === null ? [] : [`bank ${fixed(bank_deg, 1)}°`];
      return `${left} (${mass}): ${[outcome, ...bank, ...loads, ...motion].join(", ")}. Ways out: ${ways.join("; ")}`;
    }),
    width,
  );
}

function fallLines({ jettison, stub, paths }: ReleaseResult, { width }: Look): string[] {
  const falls = jettison.map(({ thing, height_m, still, inWind, footprint }) => {
    const half = `${fixed(footprint.halfAlong_m, 0)} by ${fixed(footprint.halfRight_m, 0)} m`;
    return `${thing} from ${formatFixed(height_m, 0)} m: ${fixed(still.along_m, 0)} m ahead in still air after ${fixed(still.time_s, 1)} s with ${fixed(still.speed_m_s, 0)} m/s; in the wind ${fixed(inWind.along_m, 0)} m ahead, ${fixed(inWind.right_m, 0)} m right; half axes of the footprint ${half}`;
  });
  const left =
    stub === null || stub.aboveLowest_m === null
      ? []
      : [
          `stub of ${formatQuantity(stub.length_m, "m", PLAIN)}: its end ${fixed(stub.aboveLowest_m, 2)} m above the aircraft's lowest point`,
        ];
  const times = paths.map(
    ({ path, mass, free_s, clear_s }) =>
      `${path} (${mass}): free after ${fixed(free_s, 2)} s, clear after ${fixed(clear_s, 1)} s`,
  );
  return bullets([...falls, ...left, ...times], width);
}

function carrierLines({ carrier }: ReleaseResult, { width }: Look): string[] {
  return bullets(
    carrier.map(({ mass, loadFactor_1, closedForm_1, pitch_deg, trimMoment_N_m }) =>
      loadFactor_1 === null
        ? `${mass}: the pair gives no dynamics of the carrier`
        : `${mass}: load factor changes by ${fixed(loadFactor_1, 3)} (at the same angle of attack ${fixed(closedForm_1, 3)}), pitch by ${fixed(pitch_deg, 2)}° with controls held; a moment of ${formatQuantity(trimMoment_N_m!, "N m", PLAIN)} nose up ends`,
    ),
    width,
  );
}

/** Text of one `ReleaseResult` for a terminal: at most 100 columns, understood without colour, a newline at the end. */
export function releaseText(result: ReleaseResult, meta: StudyTextMeta, options: TextOptions = {}): string {
  const look = { width: widthOf(options), colour: options.colour === true };
  const letters = Object.entries(OUTCOME_LETTERS).map(([outcome, letter]) => `${letter} ${outcome}`);
  const lines = [
    ...headLines("Release", "subject", result, meta, look),
    ...section("CASES", caseTable(result, look)),
    ...section("WITHDRAWAL", withdrawalLines(result, look)),
    ...section("ENVELOPE", [
      ...result.envelopes.flatMap((map) => envelopeLines(map, look.width)),
      ...paragraph(letters.join("  "), look.width, "  "),
      ...bullets([`limiting: ${result.limiting ?? "none"}`], look.width),
    ]),
    ...section("ROUGH AIR", roughLines(result, look)),
    ...section("HANG-UPS", hangUpLines(result, look)),
    ...section("WHAT FALLS, AND TIMES", fallLines(result, look)),
    ...section("CARRIER", carrierLines(result, look)),
    ...tailLines(result, meta, look),
  ];
  return `${lines.join("\n")}\n`;
}
