import type { Pair, Quantity } from "../../inputs/index.ts";
import { BugError, InputError } from "../../math/errors.ts";
import { approachGuide } from "../../physics/approach/index.ts";
import type { HookonSettings } from "../../physics/hookon-motion/types.ts";
import { drydenFilter, turbulenceScales } from "../../physics/turbulence/index.ts";
import {
  airOf,
  type CriterionValue,
  type HoldCondition,
  type OpenReads,
  operatingPoint,
  readHoldInputs,
} from "../hold/index.ts";
import { type ConditionPlan, conditionsOf, type HookonCondition, type LightEffect } from "./conditions.ts";
import type { HookonCriteria, HookonInputs } from "./inputs.ts";
import { readApproach } from "./read-approach.ts";
import { part, readActuators, readLatch, readSocket, stillSettings } from "./read-motion.ts";
import { readDisturbances } from "./read-zones.ts";

type StudyPair = NonNullable<NonNullable<Pair["studies"]>["hookon"]>;

function studyOf(pair: Pair): StudyPair {
  const study = pair.studies?.hookon;
  if (study === undefined) throw new BugError("studies.hookon was there a moment ago");
  return study;
}

const criterion = (quantity: Quantity): CriterionValue => ({
  value: quantity.si,
  source: quantity.provenance.source ?? "project criterion",
});

function readPlan(study: StudyPair): ConditionPlan {
  const { sigmas, controllers, light, bothAtOnce } = study;
  return {
    sigmas: Object.entries(sigmas).map(([name, value]) => ({ name, value: value.si })),
    controllers,
    light:
      light === undefined
        ? null
        : {
            sigma: light.sigma,
            classes: Object.entries(light.classes).map(
              ([name, effect]): LightEffect => ({
                name,
                navigationNoise: effect.navigationNoise.si,
                pilotDelay: effect.pilotDelay.si,
                pilotThreshold: effect.pilotThreshold.si,
              }),
            ),
          },
    bothAtOnce: bothAtOnce === undefined ? null : { sigma: bothAtOnce.sigma, controller: bothAtOnce.controller },
  };
}

/** One view for each criterion, so that a finding rests on its own. */
function readCriteria(open: OpenReads): { criteria: HookonCriteria; paths: Record<keyof HookonCriteria, string[]> } {
  const pick: Readonly<Record<keyof HookonCriteria, (pair: Pair) => Quantity>> = {
    success: (pair) => studyOf(pair).criteria.success,
    confidence: (pair) => studyOf(pair).criteria.confidence,
    closure: (pair) => studyOf(pair).criteria.closure,
    windowMargin: (pair) => studyOf(pair).criteria.windowMargin,
    breakawayDistance: (pair) => part(pair.approach, "approach").breakaway.requiredGap,
    axialLoad: (pair) => studyOf(pair).limits.axialLoad,
    sideLoad: (pair) => studyOf(pair).limits.sideLoad,
  };
  const keys = Object.keys(pick) as (keyof HookonCriteria)[];
  const read = keys.map((key) => {
    const view = open();
    return { key, value: criterion(pick[key](view.pair)), paths: view.paths() };
  });
  return {
    criteria: Object.fromEntries(read.map(({ key, value }) => [key, value])) as unknown as HookonCriteria,
    paths: Object.fromEntries(read.map(({ key, paths }) => [key, paths])) as Record<keyof HookonCriteria, string[]>,
  };
}

/**
 * Pair → physics arguments of `hookon`, with the paths that each group read.
 *
 * Boom, airloads, masses and condition are read as `hold` reads them.
 *
 * @throws {InputError} when the pair has no section for the study, or the carried aircraft does not trim free
 */
export function readHookonInputs(open: OpenReads, seed?: number): HookonInputs {
  if (open().pair.studies?.hookon === undefined) {
    throw new InputError([{ path: "studies.hookon", message: "is missing: the study needs its plan and criteria" }]);
  }
  const { inputs, groups } = readHoldInputs(open);
  const views = {
    ...{ plan: open(), mechanism: open(), approach: open(), turbulence: open(), limits: open() },
    ...{ map: open(), breakaway: open() },
  };
  const study = studyOf(views.plan.pair);
  const name = study.condition;
  const own = views.plan.pair.conditions?.[name];
  if (own === undefined) throw new BugError(`condition ${name} passed the checks but does not exist`);
  const condition: HoldCondition = {
    ...{ name, altitude: own.altitude.si, isaOffset: own.isaOffset.si, boomAngleDown: own.boomAngle.si },
    airspeed: { kind: own.airspeed.kind, value: own.airspeed.si },
    // free until it hooks on, with the thrust of its trim
    ...{ weightShare: 0, thrust: 0, masses: [study.mass] },
  };
  const at = operatingPoint(inputs, condition, study.mass);
  const { equivalentAirspeed, trueAirspeed } = airOf(at);
  const { thrust } = part(views.approach.pair.approach, "approach");
  const limits = studyOf(views.limits.pair);
  const still = stillSettings(inputs, at, {
    socket: readSocket(views.mechanism.pair),
    latch: readLatch(views.mechanism.pair),
    actuators: readActuators(views.approach.pair, { lag: thrust.lag.si, least: thrust.idle.si, most: thrust.most.si }),
    limits: {
      ...{ axialLoad: limits.limits.axialLoad.si, sideLoad: limits.limits.sideLoad.si },
      ...{ tipTravel: limits.limits.tipTravel.si, pitch: limits.limits.pitch.si, bank: limits.limits.bank.si },
      ...{ approachTime: limits.approachTime.si, ringTime: limits.ringTime.si },
    },
  });
  const approach = readApproach(views.approach.pair, inputs, at, still);
  const disturbances = readDisturbances(views.approach.pair, trueAirspeed, hookedAt(still));
  const air = studyOf(views.turbulence.pair);
  const scales = turbulenceScales(air.document, "Dryden", air.heightAboveGround?.si ?? condition.altitude);
  const plan = readPlan(study);
  const effects = new Map((plan.light?.classes ?? []).map((each) => [each.name, each]));
  const span = inputs.carried.derivatives.span;
  const laws = new Map(
    conditionsOf(plan).map((each) => [
      each.key,
      approach.settingsOf({
        controller: each.controller,
        light: each.light === null ? null : (effects.get(each.light) ?? null),
        operator: each.bothAtOnce ? part(study.bothAtOnce, "studies.hookon.bothAtOnce").operator : null,
      }),
    ]),
  );
  const settingsOf = (each: HookonCondition): HookonSettings => {
    const law = laws.get(each.key);
    if (law === undefined) throw new BugError(`the study hookon has no case ${each.key}`);
    const sigma = each.sigma.value * disturbances.turbulence;
    return {
      ...still,
      guide: approachGuide(law),
      ...(law.steering.kind === "none" ? {} : { boomRateLimit: law.steering.rateLimit }),
      ...(sigma > 0 ? { gusts: drydenFilter({ scales, sigma, speed: trueAirspeed, span }) } : {}),
      ...(disturbances.zones === null ? {} : { zones: disturbances.zones }),
      ...(disturbances.orbit === null ? {} : { orbit: disturbances.orbit }),
      start: {
        p_RestPh_H: startOf(approach.schedule),
        v_HVcm_H: [0, 0, 0] as const,
        ...{ yaw: 0, pitch: 0, bank: 0 },
      },
    };
  };
  const { criteria, paths: criterionPaths } = readCriteria(open);
  const map = studyOf(views.map.pair).map;
  const breakaway = readBreakaway(views.breakaway.pair);
  const mapPlan = {
    ...{ offset: map.offset.si, closure: map.closure.si, steps: map.steps },
    angles: map.angles.map((angle) => angle.si),
  };
  return {
    point: {
      ...{ condition: name, mass: study.mass, altitude: condition.altitude },
      ...{ equivalentAirspeed, boomAngleDown: condition.boomAngleDown },
    },
    still,
    settingsOf,
    planned: { closure: approach.schedule.closure },
    conditions: plan,
    design: study.design,
    samples: study.samples,
    seed: seed ?? study.seed ?? 1,
    attemptsFor: study.attempts.probability.si,
    criteria,
    map: mapPlan,
    breakaway,
    disturbances: {
      ...{ bowWave: disturbances.bowWave, wake: disturbances.wake, orbit: disturbances.orbit !== null },
      turbulence: disturbances.turbulence,
    },
    groups: {
      pair: [
        ...groups.aircraft,
        ...groups.boom,
        ...groups.swing,
        ...(groups.masses.get(study.mass) ?? []),
        ...conditionPaths(open, name),
      ],
      mechanism: views.mechanism.paths(),
      approach: views.approach.paths(),
      turbulence: views.turbulence.paths(),
      plan: views.plan.paths(),
      limits: views.limits.paths(),
      map: views.map.paths(),
      breakaway: views.breakaway.paths(),
      criteria: criterionPaths,
    },
  };
}

/** Paths of the condition in which the carrier flies. */
function conditionPaths(open: OpenReads, name: string): string[] {
  const view = open();
  const own = view.pair.conditions?.[name];
  void [own?.altitude.si, own?.isaOffset.si, own?.airspeed.si, own?.boomAngle.si];
  return view.paths();
}

/** Where an approach begins: probe head from the mouth at rest, in H. */
function startOf({ start, observation, preContact }: ReturnType<typeof readApproach>["schedule"]) {
  return start === "observation" ? observation : preContact;
}

/** C.g. from the hinge with the probe head in the mouth, aircraft at trim. */
function hookedAt({ boom, socket, probe, trim }: HookonInputs["still"]): [number, number, number] {
  const { length, angleDown } = boom.geometry;
  const [c, s] = [Math.cos(trim.alpha), Math.sin(trim.alpha)];
  const arm = [c * probe[0] + s * probe[2], probe[1], -s * probe[0] + c * probe[2]];
  const k = socket.funnel.mouthFromGimbal;
  const tip = [-length * Math.cos(angleDown), 0, length * Math.sin(angleDown)];
  const at = [0, 1, 2].map((i) => tip[i] + k * socket.restAxis_H[i] - arm[i]);
  return [at[0], at[1], at[2]];
}

function readBreakaway(pair: Pair): HookonInputs["breakaway"] {
  const { breakaway } = studyOf(pair);
  if (breakaway === undefined) return null;
  const leaving = part(pair.approach, "approach").breakaway;
  const { carrier } = leaving;
  return {
    reactions: breakaway.reactions.map((time) => time.si),
    ...{ gap: breakaway.gap.si, closing: breakaway.closing.si, goesOn: breakaway.goesOn.si },
    carried: { acceleration: leaving.acceleration.si, lag: leaving.pitchLag.si },
    planned: leaving.reaction.si,
    carrier:
      carrier === undefined
        ? null
        : { reaction: carrier.reaction.si, acceleration: carrier.acceleration.si, lag: carrier.pitchLag.si },
  };
}
