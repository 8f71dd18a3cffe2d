import type { FitContext } from "../fit/index.ts";
import { airOf } from "../hold/index.ts";
import { carrierAnswer, pathTimes, stubResult } from "./after.ts";
import { batchOf } from "./batch.ts";
import { operatingAt } from "./build.ts";
import { casesOf, NORMAL } from "./cases.ts";
import { edgesOf, envelopeOf } from "./envelope.ts";
import { releaseFindings } from "./findings.ts";
import { hangUpsOf } from "./hang-up.ts";
import { jettisonOf } from "./jettison.ts";
import { limitingCase, releaseLimits } from "./limits.ts";
import { resultOf, worstRun } from "./run-case.ts";
import { batchConditions } from "./samples.ts";
import { type ReleaseInputs, readRelease } from "./settings.ts";
import { stripOf } from "./strip.ts";
import { assumptions, notAnalysed } from "./texts.ts";
import type { CarrierAnswer, ComputedRelease, ReleaseCaseResult, ReleaseResult, SeparationStrip } from "./types.ts";

export type ReleaseContext = FitContext;

const DEGREE = Math.PI / 180;
const STEPS = 5;

/**
 * The study `release`: does the carried aircraft leave cleanly, in normal, emergency and failure cases, in rough air and from every pose?
 *
 * Deterministic: chance is drawn from the seed that the findings name.
 *
 * @returns `null` when the pair has no `studies.release`
 * @throws {InputError} naming what the pair lacks
 */
export function runRelease(context: ReleaseContext): ReleaseResult | null {
  const inputs = readRelease(context.reads);
  if (inputs === null) return null;
  const seed = inputs.settings.dispersion.seed ?? 1;
  const computed = computeRelease(inputs, context.variant, seed, context.progress);
  const findings = releaseFindings(inputs, computed, {
    ...{ study: "release", version: context.version, seed, hash: context.hash },
  });
  return { ...computed, findings, limits: releaseLimits(inputs, computed) };
}

/** The study on what it has read. */
export function computeRelease(
  inputs: ReleaseInputs,
  variant: string,
  seed: number,
  progress?: FitContext["progress"],
): ComputedRelease {
  const { settings, condition } = inputs;
  const { criteria } = settings;
  const point = { mass: settings.masses[0], boomAngle: settings.boomAngles[0].si };
  const at = operatingAt(inputs, point, settings.weightShare.si);
  progress?.("cases", 0, STEPS);
  const { cases, carrier, strips } = allCases(inputs);
  progress?.("envelope", 1, STEPS);
  const envelopes = settings.masses.map((mass) => envelopeOf(inputs, mass));
  const edges = envelopes.flatMap((map) => edgesOf(inputs, map));
  progress?.("rough air", 2, STEPS);
  const conditions = batchConditions(inputs);
  const batches = conditions.map((each) => batchOf(inputs, conditions, each, seed));
  progress?.("hang-ups", 3, STEPS);
  const hangUps = hangUpsOf(inputs);
  progress?.("jettison", 4, STEPS);
  return {
    study: "release",
    variant,
    point: {
      condition: condition.name,
      airspeed_m_s_EAS: airOf(at).equivalentAirspeed,
      altitude_m: condition.altitude,
      boomAngles_deg: settings.boomAngles.map(({ si }) => si / DEGREE),
      masses: [...settings.masses],
    },
    ...{ seed, design: settings.dispersion.design },
    criteria: {
      ...{ clearance_m: criteria.clearance.si, exitSpeed_m_s: criteria.exitSpeed.si },
      exitPitchRate_deg_s: criteria.exitPitchRate.si / DEGREE,
      ...{ clean_1: criteria.clean.si, confidence_1: criteria.confidence.si },
      carrierLoadFactor_1: criteria.carrierLoadFactor.si,
    },
    ...{ cases, edges, envelopes, batches, hangUps, carrier, strips },
    limiting: limitingCase(cases, envelopes),
    jettison: jettisonOf(inputs),
    stub: stubResult(inputs, cases),
    paths: pathTimes(inputs, cases),
    assumptions: assumptions(inputs),
    notAnalysed: notAnalysed(inputs),
  };
}

/** Every case at the first pose, the normal one at every pose, each with every loading. */
function allCases(inputs: ReleaseInputs) {
  const cases: ReleaseCaseResult[] = [];
  const carrier: CarrierAnswer[] = [];
  const strips: SeparationStrip[] = [];
  const touching: SeparationStrip[] = [];
  for (const mass of inputs.settings.masses) {
    for (const wanted of casesOf(inputs.settings)) {
      const poses = wanted.name === NORMAL ? inputs.settings.boomAngles : inputs.settings.boomAngles.slice(0, 1);
      for (const [i, { si: boomAngle }] of poses.entries()) {
        const judged = worstRun(inputs, wanted, { mass, boomAngle });
        const found = resultOf(inputs, wanted, { mass, boomAngle }, judged);
        cases.push(found);
        if (judged === null || i > 0) continue;
        if (wanted.name === NORMAL) {
          carrier.push(carrierAnswer(inputs, found, judged));
          const strip = stripOf(inputs, wanted.name, mass, judged);
          if (strip !== null && strips.length === 0) strips.push(strip);
        } else if (found.outcome === "touches" && touching.length === 0) {
          const strip = stripOf(inputs, wanted.name, mass, judged);
          if (strip !== null) touching.push(strip);
        }
      }
    }
  }
  return { cases, carrier, strips: [...strips, ...touching] };
}
