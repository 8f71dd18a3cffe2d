import type { Pair } from "../../inputs/index.ts";
import { BugError } from "../../math/errors.ts";
import {
  type ApproachSettings,
  type ControllerSettings,
  type HookedSettings,
  type InnerGains,
  learntPilot,
  type NavigationSettings,
  type PilotAxis,
  type ScheduleSettings,
  type SteeringSettings,
} from "../../physics/approach/index.ts";
import { controlPlant, freeAircraft, surfaceInputs } from "../../physics/bodies/index.ts";
import type { HookonSettings } from "../../physics/hookon-motion/types.ts";
import type { ActuatorSettings } from "../../physics/pilot/index.ts";
import { type HoldInputs, type Operating, settingsAt } from "../hold/index.ts";
import type { LightEffect } from "./conditions.ts";
import { part } from "./read-motion.ts";

type ApproachPair = NonNullable<Pair["approach"]>;
type ControllerPair = ApproachPair["controllers"][string];
type OperatorPair = NonNullable<NonNullable<NonNullable<Pair["studies"]>["hookon"]>["bothAtOnce"]>["operator"];

/** What differs from case to case. */
export interface FlownBy {
  readonly controller: string;
  /** Light against the pair's values; `null`: as they stand. */
  readonly light: LightEffect | null;
  /** Both at once: the operator steers the boom. */
  readonly operator: OperatorPair | null;
}

function readNavigation({ navigation: n }: ApproachPair, light: LightEffect | null): NavigationSettings {
  const noise = light?.navigationNoise ?? 1;
  return {
    interval: n.interval.si,
    latency: n.latency.si,
    bias: [n.bias.along.si, n.bias.across.si, n.bias.vertical.si],
    placeNoise: noise * n.placeNoise.si,
    velocityNoise: noise * n.velocityNoise.si,
    dropouts:
      n.dropouts === undefined
        ? null
        : { meanBetween: n.dropouts.meanBetween.si, meanLength: n.dropouts.meanLength.si },
    without: n.meanwhile,
    attitudeNoise: n.attitudeNoise.si,
    rateNoise: n.rateNoise.si,
  };
}

/** One attempt each: a sample is one approach, so that shares have one denominator. */
function readSchedule({ schedule: s }: ApproachPair): ScheduleSettings {
  const place = (p: typeof s.observation): readonly [number, number, number] => [-p.aft.si, p.right.si, p.below.si];
  const g = s.goAround;
  return {
    aim: s.aim,
    start: s.start,
    observation: place(s.observation),
    preContact: place(s.preContact),
    through: s.through.si,
    transit: s.transit.si,
    closure: s.closure.si,
    acceleration: s.acceleration.si,
    settled: { distance: s.settled.distance.si, speed: s.settled.speed.si, time: s.settled.time.si },
    alignment: s.alignment.si,
    attempts: 1,
    goAround: {
      within: g.within.si,
      gate: g.gate.si,
      leastClosure: g.leastClosure.si,
      mostClosure: g.mostClosure.si,
      longestDropout: g.longestDropout.si,
      timeLimit: g.timeLimit.si,
      overrun: g.overrun.si,
      touchTime: g.touchTime.si,
    },
  };
}

function readOuter({ outer: o }: ControllerPair): ControllerSettings["outer"] {
  return {
    forward: o.forward.si,
    lateral: o.lateral.si,
    vertical: o.vertical.si,
    forwardSpeed: o.forwardSpeed.si,
    lateralSpeed: o.lateralSpeed.si,
    path: o.path.si,
    integral: o.integral.si,
    integralWithin: o.integralWithin.si,
    largestSpeed: o.largestSpeed.si,
    largestBank: o.largestBank.si,
    largestPitch: o.largestPitch.si,
  };
}

/** A time to the nearest tick. */
const toTicks = (time: number, tick: number): number => Math.round(time / tick) * tick;

/** Controller of the pair; a pilot learns the free aircraft at the operating point. */
function readController(
  own: ControllerPair,
  learn: (settings: Parameters<typeof learntPilot>[1]) => ReturnType<typeof learntPilot>,
  actuators: Readonly<Record<"elevator" | "aileron", ActuatorSettings>>,
  { tick, light }: { readonly tick: number; readonly light: LightEffect | null },
): ControllerSettings {
  const outer = readOuter(own);
  if (own.kind === "autopilot") {
    const { pitch, pitchIntegral, bank, pitchRate, rollRate, yawRate } = own.inner;
    const inner = {
      ...{ pitch: pitch.si, pitchIntegral: pitchIntegral.si, bank: bank.si },
      ...{ pitchRate: pitchRate.si, rollRate: rollRate.si, yawRate: yawRate.si },
    };
    return { kind: "autopilot", delay: own.delay.si, outer, inner };
  }
  const { pitchRate, rollRate, yawRate } = own.dampers;
  const inner: InnerGains & { readonly pitchIntegral: number } = {
    ...{ pitch: 0, pitchIntegral: 0, bank: 0 },
    ...{ pitchRate: pitchRate.si, rollRate: rollRate.si, yawRate: yawRate.si },
  };
  const tuned = learn({
    actuators,
    inner,
    crossover: { pitch: own.pitchCrossover.si, bank: own.bankCrossover.si },
    neuromuscularLag: own.neuromuscularLag.si,
    largestLead: own.largestLead.si,
    largestLag: own.largestLag.si,
  });
  const axis = ({ gain, lead, lag }: (typeof tuned)["pitch"]): PilotAxis => ({
    ...{ gain, lead, lag },
    neuromuscularLag: own.neuromuscularLag.si,
  });
  const threshold = light?.pilotThreshold ?? 1;
  return {
    kind: "pilot",
    outer,
    inner,
    hands: {
      pitch: axis(tuned.pitch),
      bank: axis(tuned.bank),
      delay: toTicks(own.delay.si + (light?.pilotDelay ?? 0), tick),
      remnant: own.remnant.si,
      placeThreshold: threshold * own.placeThreshold.si,
      speedThreshold: threshold * own.speedThreshold.si,
    },
  };
}

function readHooked({ approach, control }: Pair): HookedSettings {
  const { hooked } = part(approach, "approach");
  const gains = control?.gains?.hooked;
  if (hooked.law === "controls held" || gains === undefined) return { gains: null, thrust: hooked.thrust.si };
  const { pitchHold, rollHold, yawDamper } = gains;
  return {
    gains: {
      ...{ pitch: pitchHold?.pitchGain.si ?? 0, pitchIntegral: 0, pitchRate: pitchHold?.rateGain.si ?? 0 },
      ...{ bank: rollHold?.rollGain.si ?? 0, rollRate: rollHold?.rateGain.si ?? 0 },
      ...{ yawRate: yawDamper?.rateGain.si ?? 0, washout: yawDamper?.washout.si ?? 1 },
    },
    thrust: hooked.thrust.si,
  };
}

function readSteering(own: ApproachPair["boomSteering"], tick: number): SteeringSettings {
  if (own.kind === "none") return { kind: "none" };
  return { kind: own.kind, ...operatorOf(own, tick) };
}

function operatorOf(own: OperatorPair, tick: number) {
  return {
    gain: own.gain.si,
    delay: toTicks(own.delay.si, tick),
    threshold: own.threshold.si,
    rateLimit: own.rateLimit.si,
    within: own.within.si,
  };
}

/** Laws of the pair at one operating point, and where an approach begins. */
export interface ApproachReading {
  /** Everything that the pair says about a case is read here, not later. */
  readonly settingsOf: (by: FlownBy) => ApproachSettings;
  readonly schedule: ScheduleSettings;
}

/**
 * Approach of the pair as physics arguments.
 *
 * @param pair   a view of the pair
 * @param inputs aircraft and boom, as `hold` reads them
 * @param at     operating point
 * @param still  settings of the motion, for its trim
 */
export function readApproach(pair: Pair, inputs: HoldInputs, at: Operating, still: HookonSettings): ApproachReading {
  const approach = part(pair.approach, "approach");
  const tick = approach.tick.si;
  const schedule = readSchedule(approach);
  const own = part(pair.control?.actuators, "control.actuators");
  const actuatorOf = ({ lag, rate, travel, delay }: typeof own.elevator): ActuatorSettings => ({
    ...{ lag: lag.si, rate: rate.si, travel: travel.si, delay: delay.si },
  });
  const actuators = { elevator: actuatorOf(own.elevator), aileron: actuatorOf(own.aileron) };
  let plant: ReturnType<typeof controlPlant>["plant"] | null = null;
  const learn = (settings: Parameters<typeof learntPilot>[1]) => {
    if (plant === null) {
      const { motion, state } = freeAircraft({ ...settingsAt(inputs, at), law: surfaceInputs, thrust: "trim" });
      plant = controlPlant(motion, state).plant;
    }
    return learntPilot(plant, settings);
  };
  const { alpha, controls } = still.trim;
  const { lift, referenceAlpha } = inputs.carried.derivatives;
  const liftAlpha = alpha - referenceAlpha + lift.atReference / lift.alpha;
  const { breakaway: b } = approach;
  const steeringOf = ({ operator }: FlownBy): SteeringSettings =>
    operator === null ? readSteering(approach.boomSteering, tick) : { kind: "operator", ...operatorOf(operator, tick) };
  const settingsOf = (by: FlownBy): ApproachSettings => {
    const controller = approach.controllers[by.controller];
    if (controller === undefined) throw new BugError(`controller ${by.controller} passed the checks but is missing`);
    return {
      tick,
      trim: { alpha, liftAlpha, ...controls, mass: still.mass.mass, trueAirspeed: still.air.trueAirspeed },
      navigation: readNavigation(approach, by.light),
      schedule,
      controller: readController(controller, learn, actuators, { tick, light: by.light }),
      hooked: readHooked(pair),
      steering: steeringOf(by),
      breakaway: {
        ...{ reaction: b.reaction.si, thrust: b.thrust.si, sinkRate: b.sinkRate.si },
        ...{ overrun: b.overrun.si, closure: b.closure.si, dropout: b.dropout.si },
        commandedAt: b.commandedAt?.si ?? null,
      },
      thrustLimits: { least: approach.thrust.idle.si, most: approach.thrust.most.si },
    };
  };
  return { settingsOf, schedule };
}
