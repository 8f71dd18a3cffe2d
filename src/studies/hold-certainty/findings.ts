import { type Criterion, type Finding, type FindingDraft, findingMaker } from "../finding/index.ts";
import { type HoldPartContext, restsOf } from "../hold/index.ts";
import type { Settings } from "./settings.ts";
import type { CertaintyResult, ConditionCertainty, PlaneCertainty } from "./types.ts";

const percent = (share: number, digits = 1): string => `${(100 * share).toFixed(digits)} %`;

/** Findings of every condition and plane. */
export function certaintyFindings(
  result: CertaintyResult,
  context: HoldPartContext,
  settings: Settings,
  settingPaths: readonly string[],
): Finding[] {
  const make = findingMaker(context.findings);
  return result.conditions.flatMap((condition) => {
    const own = restsOf(context.groups, condition.condition, condition.masses, false);
    const correlated = condition.correlations > 0 ? correlationPaths(context) : [];
    const rests = [...own.judged.longitudinal, ...settingPaths, ...correlated];
    return condition.planes
      .flatMap((plane) => planeFindings(context, condition, plane, settings))
      .map((draft) => make({ ...draft, rests }));
  });
}

/** Paths of the declared correlations. */
function correlationPaths(context: HoldPartContext): string[] {
  const view = context.reads();
  for (const { between, coefficient } of view.pair.correlations ?? []) void [between[0], between[1], coefficient.si];
  return view.paths();
}

type Draft = Omit<FindingDraft, "rests">;

function planeFindings(
  context: HoldPartContext,
  condition: ConditionCertainty,
  plane: PlaneCertainty,
  settings: Settings,
): Draft[] {
  const id = `hold.${condition.condition}.${plane.plane}.certainty`;
  const where = `${plane.plane} motion, ${condition.condition}`;
  const { rigidBodyDamping } = context.inputs.criteria;
  const criterion: Criterion = {
    text: `damping ratio that 95 % of the samples exceed, with ${percent(settings.confidence, 0)} confidence, at least ${rigidBodyDamping.value}`,
    sense: "at least",
    limit: rigidBodyDamping.value,
    source: rigidBodyDamping.source,
  };
  return [
    failingFinding(id, where, condition, plane),
    {
      id: `${id}.lower-bound`,
      title: `Worst damping ratio exceeded with 95 % probability, ${where}`,
      ...{ value: plane.lowerBound_1, unit: "1", criterion },
      note: `mean ${plane.mean_1.toFixed(4)}, standard deviation ${plane.standardDeviation_1.toFixed(4)}, nominal ${plane.nominal_1?.toFixed(4) ?? "without an oscillation"}`,
    },
    worstCaseFinding(id, where, condition, plane),
    distanceFinding(id, where, plane),
    ...driverFinding(id, where, plane),
    ...testFinding(id, where, plane),
  ];
}

function failingFinding(id: string, where: string, condition: ConditionCertainty, plane: PlaneCertainty): Draft {
  const { count, of, probability_1, lower_1, upper_1, otherwise } = plane.failing;
  const others =
    otherwise === 0 ? "" : `; in ${otherwise} of them by a structural mode, a real root or a missing trim alone`;
  return {
    id: `${id}.failing`,
    title: `Probability that some mode misses its criterion, ${where}`,
    ...{ value: probability_1, unit: "1" },
    note: `${count} of ${of} samples (${condition.method}, ${condition.values.length} uncertain values); ${percent(condition.confidence_1, 0)} interval ${percent(lower_1)} to ${percent(upper_1)}${others}`,
  };
}

function worstCaseFinding(id: string, where: string, condition: ConditionCertainty, plane: PlaneCertainty): Draft {
  const found = plane.worstCase;
  const title = `Worst damping ratio with every value within ± ${condition.bound_1} σ, ${where}`;
  if (found === null) {
    const note = "no point of the search had an oscillation";
    return { id: `${id}.worst-case`, title, value: null, unit: "1", verdict: "not analysed", note };
  }
  const note = `${found.agreeing} of ${found.starts} starts of the search end there`;
  return { id: `${id}.worst-case`, title, value: found.dampingRatio_1, unit: "1", note };
}

const WORDS: Readonly<Record<PlaneCertainty["distance"]["outcome"], string>> = {
  converged: "nearest point of the limit",
  "on the limit": "a point of the limit; a nearer one may exist where limits of several modes meet",
  "not reached": "the limit was not reached within this distance",
  flat: "no uncertain value changes this motion",
  "no value": "the nominal values have no modes",
};

function distanceFinding(id: string, where: string, plane: PlaneCertainty): Draft {
  const { outcome, sigma_1, probability_1, values } = plane.distance;
  const title = `Distance of the nominal values from the limit in standard deviations, ${where}`;
  const known = outcome === "converged" || outcome === "on the limit" || outcome === "not reached";
  const towards = values
    .slice(0, 3)
    .map(({ path, score_1 }) => `${path} ${score_1 >= 0 ? "+" : "−"}${Math.abs(score_1).toFixed(2)} σ`)
    .join(", ");
  const side = sigma_1 < 0 ? "negative: the nominal values miss the criterion; " : "";
  const note = `${side}${WORDS[outcome]}${towards === "" ? "" : `, at ${towards}`}; first-order probability of missing ${percent(probability_1)}`;
  return known
    ? { id: `${id}.distance`, title, value: sigma_1, unit: "1", note }
    : { id: `${id}.distance`, title, value: null, unit: "1", verdict: "not analysed", note: WORDS[outcome] };
}

function driverFinding(id: string, where: string, { drivers, driverPairs }: PlaneCertainty): Draft[] {
  const first = drivers[0];
  if (first === undefined || !(first.total_1 > 0)) return [];
  const note = `${first.paths.join(" with ")}; alone ${percent(first.firstOrder_1, 0)} ± ${percent(first.firstOrderError_1, 0)}, with interactions ${percent(first.total_1, 0)} ± ${percent(first.totalError_1, 0)} (1σ, ${driverPairs} pairs), linear ${percent(first.linear_1, 0)}`;
  const title = `Share of the largest driver in the variance of the worst damping ratio, ${where}`;
  return [{ id: `${id}.driver`, title, value: first.total_1, unit: "1", note }];
}

function testFinding(id: string, where: string, { tests }: PlaneCertainty): Draft[] {
  const best = tests[0];
  if (best === undefined) return [];
  const note = `${best.test}; probability of missing ${percent(best.failing_1)} if it confirms the nominal values, decides alone with ${percent(best.decides_1, 0)} chance`;
  const title = `Share of the variance that the best single ground test takes away, ${where}`;
  return [{ id: `${id}.test`, title, value: best.varianceBought_1, unit: "1", note }];
}
