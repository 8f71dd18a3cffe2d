import type { CoefficientTables, DerivativeSet } from "../../physics/airloads/index.ts";
import type { Airspeed } from "../../physics/atmosphere/index.ts";
import type { MassProperties, StationPoint } from "../../physics/bodies/index.ts";
import type { ControlLaw } from "../../physics/pilot/index.ts";
import type { BoomAlongStroke } from "./boom-tip.ts";

/** A mass state of the carried aircraft. */
export interface MassState {
  readonly name: string;
  readonly properties: MassProperties;
  readonly cg: StationPoint;
}

/** A range of a sweep, SI. */
export interface Range {
  readonly from: number;
  readonly to: number;
}

export interface HoldCondition {
  readonly name: string;
  readonly altitude: number;
  readonly isaOffset: number;
  readonly airspeed: Airspeed;
  readonly boomAngleDown: number;
  readonly weightShare: number;
  readonly thrust: number;
  readonly masses: readonly string[];
}

export interface HoldCriteria {
  readonly rigidBodyDamping: CriterionValue;
  readonly structuralDamping: CriterionValue;
  readonly timeToDouble: CriterionValue;
}

export interface CriterionValue {
  readonly value: number;
  readonly source: string;
}

/**
 * What `hold` needs of a pair, SI and radians, with the groups of pair values kept apart so that each finding can
 * say what it rests on.
 */
export interface HoldInputs {
  readonly carried: {
    readonly massStates: readonly MassState[];
    readonly probe: StationPoint;
    readonly maximumLift: number;
    /** Largest deflections either way [rad]; `null` when the pair does not say. */
    readonly travel: { readonly elevator: number; readonly aileron: number; readonly rudder: number } | null;
    /** Derivative set with the reference and thrust points still in stations. */
    readonly derivatives: Omit<DerivativeSet, "referencePoint" | "thrust">;
    /** Coefficient tables, where the pair gives them instead of derivatives; `derivatives` then holds those at zero incidence. */
    readonly tables?: CoefficientTables;
    readonly momentReference: StationPoint;
    readonly thrustPoint: StationPoint;
  };
  readonly boom: {
    readonly length: number;
    readonly structuralDamping: number;
    readonly ownMass: number;
    readonly ownCentre: number;
    /** Stiffness and mass at the tip along the boom angle, measured or from sections. */
    readonly tip: BoomAlongStroke;
  };
  /** Tip travel per jack travel at a boom angle [rad]. */
  readonly tipPerJack: (angleDown: number) => number;
  /** Rates at the jack: accumulator [N/m], snubber [N·s/m]. */
  readonly jack: { readonly accumulator: number; readonly snubber: number };
  readonly law: ControlLaw;
  readonly lawName: string;
  readonly conditions: readonly HoldCondition[];
  readonly speedBand: { readonly from: Airspeed; readonly to: Airspeed };
  readonly sweeps: {
    readonly airspeed: { readonly from: Airspeed; readonly to: Airspeed };
    readonly boomAngle: Range;
    readonly altitude: Range;
    readonly weightShare: Range;
    readonly snubber: Range;
    readonly bending: Range;
    readonly accumulator: Range;
  };
  readonly upset: {
    readonly pitch: number;
    readonly pitchLimit: number;
    readonly roll: number;
    readonly rollLimit: number;
  };
  readonly criteria: HoldCriteria;
}
