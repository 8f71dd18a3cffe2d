/** Three components, in the axes that the field names: [x, y, z]. */
export type Vector3 = readonly [number, number, number];

/** A moving body and where it stands at the stated pose. */
export interface BodySpec {
  readonly name: string;
  /** Position of the body's origin at the stated pose, in carrier axes [m]. Default: the carrier's origin. */
  readonly position?: Vector3;
  /** Attitude at the stated pose, body to carrier axes, [w, x, y, z]. Default: axes alike. */
  readonly attitude?: readonly [number, number, number, number];
}

/**
 * A joint between two bodies. What is given on the first body lies in its axes, likewise on the second. What is left out
 * on the second is what coincides with the first at the stated pose; so a mechanism may be given as drawn in one pose.
 */
interface JointBase {
  readonly name: string;
  readonly first: string;
  readonly second: string;
}
interface WithPoint {
  readonly pointOnFirst: Vector3;
  readonly pointOnSecond?: Vector3;
}
interface WithAxis {
  /** Any length above zero. */
  readonly axisOnFirst: Vector3;
  readonly axisOnSecond?: Vector3;
}
interface WithSide {
  /** Not along the axis; only its part normal to the axis counts. Default: any normal. */
  readonly sideOnFirst?: Vector3;
  readonly sideOnSecond?: Vector3;
}

export type JointSpec =
  /** Points coincide: three rows. */
  | (JointBase & WithPoint & { readonly kind: "ball" })
  /** Points coincide and axes agree: five rows. Its angle turns the first's side into the second's about the axis. */
  | (JointBase & WithPoint & WithAxis & WithSide & { readonly kind: "hinge" })
  /** Second's point stays on the first's axis, axes agree: four rows. */
  | (JointBase & WithPoint & WithAxis & WithSide & { readonly kind: "cylindrical" })
  /** As cylindrical, and no turn about the axis: five rows. */
  | (JointBase & WithPoint & WithAxis & WithSide & { readonly kind: "slider" })
  /** Second's point stays in the plane through the first's point normal to the axis, axes agree: three rows. */
  | (JointBase & WithPoint & WithAxis & { readonly kind: "planar" })
  /** No relative motion: six rows. */
  | (JointBase & WithPoint & WithAxis & WithSide & { readonly kind: "fixed" })
  /** Attitude of the second relative to the first is held, position is free: three rows. */
  | (JointBase & WithAxis & WithSide & { readonly kind: "attitude" })
  /** Distance between the points is held: one row. */
  | (JointBase & Required<WithPoint> & { readonly kind: "rod"; readonly length: number })
  /** Distance between the points, free until driven: no row of its own. */
  | (JointBase & Required<WithPoint> & { readonly kind: "jack" });

export type JointKind = JointSpec["kind"];

export interface LinkageSpec {
  /** Name of the body that does not move; its axes are the parent axes ("carrier axes"). */
  readonly fixed: string;
  readonly bodies: readonly BodySpec[];
  readonly joints: readonly JointSpec[];
}

/**
 * A driven coordinate and its value: length of a jack [m], angle of a hinge [rad], travel of a slider or cylindrical
 * joint along the first's axis [m].
 */
export interface Drive {
  readonly joint: string;
  readonly value: number;
}

/** A point fixed in a body, in its axes [m], or the point of a joint on one of its bodies. */
export type PointRef =
  | { readonly body: string; readonly at: Vector3 }
  | { readonly joint: string; readonly on: "first" | "second" };

/** Positions and attitudes of all bodies; the arrays have one row for each body, the fixed one first. */
export interface LinkagePose {
  /** Origins in carrier axes [m], shape (bodies, 3). */
  readonly positions: Float64Array;
  /** Body to carrier axes, [w, x, y, z], shape (bodies, 4). */
  readonly attitudes: Float64Array;
}
