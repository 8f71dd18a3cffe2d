import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { roughAirDemo } from "../../../test/support/rough-air-demo.ts";
import { loadPair, type ReadFile, recordReads } from "../../inputs/index.ts";
import { severityIntensities } from "../../physics/turbulence/index.ts";
import { type HoldPartOutcome, readHoldInputs } from "../hold/index.ts";
import { type RoughAirPoint, type RoughAirResult, runRoughAir } from "./index.ts";

const AIR = "studies.hold.roughAir";
const ONE_MASS = "conditions.hook.masses=[full]";

const pointOf = (outcome: HoldPartOutcome<RoughAirResult> | null): RoughAirPoint => outcome!.result.points[0]!;
const quantity = (point: RoughAirPoint, key: string) => point.quantities.find((one) => one.key === key)!;
const short = [`${AIR}.simulation.seeds=1`, `${AIR}.simulation.time=20 s`];

describe("rough air of Rev B", () => {
  let outcome: HoldPartOutcome<RoughAirResult>;
  let point: RoughAirPoint;
  beforeAll(() => {
    outcome = roughAirDemo("Rev B")!;
    point = pointOf(outcome);
  }, 120_000);

  it("answers with a σ, the quantity that gives way first and a severity of the chart at 3000 m", () => {
    const { points, conditions } = outcome.result;
    expect(points.map(({ outcome: state }) => state)).toEqual(["stationary", "stationary", "stationary"]);
    const { light, moderate, severe } = severityIntensities(3000);
    expect(conditions[0]!.severities).toMatchObject({ light_m_s: light, moderate_m_s: moderate, severe_m_s: severe });
    const { sigma_m_s, limiting, severity, exceedance_1 } = point.answer!;
    expect(limiting).toBe("pitch");
    expect(sigma_m_s).toBeGreaterThan(light);
    expect(sigma_m_s).toBeLessThan(moderate);
    expect(severity).toBe("light");
    expect(exceedance_1).toBeGreaterThan(1e-3);
    expect(exceedance_1).toBeLessThan(1e-2);
    // all limits together are at least as strict as the strictest alone
    const alone = Math.min(...point.quantities.map(({ largestSigma_m_s }) => largestSigma_m_s ?? Infinity));
    expect(sigma_m_s).toBeLessThanOrEqual(alone * (1 + 1e-9));
    expect(sigma_m_s).toBeGreaterThan(0.9 * alone);
  });

  it("at the largest σ the probability of the curves is the one that was asked for", () => {
    const { sigma_m_s: x, any_1: y } = point.probability;
    const i = x.findIndex((sigma) => sigma > point.answer!.sigma_m_s);
    expect(y[i - 1]).toBeLessThan(0.01);
    expect(y[i]).toBeGreaterThan(0.01);
    y.forEach((value, k) => {
      expect(value).toBeGreaterThanOrEqual(k === 0 ? 0 : y[k - 1]!);
    });
    const light = point.levels.find(({ name, origin }) => name === "light" && origin === "project")!;
    expect(light.sigma_m_s).toBe(1.5);
    expect(light.probability_1).toBeLessThan(0.01);
    const severe = point.levels.find(({ name, origin }) => name === "severe" && origin === "chart")!;
    expect(severe.probability_1).toBeGreaterThan(0.99);
  });

  it("the stall is a limit of its own: CLmax 1.35 from CL = W/qS at trim, slope 5", () => {
    const { limit, mean } = quantity(point, "incidence");
    const room = ((limit!.upper! - mean) * Math.PI) / 180;
    // weight share 0: the air carries the whole weight
    const q = 0.5 * 1.225 * 105 ** 2;
    const lift = (2600 * 9.80665) / (q * 8.2);
    expectClose(room, (1.35 - lift) / 5, { rtol: 1e-3, why: "slope of the lift, density ratio" });
    expect(limit!.lower).toBeNull();
  });

  it("the spectrum of the pitch has the area of its spread", () => {
    const { frequency_Hz: f, pitch_deg2_Hz: s } = point.spectra;
    let area = 0.01 * s[0]!;
    for (let i = 1; i < f.length; i++) area += 0.5 * (f[i]! - f[i - 1]!) * (s[i]! + s[i - 1]!);
    expectClose(Math.sqrt(area), quantity(point, "pitch").deviationPerSigma, { rtol: 0.02, why: "trapezoids, ends" });
  });

  it("simulation of the nonlinear pair agrees within four sampling errors, the two integrals to their tolerance", () => {
    const check = point.check!;
    expect(check.outcome).toBe("completed");
    expect(check.integralDifference_1).toBe(1e-7);
    for (const { computed, simulated, samplingError_1, key } of check.rows) {
      expectClose(simulated / computed, 1, { atol: 4 * samplingError_1, why: "four standard deviations" }, key);
      expect(samplingError_1).toBeGreaterThan(0.005);
      expect(samplingError_1).toBeLessThan(0.2);
    }
  });

  it("the worst gust is at least that of every gradient of the scan", () => {
    const { rows, gradients_m, reference_m_s_EAS } = point.gusts!;
    expect(reference_m_s_EAS).toBe(6);
    expect(gradients_m.at(-1)).toBeCloseTo(106.68, 6);
    for (const { distance, byGradient, key, direction } of rows) {
      expect(Math.max(...byGradient)).toBeLessThanOrEqual(distance * (1 + 1e-12));
      const lateral = ["sideLoad", "tipSide", "bank", "sideLoadFactor"].includes(key);
      expect(direction).toBe(lateral ? "lateral" : "vertical");
    }
  });

  it("findings judge every limit against the design turbulence and rest on their own limit alone", () => {
    const ids = outcome.findings.map(({ id }) => id);
    expect(ids[0]).toBe("hold.hook.rough-air");
    expect(new Set(ids).size).toBe(ids.length);
    expect(outcome.findings[0]).toMatchObject({ verdict: "met", unit: "m/s", seed: 7 });
    const pitch = outcome.findings.find(({ id }) => id.endsWith(".pitch"))!;
    expect(pitch.rests).toContain(`${AIR}.limits.pitch`);
    expect(pitch.rests).not.toContain(`${AIR}.limits.bank`);
    expect(outcome.findings[0]!.rests).toContain(`${AIR}.limits.bank`);
    expect(outcome.findings[0]!.note).toContain("Limit load, not ultimate");
    expect(outcome.limits).toHaveLength(1);
    expect(outcome.limits[0]).toMatchObject({ status: "analysed", lower: 0, because: ["hold.hook.rough-air"] });
    expect(outcome.limits[0]!.upper).toBe(outcome.findings[0]!.value);
    expect(outcome.answers).toEqual(["roughAir"]);
  });

  it("is the same a second time, bit for bit", () => {
    const again = roughAirDemo("Rev B", [ONE_MASS])!;
    expect(again.result.points[0]).toEqual(point);
  }, 60_000);
});

describe("other turbulence and other limits", () => {
  const one = (set: string[] = []) => pointOf(roughAirDemo("Rev B", [ONE_MASS, ...short, ...set]));

  it("the two documents give the same answer, von Kármán another of the same size", () => {
    const base = one().answer!.sigma_m_s;
    expectClose(one([`${AIR}.document=MIL-HDBK-1797`]).answer!.sigma_m_s, base, { rtol: 1e-9, why: "one model" });
    const karman = one([`${AIR}.spectrum=von Karman`]).answer!.sigma_m_s;
    expect(Math.abs(karman / base - 1)).toBeGreaterThan(1e-3);
    expect(Math.abs(karman / base - 1)).toBeLessThan(0.15);
  }, 60_000);

  it("a longer time hooked and a tighter limit leave less; another limit can give way first", () => {
    const base = one().answer!.sigma_m_s;
    expect(one([`${AIR}.timeHooked=2 h`]).answer!.sigma_m_s).toBeLessThan(base);
    const stroke = one([`${AIR}.limits.jackTravel=5 mm`]);
    expect(stroke.answer!.limiting).toBe("jackTravel");
    expect(stroke.answer!.sigma_m_s).toBeLessThan(base);
    expect(stroke.answer!.severity).toBe("below light");
  }, 60_000);

  it("a limit that trim exceeds already leaves no σ, and says so", () => {
    const outcome = roughAirDemo("Rev B", [ONE_MASS, ...short, `${AIR}.limits.latchLoad=2 kN`])!;
    expect(pointOf(outcome).answer).toMatchObject({ sigma_m_s: 0, limiting: "towLoad" });
    expect(outcome.findings[0]).toMatchObject({ value: 0, verdict: "not met" });
    expect(outcome.findings[0]!.note).toContain("outside its limit at trim");
  }, 60_000);

  it("near the ground names come from the wind at 20 ft; the chart says nothing", () => {
    const point = one([`${AIR}.heightAboveGround=200 m`]);
    const light = point.levels.find(({ name, origin }) => name === "light" && origin === "chart")!;
    expectClose(light.sigma_m_s, 0.1 * 15 * (1852 / 3600), { rtol: 1e-12, why: "σ = 0.1·W20" });
    expect(point.answer!.exceedance_1).toBeNull();
  }, 60_000);
});

describe("a pair without settings, and one that is not stable", () => {
  it("without studies.hold.roughAir the part does not run", () => {
    const folder = fileURLToPath(new URL("../../../test/golden/malformed/base/", import.meta.url));
    const read: ReadFile = (path) => ({ ok: true, bytes: readFileSync(join(folder, path)) });
    const loaded = loadPair("pair.yaml", read, {});
    const reads = () => recordReads(loaded);
    const findings = { study: "hold", version: "test", seed: 1, hash: () => "" };
    const context = { ...readHoldInputs(reads), variant: "base", reads, seed: 1, findings, step: () => {} };
    expect(runRoughAir({ ...context, base: undefined as never })).toBeNull();
  });

  it("Rev A grows without rough air: an outcome, no number", () => {
    const outcome = roughAirDemo("Rev A", [ONE_MASS])!;
    expect(pointOf(outcome)).toMatchObject({ outcome: "grows without rough air", answer: null, quantities: [] });
    expect(pointOf(outcome).timeToDouble_s).toBeGreaterThan(1);
    expect(outcome.findings).toHaveLength(1);
    expect(outcome.findings[0]).toMatchObject({ value: null, verdict: "not met" });
    expect(outcome.findings[0]!.note).toContain("grows without rough air");
    expect(outcome.limits[0]).toMatchObject({ status: "prohibited", upper: null });
  }, 60_000);
});
