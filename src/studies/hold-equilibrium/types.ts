/** Balance of the hooked pair, static divergence and loads on the hook. Keys end in their unit; plain JSON data. */

export type ElevatorHeld = "fixed" | "holds weight share";

/** One balance on a branch. */
export interface BalancePoint {
  readonly airspeed_m_s_EAS: number;
  readonly alpha_deg: number;
  readonly elevator_deg: number;
  readonly boomAngle_deg: number;
  readonly weightShare_1: number;
  readonly hookLoad_N: number;
  readonly stallMargin: number;
  /** Number of growing roots: oscillations counted once, real roots; `null` where the linear model does not reach. */
  readonly growing: number | null;
  /** Whether one of them is a real root: static divergence. */
  readonly diverging: boolean | null;
}

export interface BranchFamily {
  readonly condition: string;
  readonly mass: string;
  readonly elevator: ElevatorHeld;
  /** Boom angle without load, which the jack sets, and the elevator at the condition's trim. */
  readonly unloadedBoomAngle_deg: number;
  readonly elevatorAtTrim_deg: number;
  readonly branches: readonly { readonly points: readonly BalancePoint[]; readonly complete: boolean }[];
  /** Airspeeds at which two balances meet. */
  readonly folds_m_s_EAS: readonly number[];
  /** Number of balances at some airspeeds, and at the condition's own. */
  readonly counts: readonly { readonly airspeed_m_s_EAS: number; readonly balances: number }[];
  readonly atCondition: number;
}

export type LoadsAlong = "airspeed" | "boomAngle" | "weightShare" | "thrust";

/** Loads on the hook in trim along one quantity; `null` where the aircraft does not trim. */
export interface LoadCurve {
  readonly condition: string;
  readonly mass: string;
  readonly along: LoadsAlong;
  readonly axis: { readonly label: string; readonly unit: string };
  /** In `axis.unit`. */
  readonly values: readonly number[];
  readonly at: number;
  /** On the aircraft by the tip: forward, up; their resultant. */
  readonly towLoad_N: readonly (number | null)[];
  readonly supportLoad_N: readonly (number | null)[];
  readonly hookLoad_N: readonly (number | null)[];
  /** On the tip: along the boom away from the hinge, normal to it towards a larger angle; at the jack. */
  readonly axialLoad_N: readonly (number | null)[];
  readonly tangentialLoad_N: readonly (number | null)[];
  readonly jackLoad_N: readonly (number | null)[];
  readonly alpha_deg: readonly (number | null)[];
  readonly stallMargin: readonly (number | null)[];
}

/** Static divergence along one quantity at the pair's trim. */
export interface DivergenceSearch {
  readonly condition: string;
  readonly mass: string;
  readonly along: "airspeed" | "boomAngle" | "weightShare";
  readonly unit: string;
  /** What was searched, in `unit`. */
  readonly from: number;
  readonly to: number;
  /** Where a real root passes zero, in `unit`; rising. */
  readonly at: readonly { readonly value: number; readonly plane: "longitudinal" | "lateral" }[];
  /** Number of growing real roots at the lower end, or at the first place that trims. */
  readonly growingBelow: number;
  /** Places of the search at which the aircraft does not trim, and of how many: nothing is known there. */
  readonly withoutTrim: number;
  readonly places: number;
}

/** Tangential stiffness below which a real root grows, at the condition. */
export interface StaticStiffness {
  readonly condition: string;
  readonly mass: string;
  /** `false`: the aircraft does not trim at the condition, and nothing is known. */
  readonly trims: boolean;
  /** −1/H(0) [N/m]; not positive: no stiffness is needed. */
  readonly needed_N_m: number | null;
  readonly present_N_m: number;
}

export interface EquilibriumResult {
  readonly families: readonly BranchFamily[];
  readonly loads: readonly LoadCurve[];
  readonly divergence: readonly DivergenceSearch[];
  readonly stiffness: readonly StaticStiffness[];
  readonly hookLoadLimit_N: number | null;
}
