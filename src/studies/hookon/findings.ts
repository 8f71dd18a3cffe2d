import { type Finding, type FindingContext, type FindingDraft, findingMaker } from "../finding/index.ts";
import type { HookonCriteria, HookonInputs } from "./inputs.ts";
import { missingDisturbances } from "./texts.ts";
import type { ComputedHookon, HookonCase } from "./types.ts";

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;

/** Everything the sampled approaches rest on. */
export function sampledPaths({ groups }: HookonInputs): string[] {
  const { pair, mechanism, approach, turbulence, plan, limits } = groups;
  return [...pair, ...mechanism, ...approach, ...turbulence, ...plan, ...limits];
}

function stillPaths({ groups }: HookonInputs): string[] {
  return [...groups.pair, ...groups.mechanism, ...groups.limits, ...groups.map];
}

/** A case in the design turbulence with the pair's own light and one controller. */
export function isDesign(inputs: Pick<HookonInputs, "design">, { sigma, light, bothAtOnce }: HookonCase): boolean {
  return sigma === inputs.design && light === null && !bothAtOnce;
}

/** All findings of the study. */
export function hookonFindings(inputs: HookonInputs, computed: ComputedHookon, context: FindingContext): Finding[] {
  const drafts = [
    ...computed.cases.flatMap((each) => caseFindings(inputs, each)),
    ...windowFindings(inputs, computed),
    ...captureFindings(inputs, computed),
    ...breakawayFindings(inputs, computed),
    ...disturbanceFindings(inputs),
  ];
  return drafts.map(findingMaker(context));
}

function criterionOf(
  { criteria }: HookonInputs,
  key: keyof HookonCriteria,
  text: string,
  sense: "at least" | "at most",
): NonNullable<FindingDraft["criterion"]> {
  const { value, source } = criteria[key];
  return { text, sense, limit: value, source };
}

function caseFindings(inputs: HookonInputs, each: HookonCase): FindingDraft[] {
  const { criteria, groups } = inputs;
  const rests = sampledPaths(inputs);
  const { share_1, count, of, exact_1 } = each.success;
  const judged = isDesign(inputs, each);
  const note =
    `${count} of ${of} approaches, ${percent(share_1)}; exact ${percent(criteria.confidence.value)} interval ` +
    `${percent(exact_1.lower)} to ${percent(exact_1.upper)}`;
  const failures = each.outcomes
    .filter(({ outcome, count: hits }) => outcome !== "locked, stable" && hits > 0)
    .map(({ outcome, count: hits }) => `${outcome} ${hits}`);
  const success: FindingDraft = {
    id: `hookon.success.${each.key}`,
    title: `Lower bound of the share that ends locked and stable, ${each.title}`,
    value: exact_1.lower,
    unit: "1",
    rests: [...rests, ...groups.criteria.success, ...groups.criteria.confidence],
    note: failures.length === 0 ? note : `${note}; ${failures.join(", ")}`,
    ...(judged
      ? {
          criterion: criterionOf(
            inputs,
            "success",
            `share of approaches that end locked and stable, shown with ${percent(criteria.confidence.value)} confidence`,
            "at least",
          ),
        }
      : {}),
  };
  if (!judged) return [success];
  return [success, attemptsFinding(inputs, each, rests), ...loadFindings(inputs, each, rests)];
}

function attemptsFinding(inputs: HookonInputs, each: HookonCase, rests: readonly string[]): FindingDraft {
  const { byBound, byShare } = each.attempts;
  const share = byShare === null ? "by the share itself more than a thousand" : `${byShare} by the share itself`;
  return {
    id: `hookon.attempts.${each.key}`,
    title: `Approaches for one success with ${percent(inputs.attemptsFor)}, by the lower bound, ${each.title}`,
    value: byBound,
    unit: "1",
    verdict: "information",
    rests,
    note: byBound === null ? "no number of approaches up to a thousand is enough" : share,
  };
}

/** Peak loads of the approaches against their limit loads; closure against practice. */
function loadFindings(inputs: HookonInputs, each: HookonCase, rests: readonly string[]): FindingDraft[] {
  const { groups } = inputs;
  const judged = [
    ["axialLoad_N", "axialLoad", "peak load along the probe, mean plus three standard deviations", "N", "load-along"],
    ["sideLoad_N", "sideLoad", "peak load across the probe, mean plus three standard deviations", "N", "load-across"],
    ["closure_m_s", "closure", "closure at contact, mean plus three standard deviations", "m/s", "closure"],
  ] as const;
  return judged.map(([column, key, text, unit, word]): FindingDraft => {
    const quantity = each.quantities.find((one) => one.key === column);
    const criterion = criterionOf(inputs, key, `${text}, within its limit`, "at most");
    const title = `${text.charAt(0).toUpperCase()}${text.slice(1)}, ${each.title}`;
    const common = { id: `hookon.contact.${word}.${each.key}`, title, unit, criterion };
    const own = [...rests, ...groups.criteria[key]];
    if (quantity === undefined) {
      return { ...common, value: null, verdict: "not analysed", rests: own, note: "no approach touched" };
    }
    const { p99, largest, count } = quantity;
    const note = `99 % ${p99.toFixed(2)} ${unit}, largest ${largest.toFixed(2)} ${unit}, ${count} approaches that touched`;
    return { ...common, value: quantity.mean3Sigma, rests: own, note };
  });
}

function windowFindings(inputs: HookonInputs, { window }: ComputedHookon): FindingDraft[] {
  const { groups, planned } = inputs;
  const rests = [...stillPaths(inputs), ...groups.approach];
  const { lower_m_s: lower, upper_m_s: upper, upperBecause } = window.simulated;
  const ends: FindingDraft[] = [
    {
      id: "hookon.window.lower",
      title: "Closure from which the latch trips and locks, on the axis in still air",
      value: lower,
      unit: "m/s",
      verdict: "information",
      rests: stillPaths(inputs),
      ...(lower === null ? { note: upperBecause } : { note: agreementNote(window.agreement_1.lower) }),
    },
    {
      id: "hookon.window.upper",
      title: "Closure at which a limit load is passed or the buffer comes to its stop",
      value: upper,
      unit: "m/s",
      verdict: "information",
      rests: stillPaths(inputs),
      note: `${upperBecause}; ${agreementNote(window.agreement_1.upper)}`,
    },
  ];
  const margin =
    lower === null ? null : Math.min(planned.closure - lower, (upper ?? inputs.map.closure) - planned.closure);
  const criterion = criterionOf(
    inputs,
    "windowMargin",
    "distance of the planned closure from either end of the closure window",
    "at least",
  );
  return [
    ...ends,
    {
      id: "hookon.window.margin",
      title: `Distance of the planned closure of ${planned.closure.toFixed(2)} m/s from the nearer end of the closure window`,
      value: margin,
      unit: "m/s",
      criterion,
      rests: [...rests, ...groups.criteria.windowMargin],
      ...(margin === null ? { verdict: "not met" as const, note: "no closure latches" } : {}),
    },
    {
      id: "hookon.window.planned",
      title: "Planned closure",
      value: planned.closure,
      unit: "m/s",
      criterion: criterionOf(inputs, "closure", "planned closure, within published practice", "at most"),
      rests: [...groups.approach, ...groups.criteria.closure],
    },
  ];
}

function agreementNote(share: number | null): string {
  return share === null
    ? "no closed form to compare with"
    : `closed form ${Math.abs(100 * share).toFixed(1)} % ${share < 0 ? "below" : "above"}`;
}

function captureFindings(inputs: HookonInputs, { maps }: ComputedHookon): FindingDraft[] {
  return maps.map((map, i) => ({
    id: `hookon.capture.radius${i === 0 ? "" : `-${i + 1}`}`,
    title: `Largest offset that latches at some closure, path at ${map.angle_deg.toFixed(1)}° to the axis`,
    value: map.captureRadius_m,
    unit: "m",
    verdict: "information" as const,
    rests: stillPaths(inputs),
    note:
      map.captureRadius_m === null
        ? "nothing latches"
        : `of offsets up to ${(1000 * inputs.map.offset).toFixed(0)} mm in ${inputs.map.steps} steps`,
  }));
}

function breakawayFindings(inputs: HookonInputs, { breakaway }: ComputedHookon): FindingDraft[] {
  const { groups } = inputs;
  const id = "hookon.breakaway.distance";
  const title = "Least vertical distance in a breakaway at the stated time of reaction, the carrier flying on";
  const criterion = criterionOf(inputs, "breakawayDistance", "vertical distance left in a breakaway", "at least");
  const rests = [...groups.breakaway, ...groups.criteria.breakawayDistance];
  if (breakaway === null || inputs.breakaway === null) {
    const note = "studies.hookon.breakaway is left out";
    return [{ id, title, value: null, unit: "m", criterion, verdict: "not analysed", rests, note }];
  }
  const { planned_m, longestReaction_s } = breakaway;
  const longest =
    longestReaction_s === null
      ? "no reaction is fast enough"
      : `longest reaction that leaves it ${longestReaction_s.toFixed(2)} s`;
  const note = `reaction ${inputs.breakaway.planned.toFixed(1)} s; ${longest}`;
  return [
    {
      id,
      title,
      value: planned_m,
      unit: "m",
      criterion,
      rests,
      note,
      ...(planned_m === null ? { verdict: "not met" } : {}),
    },
  ];
}

/** What the pair has no data for is said, never taken as zero. */
function disturbanceFindings(inputs: HookonInputs): FindingDraft[] {
  return missingDisturbances(inputs).map((what) => ({
    id: `hookon.disturbances.${what.replaceAll(/[^a-z]+/g, "-")}`,
    title: `Effect of the ${what}`,
    value: null,
    unit: "1",
    verdict: "not analysed" as const,
    rests: inputs.groups.approach,
    note: "the pair has no data for it: success, window and attempts stay uncleared",
  }));
}
