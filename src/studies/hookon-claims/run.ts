import { furtherSuccesses, trialsNeeded } from "../../math/distributions/index.ts";
import { type Finding, type FindingContext, findingMaker, type Limit } from "../finding/index.ts";
import type { OpenReads } from "../hold/index.ts";
import {
  attemptsToCarry,
  checkPrediction,
  claimVerdict,
  countOf,
  estimateShare,
  groupingOf,
  learningOf,
  missScatter,
} from "./estimate.ts";
import { claimFindings, turbulenceLimit } from "./findings.ts";
import { planResult } from "./plan.ts";
import { type Attempt, type ClaimsSettings, type ClassSettings, readClaims } from "./settings.ts";
import type { ClaimClass, ClaimsResult, SimulatedShare } from "./types.ts";

/** What the claims need: the pair, how findings are made, and what was simulated. */
export interface ClaimsContext {
  /** Opens a view of the pair that notes what is read through it. */
  readonly reads: OpenReads;
  /** For `findingMaker`. */
  readonly findings: FindingContext;
  /** Simulated shares by class of turbulence, at most one a class; the comparison is left out where there is none. */
  readonly simulated?: readonly SimulatedShare[];
}

export interface ClaimsOutcome {
  readonly result: ClaimsResult;
  readonly findings: readonly Finding[];
  readonly limits: readonly Limit[];
  readonly assumptions: readonly string[];
  readonly notAnalysed: readonly string[];
}

const STANDARD = [
  [0.9, 0.9],
  [0.95, 0.95],
  [0.99, 0.95],
] as const;

/**
 * What the attempts flown so far may claim, by class of turbulence: the demonstrated share against its target, attempts to carry fuel for,
 * successes still needed, a plan that may end early, and whether the log agrees with the simulation.
 *
 * @returns `null` when the pair has no `studies.hookon.claims`
 * @source math/distributions eq. 5–16, math/sequential-test eq. 1–4, math/circle-share eq. 4
 * @verified run.test.ts: 18 of 20 gives 72 % with 95 % confidence
 */
export function runClaims(context: ClaimsContext): ClaimsOutcome | null {
  const settings = readClaims(context.reads);
  if (settings === null) return null;
  const { attempts, confidence, prior, sequential } = settings;
  const own = (name: string): Attempt[] => attempts.filter(({ turbulence }) => turbulence === name);
  const classes = settings.classes.map((each) => claimOf(each, own(each.name), settings, context.simulated ?? []));
  const grouped = (["turbulence", "light", "controller"] as const).map((by) => groupingOf(by, attempts, confidence));
  const result: ClaimsResult = {
    confidence_1: confidence,
    recovery_1: settings.recovery,
    attemptsCarried: settings.attemptsCarried,
    goAround: settings.goAround,
    prior,
    captureRadius_m: settings.captureRadius,
    log: settings.log,
    classes,
    pooled: estimateShare(countOf(attempts), confidence, prior),
    groupings: grouped.filter((each) => each !== null),
    learning: learningOf(attempts),
    sequential:
      sequential === null
        ? null
        : planResult(
            sequential,
            settings.classes.map(({ name }) => ({ name, attempts: own(name) })),
          ),
    demonstrations: STANDARD.map(([share, sure]) => ({
      share_1: share,
      confidence_1: sure,
      trials: [0, 1, 2].map((failures) => trialsNeeded(share, sure, failures)),
    })),
  };
  const limit = turbulenceLimit(result);
  return {
    result,
    findings: claimFindings(result, settings, context.simulated ?? []).map(findingMaker(context.findings)),
    limits: limit === null ? [] : [limit],
    assumptions: assumptionsOf(result),
    notAnalysed: openOf(result),
  };
}

function claimOf(
  own: ClassSettings,
  attempts: readonly Attempt[],
  settings: ClaimsSettings,
  simulated: readonly SimulatedShare[],
): ClaimClass {
  const { confidence, prior, recovery, captureRadius } = settings;
  const count = countOf(attempts);
  const estimate = estimateShare(count, confidence, prior);
  const prediction = simulated.find(({ turbulence, of }) => turbulence === own.name && of > 0);
  let failures = 0;
  return {
    name: own.name,
    sigmaUpTo_m_s: own.sigmaUpTo,
    target_1: own.target,
    targetSource: own.targetSource,
    estimate,
    verdict: claimVerdict(estimate, own.target),
    further: furtherSuccesses(count, own.target, confidence),
    attempts: attemptsToCarry(estimate, recovery),
    outcomes: outcomesOf(attempts),
    misses: missScatter(attempts, captureRadius),
    prediction: prediction === undefined || count.of === 0 ? null : checkPrediction(count, prediction, confidence),
    failuresAfter: attempts.map(({ captured }) => {
      if (!captured) failures++;
      return failures;
    }),
  };
}

function outcomesOf(attempts: readonly Attempt[]) {
  const counts = new Map<string, number>();
  for (const { outcome } of attempts) counts.set(outcome, (counts.get(outcome) ?? 0) + 1);
  return [...counts]
    .map(([outcome, count]) => ({ outcome, count }))
    .sort((a, b) => b.count - a.count || (a.outcome < b.outcome ? -1 : 1));
}

function assumptionsOf({ log, goAround, sequential, classes, prior }: ClaimsResult): string[] {
  const counted = goAround === "failed attempt" ? "counts as a failed attempt" : "is left out";
  const plan =
    "Claims: the plan that may end early holds for attempts of one class, made and counted in order; whoever joins classes or begins it anew changes its risks.";
  const scatter =
    "Claims: misses are compared with a normal distribution of their own mean and scatter; it says nothing of its tails.";
  return [
    "Claims: attempts of one class are independent and have one probability of capture; attempts of one day, one crew and one air are not quite, and the bounds are then too narrow.",
    "Claims: class of turbulence, target, confidence and number of attempts are stated before the attempts; bounds that are looked at after every attempt claim more than they hold.",
    ...(log === null
      ? []
      : [
          `Claims: only a probe that is locked is a capture, half-locked is none; a go-around before the contact ${counted}.`,
        ]),
    `Claims: the beta prior has ${prior.hits} captures and ${prior.misses} failures; it enters the posterior alone, no verdict.`,
    ...(sequential === null ? [] : [plan]),
    ...(classes.some(({ misses }) => misses?.inCircle_1 != null) ? [scatter] : []),
  ];
}

function openOf({ log, classes }: ClaimsResult): string[] {
  if (log === null) return ["Claims of trials: the pair has no log of attempts; nothing is demonstrated."];
  const empty = classes.filter(({ verdict }) => verdict === "no attempts").map(({ name }) => name);
  const alone = classes
    .filter(({ estimate, prediction }) => estimate.of > 0 && prediction === null)
    .map(({ name }) => name);
  return [
    ...(empty.length === 0 ? [] : [`Claims of trials: no attempt in turbulence ${empty.join(", ")}.`]),
    ...(alone.length === 0
      ? []
      : [`Claims of trials: no simulated share to compare the log with in turbulence ${alone.join(", ")}.`]),
    "Claims of trials: light, controller and turbulence together in one model; each is looked at alone.",
  ];
}
