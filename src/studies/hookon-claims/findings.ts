import type { FindingDraft, Limit } from "../finding/index.ts";
import type { ClaimsSettings } from "./settings.ts";
import type { ClaimClass, ClaimsResult, SimulatedShare } from "./types.ts";

const percent = (share: number): string => `${Number((100 * share).toPrecision(3))} %`;
const chance = (p: number): string => (p < 1e-4 ? "less than 0.0001" : String(Number(p.toPrecision(2))));

/** Findings of the claims, class by class, then those over all attempts. */
export function claimFindings(
  result: ClaimsResult,
  settings: ClaimsSettings,
  simulated: readonly SimulatedShare[],
): FindingDraft[] {
  return [
    ...result.classes.flatMap((claim) => classFindings(claim, result, settings, simulated)),
    ...togetherFindings(result, settings),
  ];
}

function classFindings(
  claim: ClaimClass,
  result: ClaimsResult,
  settings: ClaimsSettings,
  simulated: readonly SimulatedShare[],
): FindingDraft[] {
  const own = settings.classes.find(({ name }) => name === claim.name)!;
  const rests = [...settings.paths.claim, ...own.paths];
  const id = `hookon.claims.${claim.name}`;
  const { estimate, further } = claim;
  const drafts: FindingDraft[] = [shareFinding(id, claim, result, rests)];
  if (further !== null) {
    const sure = percent(result.confidence_1);
    drafts.push({
      id: `${id}.further`,
      title: `Further captures without a failure until ${percent(claim.target_1)} is demonstrated in turbulence "${claim.name}"`,
      value: further,
      unit: "1",
      note: `with ${sure} confidence; ${estimate.of - estimate.hits} failures so far among ${estimate.of} attempts; each further failure raises the number`,
      rests,
    });
  }
  drafts.push(carryFinding(id, claim, result, [...rests, ...settings.paths.recovery]));
  if (claim.prediction !== null) {
    const from = simulated.find(({ turbulence }) => turbulence === claim.name)!.rests;
    drafts.push(predictionFinding(id, claim, [...rests, ...from]));
  }
  if (claim.misses?.inCircle_1 != null) {
    const { inCircle_1, counted_1, count } = claim.misses;
    drafts.push({
      id: `${id}.misses`,
      title: `Share of normally scattered misses inside the capture radius in turbulence "${claim.name}"`,
      value: inCircle_1,
      unit: "1",
      note: `mean and scatter of ${count} logged misses; ${percent(counted_1!)} of them lie inside, ${percent(estimate.share_1!)} of the attempts were captures`,
      rests: [...rests, ...settings.paths.captureRadius],
    });
  }
  return drafts;
}

function shareFinding(id: string, claim: ClaimClass, result: ClaimsResult, rests: readonly string[]): FindingDraft {
  const { estimate, verdict, target_1, targetSource, name } = claim;
  const sure = percent(result.confidence_1);
  const seen = `${estimate.hits} of ${estimate.of} attempts locked`;
  const words = {
    demonstrated: `demonstrated: ${seen}`,
    "not demonstrated": `not demonstrated: ${seen}; the true share may be as low as ${percent(estimate.lower_1)} or as high as ${percent(estimate.upper_1)}, each with ${sure}`,
    "shown to fall short": `shown to fall short: ${seen}; the true share is below ${percent(estimate.upper_1)} with ${sure}`,
    "no attempts": "no attempt in this class: nothing is demonstrated",
  }[verdict];
  return {
    id: `${id}.share`,
    title: `Demonstrated probability of capture in one attempt in turbulence "${name}", exact lower bound`,
    value: verdict === "no attempts" ? null : estimate.lower_1,
    unit: "1",
    criterion: {
      text: `lower bound of the probability of capture at least ${percent(target_1)}, one-sided with ${sure} confidence`,
      sense: "at least",
      limit: target_1,
      source: targetSource,
    },
    ...(verdict === "no attempts" ? { verdict: "not analysed" as const } : {}),
    note: words,
    rests,
  };
}

function carryFinding(id: string, claim: ClaimClass, result: ClaimsResult, rests: readonly string[]): FindingDraft {
  const { atShare, atLower, atUpper } = claim.attempts;
  const { attemptsCarried: carried, recovery_1 } = result;
  const word = (n: number | null): string => (n === null ? "no number is enough" : String(n));
  const none = claim.verdict === "no attempts";
  const bounds = `at the share seen ${word(atShare)}, at its upper bound ${word(atUpper)}`;
  const verdict = none ? "not analysed" : atLower === null ? "not met" : undefined;
  return {
    id: `${id}.attempts`,
    title: `Attempts to carry fuel for in turbulence "${claim.name}", at the demonstrated lower bound`,
    value: atLower,
    unit: "1",
    ...(carried === null
      ? {}
      : {
          criterion: {
            text: `at most the ${carried} attempts that fuel is carried for`,
            sense: "at most",
            limit: carried,
            source: "attempts carried as the pair states them",
          } as const,
        }),
    ...(verdict === undefined ? {} : { verdict }),
    note: none
      ? "no attempt in this class: no number can be stated"
      : `for at least one capture with ${percent(recovery_1)}; ${bounds}${atLower === null ? "; at the lower bound no number is enough" : ""}; attempts taken as independent`,
    rests,
  };
}

function predictionFinding(id: string, claim: ClaimClass, rests: readonly string[]): FindingDraft {
  const { p_1, differs, share_1, hits, of, title, showsBelow, showsAbove } = claim.prediction!;
  const { estimate } = claim;
  const shows = [
    ...(showsBelow < 0 ? [] : [`${showsBelow} or fewer`]),
    ...(showsAbove > estimate.of ? [] : [`${showsAbove} or more`]),
  ];
  const power =
    shows.length === 0
      ? `no count among ${estimate.of} attempts could show a difference`
      : `only ${shows.join(", or ")} captures among ${estimate.of} would show a difference`;
  const outcome = differs
    ? "the log contradicts the simulation"
    : "no difference shown, which is no proof of agreement";
  return {
    id: `${id}.prediction`,
    title: `Probability of such a difference between log and simulation in turbulence "${claim.name}"`,
    value: p_1,
    unit: "1",
    verdict: differs ? "not met" : "information",
    note: `${outcome}: ${estimate.hits} of ${estimate.of} in the log, ${hits} of ${of} (${percent(share_1)}) in ${title}; Fisher's exact test, two-sided; ${power}`,
    rests,
  };
}

function togetherFindings(result: ClaimsResult, settings: ClaimsSettings): FindingDraft[] {
  const drafts: FindingDraft[] = [];
  const every = [...settings.paths.claim, ...settings.classes.flatMap(({ paths }) => paths)];
  const { learning, sequential } = result;
  if (learning !== null) {
    const { first, second, p_1 } = learning;
    drafts.push({
      id: "hookon.claims.learning",
      title: "Probability of such a difference between the first and the second half of the attempts",
      value: p_1,
      unit: "1",
      note: `${first.hits} of ${first.of}, then ${second.hits} of ${second.of}; Fisher's exact test, two-sided. A build-up goes from smooth to rough air and from one controller to another, so that learning and circumstances cannot be told apart here`,
      rests: every,
    });
  }
  for (const { by, groups, least_1 } of result.groupings) {
    const odd = groups.reduce((a, b) => (b.p_1 < a.p_1 ? b : a));
    const caution =
      by === "turbulence"
        ? "; classes that differ must not be pooled"
        : "; what else differed between them is not taken out";
    drafts.push({
      id: `hookon.claims.difference.${by}`,
      title: `Probability of such differences between attempts by ${by}`,
      value: least_1,
      unit: "1",
      note: `furthest from all others: ${odd.name} with ${odd.hits} of ${odd.of} (alone ${chance(odd.p_1)}); Fisher's exact test, two-sided, times the number of comparisons${caution}`,
      rests: every,
    });
  }
  if (sequential !== null) {
    const states = sequential.classes.map(
      ({ name, outcome, attempts, failures }) =>
        `${name}: ${outcome} after ${attempts} attempts with ${failures} failures`,
    );
    drafts.push({
      id: "hookon.claims.plan",
      title: "Expected attempts of the plan that may end early, if the share is the acceptable one",
      value: sequential.expectedAtAcceptable,
      unit: "1",
      note: `${percent(sequential.acceptable_1)} refused with ${percent(sequential.refusingGood_1)}, ${percent(sequential.unacceptable_1)} accepted with ${percent(sequential.acceptingBad_1)}, at most ${sequential.most} attempts, exact${states.length === 0 ? "" : `; ${states.join("; ")}`}`,
      rests: [...every, ...settings.paths.sequential],
    });
  }
  return drafts;
}

/** Turbulence up to which every class is demonstrated; nothing where the pair gives no σ. */
export function turbulenceLimit({ classes }: ClaimsResult): Limit | null {
  const graded = classes.filter(({ sigmaUpTo_m_s }) => sigmaUpTo_m_s !== null);
  if (graded.length === 0) return null;
  let upper: number | null = null;
  const because: string[] = [];
  let open: string | null = null;
  for (const { name, verdict, sigmaUpTo_m_s } of graded) {
    because.push(`hookon.claims.${name}.share`);
    if (verdict !== "demonstrated") {
      open = `${name}: ${verdict}`;
      break;
    }
    upper = sigmaUpTo_m_s;
  }
  return {
    id: "hookon.claims.turbulence",
    title: "Turbulence in which the probability of capture is demonstrated",
    quantity: "intensity σ of vertical gusts",
    lower: upper === null ? null : 0,
    upper,
    unit: "m/s",
    status: upper === null ? "not cleared" : "demonstrated",
    because,
    note: `of capture alone, not of loads or breakaway${open === null ? "" : `; ${open}`}`,
  };
}
