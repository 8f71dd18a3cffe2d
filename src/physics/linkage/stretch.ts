import {
  add,
  divide,
  type Interval,
  type Jet,
  multiply,
  negate,
  point,
  scale,
  sineCosine,
  square,
  squareRoot,
  subtract,
  turnFactors,
} from "../../math/interval/index.ts";
import {
  addBounds,
  addJets3,
  type Bounds3,
  constantJets,
  crossBounds,
  type Jets3,
  points3,
  scaleBounds,
  subtractBounds,
  subtractJets3,
  turnBounds,
} from "./interval-vectors.ts";
import { AXES_FIRST, AXES_SECOND, GEOMETRY, type Linkage, POINT_FIRST, POINT_SECOND } from "./linkage.ts";
import type { NodePoses } from "./nodes.ts";

/** One body over one stretch. */
export interface BodyStretch {
  readonly from: Bounds3;
  readonly way: Bounds3;
  /** R₀, nine components. */
  readonly rotation: readonly Interval[];
  readonly turn: Bounds3;
  readonly turnSquared: Interval;
}

/** A driven joint over one stretch; its value goes evenly. */
export interface DriveStretch {
  readonly joint: number;
  readonly from: number;
  readonly to: number;
}

/** All bodies from one node to the next; the fixed one is first and has no motion. */
export interface Stretch {
  /** What it is a stretch of, and the node where it begins. */
  readonly nodes: readonly NodePoses[];
  readonly node: number;
  readonly bodies: readonly (BodyStretch | null)[];
  readonly drives: readonly DriveStretch[];
}

/** Points and axes of one joint, body axes, points from the reference. */
interface JointArms {
  readonly first: readonly Bounds3[];
  readonly second: readonly Bounds3[];
}

/** One joint along the motion, carrier axes: arms from the reference, axes (axis, side, third), and b − a. */
export interface PlacedJoint {
  readonly armFirst: Jets3;
  readonly armSecond: Jets3;
  readonly axesFirst: readonly Jets3[];
  readonly axesSecond: readonly Jets3[];
  readonly gap: Jets3;
}

const ZERO3 = points3(0, 0, 0);
const STILL = constantJets(ZERO3);

/** Points and axes of every joint counted from the references. */
export function armsOf(linkage: Linkage, bodies: readonly NodePoses[]): JointArms[] {
  const { centres, geometry } = linkage;
  return linkage.joints.map(({ first, second }, at) => {
    const vector = (from: number): Bounds3 => points3(geometry[from], geometry[from + 1], geometry[from + 2]);
    const side = (body: number, toPoint: number, toAxes: number): Bounds3[] => {
      const g = GEOMETRY * at;
      const centre = points3(centres[3 * body], centres[3 * body + 1], centres[3 * body + 2]);
      const reference = body === 0 ? ZERO3 : points3(...bodies[body - 1].reference);
      const arm = subtractBounds(addBounds(vector(g + toPoint), centre), reference);
      return [arm, ...[0, 3, 6].map((k) => vector(g + toAxes + k))];
    };
    return { first: side(first, POINT_FIRST, AXES_FIRST), second: side(second, POINT_SECOND, AXES_SECOND) };
  });
}

/** The stretch that begins at a node. */
export function stretchOf(nodes: readonly NodePoses[], node: number, drives: readonly DriveStretch[]): Stretch {
  return { nodes, node, drives, bodies: [null, ...nodes.map((body) => bodyStretch(body, node))] };
}

function bodyStretch({ points, attitudes, turns }: NodePoses, node: number): BodyStretch {
  const [p, q] = [3 * node, 3 * node + 3];
  const from = points3(points[p], points[p + 1], points[p + 2]);
  const turn = points3(turns[p], turns[p + 1], turns[p + 2]);
  return {
    from,
    way: subtractBounds(points3(points[q], points[q + 1], points[q + 2]), from),
    rotation: rotationBounds(attitudes, 4 * node),
    turn,
    turnSquared: add(add(square(turn[0]), square(turn[1])), square(turn[2])),
  };
}

/** Matrix of a quaternion, which need not have exactly length one. */
function rotationBounds(q: Float64Array, offset: number): Interval[] {
  const raw = [0, 1, 2, 3].map((k) => point(q[offset + k]));
  const length = squareRoot(raw.map(square).reduce(add));
  const [w, x, y, z] = raw.map((one) => divide(one, length));
  const [xx, yy, zz] = [square(x), square(y), square(z)];
  const twice = (a: Interval, b: Interval): Interval => scale(2, add(a, b));
  const [xy, xz, yz] = [multiply(x, y), multiply(x, z), multiply(y, z)];
  const [wx, wy, wz] = [multiply(w, x), multiply(w, y), multiply(w, z)];
  const diagonal = (a: Interval, b: Interval): Interval => subtract(point(1), twice(a, b));
  return [
    ...[diagonal(yy, zz), twice(xy, negate(wz)), twice(xz, wy)],
    ...[twice(xy, wz), diagonal(xx, zz), twice(yz, negate(wx))],
    ...[twice(xz, negate(wy)), twice(yz, wx), diagonal(xx, yy)],
  ];
}

/** exp(tφ)·v, body axes at the node, with the factors of the turn. */
function turned(body: BodyStretch, { first, second }: ReturnType<typeof turnFactors>, v: Bounds3): Bounds3 {
  const once = crossBounds(body.turn, v);
  return addBounds(v, addBounds(scaleBounds(first, once), scaleBounds(second, crossBounds(body.turn, once))));
}

/** R̂ at a share, its columns one after the other. */
export function attitudeBounds(body: BodyStretch, share: Interval): Interval[] {
  const factors = turnFactors(share, body.turnSquared);
  const units = [points3(1, 0, 0), points3(0, 1, 0), points3(0, 0, 1)];
  return units.flatMap((unit) => [...turnBounds(body.rotation, turned(body, factors, unit))]);
}

/** Vector of a body along its motion, carrier axes. */
function carriedJets(body: BodyStretch, factors: ReturnType<typeof turnFactors>, v: Bounds3): Jets3 {
  const value = turned(body, factors, v);
  const first = crossBounds(body.turn, value);
  const second = crossBounds(body.turn, first);
  const [f, g, h] = [value, first, second].map((one) => turnBounds(body.rotation, one));
  const jet = (k: number): Jet => ({ value: f[k], first: g[k], second: h[k] });
  return [jet(0), jet(1), jet(2)];
}

function referenceJets(body: BodyStretch | null, share: Interval): Jets3 {
  if (body === null) return STILL;
  const at = addBounds(body.from, scaleBounds(share, body.way));
  const jet = (k: number): Jet => ({ value: at[k], first: body.way[k], second: point(0) });
  return [jet(0), jet(1), jet(2)];
}

/** All joints over the shares of a stretch. */
export function placeStretch(
  linkage: Linkage,
  arms: readonly JointArms[],
  { bodies }: Stretch,
  share: Interval,
): PlacedJoint[] {
  const at = bodies.map((body) => referenceJets(body, share));
  const factors = bodies.map((body) => (body === null ? null : turnFactors(share, body.turnSquared)));
  return linkage.joints.map(({ kind, first, second }, index) => {
    const needsAxes = kind !== "ball" && kind !== "rod" && kind !== "jack";
    const carry = (index: number, vectors: readonly Bounds3[]): Jets3[] => {
      const [body, turn] = [bodies[index], factors[index]];
      const needed = needsAxes ? vectors : vectors.slice(0, 1);
      return needed.map((v) => (body === null || turn === null ? constantJets(v) : carriedJets(body, turn, v)));
    };
    const [armFirst, ...axesFirst] = carry(first, arms[index].first);
    const [armSecond, ...axesSecond] = carry(second, arms[index].second);
    const gap = subtractJets3(addJets3(at[second], armSecond), addJets3(at[first], armFirst));
    return { armFirst, armSecond, axesFirst, axesSecond, gap };
  });
}

/** Value of a drive, and cosine and sine of it, over the shares of a stretch. */
export function driveJets(
  { from, to }: DriveStretch,
  share: Interval,
): { readonly value: Jet; readonly cosine: Jet; readonly sine: Jet } {
  const rate = subtract(point(to), point(from));
  const value = add(point(from), multiply(share, rate));
  const { sine, cosine } = sineCosine(value);
  const [s1, c1] = [multiply(cosine, rate), negate(multiply(sine, rate))];
  return {
    value: { value, first: rate, second: point(0) },
    cosine: { value: cosine, first: c1, second: negate(multiply(s1, rate)) },
    sine: { value: sine, first: s1, second: multiply(c1, rate) },
  };
}
