import type { Pair, Quantity } from "../../inputs/index.ts";
import { BugError } from "../../math/errors.ts";
import {
  type ActuatorSettings,
  bankHold,
  type Channels,
  type ControlFunction,
  EFFECTORS,
  type Effector,
  heightHold,
  pitchHold,
  yawDamper,
} from "../../physics/pilot/index.ts";
import type { CriterionValue, OpenReads } from "../hold/index.ts";
import { type LatchedInputs, readLatched } from "../hold-attachment/index.ts";
import { GAIN_SETS, type GainSet } from "./types.ts";

/** Names of the functions as the report says them. */
export const FUNCTION_NAMES = ["pitch hold", "roll hold", "yaw damper", "height hold"] as const;
export type FunctionName = (typeof FUNCTION_NAMES)[number];

export interface PilotOfPair {
  readonly delay: number;
  readonly neuromuscularLag: number;
  readonly crossover: { readonly pitch: number; readonly bank: number };
  readonly largestLead: number;
  readonly largestLag: number;
}

/** What the pair says about control, SI. */
export interface ControlSettings {
  readonly padeOrder: number;
  readonly actuators: Readonly<Record<Effector, ActuatorSettings>>;
  readonly gains: Readonly<Record<GainSet, readonly ControlFunction[]>>;
  readonly pilot: PilotOfPair;
  readonly criteria: Readonly<
    Record<"gainMargin" | "phaseMargin" | "delayMargin" | "resonance" | "phaseDelay", CriterionValue>
  >;
  readonly failures: Readonly<
    Record<
      | "pitchLimit"
      | "bankLimit"
      | "loadLimit"
      | "recognition"
      | "release"
      | "duration"
      | "oscillation"
      | "slowest"
      | "fastest",
      number
    >
  >;
  /** Pins, socket and elevator while latched; `null` without aft pins. */
  readonly latched: LatchedInputs | null;
  /** Pair paths by what they feed. */
  readonly paths: Readonly<
    Record<"actuators" | "free" | "hooked" | "latched" | "pilot" | "criteria" | "failures", readonly string[]>
  >;
}

const PADE_ORDER = 3;

/** Settings of the part, or `null` when the pair asks for none. */
export function readControl(open: OpenReads): ControlSettings | null {
  if (open().pair.studies?.hold?.control === undefined) return null;
  const views = {
    ...{ actuators: open(), free: open(), hooked: open() },
    ...{ pilot: open(), criteria: open(), failures: open() },
  };
  const part = <K extends "actuators" | "gains" | "pilot">(pair: Pair, key: K) => {
    const found = pair.control?.[key];
    if (found === undefined) throw new BugError(`control.${key} passed the checks but is missing`);
    return found;
  };
  const actuators = part(views.actuators.pair, "actuators");
  const pilot = part(views.pilot.pair, "pilot");
  const study = (pair: Pair) => {
    const found = pair.studies?.hold?.control;
    if (found === undefined) throw new BugError("studies.hold.control was there a moment ago");
    return found;
  };
  const failures = study(views.failures.pair).failures;
  const criteria = study(views.criteria.pair).criteria;
  const own = (quantity: Quantity): CriterionValue => ({
    value: quantity.si,
    source: quantity.provenance.source ?? "project criterion",
  });
  const actuatorOf = (effector: Effector): ActuatorSettings => {
    const { lag, rate, travel, delay } = actuators[effector];
    return { lag: lag.si, rate: rate.si, travel: travel.si, delay: delay.si };
  };
  const latched = readLatched(open);
  const settings = {
    latched,
    padeOrder: study(views.criteria.pair).padeOrder ?? PADE_ORDER,
    actuators: Object.fromEntries(EFFECTORS.map((name) => [name, actuatorOf(name)])) as Record<
      Effector,
      ActuatorSettings
    >,
    gains: { free: functionsOf(views.free.pair, "free"), hooked: functionsOf(views.hooked.pair, "hooked") },
    pilot: {
      delay: pilot.delay.si,
      neuromuscularLag: pilot.neuromuscularLag.si,
      crossover: { pitch: pilot.pitchCrossover.si, bank: pilot.bankCrossover.si },
      largestLead: pilot.largestLead.si,
      largestLag: pilot.largestLag.si,
    },
    criteria: {
      gainMargin: own(criteria.gainMargin),
      phaseMargin: own(criteria.phaseMargin),
      delayMargin: own(criteria.delayMargin),
      resonance: own(criteria.resonance),
      phaseDelay: own(criteria.phaseDelay),
    },
    failures: {
      pitchLimit: failures.pitchLimit.si,
      bankLimit: failures.bankLimit.si,
      loadLimit: failures.loadLimit.si,
      recognition: failures.recognition.si,
      release: failures.release.si,
      duration: failures.duration.si,
      oscillation: failures.oscillation.si,
      slowest: failures.slowest.si,
      fastest: failures.fastest.si,
    },
  };
  const { actuators: moved, free, hooked, pilot: flown, criteria: judged, failures: failing } = views;
  const paths = {
    ...{ actuators: moved.paths(), free: free.paths(), hooked: hooked.paths() },
    latched: latched?.paths ?? [],
    ...{ pilot: flown.paths(), criteria: judged.paths(), failures: failing.paths() },
  };
  return { ...settings, paths };
}

function functionsOf(pair: Pair, set: GainSet): ControlFunction[] {
  const gains = pair.control?.gains?.[set];
  if (gains === undefined) throw new BugError(`control.gains.${set} passed the checks but is missing`);
  const { pitchHold: pitch, rollHold: roll, yawDamper: yaw, heightHold: height } = gains;
  const functions: ControlFunction[] = [];
  if (pitch !== undefined) functions.push(pitchHold(pitch.pitchGain.si, pitch.rateGain.si));
  if (roll !== undefined) functions.push(bankHold(roll.rollGain.si, roll.rateGain.si));
  if (yaw !== undefined) functions.push(yawDamper(yaw.rateGain.si, yaw.washout.si));
  if (height !== undefined && pitch !== undefined) {
    functions.push(heightHold(pitch.pitchGain.si, height.heightGain.si, height.climbGain.si));
  }
  return functions;
}

/** Channels of some functions; a surface without any has none, so that it stays at trim. */
export function channelsOf(settings: ControlSettings, functions: readonly ControlFunction[]): Channels {
  return Object.fromEntries(
    EFFECTORS.flatMap((effector) => {
      const own = functions.filter((each) => each.effector === effector);
      return own.length > 0 ? [[effector, { functions: own, actuator: settings.actuators[effector] }]] : [];
    }),
  ) as Channels;
}

export const otherSet = (set: GainSet): GainSet => GAIN_SETS.find((each) => each !== set) as GainSet;
