import { describe, expect, test } from "vitest";
import { rockerAngle } from "../../../reference/analytic/four-bar/closed-form.ts";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { createJacobianWorkspace, jacobian } from "../../math/differentiate/index.ts";
import { workFor } from "./assemble.ts";
import { deviate, resolveDimensions } from "./dimensions.ts";
import {
  assemble,
  createMeasureReader,
  type Dimension,
  type Drive,
  type Linkage,
  type Measure,
  sensitivity,
} from "./index.ts";
import { copyLinkage, createLinkage } from "./linkage.ts";
import { createWork, settle } from "./settle.ts";
import { fourBarLinkage, leverLinkage, sliderCrankLinkage } from "./test-linkages.ts";

/** Derivatives by extrapolated differences of full solutions. */
function byDifferences(
  linkage: Linkage,
  state: Float64Array,
  drives: readonly Drive[],
  dimensions: readonly Dimension[],
  measures: readonly Measure[],
): Float64Array {
  const varied = copyLinkage(linkage);
  const nominal = workFor(linkage, drives).rows;
  const work = createWork(varied, [...nominal.driven]);
  const parts = resolveDimensions(linkage, dimensions);
  const reader = createMeasureReader(linkage, state, measures);
  const out = new Float64Array(measures.length * dimensions.length);
  const evaluate = (x: Float64Array, values: Float64Array) => {
    deviate(varied, linkage, parts, x, 0, { rows: work.rows, values: nominal.values });
    const here = state.slice();
    expect(settle(work, here)).toBe(true);
    reader.read(varied, here, values, 0);
  };
  const steps = new Float64Array(dimensions.length).fill(2e-3);
  const workspace = createJacobianWorkspace(dimensions.length, measures.length);
  expect(jacobian(evaluate, new Float64Array(dimensions.length), steps, measures.length, out, workspace)).toBe(true);
  return out;
}

const CLOSE = { rtol: 1e-7, atol: 1e-8, why: "extrapolated differences, step 2e-3, of loops closed to 1e-13" };

describe("sensitivity", () => {
  test("lever: jack length against its points and the boom angle, law of cosines", () => {
    const linkage = leverLinkage([2, 0, 0], [0, 1, 0]);
    const drives = [{ joint: "A", value: 0.3 }];
    const { state } = assemble(linkage, drives);
    const dimensions: Dimension[] = [
      { name: "anchor x", parts: [{ joint: "jack", what: "point on first", direction: [1, 0, 0] }] },
      { name: "lug out", parts: [{ joint: "jack", what: "point on second", direction: [0, 1, 0] }] },
      { name: "angle", parts: [{ joint: "A", what: "length" }] },
    ];
    const { matrix, gaps } = sensitivity(linkage, state, drives, dimensions, [{ kind: "coordinate", joint: "jack" }]);
    const [lx, ly] = [-Math.sin(0.3), Math.cos(0.3)];
    const length = Math.hypot(lx - 2, ly);
    const along = [(lx - 2) / length, ly / length];
    const expected = [-along[0], along[0] * lx + along[1] * ly, along[0] * -ly + along[1] * lx];
    expectAllClose(matrix, expected, { atol: 1e-12, why: "closed form" });
    expectAllClose(gaps, [0, 0, 0], { atol: 0, why: "nothing binds" });
  });

  test("lever held by its jack: attitude against the jack's length and its points", () => {
    const linkage = leverLinkage([2, 0, 0], [0, 1, 0]);
    const drives = [{ joint: "jack", value: 2.4 }];
    const { state } = assemble(linkage, drives);
    const dimensions: Dimension[] = [
      { name: "jack", parts: [{ joint: "jack", what: "length" }] },
      {
        name: "both ends outwards",
        parts: [
          { joint: "jack", what: "point on first", direction: [0.3, -1, 0] },
          { joint: "jack", what: "point on second", direction: [0.5, 0.2, 0.7] },
        ],
      },
      { name: "hinge", parts: [{ joint: "A", what: "point on first", direction: [0.2, 0.4, -0.1] }] },
    ];
    const measures: Measure[] = [
      { kind: "turn", body: "lever", axis: [0, 0, 1] },
      { kind: "position", point: { body: "lever", at: [5, 1, 0] }, direction: [0.6, 0.8, 0] },
      { kind: "position", point: { joint: "jack", on: "second" }, direction: [0, 1, 0] },
      { kind: "coordinate", joint: "A" },
      { kind: "coordinate", joint: "jack" },
    ];
    const { matrix } = sensitivity(linkage, state, drives, dimensions, measures);
    expectAllClose(matrix, byDifferences(linkage, state, drives, dimensions, measures), CLOSE);
    expectClose(matrix[4 * 3], 1, { atol: 1e-12, why: "the jack's length is the dimension" });
  });

  test("four-bar with redundant hinges, dimensions in its plane", () => {
    const bar = { ground: 4, crank: 1.2, coupler: 3.5, rocker: 2.4 };
    const linkage = fourBarLinkage(bar, 0.7, rockerAngle(bar, 0.7, 1));
    const drives = [{ joint: "A", value: 1.4 }];
    const { state } = assemble(linkage, drives);
    const dimensions: Dimension[] = [
      { name: "ground", parts: [{ joint: "B", what: "point on first", direction: [1, 0, 0] }] },
      { name: "crank pin", parts: [{ joint: "crank pin", what: "point on first", direction: [0.6, 0.8, 0] }] },
      { name: "coupler pin", parts: [{ joint: "rocker pin", what: "point on first", direction: [1, 0.2, 0] }] },
      { name: "angle zero", parts: [{ joint: "A", what: "axes on second", direction: [0, 0, 1] }] },
    ];
    const measures: Measure[] = [
      { kind: "turn", body: "coupler", axis: [0, 0, 1] },
      { kind: "coordinate", joint: "B" },
      { kind: "position", point: { joint: "rocker pin", on: "first" }, direction: [0, 1, 0] },
      { kind: "position", point: { joint: "rocker pin", on: "second" }, direction: [0, 1, 0] },
    ];
    const { matrix, gaps } = sensitivity(linkage, state, drives, dimensions, measures);
    expectAllClose(matrix, byDifferences(linkage, state, drives, dimensions, measures), CLOSE);
    expectAllClose(gaps, new Float64Array(4), { atol: 0, why: "plane deviations close" });
    // ∂β/∂d from the derivative of the closed form.
    const h = 1e-5;
    const at = (d: number) => rockerAngle({ ...bar, ground: 4 + d }, 1.4, 1);
    expectClose(matrix[4], (at(h) - at(-h)) / (2 * h), {
      rtol: 1e-8,
      why: "differences of the closed form, step 1e-5",
    });
  });

  test("a deviation across the plane binds redundant hinges: the gap is told", () => {
    const bar = { ground: 4, crank: 1.2, coupler: 3.5, rocker: 2.4 };
    const linkage = fourBarLinkage(bar, 0.7, rockerAngle(bar, 0.7, 1));
    const drives = [{ joint: "A", value: 0.7 }];
    const dimensions: Dimension[] = [
      { name: "B across", parts: [{ joint: "B", what: "point on first", direction: [0, 0, 1] }] },
    ];
    const { gaps } = sensitivity(linkage, linkage.stated, drives, dimensions, []);
    expect(gaps[0]).toBeGreaterThan(0.1);
  });

  test("a linkage in space: sliders, axes and rods", () => {
    const linkage = createLinkage({
      fixed: "carrier",
      bodies: [{ name: "crank" }, { name: "block" }],
      joints: [
        {
          kind: "hinge",
          name: "A",
          first: "carrier",
          second: "crank",
          pointOnFirst: [0, 0, 0],
          axisOnFirst: [0.2, 0.1, 1],
        },
        {
          kind: "slider",
          name: "guide",
          first: "carrier",
          second: "block",
          pointOnFirst: [3, 0.5, 0.4],
          axisOnFirst: [1, 0.1, -0.2],
        },
        {
          kind: "rod",
          name: "rod",
          first: "crank",
          second: "block",
          pointOnFirst: [0.6, 0.9, 0.1],
          pointOnSecond: [3.1, 0.6, 0.5],
          length: 2.6,
        },
      ],
    });
    const drives = [{ joint: "A", value: 0.2 }];
    const { state, outcome } = assemble(linkage, drives);
    expect(outcome).toBe("assembled");
    const dimensions: Dimension[] = [
      { name: "rod", parts: [{ joint: "rod", what: "length" }] },
      { name: "axis tilt", parts: [{ joint: "A", what: "axes on first", direction: [1, 0.5, 0] }] },
      { name: "axis tilt on the crank", parts: [{ joint: "A", what: "axes on second", direction: [0, 1, 0.3] }] },
      { name: "guide tilt", parts: [{ joint: "guide", what: "axes on first", direction: [0, 1, 0.3] }] },
      { name: "guide point", parts: [{ joint: "guide", what: "point on second", direction: [0.1, 0.7, 0.3] }] },
      { name: "block side", parts: [{ joint: "guide", what: "axes on second", direction: [1, 0, 0] }] },
    ];
    const measures: Measure[] = [
      { kind: "coordinate", joint: "guide" },
      { kind: "position", point: { body: "block", at: [1, 2, 3] }, direction: [0, 0.6, 0.8] },
      { kind: "turn", body: "block", axis: [1, 0, 0] },
      { kind: "turn", body: "crank", axis: [0, 1, 0] },
    ];
    const { matrix, gaps } = sensitivity(linkage, state, drives, dimensions, measures);
    expectAllClose(matrix, byDifferences(linkage, state, drives, dimensions, measures), CLOSE);
    expectAllClose(gaps, new Float64Array(6), { atol: 0, why: "nothing binds" });
  });

  test.each([
    [{ name: "x", parts: [{ joint: "jack", what: "axes on first", direction: [1, 0, 0] }] }, "axes of jack"],
    [{ name: "x", parts: [{ joint: "A", what: "point on first" }] }, "direction of x"],
    [
      { name: "x", parts: [{ joint: "A", what: "point on first", direction: [1, Number.NaN, 0] }] },
      "direction of x is NaN",
    ],
    [{ name: "x", parts: [{ joint: "none", what: "length" }] }, "joint is none"],
  ] as [Dimension, string][])("refuses %o", (dimension, message) => {
    const linkage = leverLinkage([2, 0, 0], [0, 1, 0]);
    expect(() => sensitivity(linkage, linkage.stated, [], [dimension], [])).toThrow(message);
  });

  test("a slider-crank's stroke deviates by twice the crank radius' deviation between its dead points", () => {
    const linkage = sliderCrankLinkage(1, 2.6, 0, 0.4);
    const dimensions: Dimension[] = [
      {
        name: "radius",
        parts: [{ joint: "pin", what: "point on first", direction: [Math.cos(0.4), Math.sin(0.4), 0] }],
      },
    ];
    const travel = (angle: number) => {
      const drives = [{ joint: "A", value: angle }];
      const { state } = assemble(linkage, drives);
      return sensitivity(linkage, state, drives, dimensions, [{ kind: "coordinate", joint: "guide" }]).matrix[0];
    };
    expectClose(travel(0) - travel(Math.PI), 2, { atol: 1e-10, why: "closed form" });
  });
});
