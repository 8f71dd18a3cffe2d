import { describe, expect, test } from "vitest";
import { crankLimit, freudenstein, rockerAngle, rockerRate } from "../../../reference/analytic/four-bar/closed-form.ts";
import { sliderPosition, sliderRate } from "../../../reference/analytic/slider-crank/closed-form.ts";
import { spatialRocker } from "../../../reference/analytic/spatial-four-bar/closed-form.ts";
import { expectClose } from "../../../test/support/close.ts";
import { assemble, coordinateAt, coordinateRate, createLinkage, traceStroke, unitMotion } from "./index.ts";
import { fourBarLinkage, leverLinkage, sliderCrankLinkage } from "./test-linkages.ts";

const ROUNDING = { atol: 1e-11, why: "closed form against a loop closed to 1e-13" };
const turns = (from: number, to: number, count: number) =>
  Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));
const angleApart = (a: number, b: number) => Math.abs(Math.atan2(Math.sin(a - b), Math.cos(a - b)));

describe("analytic/four-bar", () => {
  const bars = [
    ["crank goes round (Grashof)", { ground: 4, crank: 1.2, coupler: 3.5, rocker: 2.4 }],
    ["drag link, both go round", { ground: 1, crank: 2.2, coupler: 2.1, rocker: 2.5 }],
  ] as const;
  for (const [name, bar] of bars) {
    for (const open of [1, -1] as const) {
      test(`${name}, branch ${open}: Freudenstein's equation, angle and rate over two turns`, () => {
        const start = 0.7;
        const linkage = fourBarLinkage(bar, start, rockerAngle(bar, start, open));
        const values = turns(start, start + 4 * Math.PI, 49);
        const stroke = traceStroke(linkage, { along: "A", values });
        expect(stroke.outcome).toBe("complete");
        stroke.states.forEach((state, i) => {
          const beta = coordinateAt(linkage, state, "B");
          expectClose(freudenstein(bar, values[i], beta), 0, ROUNDING);
          expectClose(angleApart(beta, rockerAngle(bar, values[i], open)), 0, ROUNDING);
          const motion = unitMotion(linkage, state, ["A"], "A");
          if (motion === undefined) throw new Error("dead point");
          const rate = rockerRate(bar, values[i], beta);
          expectClose(coordinateRate(linkage, state, motion, "B"), rate, {
            rtol: 1e-10,
            atol: 1e-10,
            why: "conditioning",
          });
        });
      });
    }
  }

  test("Grashof's limit: the crank goes round below it and turns back above it, where the closed form says", () => {
    // Shortest + longest = 1.2 + 4 against the other two: 2.4 + b. The limit is b = 2.8.
    for (const coupler of [2.79, 2.6, 2.2]) {
      const bar = { ground: 4, crank: 1.2, coupler, rocker: 2.4 };
      const start = 0.5;
      const linkage = fourBarLinkage(bar, start, rockerAngle(bar, start, 1));
      const stroke = traceStroke(linkage, { along: "A", values: turns(start, start + 2 * Math.PI, 25) });
      expect(stroke.outcome).toBe("dead point");
      expectClose(stroke.reached, crankLimit(bar), { atol: 1e-9, why: "the fold is found to 1e-13 m along the path" });
      expect(stroke.values[stroke.values.length - 1]).toBeLessThanOrEqual(stroke.reached);
    }
    const bar = { ground: 4, crank: 1.2, coupler: 2.81, rocker: 2.4 };
    const linkage = fourBarLinkage(bar, 0.5, rockerAngle(bar, 0.5, 1));
    expect(traceStroke(linkage, { along: "A", values: turns(0.5, 0.5 + 2 * Math.PI, 25) }).outcome).toBe("complete");
  });
});

describe("analytic/slider-crank", () => {
  test("travel and rate over a turn, with an offset", () => {
    const [r, rod, offset, start] = [1, 2.6, 0.3, 0.4];
    const linkage = sliderCrankLinkage(r, rod, offset, start);
    const values = turns(start, start + 2 * Math.PI, 37);
    const stroke = traceStroke(linkage, { along: "A", values });
    expect(stroke.outcome).toBe("complete");
    stroke.states.forEach((state, i) => {
      expectClose(coordinateAt(linkage, state, "guide"), sliderPosition(r, rod, offset, values[i]), ROUNDING);
      const motion = unitMotion(linkage, state, ["A"], "A");
      if (motion === undefined) throw new Error("dead point");
      expectClose(coordinateRate(linkage, state, motion, "guide"), sliderRate(r, rod, offset, values[i]), {
        atol: 1e-10,
        why: "conditioning",
      });
    });
  });

  test("driven by the slider it reaches the outer dead point, r + ℓ, and no further", () => {
    const linkage = sliderCrankLinkage(1, 2.6, 0, 0.4);
    const stroke = traceStroke(linkage, { along: "guide", values: turns(3.4, 3.7, 13) });
    expect(stroke.outcome).toBe("dead point");
    expectClose(stroke.reached, 3.6, { atol: 1e-12, why: "closed form; the fold is flat in the travel" });
  });
});

describe("analytic/spatial-four-bar", () => {
  test("hinge – ball – ball – hinge in space: both solutions over a turn", () => {
    const four = { crank: 0.8, rocker: 2, rod: 3.2, hinge: [1.5, 1.2, 1.9] as const };
    for (const branch of [1, -1] as const) {
      const start = 0.3;
      const beta = spatialRocker(four, start, branch);
      const crankBall = [four.crank * Math.cos(start), four.crank * Math.sin(start), 0] as const;
      const [hx, hy, hz] = four.hinge;
      const rockerBall = [hx + four.rocker * Math.cos(beta), hy, hz - four.rocker * Math.sin(beta)] as const;
      const hinges = [
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
          sideOnFirst: [1, 0, 0],
          sideOnSecond: [Math.cos(beta), 0, -Math.sin(beta)],
        },
      ] as const;
      const asRod = createLinkage({
        fixed: "carrier",
        bodies: [{ name: "crank" }, { name: "rocker" }],
        joints: [
          ...hinges,
          {
            kind: "rod",
            name: "rod",
            first: "crank",
            second: "rocker",
            pointOnFirst: crankBall,
            pointOnSecond: rockerBall,
            length: four.rod,
          },
        ],
      });
      const asBody = createLinkage({
        fixed: "carrier",
        bodies: [{ name: "crank" }, { name: "rod" }, { name: "rocker" }],
        joints: [
          ...hinges,
          { kind: "ball", name: "one", first: "crank", second: "rod", pointOnFirst: crankBall },
          { kind: "ball", name: "two", first: "rocker", second: "rod", pointOnFirst: rockerBall },
        ],
      });
      const values = turns(start, start + 2 * Math.PI, 25);
      for (const [linkage, idle] of [
        [asRod, 0],
        [asBody, 1],
      ] as const) {
        const stroke = traceStroke(linkage, { along: "A", values });
        expect(stroke.outcome).toBe("complete");
        stroke.states.forEach((state, i) => {
          const found = coordinateAt(linkage, state, "B");
          expectClose(angleApart(found, spatialRocker(four, values[i], branch)), 0, ROUNDING);
        });
        const found = assemble(linkage, [{ joint: "A", value: 0.5 }]);
        // A rod between two balls may spin about itself: an idle freedom, no obstacle.
        expect(found).toMatchObject({ outcome: "assembled", freedoms: idle, redundant: 0 });
      }
    }
  });
});

describe("triangle of a jack", () => {
  test("law of cosines and its derivative", () => {
    const linkage = leverLinkage([2, 1, 0], [0.5, 1.3, 0]);
    const [d, c] = [Math.hypot(2, 1), Math.hypot(0.5, 1.3)];
    const between = Math.atan2(1.3, 0.5) - Math.atan2(1, 2);
    for (const angle of turns(-0.4, 1.2, 9)) {
      const { state } = assemble(linkage, [{ joint: "A", value: angle }]);
      const length = Math.sqrt(d * d + c * c - 2 * d * c * Math.cos(between + angle));
      expectClose(coordinateAt(linkage, state, "jack"), length, ROUNDING);
      const motion = unitMotion(linkage, state, ["jack"], "jack");
      if (motion === undefined) throw new Error("dead point");
      const rate = length / (d * c * Math.sin(between + angle));
      expectClose(coordinateRate(linkage, state, motion, "A"), rate, { rtol: 1e-11, why: "conditioning" });
    }
  });
});
