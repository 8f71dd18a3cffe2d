import { describe, expect, test } from "vitest";
import { crankLimit, rockerAngle } from "../../../reference/analytic/four-bar/closed-form.ts";
import { sliderPosition } from "../../../reference/analytic/slider-crank/closed-form.ts";
import { spatialRocker } from "../../../reference/analytic/spatial-four-bar/closed-form.ts";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import {
  createLinkage,
  encloseMotion,
  type Linkage,
  type LinkagePose,
  type NodePoses,
  nodePoses,
  poseBetween,
  type Stroke,
  traceStroke,
} from "./index.ts";
import { fourBarLinkage, leverLinkage, sliderCrankLinkage } from "./test-linkages.ts";
import type { Vector3 } from "./types.ts";

const BAR = { ground: 4, crank: 1.2, coupler: 3.5, rocker: 2.4 };
const [START, TURN] = [0.7, 1.4];
const even = (from: number, to: number, stretches: number) =>
  Array.from({ length: stretches + 1 }, (_, i) => from + ((to - from) * i) / stretches);
const REFERENCE: Vector3 = [0.4, -0.3, 0.2];

function nodesOf(linkage: Linkage, poses: readonly LinkagePose[], reference = REFERENCE): NodePoses[] {
  return linkage.bodies.slice(1).map((_, at) => nodePoses(poses, { index: at + 1, reference }));
}

function fourBar(stretches: number, open: 1 | -1 = 1): { linkage: Linkage; stroke: Stroke; nodes: NodePoses[] } {
  const linkage = fourBarLinkage(BAR, START, rockerAngle(BAR, START, open));
  const stroke = traceStroke(linkage, { along: "A", values: even(START, START + TURN, stretches) });
  return { linkage, stroke, nodes: nodesOf(linkage, stroke.poses) };
}

/** Turn of each body about z since it was drawn, and a point of it that stays put or moves on a circle: closed form. */
function planarBody(body: number, alpha: number, open: 1 | -1): { turn: number; fixed: Vector3; drawn: Vector3 } {
  const at = (angle: number) => {
    const beta = rockerAngle(BAR, angle, open);
    const pin: Vector3 = [BAR.crank * Math.cos(angle), BAR.crank * Math.sin(angle), 0];
    const far = [BAR.ground + BAR.rocker * Math.cos(beta), BAR.rocker * Math.sin(beta)];
    return { beta, pin, coupler: Math.atan2(far[1] - pin[1], far[0] - pin[0]) };
  };
  const [now, then] = [at(alpha), at(START)];
  const hinge: Vector3 = [BAR.ground, 0, 0];
  if (body === 0) return { turn: alpha - START, fixed: [0, 0, 0], drawn: [0, 0, 0] };
  if (body === 1) return { turn: now.coupler - then.coupler, fixed: now.pin, drawn: then.pin };
  return { turn: now.beta - then.beta, fixed: hinge, drawn: hinge };
}

/** How far the interpolated pose of a body of the four-bar is from the closed form: reference point [m], turn [rad]. */
function offOf(nodes: NodePoses, body: number, at: { alpha: number; node: number; share: number; open: 1 | -1 }) {
  const { turn, fixed, drawn } = planarBody(body, at.alpha, at.open);
  const pose = new Float64Array(7);
  poseBetween(nodes, at.node, at.share, pose);
  const [x, y] = [REFERENCE[0] - drawn[0], REFERENCE[1] - drawn[1]];
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const way = Math.hypot(
    pose[0] - fixed[0] - c * x + s * y,
    pose[1] - fixed[1] - s * x - c * y,
    pose[2] - REFERENCE[2],
  );
  const own = 2 * Math.atan2(pose[6], pose[3]) - turn;
  return { way, turn: Math.abs(Math.atan2(Math.sin(own), Math.cos(own))) };
}

/** Largest of the four-bar's bodies at many places of every stretch. */
function largestOff(nodes: readonly NodePoses[], stretches: number, open: 1 | -1 = 1) {
  return nodes.map((own, body) => {
    let [way, turn] = [0, 0];
    for (let k = 0; k <= 20 * stretches; k++) {
      const node = Math.min(stretches - 1, Math.floor(k / 20));
      const off = offOf(own, body, { alpha: START + (TURN * k) / (20 * stretches), node, share: k / 20 - node, open });
      [way, turn] = [Math.max(way, off.way), Math.max(turn, off.turn)];
    }
    return { way, turn };
  });
}

/** The closed form and the interpolation are evaluated to this [m, rad]. */
const ROUNDING = 1e-13;

describe("analytic/four-bar lies in the enclosure", () => {
  for (const open of [1, -1] as const) {
    for (const stretches of [5, 20, 100]) {
      test(`branch ${open}, ${stretches} stretches: everywhere, and the bound is near what there is`, () => {
        const { stroke, nodes } = fourBar(stretches, open);
        const found = encloseMotion(stroke, nodes);
        expect(found.unresolved).toEqual([]);
        largestOff(nodes, stretches, open).forEach(({ way, turn }, body) => {
          expect(way).toBeGreaterThan(0);
          expect(way).toBeLessThanOrEqual(found.way[body] + ROUNDING);
          expect(turn).toBeLessThanOrEqual(found.turn[body] + ROUNDING);
          if (stretches >= 100) expect(found.way[body]).toBeLessThan(1.1 * way);
        });
      });
    }
  }

  test("its size falls with the square of the stretch", () => {
    const sizes = [40, 80, 160].map((stretches) => {
      const { stroke, nodes } = fourBar(stretches);
      return encloseMotion(stroke, nodes);
    });
    for (let k = 0; k < 2; k++) {
      const [coarse, fine] = [sizes[k], sizes[k + 1]];
      for (let body = 0; body < 3; body++) {
        const close = { rtol: 0.12, why: "terms of the next order, 4 to the leading one" };
        expectClose(coarse.way[body] / fine.way[body], 4, close, `way ${body}`);
      }
      // The crank is driven evenly: its turn has no error of second order, the others have.
      for (const body of [1, 2]) {
        expectClose(coarse.turn[body] / fine.turn[body], 4, { rtol: 0.25, why: "as above" }, `turn ${body}`);
      }
      expect(coarse.turn[0] / fine.turn[0]).toBeGreaterThan(6);
    }
  });
});

describe("nodes that are wrong on purpose", () => {
  test("a node beside the motion: the bound is never below what it is off, or nothing is proven there", () => {
    for (const off of [1e-5, 1e-3, 0.02, 0.5]) {
      const { stroke, nodes } = fourBar(20);
      nodes[1].points[3 * 7] += off;
      const found = encloseMotion(stroke, nodes);
      const isUnresolved = found.unresolved.some(({ from, to }) => from < 7 && to > 6);
      if (!isUnresolved) expect(found.way[1]).toBeGreaterThanOrEqual(off);
      if (off === 1e-5) expect(found.unresolved).toEqual([]);
      if (off === 0.5) expect(isUnresolved).toBe(true);
    }
  });

  test("an attitude that does not fit the turns before it counts as well", () => {
    const { stroke, nodes } = fourBar(20);
    nodes[2].turns[3 * 7 + 2] += 1e-3;
    const found = encloseMotion(stroke, nodes);
    expect(found.turn[2] >= 1e-3 - 1e-6 || found.unresolved.length > 0).toBe(true);
  });

  test("nodes of both branches, each closed: the stretch between them is not proven", () => {
    const [one, other] = [fourBar(20, 1), fourBar(20, -1)];
    const poses = one.stroke.poses.map((pose, i) => (i <= 10 ? pose : acrossTo(other.stroke.poses[i], one.linkage)));
    const found = encloseMotion(one.stroke, nodesOf(one.linkage, poses));
    expect(found.unresolved).toEqual([{ from: 10, to: 11 }]);
  });

  test("values that are not those of the nodes", () => {
    const { stroke, nodes } = fourBar(20);
    const shifted = { ...stroke, values: stroke.values.map((value) => value + 1e-4) };
    expect(encloseMotion(shifted, nodes).turn[0]).toBeGreaterThanOrEqual(1e-4);
  });
});

/** A pose of the bar drawn on the other branch, for the bodies drawn on this one. */
function acrossTo(pose: LinkagePose, linkage: Linkage): LinkagePose {
  const [here, there] = ([1, -1] as const).map((open) => {
    const beta = rockerAngle(BAR, START, open);
    const pin = [BAR.crank * Math.cos(START), BAR.crank * Math.sin(START)];
    const far = [BAR.ground + BAR.rocker * Math.cos(beta), BAR.rocker * Math.sin(beta)];
    return { pin, coupler: Math.atan2(far[1] - pin[1], far[0] - pin[0]), beta };
  });
  const positions = pose.positions.slice();
  const attitudes = pose.attitudes.slice();
  const centres: readonly (readonly number[])[] = [[0, 0], [0, 0], here.pin, [BAR.ground, 0]];
  const turns = [0, 0, there.coupler - here.coupler, there.beta - here.beta];
  for (let body = 2; body < linkage.bodies.length; body++) {
    // x = p + R·x_there, x_there = c + T·(x_here − c): the drawn bodies differ by a turn about a common point.
    const half = 2 * Math.atan2(attitudes[4 * body + 3], attitudes[4 * body]);
    const [c, s] = [Math.cos(half), Math.sin(half)];
    const [d, e] = [Math.cos(turns[body]), Math.sin(turns[body])];
    const [x, y] = centres[body];
    const [u, v] = [x - d * x + e * y, y - e * x - d * y];
    positions[3 * body] += c * u - s * v;
    positions[3 * body + 1] += s * u + c * v;
    attitudes[4 * body] = Math.cos(0.5 * (half + turns[body]));
    attitudes[4 * body + 3] = Math.sin(0.5 * (half + turns[body]));
  }
  return { positions, attitudes };
}

describe("near a dead point", () => {
  const bar = { ...BAR, coupler: 2.2 };
  const limit = crankLimit(bar);
  const linkage = fourBarLinkage(bar, 0.5, rockerAngle(bar, 0.5, 1));
  const upTo = (end: number, stretches: number) => {
    const stroke = traceStroke(linkage, { along: "A", values: even(0.5, end, stretches) });
    return { stroke, found: encloseMotion(stroke, nodesOf(linkage, stroke.poses)) };
  };

  test("stretches are divided, and what is left at the smallest is unresolved, only there", () => {
    const { stroke, found } = upTo(limit - 1e-9, 20);
    expect(stroke.outcome).toBe("complete");
    expect(found.unresolved).toEqual([{ from: 19, to: 20 }]);
    // What is not proven does not count: the bound is that of the others.
    expect(found.turn[2]).toBeLessThan(0.02);
  });

  test("farther from it all is proven, coarse nodes by dividing, and the closed form is inside", () => {
    const end = limit - 0.02;
    const { stroke, found } = upTo(end, 6);
    expect(found.unresolved).toEqual([]);
    expect(found.pieces).toBeGreaterThan(6);
    const rocker = nodesOf(linkage, stroke.poses)[2];
    const pose = new Float64Array(7);
    let largest = 0;
    for (let k = 0; k <= 600; k++) {
      const node = Math.min(5, Math.floor(k / 100));
      poseBetween(rocker, node, k / 100 - node, pose);
      const exact = rockerAngle(bar, 0.5 + ((end - 0.5) * k) / 600, 1) - rockerAngle(bar, 0.5, 1);
      largest = Math.max(largest, Math.abs(2 * Math.atan2(pose[6], pose[3]) - exact));
    }
    expect(largest).toBeGreaterThan(1e-3);
    expect(largest).toBeLessThanOrEqual(found.turn[2]);
    expect(found.turn[2]).toBeLessThan(2 * largest);
  });
});

describe("other joints", () => {
  test("analytic/slider-crank, driven by the crank", () => {
    const [r, rod, offset] = [1, 2.6, 0.3];
    const linkage = sliderCrankLinkage(r, rod, offset, 0.4);
    const stroke = traceStroke(linkage, { along: "A", values: even(0.4, 2.4, 40) });
    const nodes = nodesOf(linkage, stroke.poses, [0, 0, 0]);
    const found = encloseMotion(stroke, nodes);
    expect(found.unresolved).toEqual([]);
    const pose = new Float64Array(7);
    let largest = 0;
    for (let k = 0; k < 400; k++) {
      poseBetween(nodes[2], Math.floor(k / 10), (k % 10) / 10, pose);
      largest = Math.max(largest, Math.abs(pose[0] - sliderPosition(r, rod, offset, 0.4 + k / 200)));
    }
    expect(largest).toBeLessThanOrEqual(found.way[2] + ROUNDING);
    expect(found.way[2]).toBeLessThan(2 * largest);
  });

  test("driven by the slider: the crank's angle is the inverse of the travel", () => {
    const [r, rod] = [1, 2.6];
    const linkage = sliderCrankLinkage(r, rod, 0, 1.2);
    const from = sliderPosition(r, rod, 0, 1.2);
    const stroke = traceStroke(linkage, { along: "guide", values: even(from, from - 0.8, 60) });
    const nodes = nodesOf(linkage, stroke.poses);
    const found = encloseMotion(stroke, nodes);
    expect(found.unresolved).toEqual([]);
    const pose = new Float64Array(7);
    let largest = 0;
    for (let k = 0; k < 600; k++) {
      poseBetween(nodes[0], Math.floor(k / 10), (k % 10) / 10, pose);
      const x = from - (0.8 * k) / 600;
      const alpha = Math.acos((x * x + r * r - rod * rod) / (2 * x * r));
      largest = Math.max(largest, Math.abs(2 * Math.atan2(pose[6], pose[3]) + 1.2 - alpha));
    }
    expect(largest).toBeLessThanOrEqual(found.turn[0] + ROUNDING);
    expect(found.turn[0]).toBeLessThan(2 * largest);
  });

  test("driven by a jack: the lever's angle by the cosine rule", () => {
    const linkage = leverLinkage([3, 0, 0], [1, 0, 0]);
    // Drawn along the line to the anchor, a dead point: start from a lever that is turned up.
    const lift = traceStroke(linkage, { along: "A", values: [0, 1] });
    const length = (angle: number) => Math.sqrt(10 - 6 * Math.cos(angle));
    const values = even(length(1), length(2), 20);
    const stroke = traceStroke(linkage, { along: "jack", values, from: lift.states[1] });
    expect(stroke.outcome).toBe("complete");
    const [nodes] = nodesOf(linkage, stroke.poses);
    const found = encloseMotion(stroke, [nodes]);
    expect(found.unresolved).toEqual([]);
    const pose = new Float64Array(7);
    let largest = 0;
    for (let k = 0; k < 200; k++) {
      poseBetween(nodes, Math.floor(k / 10), (k % 10) / 10, pose);
      const jack = values[0] + ((values[20] - values[0]) * k) / 200;
      largest = Math.max(largest, Math.abs(2 * Math.atan2(pose[6], pose[3]) - Math.acos((10 - jack * jack) / 6)));
    }
    expect(largest).toBeLessThanOrEqual(found.turn[0] + ROUNDING);
    expect(found.turn[0]).toBeLessThan(2 * largest);
  });

  test("analytic/spatial-four-bar: hinge, rod between balls, hinge", () => {
    const four = { crank: 0.8, rocker: 2, rod: 3.2, hinge: [1.5, 1.2, 1.9] as const };
    const start = 0.3;
    const beta = spatialRocker(four, start, 1);
    const [hx, hy, hz] = four.hinge;
    const linkage = createLinkage({
      fixed: "carrier",
      bodies: [{ name: "crank" }, { name: "rocker" }],
      joints: [
        {
          kind: "hinge",
          name: "A",
          first: "carrier",
          second: "crank",
          pointOnFirst: [0, 0, 0],
          axisOnFirst: [0, 0, 1],
          sideOnFirst: [1, 0, 0],
          sideOnSecond: [Math.cos(start), Math.sin(start), 0],
        },
        {
          kind: "hinge",
          name: "B",
          first: "carrier",
          second: "rocker",
          pointOnFirst: four.hinge,
          axisOnFirst: [0, 1, 0],
        },
        {
          kind: "rod",
          name: "rod",
          first: "crank",
          second: "rocker",
          length: four.rod,
          pointOnFirst: [four.crank * Math.cos(start), four.crank * Math.sin(start), 0],
          pointOnSecond: [hx + four.rocker * Math.cos(beta), hy, hz - four.rocker * Math.sin(beta)],
        },
      ],
    });
    const stroke = traceStroke(linkage, { along: "A", values: even(start, start + 2, 40) });
    const nodes = nodesOf(linkage, stroke.poses);
    const found = encloseMotion(stroke, nodes);
    expect(found.unresolved).toEqual([]);
    const pose = new Float64Array(7);
    let largest = 0;
    for (let k = 0; k < 400; k++) {
      poseBetween(nodes[1], Math.floor(k / 10), (k % 10) / 10, pose);
      const exact = spatialRocker(four, start + k / 200, 1) - beta;
      largest = Math.max(largest, Math.abs(2 * Math.atan2(pose[5], pose[3]) - exact));
    }
    expect(largest).toBeLessThanOrEqual(found.turn[1] + ROUNDING);
    expect(found.turn[1]).toBeLessThan(2 * largest);
  });

  test("a body that joints leave free is not proven anywhere", () => {
    const linkage = createLinkage({
      fixed: "carrier",
      bodies: [{ name: "lever" }, { name: "pendant" }],
      joints: [
        {
          kind: "hinge",
          name: "A",
          first: "carrier",
          second: "lever",
          pointOnFirst: [0, 0, 0],
          axisOnFirst: [0, 0, 1],
        },
        { kind: "ball", name: "end", first: "lever", second: "pendant", pointOnFirst: [1, 0, 0] },
      ],
    });
    const stroke = traceStroke(linkage, { along: "A", values: even(0, 0.5, 5) });
    const found = encloseMotion(stroke, nodesOf(linkage, stroke.poses));
    expect(found.unresolved).toEqual([{ from: 0, to: 5 }]);
    expect(found.pieces).toBe(0);
  });

  test("bodies and nodes that do not fit the stroke are refused", () => {
    const { stroke, nodes } = fourBar(5);
    expect(() => encloseMotion(stroke, nodes.slice(1))).toThrow(DomainError);
    expect(() => encloseMotion({ ...stroke, values: stroke.values.slice(0, 4) }, nodes)).toThrow("stroke values");
  });
});
