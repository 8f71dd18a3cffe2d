import { BugError, DomainError } from "../../math/errors.ts";
import { requireFinite, requirePositive } from "../../math/require.ts";
import { normaliseQuaternion, rotateToBody, rotateToParent, rotationMatrix } from "../../math/rotation/index.ts";
import type { JointKind, JointSpec, LinkageSpec, Vector3 } from "./types.ts";
import { cross, dot, unitise } from "./vectors.ts";

/** Numbers kept for each joint: point and axes (axis, side, third) on the first body, then on the second. */
export const GEOMETRY = 24;
export const POINT_FIRST = 0;
export const AXES_FIRST = 3;
export const POINT_SECOND = 12;
export const AXES_SECOND = 15;
/** Numbers kept for each body in a state: position of its centre and attitude. */
export const STATE = 7;

/** Rows that each kind of joint holds. */
export const ROWS: Readonly<Record<JointKind, number>> = {
  ball: 3,
  hinge: 5,
  cylindrical: 4,
  slider: 5,
  planar: 3,
  fixed: 6,
  attitude: 3,
  rod: 1,
  jack: 0,
};

export interface Joint {
  readonly name: string;
  readonly kind: JointKind;
  /** Index of the bodies; 0 is the fixed one. */
  readonly first: number;
  readonly second: number;
}

/** A linkage, checked and in numbers. The arrays `geometry` and `lengths` may be changed by whoever varies dimensions. */
export interface Linkage {
  /** Names, the fixed body first. */
  readonly bodies: readonly string[];
  readonly joints: readonly Joint[];
  /**
   * Centre of each body in its own axes [m], shape (bodies, 3): mean of its joint points. Inside this folder points are
   * counted from the centre, so that nothing depends on how far away a datum is.
   */
  readonly centres: Float64Array;
  /** Points from the centre [m] and unit axes, in body axes, shape (joints, 24). */
  readonly geometry: Float64Array;
  /** Held length of each rod [m], shape (joints); 0 for other kinds. */
  readonly lengths: Float64Array;
  /** State at the stated pose, shape (bodies, 7): centre in carrier axes [m], attitude [w, x, y, z]. */
  readonly stated: Float64Array;
  /** ℓ [m]: largest distance of a joint point from the mean of all at the stated pose. Weighs angles against lengths. */
  readonly size: number;
  /** Largest coordinate that enters a row [m]: what rounding is relative to. */
  readonly extent: number;
}

/**
 * Checks a linkage and turns it into numbers.
 *
 * @param spec  bodies and joints; lengths [m], in the axes that each field names
 * @throws {DomainError} if a name is unknown or given twice, a number is not finite, an axis has no length, a side lies
 *         along its axis, or a joint joins a body to itself
 * @source own derivation, README section "Model"
 * @verified linkage.test.ts
 */
export function createLinkage(spec: LinkageSpec): Linkage {
  const bodies = [spec.fixed, ...spec.bodies.map((body) => body.name)];
  requireDistinct("body name", bodies);
  requireDistinct(
    "joint name",
    spec.joints.map((joint) => joint.name),
  );
  if (spec.bodies.length === 0) throw new DomainError("number of moving bodies", 0, "at least 1");
  const origins = originsOf(spec);
  const joints = spec.joints.map((joint): Joint => {
    const [first, second] = [joint.first, joint.second].map((name) => {
      const index = bodies.indexOf(name);
      if (index < 0) throw new DomainError(`body of joint ${joint.name}`, name, bodies.join(", "));
      return index;
    });
    if (first === second) throw new DomainError(`second body of joint ${joint.name}`, joint.second, "another body");
    return { name: joint.name, kind: joint.kind, first, second };
  });
  const geometry = new Float64Array(GEOMETRY * joints.length);
  const lengths = new Float64Array(joints.length);
  spec.joints.forEach((joint, at) => {
    fillGeometry(joint, joints[at], origins, geometry, GEOMETRY * at);
    if (joint.kind !== "rod") return;
    requirePositive(`length of ${joint.name}`, joint.length);
    lengths[at] = joint.length;
  });
  const centres = centresOf(bodies.length, joints, geometry);
  const stated = origins.slice();
  const rotation = new Float64Array(9);
  const shift = new Float64Array(3);
  for (let body = 0; body < bodies.length; body++) {
    rotationMatrix(stated, STATE * body + 3, rotation);
    rotateToParent(rotation, centres, 3 * body, shift, 0);
    for (let k = 0; k < 3; k++) stated[STATE * body + k] += shift[k];
  }
  const size = sizeOf(joints, geometry, origins);
  joints.forEach((joint, at) => {
    for (let k = 0; k < 3; k++) {
      geometry[GEOMETRY * at + POINT_FIRST + k] -= centres[3 * joint.first + k];
      geometry[GEOMETRY * at + POINT_SECOND + k] -= centres[3 * joint.second + k];
    }
  });
  const extent = stated.reduce((most, value, at) => (at % STATE < 3 ? Math.max(most, Math.abs(value)) : most), size);
  return { bodies, joints, centres, geometry, lengths, stated, size, extent };
}

/** A copy whose dimensions may be changed without touching the original. */
export function copyLinkage(linkage: Linkage): Linkage {
  return { ...linkage, geometry: linkage.geometry.slice(), lengths: linkage.lengths.slice() };
}

/** @throws {DomainError} if there is no such joint */
export function jointIndex(linkage: Linkage, name: string): number {
  const index = linkage.joints.findIndex((joint) => joint.name === name);
  if (index < 0) throw new DomainError("joint", name, linkage.joints.map((joint) => joint.name).join(", "));
  return index;
}

/** @throws {DomainError} if there is no such body */
export function bodyIndex(linkage: Linkage, name: string): number {
  const index = linkage.bodies.indexOf(name);
  if (index < 0) throw new DomainError("body", name, linkage.bodies.join(", "));
  return index;
}

function requireDistinct(quantity: string, names: readonly string[]): void {
  names.forEach((name, at) => {
    if (name === "") throw new DomainError(quantity, '""', "a name");
    if (names.indexOf(name) !== at) throw new DomainError(quantity, name, "a name of its own");
  });
}

/** Origin and attitude of each body at the stated pose, shape (bodies, 7). */
function originsOf(spec: LinkageSpec): Float64Array {
  const origins = new Float64Array(STATE * (spec.bodies.length + 1));
  origins[3] = 1;
  spec.bodies.forEach((body, at) => {
    const values = [...(body.position ?? [0, 0, 0]), ...(body.attitude ?? [1, 0, 0, 0])];
    for (const value of values) requireFinite(`stated pose of ${body.name}`, value);
    origins.set(values, STATE * (at + 1));
    normaliseQuaternion(origins, STATE * (at + 1) + 3);
  });
  return origins;
}

function fillGeometry(spec: JointSpec, joint: Joint, origins: Float64Array, out: Float64Array, offset: number): void {
  const set = (what: string, value: Vector3, at: number) => {
    value.forEach((component, k) => {
      requireFinite(`${what} of ${spec.name}`, component);
      out[offset + at + k] = component;
    });
  };
  const carry = (from: number, to: number, isPoint: boolean) =>
    carryOver(origins, joint, out, offset + from, offset + to, isPoint);
  if (spec.kind !== "attitude") {
    set("point on first", spec.pointOnFirst, POINT_FIRST);
    if (spec.pointOnSecond === undefined) carry(POINT_FIRST, POINT_SECOND, true);
    else set("point on second", spec.pointOnSecond, POINT_SECOND);
  }
  if (!("axisOnFirst" in spec)) {
    // No axis in this kind: any one serves, so that the axes of every joint are a rotation.
    set("axis", [1, 0, 0], AXES_FIRST);
    set("axis", [1, 0, 0], AXES_SECOND);
  } else {
    set("axis on first", spec.axisOnFirst, AXES_FIRST);
    if (spec.axisOnSecond === undefined) carry(AXES_FIRST, AXES_SECOND, false);
    else set("axis on second", spec.axisOnSecond, AXES_SECOND);
  }
  const sideOnFirst = "sideOnFirst" in spec ? spec.sideOnFirst : undefined;
  const sideOnSecond = "sideOnSecond" in spec ? spec.sideOnSecond : undefined;
  completeAxes(spec.name, out, offset + AXES_FIRST, sideOnFirst);
  if (sideOnSecond === undefined) {
    carry(AXES_FIRST + 3, AXES_SECOND + 3, false);
    const side = out.slice(offset + AXES_SECOND + 3, offset + AXES_SECOND + 6);
    completeAxes(spec.name, out, offset + AXES_SECOND, [side[0], side[1], side[2]]);
  } else completeAxes(spec.name, out, offset + AXES_SECOND, sideOnSecond);
}

/** Writes what lies on the first body as it is seen from the second at the stated pose. */
function carryOver(
  origins: Float64Array,
  joint: Joint,
  out: Float64Array,
  from: number,
  to: number,
  isPoint: boolean,
): void {
  const rotation = new Float64Array(9);
  const here = new Float64Array(3);
  rotationMatrix(origins, STATE * joint.first + 3, rotation);
  rotateToParent(rotation, out, from, here, 0);
  if (isPoint) {
    for (let k = 0; k < 3; k++) here[k] += origins[STATE * joint.first + k] - origins[STATE * joint.second + k];
  }
  rotationMatrix(origins, STATE * joint.second + 3, rotation);
  rotateToBody(rotation, here, 0, out, to);
}

/** Makes axis, side and third a right-handed set of unit vectors; the axis stands at `at`. */
function completeAxes(name: string, out: Float64Array, at: number, side: Vector3 | undefined): void {
  const length = unitise(out, at);
  if (!(length > 0 && length < Number.POSITIVE_INFINITY))
    throw new DomainError(`axis of ${name}`, length, "above zero");
  const given = side ?? anyNormal(out, at);
  for (let k = 0; k < 3; k++) {
    requireFinite(`side of ${name}`, given[k]);
    out[at + 3 + k] = given[k];
  }
  const size = unitise(out, at + 3);
  const along = dot(out, at, out, at + 3);
  for (let k = 0; k < 3; k++) out[at + 3 + k] -= along * out[at + k];
  const normal = unitise(out, at + 3);
  if (!(size > 0 && normal > 1e-6)) throw new DomainError(`side of ${name}`, given.join(" "), "a vector off the axis");
  cross(out, at, out, at + 3, out, at + 6);
  if (!(Math.abs(dot(out, at + 6, out, at + 6) - 1) < 1e-9)) throw new BugError(`axes of ${name} are not normal`);
}

/** The coordinate direction that is furthest from the axis. */
function anyNormal(out: Float64Array, at: number): Vector3 {
  const [x, y, z] = [0, 1, 2].map((k) => Math.abs(out[at + k]));
  if (x <= y && x <= z) return [1, 0, 0];
  return y <= z ? [0, 1, 0] : [0, 0, 1];
}

function centresOf(bodies: number, joints: readonly Joint[], geometry: Float64Array): Float64Array {
  const centres = new Float64Array(3 * bodies);
  const counts = new Float64Array(bodies);
  joints.forEach((joint, at) => {
    if (joint.kind === "attitude") return;
    for (const [body, point] of [
      [joint.first, POINT_FIRST],
      [joint.second, POINT_SECOND],
    ]) {
      counts[body]++;
      for (let k = 0; k < 3; k++) centres[3 * body + k] += geometry[GEOMETRY * at + point + k];
    }
  });
  return centres.map((sum, at) => (at < 3 ? 0 : sum / Math.max(1, counts[Math.floor(at / 3)])));
}

function sizeOf(joints: readonly Joint[], geometry: Float64Array, origins: Float64Array): number {
  const points: Float64Array[] = [];
  const rotation = new Float64Array(9);
  joints.forEach((joint, at) => {
    if (joint.kind === "attitude") return;
    for (const [body, from] of [
      [joint.first, POINT_FIRST],
      [joint.second, POINT_SECOND],
    ]) {
      const point = new Float64Array(3);
      rotationMatrix(origins, STATE * body + 3, rotation);
      rotateToParent(rotation, geometry, GEOMETRY * at + from, point, 0);
      for (let k = 0; k < 3; k++) point[k] += origins[STATE * body + k];
      points.push(point);
    }
  });
  const mean = [0, 1, 2].map((k) => points.reduce((sum, point) => sum + point[k], 0) / Math.max(1, points.length));
  const size = points.reduce(
    (most, p) => Math.max(most, Math.hypot(p[0] - mean[0], p[1] - mean[1], p[2] - mean[2])),
    0,
  );
  return size > 0 ? size : 1;
}
