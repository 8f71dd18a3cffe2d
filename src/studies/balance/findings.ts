import { type Finding, type FindingContext, type FindingDraft, findingMaker } from "../finding/index.ts";
import { changeDrafts } from "./change-findings.ts";
import { clock } from "./clock.ts";
import { groundDrafts } from "./ground-findings.ts";
import type { BalanceInputs } from "./inputs.ts";
import type { ReadGroups } from "./read-pair.ts";
import type { BalanceBranch, BalanceResult, WorstMoment } from "./types.ts";

export type Computed = Omit<BalanceResult, "findings" | "limits">;

const PAIR_ENVELOPE = "c.g. envelope of the pair";
const PAIR_MASSES = "largest masses of the pair";

/** All findings of the study. */
export function balanceFindings(
  inputs: BalanceInputs,
  result: Computed,
  groups: ReadGroups,
  context: FindingContext,
): Finding[] {
  const state = [...groups.masses, ...groups.mission];
  return [
    ...result.branches.map((branch) => marginDraft(inputs, branch, [...state, ...groups.envelope, ...groups.criteria])),
    massRange(result, [...state, ...groups.envelope]),
    ...largestMasses(inputs, result, [...state, ...groups.largest]),
    lateralDraft(inputs, result, [...state, ...groups.criteria]),
    ...changeDrafts(inputs, result.changes, { state, trim: [...state, ...groups.trim], criteria: groups.criteria }),
    ...groundDrafts(inputs, result, state, groups),
  ].map(findingMaker(context));
}

/** "leg at 3 h 20 min, 45 000 kg, 17.2 % MAC, forward limit 16.0 %". */
export function momentWords({ leg, time_s, mass_kg, cg_percentMac, side, limit_percentMac }: WorstMoment): string {
  const at = `${leg}, ${clock(time_s)} after the start`;
  return `${at}: ${mass_kg.toFixed(0)} kg, c.g. ${cg_percentMac.toFixed(2)} % MAC, ${side} limit ${limit_percentMac.toFixed(2)} %`;
}

function marginDraft(inputs: BalanceInputs, branch: BalanceBranch, rests: readonly string[]): FindingDraft {
  const { margin } = inputs.criteria;
  const limit = 100 * margin.value;
  const { worst } = branch;
  const missing = limit - worst.margin_percentMac;
  const moment = (0.01 * missing * inputs.chord.length * worst.mass_kg).toFixed(0);
  const mend =
    missing > 0
      ? `; ${moment} kg·m of moment towards the ${worst.side === "forward" ? "tail" : "nose"} would bring it back`
      : "";
  return {
    id: `balance.cg.margin.${branch.key}`,
    title: `Least margin of the carrier's c.g. to its limits, ${branch.title}`,
    ...{ value: worst.margin_percentMac, unit: "%", rests },
    criterion: {
      text: `margin to the c.g. limits at every moment at least ${Number(limit.toPrecision(4))} % of the chord`,
      ...{ sense: "at least", limit, source: `${margin.source}; limits: ${PAIR_ENVELOPE}` },
    },
    note: `${worst.margin_percentMac < 0 ? "outside the limits in " : ""}${momentWords(worst)}${mend}`,
  };
}

/** Whether every mass lies in the range that the limits cover. */
function massRange({ branches, envelope }: Computed, rests: readonly string[]): FindingDraft {
  const [low, high] = [envelope.mass_kg[0]!, envelope.mass_kg[envelope.mass_kg.length - 1]!];
  let least = { inside: Number.POSITIVE_INFINITY, title: "", mass: 0 };
  for (const { title, track } of branches) {
    for (const mass of track.mass_kg) {
      const inside = Math.min(mass - low, high - mass);
      if (inside < least.inside) least = { inside, title, mass };
    }
  }
  return {
    id: "balance.cg.mass-range",
    title: "Every mass lies between the least and the largest mass of the c.g. limits; margin",
    ...{ value: least.inside, unit: "kg", rests },
    criterion: {
      text: "mass inside the range of the c.g. limits",
      ...{ sense: "at least", limit: 0, source: PAIR_ENVELOPE },
    },
    note: `${least.mass.toFixed(0)} kg, ${least.title}; the limits cover ${low.toFixed(0)} to ${high.toFixed(0)} kg`,
  };
}

function largestMasses(
  { largest }: BalanceInputs,
  { branches, start }: Computed,
  rests: readonly string[],
): FindingDraft[] {
  const heaviest = (mass: (branch: BalanceBranch) => number): BalanceBranch =>
    branches.reduce((a, b) => (mass(b) > mass(a) ? b : a));
  const landing = heaviest(({ end }) => end.mass_kg);
  const zeroFuel = heaviest(({ zeroFuelMass_kg }) => zeroFuelMass_kg);
  const draft = (key: string, what: string, value: number, limit: number, note: string): FindingDraft => ({
    id: `balance.mass.${key}`,
    title: `Mass ${what}`,
    ...{ value, unit: "kg", rests, note },
    criterion: {
      text: `mass ${what} not above the largest`,
      ...{ sense: "at most", limit, source: PAIR_MASSES },
    },
  });
  return [
    draft(
      "take-off",
      "at take-off",
      start.mass_kg,
      largest.takeOff,
      "at the start of the mission; fuel for taxiing is not taken off",
    ),
    draft(
      "landing",
      "at landing",
      landing.end.mass_kg,
      largest.landing,
      `heaviest of all courses: ${landing.title}; a landing before the end of the mission is heavier, see the limits on fuel`,
    ),
    draft(
      "zero-fuel",
      "without fuel",
      zeroFuel.zeroFuelMass_kg,
      largest.zeroFuel,
      `heaviest of all courses: ${zeroFuel.title}; the carried aircraft is counted with its own fuel`,
    ),
  ];
}

function lateralDraft(inputs: BalanceInputs, { branches }: Computed, rests: readonly string[]): FindingDraft {
  const { lateral } = inputs.criteria;
  const worst = branches.reduce((a, b) => (Math.abs(b.lateral_m) > Math.abs(a.lateral_m) ? b : a));
  const side = Math.abs(worst.lateral_m) < 5e-4 ? "on the symmetry plane" : worst.lateral_m > 0 ? "right" : "left";
  return {
    id: "balance.cg.lateral",
    title: "Largest distance of the carrier's c.g. from the symmetry plane",
    ...{ value: Math.abs(worst.lateral_m), unit: "m", rests, note: `${side}; ${worst.title}` },
    criterion: {
      text: "c.g. beside the symmetry plane not farther than the limit",
      ...{ sense: "at most", limit: lateral.value, source: lateral.source },
    },
  };
}
