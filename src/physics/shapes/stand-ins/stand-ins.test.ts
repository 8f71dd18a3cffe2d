import { describe, expect, it } from "vitest";
import { DomainError } from "../../../math/errors.ts";
import { minimumDistance } from "../distance/minimum-distance.ts";
import { createDistanceQuery } from "../distance/query.ts";
import { createTree } from "../distance/tree.ts";
import { inspectMesh } from "../inspect.ts";
import { createMesh, meshProperties } from "../mesh.ts";
import { createPose } from "../pose.ts";
import type { StandIn } from "../types.ts";
import { bay, box } from "./box.ts";
import { halfThickness, panel, SECTION_AREA } from "./panel.ts";
import { fuselage, jetCone, propellerDisc, strut, wheel } from "./round.ts";

const volume = (shape: StandIn): number => meshProperties(shape.mesh).signedVolume;

/** Greatest distance of points from a mesh [m]. */
function farthest(shape: StandIn, points: readonly (readonly number[])[]): number {
  const tree = createTree(shape.mesh);
  const query = createDistanceQuery();
  return Math.max(
    ...points.map((point) => {
      const dot = createTree(createMesh(Float64Array.from(point), Uint32Array.of(0, 0, 0)));
      return minimumDistance(tree, createPose(), dot, createPose(), query).distance;
    }),
  );
}

const angles = Array.from({ length: 60 }, (_, i) => (2 * Math.PI * (i + 0.31)) / 60);
const wing = {
  side: "right",
  rootChord: 1.6,
  tipChord: 0.8,
  span: 3.7,
  leadingEdgeSweep: 0.2,
  tipUp: 0.1,
  thicknessRatio: 0.12,
} as const;
const tyre = { radius: 0.45, width: 0.3, edgeRadius: 0.1 };

/** Pappus: core, shoulders' rings. */
function tyreVolume({ radius: r, width: w, edgeRadius: e }: typeof tyre): number {
  const inner = r - e;
  return Math.PI * (r * r * (w - 2 * e) + 2 * (inner * inner * e + (inner * Math.PI * e * e) / 2 + (2 * e ** 3) / 3));
}

/** Each shape at a resolution n, and its volume. */
const SHAPES: readonly (readonly [string, (n: number) => StandIn, number])[] = [
  [
    "fuselage of two cones and a cylinder",
    (n) =>
      fuselage(
        [
          { x: 4, halfWidth: 0, halfHeight: 0 },
          { x: 2, halfWidth: 0.6, halfHeight: 0.5 },
          { x: -1, halfWidth: 0.6, halfHeight: 0.5, drop: 0.1 },
          { x: -4, halfWidth: 0, halfHeight: 0, drop: -0.2 },
        ],
        n,
      ),
    Math.PI * 0.3 * (2 / 3 + 3 + 3 / 3),
  ],
  [
    "fuselage that goes from round to flat",
    (n) =>
      fuselage(
        [
          { x: -1, halfWidth: 1, halfHeight: 0.2 },
          { x: 1, halfWidth: 0.5, halfHeight: 0.5 },
        ],
        n,
      ),
    // ∫π a b dx with both straight: π·2·(a₀b₀/3 + a₁b₁/3 + (a₀b₁ + a₁b₀)/6).
    Math.PI * 2 * (0.2 / 3 + 0.25 / 3 + (0.5 + 0.1) / 6),
  ],
  ["strut", (n) => strut([1, 2, 3], [-2, 0, 4], 0.2, n), Math.PI * 0.04 * Math.sqrt(14)],
  ["propeller disc", (n) => propellerDisc(2.05, 0.3, n), Math.PI * 2.05 ** 2 * 0.3],
  [
    "jet",
    (n) => jetCone({ exitRadius: 0.3, halfAngle: 0.15, length: 5 }, n),
    ((r) => (Math.PI * 5 * (0.09 + 0.3 * r + r * r)) / 3)(0.3 + 5 * Math.tan(0.15)),
  ],
  ["wheel", (n) => wheel(tyre, n, n / 4), tyreVolume(tyre)],
  ["round wheel", (n) => wheel({ ...tyre, edgeRadius: 0.15 }, n, n / 4), tyreVolume({ ...tyre, edgeRadius: 0.15 })],
  ["wing panel", (n) => panel(wing, n), SECTION_AREA * 0.12 * 3.7 * ((1.6 ** 2 + 1.6 * 0.8 + 0.8 ** 2) / 3)],
];

describe.each(SHAPES)("%s", (_, make, exact) => {
  it("is a sound solid, outward", () => {
    for (const n of [4, 8, 16]) {
      expect(inspectMesh(make(n).mesh).problems).toEqual([]);
    }
  });
  it("has the volume of its closed form at second order, from inside", () => {
    const errors = [16, 32, 64].map((n) => exact - volume(make(n)));
    for (const error of errors) expect(error).toBeGreaterThan(0);
    for (const ratio of [errors[0]! / errors[1]!, errors[1]! / errors[2]!]) {
      expect(Math.log2(ratio)).toBeGreaterThan(1.8);
      expect(Math.log2(ratio)).toBeLessThan(2.2);
    }
    expect(errors[2]! / exact).toBeLessThan(3e-3);
  });
  it("has a faceting bound of second order, or of first where the section changes shape", () => {
    const bounds = [16, 32, 64].map((n) => make(n).facetingError);
    expect(bounds[0]! / bounds[1]!).toBeGreaterThan(1.9);
    expect(bounds[1]! / bounds[2]!).toBeGreaterThan(1.9);
  });
});

describe("faceting bounds hold and are no more than a few times too large", () => {
  it("cone, twisted fuselage, strut", () => {
    const round = fuselage(
      [
        { x: -1, halfWidth: 1, halfHeight: 0.2 },
        { x: 1, halfWidth: 0.5, halfHeight: 0.5 },
      ],
      16,
    );
    const points = [0.1, 0.3, 0.5, 0.8].flatMap((t) =>
      angles.map((a) => [-1 + 2 * t, (1 - 0.5 * t) * Math.cos(a), (0.2 + 0.3 * t) * Math.sin(a)]),
    );
    expect(farthest(round, points)).toBeLessThanOrEqual(round.facetingError);
    const post = strut([0, 0, 0], [0, 0, 2], 0.5, 12);
    const around = angles.map((a) => [0.5 * Math.cos(a), 0.5 * Math.sin(a), 0.7]);
    const seen = farthest(post, around);
    expect(seen).toBeLessThanOrEqual(post.facetingError);
    expect(seen).toBeGreaterThan(0.8 * post.facetingError);
  });
  it("wheel", () => {
    const shape = wheel(tyre, 16, 3);
    const points = angles.flatMap((a) =>
      [0.1, 0.5, 0.9, 1.4].map((b) => {
        const r = 0.35 + 0.1 * Math.cos(b);
        return [r * Math.sin(a), 0.05 + 0.1 * Math.sin(b), r * Math.cos(a)];
      }),
    );
    const seen = farthest(shape, points);
    expect(seen).toBeLessThanOrEqual(shape.facetingError);
    expect(seen).toBeGreaterThan(0.5 * shape.facetingError);
  });
  it("panel section at the root and at half span", () => {
    const flat = { ...wing, tipUp: 0, leadingEdgeSweep: 0.3 };
    const shape = panel(flat, 8);
    const points = Array.from({ length: 200 }, (_, i) => (i + 0.5) / 200).flatMap((xi) =>
      [0.0001, 0.5].map((eta) => {
        const chord = 1.6 - 0.8 * eta;
        return [-3.7 * eta * Math.tan(0.3) - xi * chord, 3.7 * eta, -0.12 * chord * halfThickness(xi)];
      }),
    );
    const seen = farthest(shape, points);
    expect(seen).toBeLessThanOrEqual(shape.facetingError);
    expect(seen).toBeGreaterThan(0.2 * shape.facetingError);
  });
});

describe("places and axes", () => {
  const bounds = (shape: StandIn) => {
    const { lowest, highest } = meshProperties(shape.mesh);
    return [lowest, highest].map((corner) => corner.map((x) => Number(x.toFixed(6)) + 0));
  };
  it("lie where the words say", () => {
    expect(bounds(box({ length: 2, width: 4, height: 6, centre: [1, 0, 3] }))).toEqual([
      [0, -2, 0],
      [2, 2, 6],
    ]);
    expect(bounds(jetCone({ exitRadius: 1, halfAngle: 0, length: 3 }, 8))).toEqual([
      [-3, -1, -1],
      [0, 1, 1],
    ]);
    expect(bounds(wheel({ radius: 1, width: 0.5, edgeRadius: 0 }, 8))).toEqual([
      [-1, -0.25, -1],
      [1, 0.25, 1],
    ]);
    expect(bounds(propellerDisc(2, 0.5, 8))).toEqual([
      [-0.25, -2, -2],
      [0.25, 2, 2],
    ]);
  });
  it("a fin goes up, a left panel is the mirror of the right one", () => {
    const fin = panel({ ...wing, tipUp: Math.PI / 2, leadingEdgeSweep: 0 });
    expect(bounds(fin)[0]![2]).toBeCloseTo(-3.7, 6);
    expect(bounds(fin)[1]![2]).toBeCloseTo(0, 6);
    const [right, left] = [meshProperties(panel(wing).mesh), meshProperties(panel({ ...wing, side: "left" }).mesh)];
    expect(left.signedVolume).toBeCloseTo(right.signedVolume, 14);
    expect(left.centroid[1]).toBeCloseTo(-right.centroid[1], 12);
    // Aft and up with sweep and dihedral.
    expect(right.centroid[0]).toBeLessThan(-0.5);
    expect(right.centroid[2]).toBeLessThan(0);
    expect(panel(wing).facetingError).toBe(panel({ ...wing, side: "left" }).facetingError);
  });
  it("a box is exact and a bay is hollow from below", () => {
    expect(volume(box({ length: 2, width: 3, height: 4 }))).toBeCloseTo(24, 12);
    const hollow = bay({ length: 2, width: 3, height: 1, centre: [5, 0, -1] }, 0.1);
    expect(volume(hollow)).toBeCloseTo(6 - 1.8 * 2.8 * 0.9, 12);
    expect(inspectMesh(hollow.mesh).problems).toEqual([]);
    // A point inside the bay is 0.1 under the roof's underside.
    expect(farthest(hollow, [[5, 0, -1.3]])).toBeCloseTo(0.1, 12);
  });
  it("half the thickness ratio is reached at 30 % chord, and the edge is closed", () => {
    expect(halfThickness(0.3)).toBeCloseTo(0.5, 3);
    expect(halfThickness(1 - 1e-12)).toBeCloseTo(0, 10);
  });
});

describe("refusals", () => {
  it.each([
    [() => strut([1, 1, 1], [1, 1, 1], 0.1), "length of a strut is 0"],
    [() => strut([0, 0, 0], [1, 0, 0], -0.1), "radius of a strut is -0.1"],
    [() => strut([0, Number.NaN, 0], [1, 0, 0], 1), "length of a strut"],
    [() => wheel({ radius: 1, width: 1, edgeRadius: 0.6 }), "edge radius of a wheel is 0.6"],
    [() => jetCone({ exitRadius: 0, halfAngle: 0, length: 1 }), "radius at the end of a jet is 0"],
    [() => jetCone({ exitRadius: 1, halfAngle: 1.6, length: 1 }), "half angle of a jet is 1.6"],
    [() => bay({ length: 1, width: 1, height: 1 }, 0.5), "wall of a bay is 0.5"],
    [() => box({ length: 1, width: 0, height: 1 }), "width of a box is 0"],
    [() => panel({ ...wing, thicknessRatio: 0 }), "thickness ratio of a panel is 0"],
    [() => panel(wing, 1), "chordwise steps of a panel is 1"],
    [() => fuselage([{ x: 0, halfWidth: 1, halfHeight: 1 }]), "number of sections is 1"],
    [() => propellerDisc(1, 0.1, 2), "segments of a ring is 2"],
    [
      () =>
        fuselage([
          { x: 0, halfWidth: 1, halfHeight: 1 },
          { x: 1, halfWidth: 1, halfHeight: 1 },
          { x: 1, halfWidth: 1, halfHeight: 1 },
        ]),
      "place of a section is 1",
    ],
    [
      () =>
        fuselage([
          { x: 0, halfWidth: 1, halfHeight: 1 },
          { x: 1, halfWidth: 0, halfHeight: 0 },
          { x: 2, halfWidth: 1, halfHeight: 1 },
        ]),
      "section without size is 2",
    ],
  ])("%#", (make, message) => {
    expect(make).toThrow(DomainError);
    expect(make).toThrow(message);
  });
});
