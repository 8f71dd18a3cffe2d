/** A vector or point in boom axes: along the boom away from the hinge, towards a larger boom angle, to the right. */
export type BoomVector = readonly [along: number, swing: number, right: number];

/**
 * One row of the section table; between rows every property varies linearly. Two rows at one station are a step.
 * A column that may be left out is given in every row or in none.
 */
export interface BoomSection {
  /** Distance from the hinge along the boom [m]; may be negative for a part behind the hinge. */
  readonly station: number;
  /** EI for bending in the swing plane and sideways [N·m²]. */
  readonly bendingSwing: number;
  readonly bendingLateral: number;
  /** GJ [N·m²] and EA [N]. */
  readonly torsion: number;
  readonly axial: number;
  /** ρA [kg/m]. */
  readonly massPerLength: number;
  /** κGA against shear in the swing plane and sideways [N]; left out: no shear strain. */
  readonly shearSwing?: number;
  readonly shearLateral?: number;
  /** ρI of the section about its right axis (swing plane) and its swing axis (sideways) [kg·m]; left out: none. */
  readonly rotaryInertiaSwing?: number;
  readonly rotaryInertiaLateral?: number;
  /** ρI about the boom's axis [kg·m]; left out: the sum of the two rotary inertias. */
  readonly polarInertia?: number;
  /** Distance of the outermost fibre from the axis, in the swing plane and sideways [m], and E there [Pa]: for stress. */
  readonly fibreSwing?: number;
  readonly fibreLateral?: number;
  readonly youngsModulus?: number;
}

/** Euler–Bernoulli leaves shear strain out, whatever the table says; Timoshenko takes it in where κGA is given. */
export type BeamTheory = "Euler-Bernoulli" | "Timoshenko";

/** Where on the boom something is attached: a station on its axis and an offset from there. */
interface Attached {
  readonly station: number;
  /** Offset of the point from the axis at the station [m], boom axes; default none. */
  readonly offset?: BoomVector;
}

/** A line from the attached point outwards; the length of the vector does not matter. */
interface Directed extends Attached {
  readonly direction: BoomVector;
}

/**
 * What holds the boom.
 *
 * - hinge: free to turn about the right axis; all else is held
 * - clamp: all is held
 * - prop: the point cannot move along the direction, or moves by the prescribed travel [m]
 * - spring: stiffness along the direction [N/m]; Infinity is a prop
 * - strut: a bar of stiffness EA [N] and length ℓ [m] along the direction: EA/ℓ
 * - jack: as a spring, with what yields in series with it [N/m] (oil column, accumulator); the one that may be locked
 * - turning spring: moment per angle about the direction [N·m/rad]
 */
export type BoomAttachment =
  | { readonly kind: "hinge" | "clamp"; readonly station: number }
  | (Directed & { readonly kind: "prop"; readonly travel?: number })
  | (Directed & { readonly kind: "spring"; readonly stiffness: number })
  | (Directed & { readonly kind: "strut"; readonly axialStiffness: number; readonly length: number })
  | (Directed & { readonly kind: "jack"; readonly stiffness: number; readonly inSeries?: readonly number[] })
  | (Directed & { readonly kind: "turning spring"; readonly stiffness: number });

/** A body on the boom: mass [kg], offset of its centre [m], inertia about its own centre and the boom axes [kg·m²]. */
export interface PointMass extends Attached {
  readonly mass: number;
  readonly inertia?: BoomVector;
}

export interface BoomStructureSettings {
  /** At least two rows, by rising station. The tip is the last. */
  readonly sections: readonly BoomSection[];
  readonly attachments: readonly BoomAttachment[];
  readonly masses?: readonly PointMass[];
  /** Default: Timoshenko. */
  readonly theory?: BeamTheory;
  /** Least number of elements of equal length along the boom; stations of attachments and masses add nodes. Default 24. */
  readonly elements?: number;
  /** Further stations that shall be nodes, for loads and results [m]. */
  readonly nodes?: readonly number[];
}

/** A load at a station that is a node: force [N] and moment [N·m] on the boom, boom axes. */
export interface BoomLoad {
  readonly station: number;
  readonly force?: BoomVector;
  readonly moment?: BoomVector;
}

/** Freedoms of a node in their order: displacement along, swing, right [m], rotation about along, swing, right [rad]. */
export const FREEDOMS = 6;
