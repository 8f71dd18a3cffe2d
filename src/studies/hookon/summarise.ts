import type { SampleTable } from "../samples/types.ts";
import type { HookonCondition } from "./conditions.ts";
import { attemptsFor, missOf, outcomeShare, quantityOf } from "./statistics.ts";
import { HOOKON_OUTCOMES, type HookonCase, type SampledQuantity, type ShownApproach } from "./types.ts";

/** Points of the pictures; more would hide each other. */
const MOST_SHOWN = 300;
const DEGREES = 180 / Math.PI;

/** Quantities of contact and ring-down that are summarised, by column; angles become degrees. */
const QUANTITIES = [
  "closure_m_s",
  "lateral_m_s",
  "contactAngle_rad",
  "impulse_N_s",
  "axialLoad_N",
  "sideLoad_N",
  "bufferTravel_m",
  "funnelTilt_rad",
  "tipTravel_m",
  "pitch_rad",
  "bank_rad",
] as const;

/** What the summary asks of the pair. */
export interface SummarySettings {
  readonly confidence: number;
  /** Probability of one success or more that attempts are counted for. */
  readonly attemptsFor: number;
  /** Largest distance of the head's centre from the axis that still enters [m]. */
  readonly captureRadius: number;
}

/**
 * Summary of one case from its rows: the same for rows drawn here and for stored shards of a batch.
 *
 * @param settings  confidence, circle of capture
 * @param condition what the rows were drawn in
 * @param table     rows in order of the sample index, at least one
 * @throws {DomainError} for a table without rows
 * @source README eq. 1–3
 * @verified summarise.test.ts
 */
export function summariseCase(settings: SummarySettings, condition: HookonCondition, table: SampleTable): HookonCase {
  const { columns, values, index } = table;
  const width = columns.length;
  const rows = index.length;
  const column = (name: string): Float64Array => {
    const at = columns.findIndex((each) => each.name === name);
    return Float64Array.from({ length: rows }, (_, i) => values[i * width + at]);
  };
  const outcomes = column("outcome");
  const contact = column("contact_s");
  const touched = (_: number, i: number): boolean => !Number.isNaN(contact[i]);
  const count = (code: number): number => outcomes.reduce((sum, each) => sum + (each === code ? 1 : 0), 0);
  const right = column("missRight_m");
  const down = column("missUp_m").map((up) => -up);
  const success = outcomeShare(
    column("locked").reduce((sum, each) => sum + each, 0),
    rows,
    settings.confidence,
  );
  return {
    key: condition.key,
    title: condition.title,
    ...{ sigma: condition.sigma.name, sigma_m_s: condition.sigma.value, controller: condition.controller },
    ...{ light: condition.light, bothAtOnce: condition.bothAtOnce, samples: rows },
    outcomes: HOOKON_OUTCOMES.map((outcome, code) => ({
      outcome,
      ...outcomeShare(count(code), rows, settings.confidence),
    })),
    success,
    miss: missOf(right, down, settings.captureRadius),
    quantities: QUANTITIES.map((name): SampledQuantity | null => {
      const { title, unit } = columns.find((each) => each.name === name)!;
      const own = column(name).filter(touched);
      if (unit !== "rad") return quantityOf({ key: name, title, unit: unit === "N·s" ? "N*s" : unit }, own);
      return quantityOf(
        { key: name, title, unit: "°" },
        own.map((angle) => angle * DEGREES),
      );
    }).filter((each) => each !== null),
    attempts: {
      byShare: attemptsFor(success.share_1, settings.attemptsFor),
      byBound: attemptsFor(success.exact_1.lower, settings.attemptsFor),
    },
    shown: shownOf(table, right, down, outcomes, column("closure_m_s"), column("axialLoad_N")),
  };
}

/** The first approaches, as the pictures show them. */
function shownOf(
  { index }: SampleTable,
  right: Float64Array,
  down: Float64Array,
  ...[outcomes, closure, axial]: readonly Float64Array[]
): ShownApproach[] {
  const happened = (value: number): number | null => (Number.isNaN(value) ? null : value);
  return Array.from({ length: Math.min(MOST_SHOWN, index.length) }, (_, i) => ({
    index: index[i],
    outcome: HOOKON_OUTCOMES[outcomes[i]],
    missRight_m: happened(right[i]),
    missDown_m: happened(down[i]),
    closure_m_s: happened(closure[i]),
    peakAxial_N: Number.isNaN(closure[i]) ? null : happened(axial[i]),
  }));
}
