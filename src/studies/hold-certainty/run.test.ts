import { beforeAll, describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { loadDemo } from "../../../test/support/load-demo.ts";
import { InputError } from "../../math/errors.ts";
import type { HoldPartOutcome } from "../hold/index.ts";
import { normalPoints, USE } from "./points.ts";
import { runCertainty } from "./run.ts";
import { partContext, sampledModel } from "./testing/context.ts";
import type { CertaintyResult } from "./types.ts";

const FEW = "studies.hold.certainty.samples=256";
const run = (set: string[] = [], seed = 1) => runCertainty(partContext(loadDemo("Rev B", [FEW, ...set]), seed));

describe("runCertainty on the demo", () => {
  let outcome: HoldPartOutcome<CertaintyResult>;
  beforeAll(() => {
    outcome = run()!;
  }, 120_000);
  const condition = () => outcome.result.conditions[0];
  const plane = (name: string) => condition().planes.find((one) => one.plane === name)!;

  it("samples every uncertain value, answers its question and says what it assumes", () => {
    const uncertain = [...loadDemo("Rev B").values.values()].filter(
      (value) => typeof value === "object" && "uncertainty" in value && value.uncertainty !== undefined,
    );
    expect(condition().values.length + condition().notUsed.length).toBe(uncertain.length);
    expect(outcome.answers).toEqual(["certainty"]);
    expect(outcome.assumptions.some((line) => line.includes("correlations that the pair declares"))).toBe(true);
    expect(condition().correlations).toBe(3);
    const ids = outcome.findings.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const what of ["failing", "lower-bound", "worst-case", "distance", "driver", "test"]) {
      expect(ids).toContain(`hold.hook.lateral.certainty.${what}`);
    }
    expect(outcome.findings.every(({ rests }) => rests.includes("correlations.0.coefficient"))).toBe(true);
    expect(outcome.findings.every(({ rests }) => rests.includes("studies.hold.certainty.samples"))).toBe(true);
    expect(outcome.findings.every(({ seed }) => seed === 1)).toBe(true);
  });

  it("the distance to the limit and the count of samples tell the same probability where the model is nearly linear", () => {
    const { failing, distance } = plane("lateral");
    const why = "interval of 256 samples, and the curvature of the limit";
    expectClose(distance.probability_1, failing.probability_1, { atol: 0.06, why });
    expect(distance.outcome).toBe("converged");
  });

  it("the nearest failure is on the limit", () => {
    const model = sampledModel(loadDemo("Rev B"));
    for (const [p, name] of ["longitudinal", "lateral"].entries()) {
      const z = new Float64Array(model.variables.paths.length);
      for (const { path, score_1 } of plane(name).distance.values) z[model.variables.paths.indexOf(path)] = score_1;
      model.evaluateScores(z);
      expectClose(model.margin[p], 0, { atol: 2e-3, why: "scores below 0.05 σ are not listed" }, name);
    }
  });

  it("no sample inside the bounds is worse than the worst case", () => {
    const model = sampledModel(loadDemo("Rev B"));
    const n = model.variables.paths.length;
    const points = normalPoints("Sobol", n, 300, 77, USE.samples);
    const u = new Float64Array(n);
    for (let i = 0; i < 300; i++) {
      points.point(i, u);
      if (u.some((value) => Math.abs(value) > 3) || model.evaluateScores(u) !== "modes") continue;
      expect(model.zeta[0]).toBeGreaterThan(plane("longitudinal").worstCase!.dampingRatio_1);
      expect(model.zeta[1]).toBeGreaterThan(plane("lateral").worstCase!.dampingRatio_1);
    }
  });

  it("variance shares, slopes and spread of the samples agree where one value rules", () => {
    const { drivers, standardDeviation_1, linearDeviation_1 } = plane("lateral");
    const why = "256 samples of a nearly linear motion";
    expectClose(linearDeviation_1!, standardDeviation_1, { rtol: 0.15, why });
    const totals = drivers.reduce((sum, driver) => sum + driver.total_1, 0);
    expectClose(totals, 1, { atol: 0.4, why: "64 pairs of points" });
    for (const driver of drivers) {
      expect(Math.abs(driver.total_1 - driver.linear_1)).toBeLessThan(4 * driver.totalError_1 + 0.03);
    }
  });

  it("a test of what rules buys what rules; a test of nothing that matters buys nothing", () => {
    const { tests, drivers } = plane("lateral");
    const gain = (name: string) => tests.find(({ test }) => test === name)!.varianceBought_1;
    const share = drivers.find(({ paths }) => paths[0] === "carried.airloads.roll.Clbeta")!.linear_1;
    // accuracy of 10 % against 35 %: (0.10² leaves 0.0755 of the variance)
    const left = 0.1 ** 2 / (0.1 ** 2 + 0.35 ** 2);
    expectClose(gain("wind tunnel sideslip"), share * (1 - left), { atol: 0.05, why: "linear model" });
    expectClose(gain("boom pull"), 0, { atol: 0.01, why: "the lateral motion does not feel the bending" });
    expect([...tests].sort((a, b) => b.varianceBought_1 - a.varianceBought_1)).toEqual(tests);
  });
});

describe("runCertainty", () => {
  it("is the same for the same seed; another seed or a Latin hypercube tell nearly the same", () => {
    const short = ["studies.hold.certainty.samples=128"];
    const one = run(short)!;
    expect(run(short)).toEqual(one);
    const others = [run(short, 2)!, run([...short, "studies.hold.certainty.method=Latin hypercube"])!];
    expect(others[1].result.conditions[0].method).toBe("Latin hypercube");
    for (const other of others) {
      one.result.conditions[0].planes.forEach((plane, p) => {
        const { mean_1, standardDeviation_1 } = other.result.conditions[0].planes[p];
        expect(mean_1).not.toBe(plane.mean_1);
        expectClose(mean_1, plane.mean_1, { atol: 0.3 * standardDeviation_1, why: "128 samples each" });
        expectClose(standardDeviation_1, plane.standardDeviation_1, { rtol: 0.3, why: "128 samples each" });
      });
    }
  }, 240_000);

  it("does nothing for a pair without its section", () => {
    const loaded = loadDemo("Rev B");
    const { certainty: _, ...hold } = loaded.pair.studies!.hold!;
    const bare = { ...loaded, pair: { ...loaded.pair, studies: { ...loaded.pair.studies, hold } } };
    expect(runCertainty(partContext(bare as typeof loaded))).toBeNull();
  });

  it("says that there is nothing to sample when no value carries an uncertainty", () => {
    const loaded = loadDemo("Rev B");
    const strip = (part: unknown): unknown => {
      if (typeof part !== "object" || part === null || ArrayBuffer.isView(part)) return part;
      if (Array.isArray(part)) return part.map(strip);
      const entries = Object.entries(part).filter(([key]) => key !== "uncertainty");
      return Object.fromEntries(entries.map(([key, value]) => [key, strip(value)]));
    };
    const exact = { ...loaded, pair: strip(loaded.pair) as typeof loaded.pair };
    expect(() => runCertainty(partContext(exact))).toThrow(InputError);
    expect(() => runCertainty(partContext(exact))).toThrow(/hook rest on carries an uncertainty/);
  });
});
