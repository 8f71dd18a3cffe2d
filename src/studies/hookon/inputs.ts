import type { HookonSettings } from "../../physics/hookon-motion/types.ts";
import type { CriterionValue } from "../hold/index.ts";
import type { ConditionPlan, HookonCondition } from "./conditions.ts";

export interface LeavingAircraft {
  /** [m/s²], [s] */
  readonly acceleration: number;
  readonly lag: number;
}

/** What the breakaway is computed with, SI. */
export interface BreakawayPlan {
  readonly reactions: readonly number[];
  readonly gap: number;
  readonly closing: number;
  readonly goesOn: number;
  readonly carried: LeavingAircraft;
  readonly carrier: (LeavingAircraft & { readonly reaction: number }) | null;
  /** Reaction of the carried aircraft that the pair states [s]. */
  readonly planned: number;
}

export interface MapPlan {
  readonly offset: number;
  readonly closure: number;
  readonly steps: number;
  readonly angles: readonly number[];
}

/** Pair paths by what they feed. */
export interface HookonGroups {
  /** Aircraft, its mass, the condition, boom. */
  readonly pair: readonly string[];
  readonly mechanism: readonly string[];
  readonly approach: readonly string[];
  readonly turbulence: readonly string[];
  readonly plan: readonly string[];
  readonly limits: readonly string[];
  readonly map: readonly string[];
  readonly breakaway: readonly string[];
  /** One path for each criterion. */
  readonly criteria: Readonly<Record<keyof HookonCriteria, readonly string[]>>;
}

export interface HookonCriteria {
  readonly success: CriterionValue;
  readonly confidence: CriterionValue;
  readonly closure: CriterionValue;
  readonly windowMargin: CriterionValue;
  readonly breakawayDistance: CriterionValue;
  readonly axialLoad: CriterionValue;
  readonly sideLoad: CriterionValue;
}

/** What `hookon` needs of a pair, SI and radians. */
export interface HookonInputs {
  readonly point: {
    readonly condition: string;
    readonly mass: string;
    readonly equivalentAirspeed: number;
    readonly altitude: number;
    readonly boomAngleDown: number;
  };
  /** Settings of the motion without gusts; the guide holds the controls. */
  readonly still: HookonSettings;
  /** Settings of one case, with its gusts and its own guide. */
  readonly settingsOf: (condition: HookonCondition) => HookonSettings;
  readonly planned: { readonly closure: number };
  readonly conditions: ConditionPlan;
  readonly design: string;
  readonly samples: number;
  readonly seed: number;
  readonly attemptsFor: number;
  readonly criteria: HookonCriteria;
  readonly map: MapPlan;
  readonly breakaway: BreakawayPlan | null;
  /** Disturbances of the carrier and the nose that the pair gives data for. */
  readonly disturbances: {
    readonly bowWave: boolean;
    readonly wake: boolean;
    readonly orbit: boolean;
    /** Factor of the wake on the intensity of turbulence [1]. */
    readonly turbulence: number;
  };
  readonly groups: HookonGroups;
}
