import type { FindingContext } from "../finding/index.ts";
import { branchesOf, plannedLegs, stateIn } from "./branches.ts";
import { stateChanges } from "./changes.ts";
import { balanceFindings, type Computed } from "./findings.ts";
import { groundStates } from "./ground.ts";
import type { BalanceInputs } from "./inputs.ts";
import { balanceLimits } from "./limits.ts";
import { loadingItems, loadingTotals } from "./loading.ts";
import { type OpenReads, readBalanceInputs } from "./read-pair.ts";
import { pointOf } from "./state.ts";
import { assumptions, notAnalysed } from "./texts.ts";
import { branchResult } from "./track.ts";
import type { BalanceResult } from "./types.ts";

export interface BalanceContext {
  readonly variant: string;
  readonly reads: OpenReads;
  readonly hash: (paths: readonly string[]) => string;
  readonly version: string;
  /** Called between parts of the work with what comes next. */
  readonly progress?: (part: string, done: number, of: number) => void;
}

/**
 * The study `balance`: where are the carrier's c.g. and trim in every state, including every release?
 *
 * Deterministic; no chance.
 *
 * @throws {InputError} naming what the pair lacks
 */
export function runBalance(context: BalanceContext): BalanceResult {
  const { inputs, groups } = readBalanceInputs(context.reads);
  const computed = computeBalance(inputs, context.variant, context.progress);
  const found: FindingContext = { study: "balance", version: context.version, seed: null, hash: context.hash };
  return {
    ...computed,
    findings: balanceFindings(inputs, computed, groups, found),
    limits: balanceLimits(inputs, computed),
  };
}

/** The study on plain physics arguments. */
export function computeBalance(
  inputs: BalanceInputs,
  variant: string,
  progress?: BalanceContext["progress"],
): Computed {
  const step = (part: string, done: number): void => progress?.(part, done, 3);
  const { chord, envelope, largest, condition } = inputs;
  step("courses of the mission", 0);
  const branches = branchesOf(inputs);
  const tracks = branches.map((branch) => branchResult(inputs, branch));
  step("changes of state", 1);
  const changes = stateChanges(inputs);
  step("ground", 2);
  const legs = plannedLegs(inputs);
  const percent = (column: Float64Array): number[] => Array.from(column, (share) => 100 * share);
  return {
    ...{ study: "balance", variant, chord: { leadingEdge_m: chord.leadingEdge, length_m: chord.length } },
    envelope: {
      mass_kg: [...envelope.masses],
      forward_percentMac: percent(envelope.forward),
      aft_percentMac: percent(envelope.aft),
    },
    largest: { takeOff_kg: largest.takeOff, landing_kg: largest.landing, zeroFuel_kg: largest.zeroFuel },
    condition: {
      ...{ name: condition.name, airspeed_m_s_EAS: condition.equivalentAirspeed, altitude_m: condition.altitude },
    },
    ...{ items: loadingItems(inputs), totals: loadingTotals(inputs) },
    start: pointOf(inputs, stateIn(legs[0]!, 0), 0, legs[0]!.name),
    legs: legs.map(({ name, from, to }, i) => ({
      ...{ name, from_s: from, to_s: to, aircraft: inputs.legs[i]!.aircraft },
    })),
    branches: tracks,
    changes,
    ground: groundStates(inputs, branches),
    assumptions: assumptions(inputs),
    notAnalysed: notAnalysed(inputs),
  };
}
