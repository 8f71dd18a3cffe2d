import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { loadDemo } from "../../../test/support/load-demo.ts";
import { RandomStream } from "../../math/random/index.ts";
import { operatingPoint, PointModel, readHoldInputs, worstDamping } from "../hold/index.ts";
import { patchedPair } from "./patched-pair.ts";
import { dampingSlopes } from "./slopes.ts";
import { sampledModel } from "./testing/context.ts";

const demo = loadDemo("Rev B");
const nominal = sampledModel(demo);
const { paths } = nominal.variables;

/** Worst ζ of both planes over the masses by the way that `hold` itself takes, from a pair that was loaded anew. */
function byLoading(set: string[]): number[] {
  const loaded = loadDemo("Rev B", set);
  const { inputs } = readHoldInputs(() => ({ pair: loaded.pair, paths: () => [] }));
  const [condition] = inputs.conditions;
  return (["longitudinal", "lateral"] as const).map((plane) =>
    Math.min(
      ...condition.masses.map(
        (mass) => worstDamping(new PointModel(inputs, operatingPoint(inputs, condition, mass)).modes(), plane, 20)!,
      ),
    ),
  );
}

describe("patchedPair", () => {
  it("copies what can change and shares the rest; the pair itself stays", () => {
    const patched = patchedPair(demo.pair);
    patched.set("mechanism.boom.bending", 7);
    expect(patched.pair.mechanism.boom.bending?.si).toBe(7);
    expect(demo.pair.mechanism.boom.bending?.si).toBe(90e3);
    expect(patched.pair.mechanism.jack).toEqual(demo.pair.mechanism.jack);
    expect(patched.uncertain.get("mechanism.boom.bending")?.si).toBe(90e3);
    expect(() => patched.set("mechanism.boom.length", 5)).toThrow("no uncertain value");
  });

  it("finds every value with an uncertainty that the pair lists", () => {
    const listed = [...demo.values].filter(
      ([, value]) => typeof value === "object" && "uncertainty" in value && value.uncertainty !== undefined,
    );
    expect([...patchedPair(demo.pair).uncertain.keys()].sort()).toEqual(listed.map(([path]) => path).sort());
  });
});

describe("SampledModel", () => {
  it("at score 0 is the pair as loaded", () => {
    expect(nominal.evaluate(new Float64Array(paths.length))).toBe("modes");
    byLoading([]).forEach((zeta, p) => {
      expectClose(nominal.zeta[p], zeta, { rtol: 1e-12, why: "the same arithmetic" });
    });
  });

  it.each([
    ["carried.airloads.roll.Clbeta", "-0.0297 1/rad", -1],
    ["mechanism.boom.bending", "104.4 kN/m", 2],
    ["mechanism.snubber.equivalent", "2.8 kN*s/m", -2],
    ["carried.massStates.full.mass", "2678 kg", 3],
    ["carried.airloads.pitch.Cmq", "-9.3", 1.5],
  ])("%s at %s is the pair with that value", (path, text, score) => {
    const z = new Float64Array(paths.length);
    z[paths.indexOf(path)] = score;
    nominal.evaluateScores(z);
    byLoading([`${path}=${text}`]).forEach((zeta, p) => {
      expectClose(nominal.zeta[p], zeta, { atol: 1e-9, why: "rounding of the written value" }, `plane ${p}`);
    });
  });

  it("gives the same numbers in any order of points, from memory or afresh", () => {
    const points = Array.from({ length: 12 }, (_, i) => {
      const stream = new RandomStream(5, i % 8);
      return Float64Array.from(paths, (path) => (i % 2 === 0 || path.includes("full") ? stream.normal() : 0));
    });
    const at = (model: typeof nominal, u: Float64Array) => {
      model.evaluate(u);
      return [...model.zeta, ...model.margin];
    };
    const afresh = points.map((u) => at(sampledModel(demo), u));
    for (let i = points.length - 1; i >= 0; i--) expect(at(nominal, points[i])).toEqual(afresh[i]);
    const before = nominal.computed;
    at(nominal, points[0]);
    expect(nominal.computed).toBe(before);
  });

  it("computes only the mass state that a value changes", () => {
    const z = new Float64Array(paths.length);
    nominal.evaluateScores(z);
    const computed = (path: string): number => {
      const before = nominal.computed;
      z[paths.indexOf(path)] = 0.123;
      nominal.evaluateScores(z);
      z[paths.indexOf(path)] = 0;
      return nominal.computed - before;
    };
    expect(computed("carried.massStates.empty.inertia.Iyy")).toBe(1);
    expect(computed("mechanism.boom.bending")).toBe(3);
  });

  it("says when values describe no body, and leaves no number behind", () => {
    const z = new Float64Array(paths.length);
    z[paths.indexOf("carried.massStates.full.inertia.Izz")] = 4;
    expect(nominal.evaluateScores(z)).toBe("impossible");
    expect([...nominal.zeta, ...nominal.margin].every(Number.isNaN)).toBe(true);
  });
});

describe("dampingSlopes", () => {
  it.each([
    [0, "longitudinal"],
    [1, "lateral"],
  ])("plane %d (%s): eigenvectors agree with differences of the damping ratio", (p) => {
    const z = new Float64Array(paths.length);
    nominal.evaluateScores(z);
    const mass = nominal.masses[nominal.worstMass[p]];
    const slopes = dampingSlopes(nominal, mass, nominal.zeta[p])!;
    const own = (step: number, j: number): number => {
      z[j] = step;
      nominal.evaluateScores(z);
      z[j] = 0;
      return nominal.zeta[p];
    };
    const compared = paths.flatMap((path, j) => {
      if (!nominal.variables.massesOf[j].has(mass)) {
        expect(slopes[j]).toBe(0);
        return [];
      }
      // small steps: the worst mass state must stay the worst
      const difference = (own(0.01, j) - own(-0.01, j)) / 0.02;
      expectClose(slopes[j], difference, { rtol: 2e-3, atol: 2e-6, why: "differences over 0.02 σ and 0.4 σ" }, path);
      return [slopes[j]];
    });
    expect(Math.max(...compared.map(Math.abs))).toBeGreaterThan(1e-3);
  });
});
