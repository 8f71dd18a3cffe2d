/** A rod that the mechanism swings past a point: the least clearance in closed form between proven bounds, closer and closer. */
import { describe, expect, it } from "vitest";
import { traceStroke } from "../../src/physics/linkage/index.ts";
import { segmentMesh } from "../../src/physics/shapes/distance/testing/surfaces.ts";
import {
  createDistanceQuery,
  createPose,
  createTree,
  meshRadius,
  motionClearance,
  restingPath,
} from "../../src/physics/shapes/index.ts";
import { toAxes } from "../../src/studies/fit/frames.ts";
import { buildMechanism } from "../../src/studies/fit/mechanism.ts";
import { proveMotion } from "../../src/studies/fit/proven-motion.ts";
import { bodyTable } from "../../src/studies/fit/stroke-table.ts";
import { carriedPoint, NOMINAL } from "../../src/studies/fit/testing/closed-form.ts";
import { rig } from "../../src/studies/fit/testing/rigs.ts";
import { expectClose } from "../support/close.ts";

const DEGREE = Math.PI / 180;
const [STOWED, EXTENDED] = [14 * DEGREE, 52 * DEGREE];
const mechanism = buildMechanism(rig([]));
const { linkage } = mechanism;

/** Angle of the yoke from straight aft, upwards, at a boom angle: by the circle intersection of `closed-form.ts`. */
function yokeAngle(boomAngle: number): number {
  const [fs, wl] = carriedPoint(NOMINAL, boomAngle, NOMINAL.coupler);
  return Math.atan2(wl - NOMINAL.yokeHinge[1], fs - NOMINAL.yokeHinge[0]);
}

const PASSING = 31.3 * DEGREE;
const [LENGTH, RADIUS, ASIDE] = [NOMINAL.yokeLength, 0.6 * NOMINAL.yokeLength, 0.21];

/** A station at a distance from the yoke's hinge, in the direction of the yoke at a boom angle. */
function alongYoke(distance: number, boomAngle: number, aside: number): [number, number, number] {
  const angle = yokeAngle(boomAngle);
  const [fs, wl] = NOMINAL.yokeHinge;
  return [fs + distance * Math.cos(angle), aside, wl + distance * Math.sin(angle)];
}

/** Distance of the point to the rod at a boom angle: it stands aside of the plane, within the length of the rod. */
function exactDistance(boomAngle: number): number {
  const off = yokeAngle(boomAngle) - yokeAngle(PASSING);
  return Math.hypot(ASIDE, RADIUS * Math.sin(off));
}

/** Bounds over part of the stroke, with nodes every so many degrees and clearances to a tolerance. */
function swept(nodesPerDegree: number, tolerance: number, [from, to]: readonly [number, number]) {
  const count = 38 * nodesPerDegree;
  const values = Array.from({ length: count + 1 }, (_, i) => STOWED + (i / count) * (EXTENDED - STOWED));
  const stroke = traceStroke(linkage, { along: mechanism.boomHinge, values });
  const reference = toAxes(alongYoke(0.5 * LENGTH, STOWED, 0));
  const tables = new Map(
    linkage.bodies.slice(1).map((body) => [body, bodyTable(stroke.poses, linkage.bodies.indexOf(body), reference)]),
  );
  const traced = { stroke, angles: values, indices: values.map((_, i) => i), poses: stroke.poses };
  const proven = proveMotion(mechanism, traced, tables);
  expect(proven.unresolved).toEqual([]);
  const [table, deviation] = [tables.get("aftYoke"), proven.deviations.get("aftYoke")];
  if (table === undefined || deviation === undefined) throw new Error("no yoke");
  const rod = segmentMesh(toAxes(alongYoke(0, STOWED, 0)), toAxes(alongYoke(LENGTH, STOWED, 0)));
  const radius = meshRadius(rod, [...reference]);
  const share = (s: number) => (from + s * (to - from) - STOWED) / (EXTENDED - STOWED);
  const dot = segmentMesh(toAxes(alongYoke(RADIUS, PASSING, ASIDE)), toAxes(alongYoke(RADIUS, PASSING, ASIDE)));
  const path = {
    poseAt: (s: number, out: ReturnType<typeof createPose>) => table.poseAt(share(s), out),
    travelBound: (s0: number, s1: number) =>
      table.wayAt(share(s1)) - table.wayAt(share(s0)) + radius * (table.turnAt(share(s1)) - table.turnAt(share(s0))),
  };
  const found = motionClearance(
    { tree: createTree(rod), path },
    { tree: createTree(dot), path: restingPath(createPose()) },
    createDistanceQuery(),
    { tolerance, resolution: 1e-7, budget: 20000 },
  );
  const off = deviation.way + radius * deviation.turn;
  return { lower: found.lowerBound - off, upper: found.upperBound + off, off };
}

describe("a rod on the yoke that swings past a point", () => {
  it("turns one way, so that the least distance over a part of the stroke is known", () => {
    for (let angle = STOWED; angle < EXTENDED; angle += DEGREE) {
      expect(yokeAngle(angle + DEGREE)).toBeLessThan(yokeAngle(angle));
    }
  });

  it.each([
    ["the whole stroke", STOWED, EXTENDED, PASSING],
    ["before it", 15 * DEGREE, 27.7 * DEGREE, 27.7 * DEGREE],
    ["after it", 33.33 * DEGREE, 50 * DEGREE, 33.33 * DEGREE],
  ] as const)("over %s: lower ≤ true ≤ upper, and the gap closes", (_, from, to, nearest) => {
    const exact = exactDistance(nearest);
    const gaps = [1, 2, 4, 8].map((nodesPerDegree) => {
      const tolerance = 1e-3 / nodesPerDegree ** 2;
      const { lower, upper, off } = swept(nodesPerDegree, tolerance, [from, to]);
      // The closed form is right to some roundings.
      expect(lower).toBeLessThanOrEqual(exact + 1e-13);
      expect(upper).toBeGreaterThanOrEqual(exact - 1e-13);
      expect(upper - lower).toBeLessThanOrEqual(tolerance + 2 * off + 1e-12);
      return { gap: upper - lower, off };
    });
    for (let k = 0; k + 1 < gaps.length; k++) {
      expect(gaps[k + 1].gap).toBeLessThan(gaps[k].gap);
      const close = { rtol: 0.25, why: "second order in the nodes, 4 to the leading term" };
      expectClose(gaps[k].off / gaps[k + 1].off, 4, close, "deviation");
    }
    expect(gaps[3].gap).toBeLessThan(3e-5);
  });
});
