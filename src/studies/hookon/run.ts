import type { FindingContext } from "../finding/index.ts";
import type { OpenReads } from "../hold/index.ts";
import { runClaims, type SimulatedShare } from "../hookon-claims/index.ts";
import type { SampleTable } from "../samples/types.ts";
import { breakawayCurve } from "./breakaway.ts";
import { captureMaps } from "./capture-map.ts";
import type { HookonCondition } from "./conditions.ts";
import { hookonFindings, sampledPaths } from "./findings.ts";
import type { HookonInputs } from "./inputs.ts";
import { hookonLimits } from "./limits.ts";
import { readHookonInputs } from "./read-pair.ts";
import { replayOf } from "./replay.ts";
import { drawTable, studyOf } from "./sampler.ts";
import { StraightRuns } from "./straight-runs.ts";
import { type SummarySettings, summariseCase } from "./summarise.ts";
import { assumptionsOf, notAnalysedOf } from "./texts.ts";
import type { ComputedHookon, HookonCase, HookonReplay, HookonResult } from "./types.ts";
import { windowOf } from "./window.ts";

export interface HookonContext {
  readonly variant: string;
  readonly reads: OpenReads;
  readonly hash: (paths: readonly string[]) => string;
  readonly version: string;
  /** Called between parts of the work with what comes next. */
  readonly progress?: (part: string, done: number, of: number) => void;
}

const DEGREES = 180 / Math.PI;

/**
 * The study `hookon`: what fraction of approaches captures, with which contact loads, in which closure window?
 *
 * Samples are drawn here, one case after the other; the same pair, seed and version give the same result.
 *
 * @param tables rows of some cases that were drawn elsewhere, by key of the case; the others are drawn here
 * @throws {InputError} naming what the pair lacks or what of it cannot be
 */
export function runHookon(context: HookonContext, tables: ReadonlyMap<string, SampleTable> = new Map()): HookonResult {
  const inputs = readHookonInputs(context.reads);
  const computed = computeHookon(inputs, context, tables);
  const findings: FindingContext = {
    ...{ study: "hookon", version: context.version, seed: inputs.seed, hash: context.hash },
  };
  const simulated = simulatedShares(inputs, computed.cases);
  const claims = runClaims({ reads: context.reads, findings, simulated });
  return {
    ...computed,
    claims: claims?.result ?? null,
    findings: [...hookonFindings(inputs, computed, findings), ...(claims?.findings ?? [])],
    limits: [...hookonLimits(inputs, computed), ...(claims?.limits ?? [])],
    assumptions: [...computed.assumptions, ...(claims?.assumptions ?? [])],
    notAnalysed: [...computed.notAnalysed, ...(claims?.notAnalysed ?? [])],
  };
}

/** Shares of the first controller by intensity, for a log of real attempts to be held against. */
function simulatedShares(inputs: HookonInputs, cases: readonly HookonCase[]): SimulatedShare[] {
  const [first] = inputs.conditions.controllers;
  return cases
    .filter(({ controller, light, bothAtOnce }) => controller === first && light === null && !bothAtOnce)
    .map(({ sigma, title, success }) => ({
      ...{ turbulence: sigma, title, hits: success.count, of: success.of, rests: sampledPaths(inputs) },
    }));
}

/** The study on plain physics arguments. */
export function computeHookon(
  inputs: HookonInputs,
  context: Pick<HookonContext, "variant" | "progress">,
  tables: ReadonlyMap<string, SampleTable> = new Map(),
): ComputedHookon {
  const { variant, progress } = context;
  const study = studyOf(inputs);
  const steps = study.conditions.length + 2;
  const { criteria, still } = inputs;
  const cases = study.conditions.map((condition, i) => {
    progress?.(condition.title, i, steps);
    const table = tables.get(condition.key) ?? drawTable(study, condition.key, inputs.samples);
    return summariseCase(summarySettings(inputs), condition, table);
  });
  progress?.("closure window", steps - 2, steps);
  const runs = new StraightRuns(still);
  const window = windowOf(still, runs, { most: inputs.map.closure, planned: inputs.planned.closure });
  progress?.("capture map", steps - 1, steps);
  const maps = captureMaps(runs, inputs.map);
  const replay = chosenReplay(inputs, study.conditions, cases);
  const { point } = inputs;
  return {
    study: "hookon",
    variant,
    point: {
      ...{ condition: point.condition, mass: point.mass, airspeed_m_s_EAS: point.equivalentAirspeed },
      ...{ altitude_m: point.altitude, boomAngle_deg: point.boomAngleDown * DEGREES, mass_kg: still.mass.mass },
    },
    seed: inputs.seed,
    samples: inputs.samples,
    confidence_1: criteria.confidence.value,
    attemptsFor_1: inputs.attemptsFor,
    design: inputs.design,
    criteria: {
      success_1: criteria.success.value,
      closure_m_s: criteria.closure.value,
      windowMargin_m_s: criteria.windowMargin.value,
      axialLoad_N: criteria.axialLoad.value,
      sideLoad_N: criteria.sideLoad.value,
      breakawayDistance_m: criteria.breakawayDistance.value,
    },
    cases,
    window,
    maps,
    breakaway:
      inputs.breakaway === null ? null : breakawayCurve(inputs.breakaway, inputs.criteria.breakawayDistance.value),
    replay,
    assumptions: assumptionsOf(inputs),
    notAnalysed: notAnalysedOf(inputs),
  };
}

/** What the summary of a case asks of the pair. */
export function summarySettings({ criteria, attemptsFor, still }: HookonInputs): SummarySettings {
  const { funnel, probe } = still.socket;
  const captureRadius = funnel.mouthRadius - probe.radius;
  return { confidence: criteria.confidence.value, attemptsFor, captureRadius };
}

/** The first approach of the design case that ends locked and stable, else the first of all. */
function chosenReplay(
  inputs: HookonInputs,
  conditions: readonly HookonCondition[],
  cases: readonly HookonCase[],
): HookonReplay | null {
  const at = conditions.findIndex(
    ({ sigma, light, bothAtOnce }) => sigma.name === inputs.design && light === null && !bothAtOnce,
  );
  const shown = cases[at]?.shown ?? [];
  const chosen = shown.find(({ outcome }) => outcome === "locked, stable") ?? shown[0];
  if (chosen === undefined) return null;
  const condition = conditions[at];
  const history = studyOf(inputs).sampler(condition.key).replay(chosen.index);
  return replayOf(history, { case: condition.title, index: chosen.index, outcome: chosen.outcome });
}
