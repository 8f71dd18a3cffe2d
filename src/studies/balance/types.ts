/**
 * Result of the study `balance`: where are the carrier's c.g. and trim in every state, including every release?
 *
 * Keys end in their unit; `percentMac` is the place along the mean aerodynamic chord in per cent of it. Plain JSON data.
 */
import type { Finding, Limit } from "../finding/types.ts";

/** What may happen to the mission. */
export type BranchKind =
  | "planned"
  | "not recovered"
  | "recovered light"
  | "jettisoned"
  | "stuck with aircraft"
  | "stuck empty";

/** One line of the loading sheet. */
export interface LoadingItem {
  readonly name: string;
  readonly kind: "empty" | "kit" | "crew" | "payload" | "carried aircraft" | "fuel";
  readonly mass_kg: number;
  readonly FS_m: number;
  readonly BL_m: number;
  readonly WL_m: number;
  /** Of a tank; `null` for the others. */
  readonly capacity_kg: number | null;
}

/** A sum of the loading sheet with the c.g. limits at its mass. */
export interface LoadingTotal {
  readonly key: "empty" | "zero-fuel" | "start" | "end";
  readonly name: string;
  readonly mass_kg: number;
  readonly FS_m: number;
  readonly cg_percentMac: number;
  readonly forward_percentMac: number;
  readonly aft_percentMac: number;
  /** Largest mass that the pair states for it; `null` where it states none. */
  readonly largest_kg: number | null;
}

/** The carrier at one moment: what its lift carries. */
export interface BalancePoint {
  readonly time_s: number;
  readonly leg: string;
  readonly fuel_kg: number;
  readonly mass_kg: number;
  readonly FS_m: number;
  readonly BL_m: number;
  readonly cg_percentMac: number;
}

/** The moment with the least margin to the c.g. limits. */
export interface WorstMoment extends BalancePoint {
  readonly margin_percentMac: number;
  readonly side: "forward" | "aft";
  readonly limit_percentMac: number;
}

/** Columns of one track, of equal length; two rows with one time are the two sides of a sudden change. */
export interface Track {
  readonly time_s: readonly number[];
  readonly mass_kg: readonly number[];
  readonly cg_percentMac: readonly number[];
  readonly margin_percentMac: readonly number[];
}

export interface BalanceBranch {
  /** Stable: `planned`, `not-recovered`, `stuck-52-single-point`. */
  readonly key: string;
  readonly kind: BranchKind;
  readonly title: string;
  /** From when on it differs from the plan. */
  readonly from_s: number;
  readonly track: Track;
  readonly worst: WorstMoment;
  /** Largest distance of the c.g. from the symmetry plane, to the right positive. */
  readonly lateral_m: number;
  /** Largest mass without fuel. */
  readonly zeroFuelMass_kg: number;
  readonly end: BalancePoint;
}

/** Change of trim at the study's condition. */
export interface TrimStep {
  readonly loadFactorStep_1: number;
  /** Nose up, about the c.g. afterwards. */
  readonly momentStep_Nm: number;
  /** Level again at the same speed; `null` without control power. */
  readonly alpha_deg: number | null;
  readonly elevator_deg: number | null;
  /** Elevator left alone; `null` without static stability. */
  readonly handsOffAlpha_deg: number | null;
  readonly handsOffLoadFactor_1: number | null;
}

export type ChangeKind = "release" | "hook-on" | "weight taken" | "boom lowered" | "boom raised" | "jettison";

/** A change of state: sudden, or a move of the boom from its start to its end. */
export interface StateChange {
  readonly key: string;
  readonly kind: ChangeKind;
  readonly title: string;
  readonly before: BalancePoint;
  readonly after: BalancePoint;
  /** Towards the tail. */
  readonly shift_percentMac: number;
  /** `null` where the pair gives no derivatives of the carrier. */
  readonly trim: TrimStep | null;
}

export interface GroundState {
  readonly key: string;
  readonly title: string;
  readonly mass_kg: number;
  readonly cg_percentMac: number;
  readonly FS_m: number;
  readonly height_m: number;
  readonly noseShare_1: number;
  readonly nose_N: number;
  readonly mainLeft_N: number;
  readonly mainRight_N: number;
  readonly tipBack_deg: number;
}

export interface BalanceResult {
  readonly study: "balance";
  readonly variant: string;
  readonly chord: { readonly leadingEdge_m: number; readonly length_m: number };
  readonly envelope: {
    readonly mass_kg: readonly number[];
    readonly forward_percentMac: readonly number[];
    readonly aft_percentMac: readonly number[];
  };
  readonly largest: { readonly takeOff_kg: number; readonly landing_kg: number; readonly zeroFuel_kg: number };
  readonly condition: { readonly name: string; readonly airspeed_m_s_EAS: number; readonly altitude_m: number };
  readonly items: readonly LoadingItem[];
  readonly totals: readonly LoadingTotal[];
  readonly start: BalancePoint;
  /** Legs of the plan. */
  readonly legs: readonly {
    readonly name: string;
    readonly from_s: number;
    readonly to_s: number;
    readonly aircraft: string;
  }[];
  readonly branches: readonly BalanceBranch[];
  readonly changes: readonly StateChange[];
  /** `null` when the pair does not describe the ground. */
  readonly ground: readonly GroundState[] | null;
  readonly findings: readonly Finding[];
  readonly limits: readonly Limit[];
  readonly assumptions: readonly string[];
  readonly notAnalysed: readonly string[];
}
