import type {
  CgEnvelope,
  MeanChord,
  PlacedMass,
  TrimAirloads,
  WheelPlaces,
} from "../../physics/weight-balance/index.ts";

/** A criterion's limit in SI and where it comes from. */
export interface SourcedValue {
  readonly value: number;
  readonly source: string;
}

export type Held = "three point" | "single point";

/** A loading of the carried aircraft; stations of its own. */
export interface CarriedMass {
  readonly name: string;
  readonly mass: number;
  /** c.g. from the probe tip: aft, right, up [m]. */
  readonly fromProbe: readonly [number, number, number];
}

export interface Tank {
  readonly name: string;
  readonly capacity: number;
  /** Fuel at the start [kg]. */
  readonly start: number;
  /** Centre against contents; one row where it does not move. */
  readonly contents: ArrayLike<number>;
  readonly FS: ArrayLike<number>;
  readonly BL: ArrayLike<number>;
  readonly WL: ArrayLike<number>;
}

export interface Item extends PlacedMass {
  readonly name: string;
  readonly kind: "empty" | "kit" | "crew" | "payload";
}

export interface BoomGeometry {
  readonly hinge: readonly [FS: number, BL: number, WL: number];
  readonly length: number;
  readonly stowed: number;
  readonly extended: number;
  /** Nose-up pitch of the carried aircraft at three points against boom angle [rad]; `null`: level. */
  readonly pitch: { readonly angles: Float64Array; readonly pitches: Float64Array } | null;
}

export interface Leg {
  readonly name: string;
  readonly time: number;
  readonly fuel: number;
  readonly aircraft: "stowed" | "lowering" | "extended" | "raising" | "away";
  readonly held: Held;
  readonly share: number;
  readonly emptyBoom: "stowed" | "extended";
}

/** The study on plain physics arguments; SI and radians. */
export interface BalanceInputs {
  readonly chord: MeanChord;
  readonly envelope: CgEnvelope;
  readonly largest: { readonly takeOff: number; readonly landing: number; readonly zeroFuel: number };
  readonly items: readonly Item[];
  /** What of the kit swings with the boom. */
  readonly kitBoom: { readonly mass: number; readonly centreFromHinge: number } | null;
  readonly tanks: readonly Tank[];
  /** Indices of tanks that run empty together. */
  readonly burnOrder: readonly (readonly number[])[];
  readonly boom: BoomGeometry;
  readonly carried: { readonly out: CarriedMass; readonly back: CarriedMass; readonly light: CarriedMass };
  readonly legs: readonly Leg[];
  /** Boom angles at which it may stick. */
  readonly stuck: readonly number[];
  readonly ground: (WheelPlaces & { readonly line: number; readonly rotation: number | null }) | null;
  readonly condition: { readonly name: string; readonly equivalentAirspeed: number; readonly altitude: number };
  readonly air: TrimAirloads | null;
  readonly criteria: {
    readonly margin: SourcedValue;
    readonly lateral: SourcedValue;
    readonly loadFactorStep: SourcedValue;
    readonly tipBack: SourcedValue;
    readonly noseShare: { readonly from: SourcedValue; readonly to: SourcedValue };
    readonly elevatorStep: SourcedValue | null;
  };
}
