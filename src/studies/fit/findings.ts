import {
  type Criterion,
  type Finding,
  type FindingContext,
  type FindingDraft,
  findingMaker,
} from "../finding/index.ts";
import { clearanceDrafts, gearDrafts, type Rests, zoneDrafts } from "./clearance-findings.ts";
import { DEGREE } from "./frames.ts";
import { groundDrafts, loadingDrafts } from "./ground-findings.ts";
import type { FitInputs } from "./inputs.ts";
import { mapDrafts } from "./map-findings.ts";
import type { ReadGroups } from "./read-pair.ts";
import { TOLERANCE_SEED } from "./tolerance.ts";
import type { ComputedFit } from "./types.ts";

/** All findings of the study. */
export function fitFindings(
  inputs: FitInputs,
  fit: ComputedFit,
  groups: ReadGroups,
  context: FindingContext,
): Finding[] {
  const make = findingMaker(context);
  const sampled = findingMaker({ ...context, seed: TOLERANCE_SEED });
  const rests = restsOf(groups);
  return [
    ...meshDrafts(fit, rests).map(make),
    ...strokeDrafts(inputs, fit, rests).map(make),
    ...attitudeDrafts(fit, rests).map(make),
    ...sampledDrafts(fit, rests).map(sampled),
    ...clearanceDrafts(inputs, fit, rests).map(make),
    ...gearDrafts(inputs, fit, rests).map(make),
    ...mapDrafts(inputs, fit, rests).map(make),
    ...zoneDrafts(fit, rests).map(make),
    ...groundDrafts(inputs, fit, rests).map(make),
    ...loadingDrafts(fit, rests).map(make),
  ];
}

function restsOf(groups: ReadGroups): Rests {
  const body = (name: string): readonly string[] => groups.bodies.get(name) ?? [];
  return {
    groups,
    body,
    allBodies: [...groups.bodies.values()].flat(),
    pair: ([a, b]) => [...body(bodyOf(a)), ...body(bodyOf(b)), ...groups.linkage],
  };
}

/** Body of a part's name. */
function bodyOf(part: string): string {
  return part.split(".")[0];
}

function meshDrafts(fit: ComputedFit, rests: Rests): FindingDraft[] {
  return fit.parts
    .filter((part) => part.faults.length > 0)
    .map((part) => ({
      id: `fit.surface.${part.name}`,
      title: `Surface of ${part.name} is no sound solid: its clearances cannot be trusted`,
      ...{ value: null, unit: "1", verdict: "not met", note: part.faults.join("; "), rests: rests.body(part.body) },
    }));
}

function strokeDrafts(inputs: FitInputs, fit: ComputedFit, rests: Rests): FindingDraft[] {
  const { linkage, criteria, capacity, masses } = rests.groups;
  const events = fit.strokeEvents.map(
    ({ kind, boomAngle_deg, joint }) =>
      `${kind}${joint === null ? "" : ` of ${joint}`} at ${boomAngle_deg.toFixed(2)}°`,
  );
  const reached = fit.stroke.at(-1)?.boomAngle_deg ?? null;
  const isSound = fit.strokeOutcome === "complete" && fit.strokeEvents.length === 0;
  const drafts: FindingDraft[] = [
    {
      id: "fit.stroke",
      title: "The mechanism runs from stowed to extended on one assembly branch, without dead point; angle reached",
      ...{ value: reached, unit: "deg", verdict: isSound ? "met" : "not met", rests: linkage },
      note: [`stroke: ${fit.strokeOutcome}`, ...events].join("; "),
    },
  ];
  if (fit.stroke.length === 0) return drafts;
  const least = fit.stroke.reduce((a, b) => (b.transmissionAngle_deg < a.transmissionAngle_deg ? b : a));
  const wanted = inputs.criteria.transmissionAngle;
  drafts.push({
    id: "fit.transmission-angle",
    title: "Least transmission angle of jack and coupler along the stroke",
    ...{ value: least.transmissionAngle_deg, unit: "deg", rests: [...linkage, ...criteria] },
    ...(wanted === null
      ? {}
      : { criterion: atLeast("transmission angle", wanted.value / DEGREE, "deg", wanted.source) }),
    note: `at boom angle ${least.boomAngle_deg.toFixed(1)}°: jack ${least.jackTransmissionAngle_deg.toFixed(1)}°, coupler ${least.couplerTransmissionAngle_deg?.toFixed(1) ?? "none"}${least.couplerTransmissionAngle_deg === null ? "" : "°"}`,
  });
  const loads = fit.stroke.flatMap((point) => point.jackLoads.map((load) => ({ ...load, angle: point.boomAngle_deg })));
  const largest = loads.reduce<{ size: number; words: string } | null>(
    (most, { load_N, mass, weightShare_1, angle }) => {
      if (load_N === null || Math.abs(load_N) <= (most?.size ?? -1)) return most;
      const sense = load_N < 0 ? "tension" : "compression";
      return {
        size: Math.abs(load_N),
        words: `${sense}, at boom angle ${angle.toFixed(1)}°, mass ${mass}, ${100 * weightShare_1} % of the weight on the mechanism`,
      };
    },
    null,
  );
  const limit = inputs.linkage.jackCapacity;
  drafts.push({
    id: "fit.jack-load",
    title: "Largest load on the jack along the stroke",
    ...{ value: largest?.size ?? null, unit: "N", rests: [...linkage, ...masses, ...capacity] },
    ...(limit === null
      ? { verdict: "information" as const }
      : {
          criterion: {
            text: "jack load not above the capacity of the jack",
            sense: "at most" as const,
            ...{ limit, source: "jack capacity of the pair" },
          },
        }),
    ...(largest === null
      ? { verdict: "not met" as const, note: "the jack moves nothing at any pose" }
      : { note: largest.words }),
  });
  return drafts;
}

/** Criterion "at least". */
export function atLeast(what: string, limit: number, unit: string, source: string): Criterion {
  return { text: `${what} at least ${Number(limit.toPrecision(6))} ${unit}`, sense: "at least", limit, source };
}

function attitudeDrafts(fit: ComputedFit, rests: Rests): FindingDraft[] {
  return fit.tolerance.map((one) => ({
    id: `fit.attitude.${one.pose}`,
    title: `Error of the carried aircraft's pitch from the tolerances of the mechanism, ${one.pose}, root-sum-square`,
    ...{ value: one.rss_deg, unit: "deg", rests: [...rests.groups.linkage, ...rests.groups.tolerances] },
    note: `worst case ${one.worst_deg.toFixed(3)}°; largest contributors: ${one.contributors
      .slice(0, 3)
      .map(({ dimension, shareOfSquares_1 }) => `${dimension} ${Math.round(100 * shareOfSquares_1)} %`)
      .join(", ")} of the squares`,
  }));
}

function sampledDrafts(fit: ComputedFit, rests: Rests): FindingDraft[] {
  return fit.tolerance.map(({ pose, monteCarlo }) => ({
    id: `fit.attitude.${pose}.sampled`,
    title: `Pitch error that 99.73 % of ${monteCarlo.samples} built mechanisms stay within, ${pose}`,
    ...{ value: monteCarlo.within99_73_deg, unit: "deg", rests: [...rests.groups.linkage, ...rests.groups.tolerances] },
    note: `largest ${monteCarlo.largest_deg.toFixed(3)}°; ${monteCarlo.notClosed} did not go together`,
  }));
}
