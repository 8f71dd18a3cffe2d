import { DomainError } from "../../math/errors.ts";
import { requireFinite } from "../../math/require.ts";
import { quaternionFromRotationVector, rotateToParent, rotationMatrix } from "../../math/rotation/index.ts";
import { PARTIALS, type Rows } from "./joint-rows.ts";
import { AXES_FIRST, AXES_SECOND, GEOMETRY, jointIndex, type Linkage, POINT_FIRST, POINT_SECOND } from "./linkage.ts";
import type { LinkageWork } from "./settle.ts";
import type { Vector3 } from "./types.ts";

/** What one dimension moves. */
export interface DimensionPart {
  readonly joint: string;
  /**
   * A joint's point on a body [m], its axes on a body (turned, [rad]), or "length": of a rod, or the value of a drive. What is
   * "on first" lies on the joint's first body.
   */
  readonly what: "point on first" | "point on second" | "axes on first" | "axes on second" | "length";
  /** Moves by the deviation times this vector, in axes of that body; for a length its first number counts, default 1. */
  readonly direction?: Vector3;
}

/** A dimension of the drawing that may deviate. */
export interface Dimension {
  readonly name: string;
  readonly parts: readonly DimensionPart[];
}

/** A dimension in numbers. */
export interface ResolvedPart {
  readonly joint: number;
  readonly what: DimensionPart["what"];
  readonly direction: Float64Array;
}

/** @throws {DomainError} if a joint is unknown, a direction is missing or not finite, or the joint has no such part */
export function resolveDimensions(linkage: Linkage, dimensions: readonly Dimension[]): ResolvedPart[][] {
  return dimensions.map(({ name, parts }) =>
    parts.map(({ joint, what, direction }) => {
      const index = jointIndex(linkage, joint);
      const { kind } = linkage.joints[index];
      const isLength = what === "length";
      if (!isLength && direction === undefined)
        throw new DomainError(`direction of ${name}`, direction, "three numbers");
      if (isLength && !["rod", "jack", "slider", "cylindrical", "hinge"].includes(kind)) {
        throw new DomainError(`length of ${joint}`, kind, "a rod or a joint that can be driven");
      }
      if (what.startsWith("point") && kind === "attitude")
        throw new DomainError(`point of ${joint}`, kind, "another kind");
      if (what.startsWith("axes") && ["rod", "jack", "ball"].includes(kind)) {
        throw new DomainError(`axes of ${joint}`, kind, "a joint with an axis");
      }
      const given = Float64Array.from(direction ?? [1, 0, 0]);
      for (const value of given) requireFinite(`direction of ${name}`, value);
      return { joint: index, what, direction: given };
    }),
  );
}

const turned = new Float64Array(4);
const rotation = new Float64Array(9);

/**
 * Sets the dimensions of a linkage to deviations from nominal, in place.
 * @param linkage     its `geometry` and `lengths` are written
 * @param nominal     the undisturbed one
 * @param parts       from `resolveDimensions`
 * @param deviations  one for each dimension [m or rad]
 * @param offset      index of the first
 * @param drives      values of the drives, changed where a driven joint's length is a dimension
 */
export function deviate(
  linkage: Linkage,
  nominal: Linkage,
  parts: readonly (readonly ResolvedPart[])[],
  deviations: Float64Array,
  offset: number,
  drives: { readonly rows: Rows; readonly values: Float64Array },
): void {
  const { geometry, lengths } = linkage;
  geometry.set(nominal.geometry);
  lengths.set(nominal.lengths);
  drives.rows.values.set(drives.values);
  for (let d = 0; d < parts.length; d++) {
    const x = deviations[offset + d];
    for (const { joint, what, direction } of parts[d]) {
      const g = GEOMETRY * joint;
      if (what === "point on first") shift(geometry, g + POINT_FIRST, direction, x);
      else if (what === "point on second") shift(geometry, g + POINT_SECOND, direction, x);
      else if (what === "axes on first") tilt(geometry, g + AXES_FIRST, direction, x);
      else if (what === "axes on second") tilt(geometry, g + AXES_SECOND, direction, x);
      else if (linkage.joints[joint].kind === "rod") lengths[joint] += x * direction[0];
      else {
        const drive = drives.rows.driven.indexOf(joint);
        if (drive >= 0) drives.rows.values[drive] += x * direction[0];
      }
    }
  }
}

function shift(geometry: Float64Array, at: number, direction: Float64Array, x: number): void {
  for (let k = 0; k < 3; k++) geometry[at + k] += x * direction[k];
}

function tilt(geometry: Float64Array, at: number, direction: Float64Array, x: number): void {
  quaternionFromRotationVector(x * direction[0], x * direction[1], x * direction[2], turned, 0);
  rotationMatrix(turned, 0, rotation);
  for (let vector = 0; vector < 9; vector += 3) rotateToParent(rotation, geometry, at + vector, geometry, at + vector);
}

const inCarrier = new Float64Array(3);

/**
 * Change of a quantity with partials per unit of one dimension, the bodies held.
 * @param linkage   the linkage
 * @param work      placed at the state
 * @param parts     of the dimension
 * @param joint     whose partials they are
 * @param partials  shape (12) from `p`
 * @param p         index of the first
 */
export function directChange(
  linkage: Linkage,
  work: LinkageWork,
  parts: readonly ResolvedPart[],
  joint: number,
  partials: Float64Array,
  p: number,
): number {
  let sum = 0;
  for (const part of parts) {
    if (part.joint !== joint || part.what === "length") continue;
    const { first, second } = linkage.joints[joint];
    const body = part.what.endsWith("first") ? first : second;
    rotateToParent(work.placed.rotations[body], part.direction, 0, inCarrier, 0);
    const from = p + (part.what.startsWith("axes") ? 3 : 0) + (part.what.endsWith("second") ? 6 : 0);
    for (let k = 0; k < 3; k++) sum += partials[from + k] * inCarrier[k];
  }
  return sum;
}

/**
 * Change of every row per unit of one dimension, the bodies held: ∂C/∂x.
 * @param linkage  the linkage
 * @param work     evaluated at the state
 * @param parts    of the dimension
 * @param out      shape (rows), written
 */
export function rowChange(
  linkage: Linkage,
  work: LinkageWork,
  parts: readonly ResolvedPart[],
  out: Float64Array,
): void {
  const { rows } = work;
  const drivesFrom = rows.count - rows.driven.length;
  for (let row = 0; row < rows.count; row++) {
    const joint = rows.joints[row];
    let sum = directChange(linkage, work, parts, joint, rows.partials, PARTIALS * row);
    for (const part of parts) {
      if (part.joint !== joint || part.what !== "length") continue;
      if (row >= drivesFrom) sum -= rows.weights[row - drivesFrom] * part.direction[0];
      else if (linkage.joints[joint].kind === "rod") sum -= part.direction[0];
    }
    out[row] = sum;
  }
}
