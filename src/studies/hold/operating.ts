import { DomainError } from "../../math/errors.ts";
import { type DerivativeSet, derivativeModel, tableModel } from "../../physics/airloads/index.ts";
import {
  type Airspeed,
  type Atmosphere,
  equivalentAirspeed,
  standardAtmosphere,
  trueAirspeed,
} from "../../physics/atmosphere/index.ts";
import { armFromStation, type HookedPair, type HookedPairSettings, hookedPair } from "../../physics/bodies/index.ts";
import { referToTip, type TangentialRates } from "../../physics/snubber/index.ts";
import type { HoldCondition, HoldInputs, MassState } from "./inputs.ts";

/** One operating point of the hooked pair; stiffness and rates at the tip, SI. */
export interface Operating {
  readonly condition: string;
  readonly mass: MassState;
  readonly altitude: number;
  readonly isaOffset: number;
  readonly airspeed: Airspeed;
  readonly boomAngleDown: number;
  readonly weightShare: number;
  readonly thrust: number;
  readonly bending: number;
  readonly accumulator: number;
  readonly snubber: number;
}

/** Operating point of a condition and mass with the pair's own stiffness and rates. */
export function operatingPoint(inputs: HoldInputs, condition: HoldCondition, massName: string): Operating {
  const mass = inputs.carried.massStates.find((state) => state.name === massName);
  if (mass === undefined) throw new DomainError("mass state", massName, "a mass state of the pair");
  return atBoomAngle(inputs, {
    condition: condition.name,
    mass,
    altitude: condition.altitude,
    isaOffset: condition.isaOffset,
    airspeed: condition.airspeed,
    boomAngleDown: condition.boomAngleDown,
    weightShare: condition.weightShare,
    thrust: condition.thrust,
    bending: 0,
    accumulator: 0,
    snubber: 0,
  });
}

/** The same point with bending, accumulator and snubber as they are at the tip at its boom angle. */
export function atBoomAngle(inputs: HoldInputs, at: Operating): Operating {
  const ratio = inputs.tipPerJack(at.boomAngleDown);
  return {
    ...at,
    bending: inputs.boom.tip.at(at.boomAngleDown).bending,
    accumulator: referToTip(inputs.jack.accumulator, ratio),
    snubber: referToTip(inputs.jack.snubber, ratio),
  };
}

/** Air of an operating point with its airspeeds. */
export function airOf(at: Operating) {
  const atmosphere = standardAtmosphere(at.altitude, at.isaOffset);
  return {
    density: atmosphere.density,
    soundSpeed: atmosphere.soundSpeed,
    trueAirspeed: trueAirspeed(at.airspeed, atmosphere),
    equivalentAirspeed: equivalentAirspeed(at.airspeed, atmosphere),
  };
}

/** Settings of the hooked pair at an operating point. */
export function settingsAt(inputs: HoldInputs, at: Operating): HookedPairSettings {
  const { carried, boom } = inputs;
  const cg = at.mass.cg;
  const tip = boom.tip.at(at.boomAngleDown);
  const motions = boom.tip.motionsAt(at.boomAngleDown);
  const set: DerivativeSet = {
    ...carried.derivatives,
    referencePoint: armFromStation(cg, carried.momentReference),
    thrust: { direction: [1, 0, 0], point: armFromStation(cg, carried.thrustPoint) },
  };
  const airloads = carried.tables === undefined ? derivativeModel(set) : tableModel(set, carried.tables);
  return {
    mass: at.mass.properties,
    probe: armFromStation(cg, carried.probe),
    airloads,
    law: inputs.law,
    air: airOf(at),
    weightShare: at.weightShare,
    thrust: at.thrust,
    boom: {
      length: boom.length,
      angleDown: at.boomAngleDown,
      axial: tip.axial,
      lateral: tip.lateral,
      bending: at.bending,
      accumulator: at.accumulator,
      snubber: at.snubber,
      structuralDamping: boom.structuralDamping,
      effectiveTipMass: tip.effectiveTipMass,
      ownMass: boom.ownMass,
      ownCentre: boom.ownCentre,
      ...(motions === undefined ? {} : { motions }),
    },
  };
}

/** The hooked pair at an operating point, at trim. */
export function pairAt(inputs: HoldInputs, at: Operating): HookedPair {
  return hookedPair(settingsAt(inputs, at));
}

/** Tangential rates of an operating point, with the structural damping of its bending stiffness. */
export function tangentialRates(inputs: HoldInputs, at: Operating, hookedMass: number): TangentialRates {
  const bendingDamping =
    at.bending === Infinity ? 0 : 2 * inputs.boom.structuralDamping * Math.sqrt(at.bending * hookedMass);
  return { bending: at.bending, bendingDamping, accumulator: at.accumulator, snubber: at.snubber };
}

/** Mass state between declared ones by mass: mass, c.g. and inertia linear in between. */
export function massBetween(states: readonly MassState[], mass: number): MassState {
  const sorted = [...states].sort((a, b) => a.properties.mass - b.properties.mass);
  const upper = sorted.findIndex((state) => state.properties.mass >= mass);
  if (upper < 0 || mass < sorted[0].properties.mass) {
    throw new DomainError("mass", mass, `${sorted[0].properties.mass} to ${sorted.at(-1)!.properties.mass} kg`);
  }
  if (upper === 0) return sorted[0];
  const [a, b] = [sorted[upper - 1], sorted[upper]];
  const t = (mass - a.properties.mass) / (b.properties.mass - a.properties.mass);
  const mix = <T extends object>(p: T, q: T): T =>
    Object.fromEntries(
      Object.entries(p).map(([key, value]) => [key, value + t * ((q as Record<string, number>)[key] - value)]),
    ) as T;
  return { name: `${mass} kg`, properties: mix(a.properties, b.properties), cg: mix(a.cg, b.cg) };
}

/** True when an airspeed is below Mach 1 in an air. */
export function isSubsonic(airspeed: Airspeed, air: Atmosphere): boolean {
  try {
    trueAirspeed(airspeed, air);
    return true;
  } catch (error) {
    if (error instanceof DomainError) return false;
    throw error;
  }
}
