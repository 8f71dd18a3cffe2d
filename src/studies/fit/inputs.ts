import type { PartOwner, Station3 } from "./types.ts";

/** A shape in the stations of its owner; SI and radians. */
export type ShapeForm =
  | {
      readonly kind: "fuselage";
      /** Columns of equal length: station, half axes and waterline of the centre of each section. */
      readonly stations: {
        readonly FS: ArrayLike<number>;
        readonly halfWidth: ArrayLike<number>;
        readonly halfHeight: ArrayLike<number>;
        readonly WL: ArrayLike<number>;
      };
      /** Buttline of the middle of all sections. */
      readonly BL: number;
    }
  | {
      readonly kind: "panel";
      /** Leading edge at the root. */
      readonly root: Station3;
      readonly rootChord: number;
      readonly tipChord: number;
      readonly span: number;
      readonly sweep: number;
      readonly tipUp: number;
      readonly thickness: number;
      /** "both" mirrors the right one about BL 0. */
      readonly sides: "right" | "left" | "both";
    }
  | { readonly kind: "bay"; readonly from: Station3; readonly to: Station3; readonly wall: number }
  | { readonly kind: "box"; readonly from: Station3; readonly to: Station3 }
  | { readonly kind: "strut"; readonly from: Station3; readonly to: Station3; readonly radius: number }
  | {
      readonly kind: "wheel";
      readonly centre: Station3;
      readonly radius: number;
      readonly width: number;
      readonly edgeRadius: number;
    }
  | {
      readonly kind: "propeller disc";
      readonly centre: Station3;
      readonly diameter: number;
      readonly thickness: number;
    }
  | {
      readonly kind: "jet cone";
      readonly exit: Station3;
      readonly exitRadius: number;
      readonly halfAngle: number;
      readonly length: number;
    }
  | {
      readonly kind: "mesh";
      /** Corners [FS, BL, WL], shape (n, 3), and corner indices, shape (m, 3), counter-clockwise seen from outside. */
      readonly stations: Float64Array;
      readonly triangles: Uint32Array;
    };

/** One shape of one body. */
export interface PartInput {
  readonly body: string;
  readonly shape: string;
  readonly owner: PartOwner;
  readonly group: string | null;
  readonly zone: boolean;
  readonly form: ShapeForm;
  /** Where it stands in the pair, for messages. */
  readonly path: string;
}

/** A carrier part on a hinge: gear leg, door. */
export interface MoverInput {
  readonly body: string;
  readonly group: string;
  readonly hingeAt: Station3;
  /** Right-handed turns about it are positive; any length above zero. */
  readonly hingeAxis: Station3;
  /** Rising from 0 to 1. */
  readonly fractions: Float64Array;
  /** From the drawn place [rad]. */
  readonly angles: Float64Array;
  /** Name of the mirrored one on the other side; `null` when there is none. */
  readonly mirroredBody: string | null;
  /** Carrier shapes that it hangs on or is stowed in, and the mirrored one; `null`: any of them. */
  readonly hangsOn: readonly string[] | null;
  readonly mirroredHangsOn: readonly string[] | null;
  readonly path: string;
}

/** Where a joint is: a point of the carrier's stations as drawn, or one of the carried aircraft's stations. */
export interface JointPlace {
  readonly in: "carrier" | "carried";
  readonly point: Station3;
}

export interface JointInput {
  readonly name: string;
  readonly kind: "hinge" | "ball" | "slider" | "rod";
  readonly between: readonly [string, string];
  /** Where it is; for a rod its end on the first body. */
  readonly place: JointPlace;
  /** Other end of a rod. */
  readonly to: JointPlace | null;
  /** Direction in stations; lateral when the pair does not say. */
  readonly axis: Station3;
}

export interface LinkageInput {
  /** Pose in which the mechanism is drawn. */
  readonly drawn: { readonly boomAngle: number; readonly carriedPitch: number };
  /** Moving bodies of the mechanism, without carrier and carried aircraft. */
  readonly bodies: readonly string[];
  readonly joints: readonly JointInput[];
  readonly jack: { readonly between: readonly [string, string]; readonly from: Station3; readonly to: Station3 };
  readonly attached: "three point" | "single point";
  readonly boomLength: number;
  readonly stroke: { readonly stowed: number; readonly extended: number };
  readonly ownWeight: { readonly mass: number; readonly centreFromHinge: number } | null;
  readonly jackCapacity: number | null;
  /** Tolerances of the places [m], either way, by joint (`jack.from` and `jack.to` for the jack's ends); `null` when none are stated. */
  readonly tolerances: Readonly<Record<string, { readonly FS: number; readonly WL: number }>> | null;
}

export interface SourcedValue {
  readonly value: number;
  readonly source: string;
}

export interface GroundInput {
  /** Waterline of the ground, static. */
  readonly line: number;
  /** Rise of the ground line [m]. */
  readonly flatTyre: number;
  readonly bottomedStrut: number;
  readonly mainWheels: { readonly FS: number; readonly BL: number };
  readonly aftCg: { readonly FS: number; readonly WL: number } | null;
  readonly rotation: SourcedValue | null;
}

export interface LoadingInput {
  /** Of the carried aircraft's WL 0 above the ground. */
  readonly dollyHeight: number;
  readonly from: "aft" | "forward";
  readonly margin: number;
}

/** What `fit` needs of a pair: SI and radians, points in stations. */
export interface FitInputs {
  readonly parts: readonly PartInput[];
  readonly movers: readonly MoverInput[];
  readonly linkage: LinkageInput;
  /** In the carried aircraft's stations: what the socket holds. */
  readonly probeTip: Station3;
  readonly masses: readonly { readonly name: string; readonly mass: number; readonly cg: Station3 }[];
  readonly ground: GroundInput | null;
  readonly loading: LoadingInput | null;
  readonly criteria: {
    readonly staticClearance: SourcedValue | null;
    readonly movingClearance: SourcedValue | null;
    readonly transmissionAngle: SourcedValue | null;
  };
  readonly near: number;
  /** Pairs that touch by design; each name a body or a part `body.shape`. */
  readonly apart: readonly (readonly [string, string])[];
  readonly stack: readonly { readonly name: string; readonly value: number }[];
  /** Nodes of the maps along the fraction and along the stroke. */
  readonly mapNodes: number;
}

export const CARRIER = "carrier";
export const CARRIED = "carried";
