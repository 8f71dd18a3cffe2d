import { DomainError } from "../../../math/errors.ts";
import { requireFinite, requirePositive, requireSize } from "../../../math/require.ts";
import { createMesh, mirroredMesh } from "../mesh.ts";
import type { StandIn } from "../types.ts";

/** One straight panel of a wing or tail; the leading edge of its root is the origin. */
export interface PanelShape {
  readonly side: "right" | "left";
  /** Chords along −x [m]: root > 0, tip > 0. */
  readonly rootChord: number;
  readonly tipChord: number;
  /** Length from root to tip along the panel, across x [m], > 0. */
  readonly span: number;
  /** Sweep of the leading edge [rad], aft positive, within ±π/2. */
  readonly leadingEdgeSweep: number;
  /** Tip up: dihedral of a wing, cant of a tail; π/2 is a fin [rad]. Default 0. */
  readonly tipUp?: number;
  /** Largest thickness over chord, above 0 and up to 0.5, the same at root and tip. */
  readonly thicknessRatio: number;
}

/** Half thickness over thickness ratio of the four-digit section, ξ from the leading edge: Σ c ξ^p. Closed trailing edge. */
const SECTION: readonly (readonly [coefficient: number, power: number])[] = [
  [5 * 0.2969, 0.5],
  [5 * -0.126, 1],
  [5 * -0.3516, 2],
  [5 * 0.2843, 3],
  [5 * -0.1036, 4],
];

/** Area of the section over thickness ratio and chord²: twice the integral of the half thickness. */
export const SECTION_AREA = SECTION.reduce((sum, [c, p]) => sum + (2 * c) / (p + 1), 0);

/** Half thickness over chord at ξ, for a thickness ratio of one. */
export function halfThickness(xi: number): number {
  if (xi === 0 || xi === 1) return 0;
  return SECTION.reduce((sum, [c, p]) => sum + c * xi ** p, 0);
}

function slope(xi: number): number {
  return xi === 0 ? Infinity : SECTION.reduce((sum, [c, p]) => sum + c * p * xi ** (p - 1), 0);
}

/**
 * Wing or tail panel: a symmetric four-digit section along straight lines from root to tip, ends flat; body axes.
 *
 * @param shape  chords and span [m], angles [rad]
 * @param steps  chordwise steps of each face, closer at both edges (cosine spacing); default 12
 * @throws {DomainError} for sizes that are not above zero, angles out of range or fewer than 2 steps
 * @source thickness of the NACA four-digit sections (from memory), trailing edge closed by −0.1036; faceting bound README eq. 4
 * @verified stand-ins.test.ts: volume (closed form), order of convergence, sampled points of the section
 */
export function panel(shape: PanelShape, steps = 12): StandIn {
  checkPanel(shape, steps);
  const { rootChord, tipChord, span, leadingEdgeSweep, thicknessRatio } = shape;
  const tipUp = shape.tipUp ?? 0;
  const xi = chordwise(steps);
  const loop = [
    ...xi.map((x) => [x, 1] as const),
    ...xi
      .slice(1, -1)
      .map((x) => [x, -1] as const)
      .reverse(),
  ];
  const n = loop.length;
  const vertices: number[] = [];
  for (const [chord, out] of [
    [rootChord, 0],
    [tipChord, span],
  ] as const) {
    for (const [x, face] of loop) {
      // Height over the panel's plane, upper face first; the plane is turned up about x by `tipUp`.
      const height = face * thicknessRatio * chord * halfThickness(x);
      vertices.push(-out * Math.tan(leadingEdgeSweep) - x * chord);
      vertices.push(out * Math.cos(tipUp) - height * Math.sin(tipUp));
      vertices.push(-out * Math.sin(tipUp) - height * Math.cos(tipUp));
    }
  }
  const triangles: number[] = [];
  for (let i = 0; i < n; i++) {
    const j = (i + 1) % n;
    triangles.push(i, j, n + j, i, n + j, n + i);
  }
  // Flat ends, strips between the upper and the lower face; upper point k is k, lower point k is n − k.
  for (let k = 0; k < steps; k++) {
    const [upper, upperNext] = [k, k + 1];
    const [lower, lowerNext] = [(n - k) % n, n - k - 1];
    if (k + 1 < steps) {
      triangles.push(upper, lowerNext, upperNext, n + upper, n + upperNext, n + lowerNext);
    }
    if (k > 0) triangles.push(upper, lower, lowerNext, n + upper, n + lowerNext, n + lower);
  }
  const right = createMesh(Float64Array.from(vertices), Uint32Array.from(triangles));
  return {
    mesh: shape.side === "right" ? right : mirroredMesh(right),
    facetingError: Math.max(rootChord, tipChord) * sectionError(xi, thicknessRatio),
  };
}

function chordwise(steps: number): number[] {
  return Array.from({ length: steps + 1 }, (_, i) => (i === steps ? 1 : 0.5 * (1 - Math.cos((Math.PI * i) / steps))));
}

/**
 * The thickness is concave in ξ, so the curve over a step lies in the triangle of the chord and the two end tangents; its height
 * bounds their distance.
 */
function sectionError(xi: readonly number[], ratio: number): number {
  let error = 0;
  for (let i = 0; i + 1 < xi.length; i++) {
    const [x0, x1] = [xi[i]!, xi[i + 1]!];
    const [y0, y1] = [ratio * halfThickness(x0), ratio * halfThickness(x1)];
    const [s0, s1] = [ratio * slope(x0), ratio * slope(x1)];
    const straight = (y1 - y0) / (x1 - x0);
    const apex = s0 === Infinity ? x0 : (y1 - y0 + s0 * x0 - s1 * x1) / (s0 - s1);
    const rise = y1 + s1 * (apex - x1) - (y0 + straight * (apex - x0));
    error = Math.max(error, rise / Math.hypot(1, straight));
  }
  return error;
}

function checkPanel(shape: PanelShape, steps: number): void {
  requirePositive("root chord of a panel", shape.rootChord);
  requirePositive("tip chord of a panel", shape.tipChord);
  requirePositive("span of a panel", shape.span);
  requireFinite("tip-up angle of a panel", shape.tipUp ?? 0);
  requireSize("chordwise steps of a panel", steps, 2);
  if (!(Math.abs(shape.leadingEdgeSweep) < 0.5 * Math.PI)) {
    throw new DomainError("leading edge sweep of a panel", shape.leadingEdgeSweep, "within ±π/2");
  }
  if (!(shape.thicknessRatio > 0 && shape.thicknessRatio <= 0.5)) {
    throw new DomainError("thickness ratio of a panel", shape.thicknessRatio, "above 0, at most 0.5");
  }
}
