import type { Criterion, FindingDraft, Limit } from "../finding/index.ts";
import type { BranchFamily, DivergenceSearch, LoadCurve, StaticStiffness } from "./types.ts";

/** What a condition's findings are made of. */
export interface EquilibriumEvidence {
  readonly families: readonly BranchFamily[];
  readonly divergence: readonly DivergenceSearch[];
  readonly stiffness: readonly StaticStiffness[];
  /** Loads along airspeed over the declared speed band, of `mass` alone. */
  readonly overBand: LoadCurve;
  readonly hookLoadLimit: { readonly value: number; readonly source: string } | null;
  readonly jackCapacity: number | null;
}

const AXES = {
  airspeed: { title: "Airspeed, EAS,", unit: "m/s" },
  boomAngle: { title: "Boom angle", unit: "deg" },
  weightShare: { title: "Weight share", unit: "%" },
} as const;

/** Pair paths of one mass of one condition, by what they feed. */
interface EquilibriumRests {
  readonly trim: readonly string[];
  readonly swing: readonly string[];
  readonly band: readonly string[];
  readonly limit: readonly string[];
}

/** Findings of one mass of one condition. */
export function equilibriumFindings(
  evidence: EquilibriumEvidence,
  id: string,
  mass: string,
  rests: EquilibriumRests,
): FindingDraft[] {
  const of = <T extends { readonly mass: string }>(all: readonly T[]): T[] => all.filter((each) => each.mass === mass);
  return [
    ...of(evidence.divergence).map((search) => divergenceFinding(search, id, mass, rests.swing)),
    ...of(evidence.stiffness).map((need) => stiffnessFinding(need, id, mass, rests.swing)),
    ...of(evidence.families).map((family) => countFinding(family, id, mass, rests.swing)),
    ...loadFindings(evidence, id, mass, rests),
  ];
}

function divergenceFinding(
  { along, unit, from, to, at, growingBelow, withoutTrim, places }: DivergenceSearch,
  id: string,
  mass: string,
  rests: readonly string[],
): FindingDraft {
  const { title } = AXES[along];
  const range = `searched ${show(from)} to ${show(to)} ${unit}`;
  const end = withoutTrim === 0 ? "at the lower end" : "at the lowest that trims";
  const below =
    growingBelow === 0
      ? `no real root grows ${end}`
      : `${growingBelow} real root${growingBelow > 1 ? "s" : ""} already grow${growingBelow > 1 ? "" : "s"} ${end}`;
  const gaps = withoutTrim === 0 ? "" : `; no trim at ${withoutTrim} of ${places} places, of which nothing is known`;
  const nowhere = withoutTrim === places;
  return {
    id: `${id}.${mass}.divergence-${along === "boomAngle" ? "boom-angle" : along === "weightShare" ? "weight-share" : along}`,
    title: `${title} at which a real root passes zero (static divergence), mass ${mass}`,
    ...{ value: at[0]?.value ?? null, unit: AXES[along].unit, rests },
    verdict: nowhere ? "not analysed" : "information",
    note: nowhere
      ? `the aircraft trims nowhere; ${range}`
      : at.length === 0
        ? `none ${withoutTrim === 0 ? "in the range" : "where it trims"}; ${below}; ${range}${gaps}`
        : `${at.map(({ value, plane }) => `${show(value)} ${unit} (${plane})`).join(", ")}; ${below}; ${range}${gaps}`,
  };
}

function stiffnessFinding(
  { trims, needed_N_m: needed, present_N_m: present }: StaticStiffness,
  id: string,
  mass: string,
  rests: readonly string[],
): FindingDraft {
  const positive = needed !== null && needed > 0;
  return {
    id: `${id}.${mass}.divergence-stiffness`,
    title: `Static tangential stiffness at the tip at which a real root passes zero, mass ${mass}`,
    ...{ value: positive ? needed : null, unit: "N/m", rests, verdict: trims ? "information" : "not analysed" },
    note: !trims
      ? "the aircraft does not trim at the condition"
      : positive
        ? `present: ${(present / 1e3).toPrecision(4)} kN/m, bending and accumulator in series; the snubber does not enter`
        : "no positive stiffness brings a real root to zero: weight and air hold the boom by themselves",
  };
}

function countFinding(family: BranchFamily, id: string, mass: string, rests: readonly string[]): FindingDraft {
  const held = family.elevator === "fixed" ? "elevator as at trim" : "elevator holding the weight share";
  const most = Math.max(...family.counts.map(({ balances }) => balances));
  const least = Math.min(...family.counts.map(({ balances }) => balances));
  const [first, last] = [family.counts[0], family.counts[family.counts.length - 1]];
  const folds =
    family.folds_m_s_EAS.length === 0
      ? "no two balances meet"
      : `balances meet at ${family.folds_m_s_EAS.map(show).join(", ")} m/s EAS`;
  return {
    id: `${id}.${mass}.balances-${family.elevator === "fixed" ? "fixed" : "held"}`,
    title: `Number of balances at the condition with the jack at its length, ${held}, mass ${mass}`,
    ...{ value: family.atCondition, unit: "1", rests, verdict: "information" },
    note: `${least === most ? `${most}` : `${least} to ${most}`} between ${show(first.airspeed_m_s_EAS)} and ${show(last.airspeed_m_s_EAS)} m/s EAS; ${folds}`,
  };
}

/** Smallest and largest of a load over its curve, with where the largest in magnitude is; `null` without any trim. */
function spanOf(curve: LoadCurve, values: readonly (number | null)[]) {
  let found: { low: number; high: number; at: number; most: number } | null = null;
  curve.values.forEach((x, i) => {
    const value = values[i];
    if (value === null) return;
    found ??= { low: value, high: value, at: x, most: value };
    found.low = Math.min(found.low, value);
    found.high = Math.max(found.high, value);
    if (Math.abs(value) > Math.abs(found.most)) {
      found.most = value;
      found.at = x;
    }
  });
  return found as { low: number; high: number; at: number; most: number } | null;
}

function loadFindings(
  evidence: EquilibriumEvidence,
  id: string,
  mass: string,
  rests: EquilibriumRests,
): FindingDraft[] {
  const curve = evidence.overBand;
  const hook = spanOf(curve, curve.hookLoad_N);
  const jack = spanOf(curve, curve.jackLoad_N);
  if (hook === null || jack === null) {
    const note = "the aircraft trims nowhere in the speed band";
    const title = `Largest load on the hook in trim over the speed band, mass ${mass}`;
    return [
      {
        id: `${id}.${mass}.hook-load`,
        title,
        value: null,
        unit: "N",
        verdict: "not analysed",
        note,
        rests: rests.trim,
      },
    ];
  }
  const kilo = (value: number): string => `${(value / 1e3).toPrecision(3)} kN`;
  const missing = curve.hookLoad_N.filter((load) => load === null).length;
  const gaps = missing === 0 ? "" : `; no trim at ${missing} of ${curve.values.length} airspeeds of the band`;
  const limit = evidence.hookLoadLimit;
  const hookCriterion: Criterion | null =
    limit === null
      ? null
      : {
          text: "load on the hook in trim over the speed band within its limit",
          sense: "at most",
          limit: limit.value,
          source: limit.source,
        };
  const capacity = evidence.jackCapacity;
  const jackCriterion: Criterion | null =
    capacity === null
      ? null
      : {
          text: "jack load in trim over the speed band within the jack's capacity",
          sense: "at most",
          limit: capacity,
          source: "jack capacity of the pair",
        };
  return [
    {
      id: `${id}.${mass}.hook-load`,
      title: `Largest load on the hook in trim over the speed band, mass ${mass}`,
      ...{ value: hook.high, unit: "N", rests: [...rests.trim, ...rests.band, ...rests.limit] },
      ...(hookCriterion === null ? { verdict: "information" as const } : { criterion: hookCriterion }),
      note: `${kilo(hook.low)} to ${kilo(hook.high)}, largest at ${show(hook.at)} m/s EAS${limit === null ? "; the pair states no limit" : ""}${gaps}`,
    },
    {
      id: `${id}.${mass}.jack-load-band`,
      title: `Largest load on the jack in trim over the speed band, magnitude, mass ${mass}`,
      ...{ value: Math.abs(jack.most), unit: "N", rests: [...rests.swing, ...rests.band, ...rests.limit] },
      ...(jackCriterion === null ? { verdict: "information" as const } : { criterion: jackCriterion }),
      note: `${kilo(jack.low)} to ${kilo(jack.high)}, positive towards a larger boom angle, largest at ${show(jack.at)} m/s EAS${jack.low * jack.high < 0 ? "; it changes its sign in the band" : ""}${gaps}`,
    },
  ];
}

/** Airspeeds that static divergence prohibits; nothing without one. */
export function divergenceLimits(searches: readonly DivergenceSearch[], id: string): Limit[] {
  return searches
    .filter(({ along, at, growingBelow }) => along === "airspeed" && growingBelow === 0 && at.length > 0)
    .map(({ mass, at, to }) => ({
      id: `${id}.${mass}.divergence`,
      title: `Airspeed above which a real root grows, mass ${mass}`,
      ...{ quantity: "airspeed EAS", lower: at[0].value, upper: to, unit: "m/s", status: "prohibited" as const },
      because: [`${id}.${mass}.divergence-airspeed`],
      note: `static divergence, ${at[0].plane}; nothing was searched above the listed airspeed`,
    }));
}

function show(value: number): string {
  return Number(value.toPrecision(5)).toString();
}
