import type { Criterion, FindingDraft } from "../finding/index.ts";
import type { FitInputs, SourcedValue } from "./inputs.ts";
import type { ReadGroups } from "./read-pair.ts";
import type { ClearanceState, ComputedFit, FitResult, PairClearance } from "./types.ts";

/** Pair paths of what a finding may rest on. */
export interface Rests {
  readonly groups: ReadGroups;
  readonly body: (name: string) => readonly string[];
  readonly allBodies: readonly string[];
  /** Of the two bodies of a pair and the mechanism. */
  readonly pair: (pair: readonly [string, string]) => readonly string[];
}

function criterionOf(what: string, wanted: SourcedValue | null): { criterion?: Criterion } {
  if (wanted === null) return {};
  const text = `${what} at least ${(1e3 * wanted.value).toPrecision(3)} mm after the worst-case stack`;
  return { criterion: { text, sense: "at least", limit: wanted.value, source: wanted.source } };
}

export function inMillimetres(value: number): string {
  return `${(1e3 * value).toFixed(1)} mm`;
}

/** Those that are near or miss their criterion get a finding of their own; the others one together. */
function isOfInterest(least: number, worst: number, near: number, wanted: SourcedValue | null): boolean {
  return least < near || (wanted !== null && worst < wanted.value);
}

function stateWords(state: ClearanceState): string {
  return state === "unresolved" ? "; could not be shown apart" : state === "contact" ? "; they touch or overlap" : "";
}

/** Clearances along the stroke and at its two ends. */
export function clearanceDrafts(inputs: FitInputs, fit: ComputedFit, rests: Rests): FindingDraft[] {
  const wanted = inputs.criteria.movingClearance;
  const { criteria, settings } = rests.groups;
  const own = (one: PairClearance) => isOfInterest(one.least_m, one.leastAfterStack_m.worst, inputs.near, wanted);
  const moving = fit.clearances.filter((one) => one.kind === "moving");
  const drafts = moving.filter(own).map(
    (one): FindingDraft => ({
      id: `fit.clearance.${one.pair.join("+")}`,
      title: `Least clearance of ${one.pair[0]} to ${one.pair[1]} along the stroke, less the worst-case stack`,
      ...{ value: one.leastAfterStack_m.worst, unit: "m", ...criterionOf("clearance in motion", wanted) },
      note: `${inMillimetres(one.least_m)} drawn, ${inMillimetres(one.leastAfterStack_m.rss)} after the stack by root-sum-square, at boom angle ${one.at.boomAngle_deg.toFixed(1)}°${stateWords(one.state)}`,
      rests: [...rests.pair(one.pair), ...criteria, ...settings],
    }),
  );
  const others = moving.filter((one) => !own(one));
  if (others.length > 0) {
    const least = others.reduce((a, b) => (b.least_m < a.least_m ? b : a));
    drafts.push({
      id: "fit.clearance.others",
      title: `Least clearance of the other ${others.length} pairs along the stroke, less the worst-case stack`,
      ...{ value: least.leastAfterStack_m.worst, unit: "m", ...criterionOf("clearance in motion", wanted) },
      note: `${least.pair[0]} to ${least.pair[1]}`,
      rests: [...rests.allBodies, ...rests.groups.linkage, ...criteria, ...settings],
    });
  }
  return [...drafts, ...endDrafts(inputs, fit, rests), ...overlapDrafts(fit, rests)];
}

/** At rest at either end of the stroke: the nearest pair against the criterion for standing parts. */
function endDrafts(inputs: FitInputs, fit: ComputedFit, rests: Rests): FindingDraft[] {
  const wanted = inputs.criteria.staticClearance;
  if (fit.clearances.length === 0) return [];
  return (["stowed", "extended"] as const).map((end) => {
    const least = fit.clearances.reduce((a, b) => (b.atEnds_m[end] < a.atEnds_m[end] ? b : a));
    return {
      id: `fit.clearance.at-rest.${end}`,
      title: `Least clearance at rest, ${end}, less the worst-case stack`,
      ...{ value: least.atEnds_m[end] - fit.stack.worst_m, unit: "m", ...criterionOf("clearance at rest", wanted) },
      note: `${least.pair[0]} to ${least.pair[1]}, ${inMillimetres(least.atEnds_m[end])} drawn`,
      rests: [...rests.allBodies, ...rests.groups.linkage, ...rests.groups.criteria, ...rests.groups.settings],
    };
  });
}

function overlapDrafts(fit: ComputedFit, rests: Rests): FindingDraft[] {
  return fit.clearances
    .filter((one) => one.kind === "moving" && one.atEnds_m.stowed <= 0)
    .map((one) => ({
      id: `fit.overlap.${one.pair.join("+")}`,
      title: `${one.pair[0]} and ${one.pair[1]} touch or overlap as drawn, stowed`,
      ...{ value: 0, unit: "m", verdict: "not met" as const, rests: rests.pair(one.pair) },
      note: "mend the shapes, or declare the pair apart if it touches by design",
    }));
}

/** Gear and doors against the carrier and each other. */
export function gearDrafts(inputs: FitInputs, fit: ComputedFit, rests: Rests): FindingDraft[] {
  const wanted = inputs.criteria.movingClearance;
  const { criteria, settings } = rests.groups;
  const worst = (one: FitResult["gearClearances"][number]): number => one.least_m - fit.stack.worst_m;
  const own = (one: FitResult["gearClearances"][number]) => isOfInterest(one.least_m, worst(one), inputs.near, wanted);
  const drafts = fit.gearClearances.filter(own).map(
    (one): FindingDraft => ({
      id: `fit.gear.${one.pair.join("+")}`,
      title: `Least clearance of ${one.pair[0]} to ${one.pair[1]} while the ${one.group} moves, less the worst-case stack`,
      ...{ value: worst(one), unit: "m", ...criterionOf("clearance in motion", wanted) },
      note: `${inMillimetres(one.least_m)} drawn, at fraction ${one.at.fraction_1.toFixed(2)}${stateWords(one.state)}`,
      rests: [...rests.pair(one.pair), ...criteria, ...settings],
    }),
  );
  const others = fit.gearClearances.filter((one) => !own(one));
  if (others.length > 0) {
    const least = others.reduce((a, b) => (b.least_m < a.least_m ? b : a));
    drafts.push({
      id: "fit.gear.others",
      title: `Least clearance of the other ${others.length} pairs while gear and doors move, less the worst-case stack`,
      ...{ value: worst(least), unit: "m", ...criterionOf("clearance in motion", wanted) },
      note: `${least.pair[0]} to ${least.pair[1]}, ${inMillimetres(least.least_m)} drawn`,
      rests: [...rests.allBodies, ...rests.groups.linkage, ...criteria, ...settings],
    });
  }
  return drafts;
}

/** Parts in a jet or slipstream. */
export function zoneDrafts(fit: ComputedFit, rests: Rests): FindingDraft[] {
  return fit.zones
    .filter((one) => one.inside)
    .map((one) => ({
      id: `fit.zone.${one.part}+${one.zone}`,
      title: `${one.part} is in the zone ${one.zone} along part of the stroke; degrees of it`,
      value: one.angles_deg.reduce((sum, [from, to]) => sum + Math.abs(to - from), 0),
      ...{ unit: "deg", verdict: "information" as const, rests: rests.pair([one.part, one.zone]) },
      note: one.angles_deg.map(([from, to]) => `${from.toFixed(1)}° to ${to.toFixed(1)}°`).join(", "),
    }));
}
