/** The booms of the demo beside each other, at the operating points alone: trends of the trade (common practice, no source). */
import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { loadDemo } from "../../../test/support/load-demo.ts";
import { recordReads } from "../../inputs/index.ts";
import type { InputError } from "../../math/errors.ts";
import { operatingPoint } from "./operating.ts";
import { holdPoint } from "./points.ts";
import { readHoldInputs } from "./read-pair.ts";
import { PointModel } from "./stability.ts";
import type { HoldPoint } from "./types.ts";

function inputsOf(variant: string, set: string[] = []) {
  const loaded = loadDemo(variant, set);
  return readHoldInputs(() => recordReads(loaded)).inputs;
}
function pointsOf(variant: string, set: string[] = []): HoldPoint[] {
  const inputs = inputsOf(variant, set);
  return inputs.conditions.flatMap((condition) =>
    condition.masses.map((mass) => holdPoint(inputs, operatingPoint(inputs, condition, mass), mass)),
  );
}
const rigidBody = (points: readonly HoldPoint[]) =>
  points.flatMap(({ modes }) => modes).filter((mode) => mode.class !== "structural" && mode.imag_rad_s > 0);
const worst = (variant: string, set: string[] = []): number =>
  Math.min(
    ...rigidBody(pointsOf(variant, set))
      .filter(({ plane }) => plane === "longitudinal")
      .map(({ dampingRatio }) => dampingRatio),
  );

describe("booms of the demo", () => {
  it("are not cured by a modest shortening, and are by rigidity up and down", () => {
    const [base, short, long] = [worst("Rev A sections"), worst("Short boom"), worst("Long boom")];
    expect(base).toBeLessThan(0);
    expect(short).toBeGreaterThan(base);
    expect(short).toBeLessThan(0);
    expect(long).toBeLessThan(0);
    expect(worst("Rigid boom")).toBeGreaterThan(0.03);
  });

  it("grow faster without a snubber and slower with more", () => {
    expect(worst("Unsnubbed")).toBeLessThan(worst("Rev A"));
    expect(worst("Snubbed")).toBeGreaterThan(worst("Rev A"));
  });

  it("come out alike from sections and from measured stiffness, near 57 and 101 kN/m with the lug on its arm", () => {
    const [sections, measured] = [pointsOf("Rev A sections"), pointsOf("Rev A")];
    expectClose(sections[0].bendingStiffness_N_m, 60e3, { rtol: 0.06, why: "two tubes 127 × 6 mm, lug off the axis" });
    const stout = pointsOf("Rev A stout tubes")[0].bendingStiffness_N_m;
    expectClose(stout, 101e3, { rtol: 0.06, why: "two tubes 152 × 6 mm" });
    const zetas = [sections, measured].map((points) => rigidBody(points).map(({ dampingRatio }) => dampingRatio));
    expect(Math.abs(Math.min(...zetas[0]) - Math.min(...zetas[1]))).toBeLessThan(0.005);
  });
});

describe("bending motions of the boom among the modes", () => {
  it("are structural, by name, with shares that add up, in both planes", () => {
    const [point] = pointsOf("Rev A sections");
    const bends = point.modes.filter(({ name }) => name.startsWith("boom bending"));
    expect(new Set(bends.map(({ plane }) => plane))).toEqual(new Set(["longitudinal", "lateral"]));
    for (const { class: kind, energy } of bends) {
      expect(kind).toBe("structural");
      expect(energy["boom bending"]).toBeGreaterThan(0.6);
    }
    for (const { energy } of point.modes) {
      expectClose(
        Object.values(energy).reduce((a, b) => a + b, 0),
        1,
        { rtol: 1e-9, why: "shares" },
      );
    }
    expect(point.modes.filter(({ name }) => name === "boom bending 1")).toHaveLength(1);
  });

  it("leave the swing of the pair where more of them put it", () => {
    const settled = worst("Rev A sections", ["mechanism.boom.structure.modes=6"]);
    const errors = [0, 1, 2].map((modes) =>
      Math.abs(worst("Rev A sections", [`mechanism.boom.structure.modes=${modes}`]) - settled),
    );
    expect(errors[2]).toBeLessThan(1e-5);
    expect(errors[0]).toBeGreaterThan(errors[2]);
  });

  it("are as many states as asked for, and with none the pair has the names that it had", () => {
    const names = (modes: number): string[] => {
      const inputs = inputsOf("Rev A sections", [`mechanism.boom.structure.modes=${modes}`]);
      const at = operatingPoint(inputs, inputs.conditions[0], "full");
      const { matrix, size, names: found } = new PointModel(inputs, at).matrix();
      expect(matrix.length).toBe(size * size);
      expect(found).toHaveLength(size);
      return found;
    };
    expect(names(0).slice(-1)).toEqual(["snubber travel"]);
    expect(names(1).slice(12)).toEqual([
      ...["snubber travel", "snubber travel rate", "boom swing 1", "boom lateral 1"],
      ...["boom swing 1 rate", "boom lateral 1 rate"],
    ]);
    expect(names(3)).toHaveLength(12 + 2 + 12);
  });

  it.each([
    { what: "half a motion", set: ["mechanism.boom.structure.modes=1.5"], says: "whole number" },
    { what: "more than the elements resolve", set: ["mechanism.boom.structure.modes=7"], says: "from 0 to 6" },
    {
      what: "beside a measured stiffness",
      set: ["mechanism.boom.structure.modes=2", "mechanism.boom.bending=60 kN/m"],
      says: "bending",
    },
  ])("refuse $what", ({ set, says }) => {
    let message = "";
    try {
      loadDemo("Rev A sections", set);
    } catch (error) {
      message = JSON.stringify((error as InputError).issues);
    }
    expect(message).toContain("mechanism.boom.structure.modes");
    expect(message).toContain(says);
  });

  it("are none by default where one value of the tip is measured", () => {
    expect(inputsOf("Rev A sections", ["mechanism.boom.lateral=0.6 MN/m"]).boom.tip.motions).toBe(0);
    expect(inputsOf("Rev A sections").boom.tip.motions).toBe(2);
    expect(inputsOf("Rev A").boom.tip.motions).toBe(0);
  });
});
