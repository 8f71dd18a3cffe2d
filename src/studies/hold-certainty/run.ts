import { InputError } from "../../math/errors.ts";
import type { HoldCondition, HoldPartContext, HoldPartOutcome } from "../hold/index.ts";
import { restsOf } from "../hold/index.ts";
import { runSamples, type Samples, summarise } from "./distribution.ts";
import { driverShares, pairsFor, rankDrivers } from "./drivers.ts";
import { certaintyFindings } from "./findings.ts";
import { testGains } from "./ground-tests.ts";
import { type PatchedPair, patchedPair } from "./patched-pair.ts";
import { normalPoints, USE } from "./points.ts";
import { PLANES, SampledModel } from "./sampled-model.ts";
import { readSettings, type Settings } from "./settings.ts";
import { dampingSlopes } from "./slopes.ts";
import { certaintyAssumptions } from "./texts.ts";
import type { CertaintyResult, ConditionCertainty, PlaneCertainty } from "./types.ts";
import { type Variables, variablesOf } from "./variables.ts";
import { distanceToLimit, worstCase, worstSampleOf } from "./worst-case.ts";

/**
 * The part `certainty` of `hold`: how sure are we of the damping, what makes it uncertain, and which ground test would help most?
 *
 * Every uncertain value behind the modes is sampled; a sample depends on the seed and its number alone.
 *
 * @returns `null` when the pair has no section `studies.hold.certainty`
 * @throws {InputError} when no value that the modes rest on carries an uncertainty
 */
export function runCertainty(context: HoldPartContext): HoldPartOutcome<CertaintyResult> | null {
  const view = context.reads();
  const own = view.pair.studies?.hold?.certainty;
  if (own === undefined) return null;
  const settings = readSettings(own);
  const settingPaths = view.paths();
  const pair = context.reads();
  const patched = patchedPair(pair.pair);
  const conditions = context.inputs.conditions.map((condition) =>
    conditionCertainty(context, settings, patched, pair.pair.correlations ?? [], condition),
  );
  const result: CertaintyResult = { groundTests: settings.tests, conditions };
  return {
    result,
    findings: certaintyFindings(result, context, settings, settingPaths),
    limits: [],
    assumptions: certaintyAssumptions(result),
    notAnalysed: notAnalysed(result, context.inputs.carried.tables !== undefined),
    answers: ["certainty"],
  };
}

type Correlations = Parameters<typeof variablesOf>[4];

function conditionCertainty(
  context: HoldPartContext,
  settings: Settings,
  patched: PatchedPair,
  correlations: Correlations,
  condition: HoldCondition,
): ConditionCertainty {
  const { inputs, groups, seed } = context;
  const rests = restsOf(groups, condition.name, condition.masses, false).dynamics.longitudinal;
  const variables = variablesOf(patched.uncertain, rests, groups, condition.masses, correlations);
  const n = variables.paths.length;
  if (n === 0) throw noneUncertain(condition.name);
  const keep = groups.ratio.some((path) => patched.uncertain.has(path)) ? undefined : inputs;
  const model = new SampledModel(patched, condition, variables, keep);
  const say = (what: string): void => context.step(`${condition.name}, ${what}`);
  const percent = (done: number, of: number): string => `${Math.round((100 * done) / of)} %`;
  const points = normalPoints(settings.method, n, settings.samples, seed, USE.samples);
  const samples = runSamples(model, points, settings.samples, (done) =>
    say(`samples ${percent(done, settings.samples)}`),
  );
  const shares = driverShares(model, settings, seed, (done) =>
    say(`variance shares ${percent(done, pairsFor(settings.samples))}`),
  );
  const limit = inputs.criteria.rigidBodyDamping.value;
  const gains = testGains(model, points, samples, settings.tests, [limit, limit], settings.confidence, say);
  const planes = PLANES.map((plane, p): PlaneCertainty | null => {
    const summary = summarise(samples, p, model.masses, limit, settings.confidence);
    if (summary === null) return null;
    say(`worst case, ${plane}`);
    model.evaluate(new Float64Array(n));
    const nominal = Number.isNaN(model.zeta[p]!) ? null : model.zeta[p]!;
    const nominalMass = nominal === null ? null : model.masses[model.worstMass[p]!]!;
    const slopes = nominal === null ? null : dampingSlopes(model, nominalMass!, nominal);
    const worstSample = worstSampleOf(model, samples, points, p);
    const worst = worstCase(model, p, settings.bound, slopes, worstSample, seed);
    say(`distance to the limit, ${plane}`);
    const corner = Float64Array.from(
      variables.paths,
      (path) => worst?.values.find((one) => one.path === path)?.score_1 ?? 0,
    );
    return {
      ...{ plane, criterion_1: limit, nominal_1: nominal, nominalMass },
      ...summary,
      worstCase: worst,
      distance: distanceToLimit(model, p, worstSample === null ? [corner] : [corner, worstSample]),
      ...rankDrivers(model, shares.shares[p]!, slopes),
      driverPairs: shares.used,
      tests: gains[p]!,
    };
  });
  return describe(context, settings, patched, variables, samples, condition, planes);
}

function describe(
  context: HoldPartContext,
  settings: Settings,
  patched: PatchedPair,
  variables: Variables,
  samples: Samples,
  condition: HoldCondition,
  planes: readonly (PlaneCertainty | null)[],
): ConditionCertainty {
  return {
    condition: condition.name,
    masses: condition.masses,
    method: settings.method,
    samples: settings.samples,
    seed: context.seed,
    confidence_1: settings.confidence,
    bound_1: settings.bound,
    values: variables.values.map(({ path, text, si, uncertainty }) => ({
      ...{ path, text, nominal: si, sigma: uncertainty.sigma, distribution: uncertainty.distribution },
    })),
    correlations: variables.correlations,
    notUsed: [...patched.uncertain.keys()].filter((path) => !variables.paths.includes(path)).sort(),
    impossible: samples.impossible,
    noTrim: samples.noTrim,
    planes: planes.filter((plane) => plane !== null),
  };
}

function noneUncertain(condition: string): InputError {
  return new InputError([
    {
      path: "studies.hold.certainty",
      message: `no value that the modes of condition ${condition} rest on carries an uncertainty: there is nothing to sample`,
      allowed: "values such as 60 kN/m ± 8 % (1σ), or leave this section out",
    },
  ]);
}

function notAnalysed({ conditions }: CertaintyResult, tables: boolean): string[] {
  const unused = new Set(conditions.flatMap(({ notUsed }) => notUsed));
  for (const { values } of conditions) for (const { path } of values) unused.delete(path);
  const lines = [
    "Certainty of anything but the modes at the declared conditions: other parts of this study, but for the rule for retracting, take every value at its nominal.",
  ];
  if (tables)
    lines.push(
      "Uncertainty of the airload tables: their coefficients count as exact, so that the spread is too narrow.",
    );
  if (unused.size > 0)
    lines.push(`Uncertainty of values that the modes do not rest on: ${[...unused].sort().join(", ")}.`);
  return lines;
}
