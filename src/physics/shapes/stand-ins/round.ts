import { DomainError } from "../../../math/errors.ts";
import { requireFinite, requirePositive, requireSize } from "../../../math/require.ts";
import type { StandIn } from "../types.ts";
import {
  type Axes,
  BODY_AXES,
  type Ring,
  requireLengths,
  ringFacetingError,
  ringSurface,
  SIDE_AXES,
} from "./revolve.ts";

/** One station of a fuselage. */
export interface FuselageStation {
  /** Place [m], body x, forward positive. */
  readonly x: number;
  /** Half width and half height of the elliptical section [m], ≥ 0; both zero at a pointed nose or tail. */
  readonly halfWidth: number;
  readonly halfHeight: number;
  /** Centre of the section below the x axis [m]; default 0. */
  readonly drop?: number;
}

const ORIGIN: readonly [number, number, number] = [0, 0, 0];

/**
 * Fuselage: elliptical sections whose half axes and centres run straight from station to station; body axes.
 *
 * @param stations  at least two, in order, nose first or tail first
 * @param segments  corners of a section; default 32
 * @throws {DomainError} for stations out of order, negative sizes or a pointed section inside
 * @source definition; faceting bound README eq. 3
 * @verified stand-ins.test.ts: cones and cylinders (closed form, second order)
 */
export function fuselage(stations: readonly FuselageStation[], segments = 32): StandIn {
  const rings = stations.map(
    ({ x, halfWidth, halfHeight, drop }): Ring => ({
      at: x,
      halfAcross: halfWidth,
      halfDown: halfHeight,
      drop: drop ?? 0,
    }),
  );
  if (rings.length > 1 && rings[0]!.at > rings[1]!.at) rings.reverse();
  return ringed(rings, segments, BODY_AXES, ORIGIN);
}

/**
 * Cylinder with flat ends between two points: a strut, a jack, a boom leg.
 *
 * @param from      centre of one end [m], shape (3)
 * @param to        centre of the other end [m], shape (3)
 * @param radius    [m], > 0
 * @param segments  corners around; default 24
 * @throws {DomainError} if the points coincide or the radius is not above zero
 * @source definition; faceting bound README eq. 3
 * @verified stand-ins.test.ts: πr²l at second order
 */
export function strut(
  from: readonly [number, number, number],
  to: readonly [number, number, number],
  radius: number,
  segments = 24,
): StandIn {
  requirePositive("radius of a strut", radius);
  const step = [0, 1, 2].map((k) => to[k]! - from[k]!) as [number, number, number];
  const length = Math.hypot(...step);
  requirePositive("length of a strut", length);
  const along = step.map((s) => s / length) as [number, number, number];
  const rings = [0, length].map((at): Ring => ({ at, halfAcross: radius, halfDown: radius, drop: 0 }));
  return ringed(rings, segments, axesAlong(along), from);
}

/**
 * Propeller disc: the cylinder that the blades sweep, about the x axis, centred on the origin.
 *
 * @param radius     blade tip radius [m], > 0
 * @param thickness  depth swept along the axis [m], > 0
 * @param segments   corners around; default 48
 * @throws {DomainError} for sizes that are not above zero
 * @source definition; faceting bound README eq. 3
 * @verified stand-ins.test.ts: πr²t at second order
 */
export function propellerDisc(radius: number, thickness: number, segments = 48): StandIn {
  requireLengths({ "radius of a propeller disc": radius, "thickness of a propeller disc": thickness }, "above zero");
  return strut([-0.5 * thickness, 0, 0], [0.5 * thickness, 0, 0], radius, segments);
}

/** A jet behind its exit. */
export interface JetShape {
  /** Radius at the exit [m], ≥ 0. */
  readonly exitRadius: number;
  /** Angle between axis and edge of the jet [rad], 0 to below π/2. */
  readonly halfAngle: number;
  /** Length that counts [m], > 0. */
  readonly length: number;
}

/**
 * Jet: a cone that widens aft (−x) from the exit at the origin.
 *
 * @param shape     exit radius [m], half angle [rad], length [m]
 * @param segments  corners around; default 32
 * @throws {DomainError} for an angle outside 0 to π/2 or a cone without width
 * @source definition; faceting bound README eq. 3
 * @verified stand-ins.test.ts: frustum π l (r² + r R + R²)/3 at second order
 */
export function jetCone(shape: JetShape, segments = 32): StandIn {
  const { exitRadius, halfAngle, length } = shape;
  requireLengths({ "exit radius of a jet": exitRadius }, "zero");
  requirePositive("length of a jet", length);
  if (!(halfAngle >= 0 && halfAngle < 0.5 * Math.PI)) {
    throw new DomainError("half angle of a jet", halfAngle, "0 to below π/2");
  }
  const end = exitRadius + length * Math.tan(halfAngle);
  requirePositive("radius at the end of a jet", end);
  const rings: Ring[] = [
    { at: -length, halfAcross: end, halfDown: end, drop: 0 },
    { at: 0, halfAcross: exitRadius, halfDown: exitRadius, drop: 0 },
  ];
  return ringed(rings, segments, BODY_AXES, ORIGIN);
}

/** A wheel about the y axis, centred on the origin. */
export interface WheelShape {
  /** Outer radius [m], > 0. */
  readonly radius: number;
  /** Width over all [m], > 0. */
  readonly width: number;
  /** Radius of the rounded shoulders [m], 0 to the smaller of half the width and the radius. */
  readonly edgeRadius: number;
}

/**
 * Wheel with tyre: a cylinder about the y axis with rounded shoulders.
 *
 * @param shape      radius, width and edge radius [m]
 * @param segments   corners around; default 32
 * @param shoulders  steps of each quarter circle; default 4
 * @throws {DomainError} for an edge radius beyond half the width or the radius
 * @source definition; faceting bound README eq. 3 for both curvatures
 * @verified stand-ins.test.ts: volume by Pappus' rule (closed form), second order
 */
export function wheel(shape: WheelShape, segments = 32, shoulders = 4): StandIn {
  const { radius, width, edgeRadius } = shape;
  requireLengths({ "radius of a wheel": radius, "width of a wheel": width }, "above zero");
  requireLengths({ "edge radius of a wheel": edgeRadius }, "zero");
  requireSize("steps of a shoulder", shoulders, 1);
  if (edgeRadius > 0.5 * width || edgeRadius >= radius) {
    throw new DomainError("edge radius of a wheel", edgeRadius, "at most half the width, and below the radius");
  }
  const inner = radius - edgeRadius;
  const profile: { at: number; r: number }[] = [];
  const steps = edgeRadius === 0 ? 0 : shoulders;
  for (let i = 0; i <= steps; i++) {
    const angle = steps === 0 ? 0.5 * Math.PI : (0.5 * Math.PI * i) / steps;
    profile.push({ at: -0.5 * width + edgeRadius * (1 - Math.sin(angle)), r: inner + edgeRadius * Math.cos(angle) });
  }
  // From the side face (angle π/2) to the tread (angle 0), then mirrored.
  profile.reverse();
  const mirrored = profile.map(({ at, r }) => ({ at: -at, r })).reverse();
  if (edgeRadius === 0.5 * width) mirrored.shift();
  const rings = [...profile, ...mirrored].map(({ at, r }): Ring => ({ at, halfAcross: r, halfDown: r, drop: 0 }));
  const { mesh, facetingError } = ringed(rings, segments, SIDE_AXES, ORIGIN);
  const shoulder = steps === 0 ? 0 : edgeRadius * (1 - Math.cos(Math.PI / (4 * steps)));
  return { mesh, facetingError: facetingError + shoulder };
}

function ringed(
  rings: readonly Ring[],
  segments: number,
  axes: Axes,
  origin: readonly [number, number, number],
): StandIn {
  for (const coordinate of origin) requireFinite("coordinate of a stand-in", coordinate);
  return { mesh: ringSurface(rings, segments, axes, origin), facetingError: ringFacetingError(rings, segments) };
}

/** Right-handed axes with a given first one. */
function axesAlong(along: readonly [number, number, number]): Axes {
  const [x, y, z] = along;
  // Across is normal to the smallest component's axis, so it never vanishes.
  const smallest = Math.abs(x) <= Math.abs(y) && Math.abs(x) <= Math.abs(z) ? 0 : Math.abs(y) <= Math.abs(z) ? 1 : 2;
  const raw = smallest === 0 ? [0, z, -y] : smallest === 1 ? [-z, 0, x] : [y, -x, 0];
  const size = Math.hypot(...raw);
  const [u, v, w] = raw.map((value) => value / size) as [number, number, number];
  return { along, across: [u, v, w], down: [y * w - z * v, z * u - x * w, x * v - y * u] };
}
