/** The invented demo pair as physics arguments, for tests of the physics without the pair file. */
import { type DerivativeSet, derivativeModel } from "../../src/physics/airloads/index.ts";
import { standardAtmosphere, trueAirspeed } from "../../src/physics/atmosphere/index.ts";
import {
  armFromStation,
  type HookedPairSettings,
  type MassProperties,
  type StationPoint,
} from "../../src/physics/bodies/index.ts";
import { controlsFixed, rollHold } from "../../src/physics/pilot/index.ts";

const MASSES = {
  full: { mass: 2600, FS: 4.3, WL: 1.0, Ixx: 2050, Iyy: 5700, Izz: 7000, Ixz: 250 },
  return: { mass: 1950, FS: 4.272, WL: 1.009, Ixx: 1680, Iyy: 5280, Izz: 6260, Ixz: 240 },
  empty: { mass: 1900, FS: 4.27, WL: 1.01, Ixx: 1650, Iyy: 5250, Izz: 6200, Ixz: 240 },
} as const;
const REVISIONS = {
  "Rev A": { bending: 60e3, accumulator: 60e3, snubber: 2.0e3, tipMass: 120, speed: 95 },
  "Rev B": { bending: 90e3, accumulator: 20e3, snubber: 3.5e3, tipMass: 135, speed: 105 },
} as const;
/** Gains of the pair's roll hold. */
const ROLL_HOLD = { rollGain: 0.8, rateGain: 0.25, actuatorLag: 0.06, aileronLimit: (20 * Math.PI) / 180 } as const;

export const REVISION_NAMES = ["Rev A", "Rev B"] as const;
export const MASS_NAMES = ["full", "return", "empty"] as const;
export const WEIGHT_SHARES = [0, 0.1, 0.2, 0.4] as const;

export interface LongshoreOptions {
  readonly revision?: keyof typeof REVISIONS;
  readonly mass?: keyof typeof MASSES;
  readonly equivalentAirspeed?: number;
  readonly weightShare?: number;
  readonly thrust?: number;
  readonly sideForce?: "wind" | "body";
  readonly moments?: "stability" | "body";
  readonly rollHold?: boolean;
  /** Shift of the station datum [m]; nothing may change. */
  readonly datumShift?: number;
  /** c.g. this far right of the plane of symmetry [m]; adds products of inertia of the sort such a load has. */
  readonly cgRight?: number;
  readonly derivatives?: Partial<DerivativeSet>;
  readonly boom?: Partial<HookedPairSettings["boom"]>;
}

/** Settings of the hooked pair, and the derivative set that its airloads are made of. */
export interface Longshore extends HookedPairSettings {
  readonly derivatives: DerivativeSet;
}

export function longshore(options: LongshoreOptions = {}): Longshore {
  const revision = REVISIONS[options.revision ?? "Rev A"];
  const loading = MASSES[options.mass ?? "full"];
  const shift = options.datumShift ?? 0;
  const right = options.cgRight ?? 0;
  const point = (FS: number, WL: number, BL = 0): StationPoint => ({ FS: FS + shift, BL: BL + shift, WL: WL - shift });
  const cg = point(loading.FS, loading.WL, right);
  const { mass, Ixx, Iyy, Izz, Ixz } = loading;
  const properties: MassProperties = { mass, Ixx, Iyy, Izz, Ixz, Ixy: -600 * right, Iyz: 400 * right };
  const atmosphere = standardAtmosphere(3000, 0);
  const rates = (pitchRate: number, alphaRate: number) => ({ pitchRate, alphaRate });
  const derivatives: DerivativeSet = {
    area: 8.2,
    span: 7.4,
    chord: 1.2,
    axes: { moments: options.moments ?? "stability", sideForce: options.sideForce ?? "wind" },
    referencePoint: armFromStation(cg, point(4.3, 1.0)),
    referenceAlpha: 0,
    lift: { atReference: 0.18, alpha: 5, ...rates(6, 1.8), elevator: 0.4 },
    drag: { kind: "parabolic", zeroLift: 0.026, efficiency: 0.8, elevator: 0 },
    pitch: { atReference: 0.02, alpha: -0.65, ...rates(-12, -3.5), elevator: -1.05 },
    side: { beta: -0.66, rollRate: -0.03, yawRate: 0.25, aileron: 0, rudder: 0.16 },
    roll: { beta: -0.022, rollRate: -0.5, yawRate: 0.14, aileron: 0.12, rudder: 0.012 },
    yaw: { beta: 0.085, rollRate: -0.04, yawRate: -0.2, aileron: -0.006, rudder: -0.075 },
    thrust: { direction: [1, 0, 0], point: armFromStation(cg, point(8, 1)) },
    ...options.derivatives,
  };
  return {
    mass: properties,
    probe: armFromStation(cg, point(2.1, 1.85)),
    derivatives,
    airloads: derivativeModel(derivatives),
    law: options.rollHold === true ? rollHold(ROLL_HOLD) : controlsFixed,
    air: {
      density: atmosphere.density,
      soundSpeed: atmosphere.soundSpeed,
      trueAirspeed: trueAirspeed({ kind: "EAS", value: options.equivalentAirspeed ?? revision.speed }, atmosphere),
    },
    weightShare: options.weightShare ?? 0,
    thrust: options.thrust ?? 0,
    boom: {
      length: 5.6,
      angleDown: (52 * Math.PI) / 180,
      axial: 6e6,
      lateral: 0.6e6,
      bending: revision.bending,
      accumulator: revision.accumulator,
      snubber: revision.snubber,
      structuralDamping: 0.015,
      effectiveTipMass: revision.tipMass,
      ownMass: 0,
      ownCentre: 0,
      ...options.boom,
    },
  };
}
