import { describe, expect, it } from "vitest";
import { DomainError } from "../../../math/errors.ts";
import { minimumDistance } from "../distance/minimum-distance.ts";
import { createDistanceQuery } from "../distance/query.ts";
import { poseOf, segmentMesh, wavySphere } from "../distance/testing/surfaces.ts";
import { createTree } from "../distance/tree.ts";
import { carryPoint, createPose } from "../pose.ts";
import { box } from "../stand-ins/box.ts";
import type { Mesh } from "../types.ts";
import { type MotionClearance, type MovingBody, motionClearance } from "./clearance.ts";
import { type BodyPath, hingePath, meshRadius, restingPath, rigidTravelBound, slidePath } from "./paths.ts";

const ORIGIN = createPose();
const at = (x: number, y: number, z: number) => poseOf([1, 0, 0, 0], [x, y, z]);
const moving = (mesh: Mesh, path: BodyPath): MovingBody => ({ tree: createTree(mesh), path });
const resting = (mesh: Mesh, pose = ORIGIN): MovingBody => moving(mesh, restingPath(pose));

/** Rod of length l along x on a hinge about z. */
function rod(length: number, fromAngle: number, toAngle: number): MovingBody {
  const mesh = segmentMesh([0, 0, 0], [length, 0, 0]);
  return moving(mesh, hingePath(mesh, { point: [0, 0, 0], axis: [0, 0, 2], fromAngle, toAngle, pose: ORIGIN }));
}
const dot = segmentMesh([0, 0, 0], [0, 0, 0]);

/** The stretches cover 0 to 1 without a hole. */
function expectWhole({ spans }: MotionClearance): void {
  expect(spans[0]!.from).toBe(0);
  expect(spans.at(-1)!.to).toBe(1);
  for (let i = 1; i < spans.length; i++) expect(spans[i]!.from).toBe(spans[i - 1]!.to);
}

describe("rotating rod past a point", () => {
  // Point at radius ρ, height h over the plane of the rod, passed at angle 1.1 rad.
  it.each([
    [2, 2.3, 0, 0.3],
    [2, 2.3, 0.4, 0.5],
    [2, 1.2, 0.05, 0.05],
    [2, 2, 1e-3, 1e-3],
  ])("length %d, radius %d, height %d: least clearance %d", (length, rho, height, exact) => {
    const point = resting(dot, at(rho * Math.cos(1.1), rho * Math.sin(1.1), height));
    const tolerance = 1e-5;
    const found = motionClearance(rod(length, -0.7, 2.9), point, createDistanceQuery(), {
      tolerance,
      resolution: 1e-9,
    });
    expect(found.lowerBound).toBeLessThanOrEqual(exact + 1e-12);
    expect(found.upperBound).toBeGreaterThanOrEqual(exact - 1e-12);
    expect(found.upperBound - found.lowerBound).toBeLessThanOrEqual(tolerance);
    expect(found.limitedBy).toBe("nothing");
    expect(found.spans.map(({ state }) => state)).toEqual(["clear"]);
    expectWhole(found);
    // The distance near the least is flat or a corner: within √(2·d·tolerance) of the passing angle at most.
    const angle = -0.7 + 3.6 * found.atS;
    expect(Math.abs(angle - 1.1)).toBeLessThan(Math.sqrt(2 * (exact + tolerance) * tolerance) / Math.min(rho, length));
  });

  it("a sweep that ends before the point has its least clearance at the end", () => {
    const point = resting(dot, at(1.5 * Math.cos(1.1), 1.5 * Math.sin(1.1), 0));
    const found = motionClearance(rod(2, -0.7, 0.8), point, createDistanceQuery(), {
      tolerance: 1e-6,
      resolution: 1e-7,
    });
    // ρ·sin of the angle left.
    expect(found.upperBound).toBeCloseTo(1.5 * Math.sin(0.3), 12);
    expect(found.lowerBound).toBeGreaterThan(1.5 * Math.sin(0.3) - 1e-6);
    expect(found.atS).toBe(1);
  });

  it("a rod that passes through a point is never called clear there", () => {
    const point = resting(dot, at(1.2 * Math.cos(1.1), 1.2 * Math.sin(1.1), 0));
    const found = motionClearance(rod(2, -0.7, 2.9), point, createDistanceQuery(), { resolution: 1e-6 });
    const passing = (1.1 + 0.7) / 3.6;
    expect(found.lowerBound).toBe(0);
    expectWhole(found);
    for (const span of found.spans.filter(({ state }) => state === "clear")) {
      expect(passing < span.from || passing > span.to).toBe(true);
      expect(span.lowerBound).toBeGreaterThan(0);
    }
    const doubtful = found.spans.filter(({ state }) => state !== "clear");
    expect(doubtful.reduce((sum, span) => sum + span.to - span.from, 0)).toBeLessThan(1e-5);
  });
});

describe("box past box", () => {
  const cube = box({ length: 1, width: 1, height: 1 }).mesh;
  it("finds the stretch of contact of a slide", () => {
    const slide = moving(cube, slidePath(at(-3, 0.5, 0.2), [8, 0, 0]));
    const found = motionClearance(slide, resting(cube), createDistanceQuery(), { resolution: 1e-5 });
    // Contact while |x| ≤ 1: from s = 2/8 to 4/8.
    expect([found.lowerBound, found.upperBound]).toEqual([0, 0]);
    const touching = found.spans.filter(({ state }) => state === "violated");
    expect(touching).toHaveLength(1);
    expect(touching[0]!.from).toBeCloseTo(0.25, 4);
    expect(touching[0]!.to).toBeCloseTo(0.5, 4);
    const clear = found.spans.filter(({ state }) => state === "clear");
    expect(clear).toHaveLength(2);
    expect(clear[0]!.to).toBeGreaterThan(0.25 - 2e-5);
    expect(clear[0]!.to).toBeLessThanOrEqual(0.25);
    expect(clear[1]!.from).toBeGreaterThanOrEqual(0.5);
    expect(found.limitedBy).toBe("resolution");
    expectWhole(found);
  });

  it("finds where a required clearance is not kept", () => {
    const slide = moving(cube, slidePath(at(-3, 1.5, 0), [6, 0, 0]));
    const found = motionClearance(slide, resting(cube), createDistanceQuery(), { required: 0.7, resolution: 1e-5 });
    // Gap 0.5 beside each other; (|x| − 1)² + 0.5² = 0.7² at the ends.
    const reach = 1 + Math.sqrt(0.7 ** 2 - 0.5 ** 2);
    const near = found.spans.filter(({ state }) => state === "violated");
    expect(near).toHaveLength(1);
    expect(near[0]!.from).toBeCloseTo((3 - reach) / 6, 4);
    expect(near[0]!.to).toBeCloseTo((3 + reach) / 6, 4);
    expect(found.upperBound).toBeCloseTo(0.5, 12);
    expect(found.lowerBound).toBeGreaterThan(0.499);
  });

  it("does not jump over a thin plate, and a small budget leaves it open rather than clear", () => {
    const plate = box({ length: 1e-4, width: 1, height: 1 }).mesh;
    const bullet = box({ length: 1e-4, width: 0.1, height: 0.1 }).mesh;
    const flight = moving(bullet, slidePath(at(-40, 0, 0), [90, 0, 0]));
    const all = motionClearance(flight, resting(plate), createDistanceQuery(), { resolution: 1e-8 });
    expect(all.upperBound).toBe(0);
    expect(all.spans.some(({ state, from, to }) => state === "violated" && from < 4 / 9 && to > 4 / 9)).toBe(true);
    const few = motionClearance(flight, resting(plate), createDistanceQuery(), { budget: 3 });
    expect(few.evaluations).toBe(3);
    expect(few.limitedBy).toBe("budget");
    expect(few.lowerBound).toBe(0);
    expect(few.spans.find(({ from, to }) => from <= 4 / 9 && to >= 4 / 9)!.state).toBe("unresolved");
  });

  it("counts a body inside another as violated although surfaces are apart", () => {
    const hall = box({ length: 10, width: 10, height: 10 }).mesh;
    const found = motionClearance(
      moving(cube, slidePath(at(-2, 0, 0), [4, 0, 0])),
      resting(hall),
      createDistanceQuery(),
    );
    expect(found.spans).toHaveLength(1);
    expect(found.spans[0]).toMatchObject({ state: "violated", enclosure: "a part of A lies in B", lowerBound: 0 });
    expect([found.lowerBound, found.upperBound, found.triangleA]).toEqual([0, 0, -1]);
    const through = motionClearance(
      moving(cube, slidePath(at(-9, 0, 0), [18, 0, 0])),
      resting(hall),
      createDistanceQuery(),
    );
    const inside = through.spans.filter((span) => span.enclosure !== "none");
    expect(inside).toHaveLength(1);
    expect(inside[0]!.from).toBeCloseTo(4.5 / 18 + 1 / 36, 1);
    expect(through.spans[0]!.state).toBe("clear");
    expect(through.spans.at(-1)!.state).toBe("clear");
  });
});

describe("two bodies that both move", () => {
  const [blade, ball] = [box({ length: 2, width: 0.2, height: 0.1 }).mesh, wavySphere(12, 0.4, 0.2)];
  const swing = hingePath(blade, {
    point: [-1, 0, 0],
    axis: [1, 2, 3],
    fromAngle: -1,
    toAngle: 1.5,
    pose: at(0, 0.3, 0),
  });
  const slide = slidePath(at(1, -2, 0.5), [-1, 3, 0]);

  const REQUIRED = 0.6;
  it("samples never lie below the lower bound of their stretch", () => {
    const [a, b] = [moving(blade, swing), moving(ball, slide)];
    const found = motionClearance(a, b, createDistanceQuery(), { required: REQUIRED, contactResolution: 1e-4 });
    expectWhole(found);
    const [poseA, poseB] = [createPose(), createPose()];
    const query = createDistanceQuery();
    for (let i = 0; i <= 2000; i++) {
      const s = i / 2000;
      a.path.poseAt(s, poseA);
      b.path.poseAt(s, poseB);
      const { distance } = minimumDistance(a.tree, poseA, b.tree, poseB, query);
      const span = found.spans.find(({ from, to }) => s >= from && s <= to)!;
      expect(distance).toBeGreaterThanOrEqual(span.lowerBound - 1e-12);
      if (span.state === "clear") expect(distance).toBeGreaterThan(REQUIRED);
      if (span.state === "violated") expect(distance).toBeLessThanOrEqual(REQUIRED + 1e-3);
      expect(distance).toBeGreaterThanOrEqual(found.lowerBound - 1e-12);
    }
    expect(found.spans.map(({ state }) => state)).toContain("clear");
    expect(found.spans.map(({ state }) => state)).toContain("violated");
  });

  it("no corner goes farther than the travel bounds, and one of them goes that far", () => {
    for (const [mesh, path] of [
      [blade, swing],
      [ball, slide],
    ] as const) {
      const pose = createPose();
      const steps = 400;
      let longest = 0;
      for (let i = 0; i < mesh.vertices.length; i += 3) {
        let way = 0;
        const [last, now] = [new Float64Array(3), new Float64Array(3)];
        for (let step = 0; step <= steps; step++) {
          path.poseAt(0.2 + (0.5 * step) / steps, pose);
          carryPoint(pose, mesh.vertices, i, now, 0);
          if (step > 0) way += Math.hypot(now[0]! - last[0]!, now[1]! - last[1]!, now[2]! - last[2]!);
          last.set(now);
        }
        longest = Math.max(longest, way);
      }
      const bound = path.travelBound(0.2, 0.7);
      expect(longest).toBeLessThanOrEqual(bound + 1e-12);
      expect(longest).toBeGreaterThan(0.9999 * bound);
    }
    // The same swing about a point of the axis: its own way is zero.
    const radius = meshRadius(blade, [-1, -0.3, 0]);
    expect(rigidTravelBound(0, 1.25, radius)).toBeGreaterThanOrEqual(swing.travelBound(0.2, 0.7));
    expect(rigidTravelBound(3, 0.5, 2)).toBe(4);
  });
});

describe("refusals", () => {
  const still = resting(dot);
  it("of options, bounds and axes", () => {
    const run = (options: object, path = still.path) =>
      motionClearance(still, { tree: still.tree, path }, createDistanceQuery(), options);
    expect(() => run({ required: -1 })).toThrow(DomainError);
    expect(() => run({ tolerance: 0 })).toThrow("tolerance");
    expect(() => run({ resolution: 0 })).toThrow("resolution");
    expect(() => run({ budget: 1 })).toThrow("budget");
    expect(() => run({}, { ...still.path, travelBound: () => Number.NaN })).toThrow("travel bound is NaN");
    expect(() => rod(1, 0, Infinity)).toThrow("angle of a hinge");
    const axis = [0, 0, 0] as const;
    expect(() => hingePath(dot, { point: axis, axis, fromAngle: 0, toAngle: 1, pose: ORIGIN })).toThrow("hinge axis");
    expect(() => rigidTravelBound(-1, 0, 0)).toThrow("way of a travel bound is -1");
  });
});
