import { describe, expect, test } from "vitest";
import { rockerAngle } from "../../../reference/analytic/four-bar/closed-form.ts";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import {
  coordinateAt,
  coordinateRate,
  createLinkage,
  pointPosition,
  pointVelocity,
  strokeEvaluator,
  traceStroke,
  unitMotion,
} from "./index.ts";
import { motionBetween } from "./place.ts";
import { createWork, evaluateAt } from "./settle.ts";
import { fourBarLinkage, leverLinkage, sliderCrankLinkage } from "./test-linkages.ts";

const turns = (from: number, to: number, count: number) =>
  Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));
const TIP = { joint: "rocker pin", on: "first" } as const;

describe("a parallelogram through its flat positions", () => {
  const bar = { ground: 3, crank: 1, rocker: 1 };

  test("stays a parallelogram, and says where the other branch crosses", () => {
    const linkage = fourBarLinkage(bar, 0.5, 0.5);
    const values = turns(0.5, 0.5 + 2 * Math.PI, 24);
    const stroke = traceStroke(linkage, { along: "A", values });
    expect(stroke.outcome).toBe("complete");
    stroke.states.forEach((state, i) => {
      const apart = coordinateAt(linkage, state, "B") - values[i];
      expectClose(Math.sin(apart / 2), 0, { atol: 1e-11, why: "rocker parallel to crank" });
    });
    expect(stroke.events.map((event) => event.kind)).toEqual(["branch crossing", "branch crossing"]);
    stroke.events.forEach((event, i) => {
      expectClose(event.at, (i + 1) * Math.PI, { atol: 1e-5, why: "located from one side of a singular point" });
      expect(event.smallestSingularValue).toBeLessThan(1e-5);
    });
  });

  test("drawn crossed it stays crossed", () => {
    const four = { ground: 3, crank: 1, coupler: 3, rocker: 1 };
    const start = 0.5;
    // Of the two closures one is parallel; the other is the crossed one.
    const beta = [1, -1].map((open) => rockerAngle(four, start, open as 1 | -1)).find((b) => Math.abs(b - start) > 0.1);
    if (beta === undefined) throw new Error("no crossed closure");
    const linkage = fourBarLinkage(bar, start, beta);
    const stroke = traceStroke(linkage, { along: "A", values: turns(0.5, 5.5, 20) });
    expect(stroke.outcome).toBe("complete");
    expect(stroke.events.length).toBe(1);
    stroke.states.forEach((state, i) => {
      // Own derivation from Freudenstein's equation with b = d, c = a: tan(β/2) = −(d + a)/(d − a)·tan(α/2).
      const ratio = Math.tan(coordinateAt(linkage, state, "B") / 2) / Math.tan(stroke.values[i] / 2);
      expectClose(ratio, -(3 + 1) / (3 - 1), { rtol: 1e-9, why: "closed form" });
    });
  });
});

describe("dead points", () => {
  test("a jack pushing a lever: the stroke ends where lever and jack lie in line, either way", () => {
    const linkage = leverLinkage([2, 0, 0], [0, 1, 0]);
    // Lug at distance 1, anchor at distance 2: lengths 1 … 3.
    const longer = traceStroke(linkage, { along: "jack", values: turns(2, 3.2, 13) });
    expect(longer.outcome).toBe("dead point");
    expectClose(longer.reached, 3, { atol: 1e-12, why: "closed form" });
    expect(longer.values.length).toBe(11);
    const shorter = traceStroke(linkage, { along: "jack", values: turns(2, 0.9, 12) });
    expect(shorter.outcome).toBe("dead point");
    expectClose(shorter.reached, 1, { atol: 1e-12, why: "closed form" });
  });

  test("a start at a dead point is one", () => {
    const linkage = leverLinkage([2, 0, 0], [1, 0, 0]);
    expect(traceStroke(linkage, { along: "jack", values: [1, 2] }).outcome).toBe("dead point");
  });

  test("driven by the lever it goes through, and reports the dead points of the jack", () => {
    const linkage = leverLinkage([2, 0, 0], [0, 1, 0]);
    const stroke = traceStroke(linkage, { along: "A", values: turns(-0.3, 6.1, 20) });
    expect(stroke.outcome).toBe("complete");
    // Lug at angle + 90°: in line with the anchor at 90° and 270° of the lever.
    expect(stroke.events.map(({ kind, joint }) => [kind, joint])).toEqual([
      ["jack dead point", "jack"],
      ["jack dead point", "jack"],
    ]);
    expectClose(stroke.events[0].at, Math.PI / 2, { atol: 1e-9, why: "bisection of the rate" });
    expectClose(stroke.events[1].at, 1.5 * Math.PI, { atol: 1e-9, why: "bisection of the rate" });
  });

  test("the tip's dead points are the rocker's turning points, by the triangle of crank and coupler in line", () => {
    const four = { ground: 4, crank: 1.2, coupler: 3.5, rocker: 2.4 };
    const linkage = fourBarLinkage(four, 0.7, rockerAngle(four, 0.7, 1));
    const stroke = traceStroke(linkage, { along: "A", values: turns(0.2, 6.2, 7), tip: TIP });
    const inLine = (reach: number) => Math.acos((16 + reach ** 2 - 2.4 ** 2) / (2 * 4 * reach));
    expect(stroke.events.map((event) => event.kind)).toEqual(["tip dead point", "tip dead point"]);
    const ats = stroke.events.map((event) => event.at);
    expectClose(ats[0], inLine(3.5 + 1.2), { atol: 1e-9, why: "bisection of the direction" });
    expectClose(ats[1], Math.PI + inLine(3.5 - 1.2), { atol: 1e-9, why: "bisection of the direction" });
  });
});

describe("traceStroke", () => {
  test("chooses the branch by the stated pose, however far the first value is", () => {
    const four = { ground: 4, crank: 1.2, coupler: 3.5, rocker: 2.4 };
    for (const open of [1, -1] as const) {
      const linkage = fourBarLinkage(four, 0.7, rockerAngle(four, 0.7, open));
      const stroke = traceStroke(linkage, { along: "A", values: [3.6, 3.5] });
      const expected = rockerAngle(four, 3.6, open);
      expectClose(Math.sin(coordinateAt(linkage, stroke.states[0], "B") - expected), 0, {
        atol: 1e-11,
        why: "closed form",
      });
    }
  });

  test("the coarseness of the values does not change the poses, and a stroke back gives the same", () => {
    const linkage = sliderCrankLinkage(1, 2.6, 0.3, 0.4);
    const fine = traceStroke(linkage, { along: "A", values: turns(0.5, 2.5, 41) });
    const coarse = traceStroke(linkage, { along: "A", values: [0.5, 2.5] });
    const back = traceStroke(linkage, { along: "A", values: [2.5, 0.5] });
    const close = { atol: 1e-11, why: "each is closed to rounding" };
    expectAllClose(coarse.states[1], fine.states[40], close);
    expectAllClose(back.states[0], fine.states[40], close);
    expectAllClose(back.states[1], fine.states[0], close);
  });

  test("the evaluator closes between the values and agrees with them", () => {
    const linkage = sliderCrankLinkage(1, 2.6, 0.3, 0.4);
    const stroke = traceStroke(linkage, { along: "A", values: [0.5, 1.5, 2.5] });
    const evaluate = strokeEvaluator(stroke);
    const state = new Float64Array(28);
    const work = createWork(linkage, []);
    for (const value of turns(0.5, 2.5, 33)) {
      expect(evaluate(value, state)).toBe(true);
      expect(Math.sqrt(evaluateAt(work, state))).toBeLessThan(1e-12);
      expectClose(coordinateAt(linkage, state, "A"), value, { atol: 1e-12, why: "rounding" });
    }
    evaluate(1.5, state);
    expectAllClose(state, stroke.states[1], { atol: 1e-11, why: "closed to rounding" });
    expect(() => evaluate(2.6, state)).toThrow(DomainError);
    expect(() => evaluate(Number.NaN, state)).toThrow("value of A");
  });

  test("unit motions and point velocities are the differences along the stroke", () => {
    const linkage = sliderCrankLinkage(1, 2.6, 0.3, 0.4);
    const h = 1e-4;
    const { states } = traceStroke(linkage, { along: "A", values: [1 - h, 1, 1 + h] });
    const motion = unitMotion(linkage, states[1], ["A"], "A");
    if (motion === undefined) throw new Error("dead point");
    const difference = new Float64Array(18);
    motionBetween(linkage, states[0], states[2], difference);
    const why = "central differences, step 1e-4";
    expectAllClose(
      motion,
      difference.map((value) => value / (2 * h)),
      { atol: 1e-7, why },
    );
    const tip = { body: "rod", at: [2, 0.4, 0.1] } as const;
    const [before, after] = [states[0], states[2]].map((state) => pointPosition(linkage, state, tip));
    const slope = after.map((value, k) => (value - before[k]) / (2 * h));
    expectAllClose(pointVelocity(linkage, states[1], motion, tip), slope, { atol: 1e-7, why });
    const guide = (i: number) => coordinateAt(linkage, states[i], "guide");
    const travel = (guide(2) - guide(0)) / (2 * h);
    expectClose(coordinateRate(linkage, states[1], motion, "guide"), travel, { atol: 1e-7, why });
  });

  test("two drives: one held, the other the stroke", () => {
    const linkage = createLinkage({
      fixed: "carrier",
      bodies: [{ name: "upper" }, { name: "lower" }],
      joints: [
        {
          kind: "hinge",
          name: "A",
          first: "carrier",
          second: "upper",
          pointOnFirst: [0, 0, 0],
          axisOnFirst: [0, 0, 1],
        },
        { kind: "hinge", name: "B", first: "upper", second: "lower", pointOnFirst: [1, 0, 0], axisOnFirst: [0, 0, 1] },
      ],
    });
    const held = [{ joint: "B", value: 0.5 }];
    const { states, outcome } = traceStroke(linkage, { along: "A", values: [0, 0.3], held });
    expect(outcome).toBe("complete");
    const tip = pointPosition(linkage, states[1], { body: "lower", at: [2, 0, 0] });
    const expected = [Math.cos(0.3) + Math.cos(0.8), Math.sin(0.3) + Math.sin(0.8), 0];
    expectAllClose(tip, expected, { atol: 1e-12, why: "closed form" });
  });

  test("what does not close at the stated pose says so", () => {
    const linkage = createLinkage({
      fixed: "carrier",
      bodies: [{ name: "link" }],
      joints: [
        {
          kind: "ball",
          name: "one",
          first: "carrier",
          second: "link",
          pointOnFirst: [0, 0, 0],
          pointOnSecond: [0, 0, 0],
        },
        {
          kind: "ball",
          name: "two",
          first: "carrier",
          second: "link",
          pointOnFirst: [3, 0, 0],
          pointOnSecond: [2, 0, 0],
        },
        {
          kind: "jack",
          name: "jack",
          first: "carrier",
          second: "link",
          pointOnFirst: [0, 2, 0],
          pointOnSecond: [1, 0, 0],
        },
      ],
    });
    const stroke = traceStroke(linkage, { along: "jack", values: [1, 2] });
    expect(stroke.outcome).toBe("does not close");
    expect(stroke.states.length).toBe(0);
    expectClose(stroke.gap?.residual ?? 0, 0.5, { atol: 1e-9, why: "closed form" });
    const lever = leverLinkage([2, 0, 0], [0, 1, 0]);
    expect(() => traceStroke(lever, { along: "jack", values: [1, 2, 1.5] })).toThrow("stroke value 2 is 1.5");
    expect(() => traceStroke(lever, { along: "nothing", values: [1, 2] })).toThrow("joint is nothing");
  });
});
