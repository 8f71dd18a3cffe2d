import { describe, expect, it } from "vitest";
import { recordReads } from "../../src/inputs/index.ts";
import { readResult, writeResult } from "../../src/outputs/result/index.ts";
import { fixtureDocument } from "../../src/outputs/testing/index.ts";
import { drawTable, hookonSamples, readHookonInputs, studyOf } from "../../src/studies/hookon/index.ts";
import { FEW_APPROACHES, hookonDemo, loadDemo } from "../support/load-demo.ts";

const result = hookonDemo("Rev B");
const share = (sigma: string): number => result.cases.find((each) => each.sigma === sigma)!.success.share_1;
const finding = (id: string) => result.findings.find((each) => each.id === id);

describe("hook-on of the demo, Rev B", () => {
  it("succeeds more often than not in light turbulence and less the rougher it is", () => {
    expect(share("light")).toBeGreaterThan(0.5);
    expect(share("moderate")).toBeLessThan(share("light"));
    expect(share("severe")).toBeLessThanOrEqual(share("moderate"));
    expect(share("severe")).toBeLessThan(0.25);
  });

  it("has a closure window about the planned closure, and the energies tell its lower end within 40 %", () => {
    const { simulated, agreement_1, planned_m_s } = result.window;
    expect(simulated.lower_m_s!).toBeLessThan(planned_m_s);
    expect(simulated.upper_m_s!).toBeGreaterThan(planned_m_s);
    // friction on the way and the inertia of the tip are not in the closed form
    expect(Math.abs(agreement_1.lower!)).toBeLessThan(0.4);
  });

  it("shares of every case add up to one, with intervals that hold them", () => {
    for (const { outcomes, samples } of result.cases) {
      expect(outcomes.reduce((sum, { count }) => sum + count, 0)).toBe(samples);
      for (const { share_1, exact_1 } of outcomes) {
        expect(exact_1.lower).toBeLessThanOrEqual(share_1);
        expect(exact_1.upper).toBeGreaterThanOrEqual(share_1);
      }
    }
  });

  it("judges success by the lower bound, closure by published practice, and rests on what it used", () => {
    const success = finding("hookon.success.precision-autopilot-light")!;
    const light = result.cases.find(({ sigma }) => sigma === "light")!;
    expect(success.value).toBe(light.success.exact_1.lower);
    expect(success.rests).toEqual(
      expect.arrayContaining([
        "mechanism.socket.gimbal.centring",
        "approach.controllers.precision autopilot.outer.path",
      ]),
    );
    expect(success.seed).toBe(result.seed);
    expect(finding("hookon.window.planned")!.criterion!.limit).toBeCloseTo(5 * (1852 / 3600), 9);
    expect(finding("hookon.window.planned")!.rests).not.toContain("mechanism.socket.gimbal.centring");
  });

  it("clears limits only where every disturbance has data: an empty table is never a silent zero", () => {
    expect(result.limits.some(({ id, status }) => id === "hookon.closure" && status === "analysed")).toBe(true);
    const bare = hookonDemo("Rev B", ["approach.disturbances.bowWave=~", "studies.hookon.samples=2"]);
    const open = bare.limits.filter(({ id }) => /^hookon\.(closure|sigma|attempts)/.test(id));
    expect(open.length).toBeGreaterThan(2);
    expect(open.every(({ status }) => status === "not cleared" || status === "prohibited")).toBe(true);
    expect(open.some(({ status }) => status === "not cleared")).toBe(true);
    const missing = bare.findings.find(({ id }) => id === "hookon.disturbances.bow-wave-of-the-nose");
    expect(missing).toMatchObject({ verdict: "not analysed", value: null });
    expect(bare.notAnalysed.join(" ")).toContain("bow wave");
  });

  it("reads back from its file", () => {
    const text = writeResult({ ...fixtureDocument(), studies: { hookon: [result] }, findings: result.findings });
    expect(writeResult(readResult(text, "r.json"))).toBe(text);
  });
});

describe("samples of the demo", () => {
  const loaded = loadDemo("Rev B", FEW_APPROACHES);
  const reads = () => recordReads(loaded);

  it("do not depend on order or on what was drawn before", () => {
    const study = studyOf(readHookonInputs(reads));
    const { values } = drawTable(study, "precision-autopilot-light", 3);
    const again = hookonSamples.open({ variant: "Rev B", reads })!;
    const sampler = again.sampler("precision-autopilot-light");
    const row = new Float64Array(again.columns.length);
    for (const index of [2, 0, 1]) {
      sampler.run(index, row);
      expect(Array.from(row)).toEqual(Array.from(values.subarray(index * row.length, (index + 1) * row.length)));
    }
  });

  it("change with the seed", () => {
    const rowOf = (seed: number): number[] => {
      const study = hookonSamples.open({ variant: "Rev B", reads, seed })!;
      return Array.from(drawTable(study, "precision-autopilot-light", 1).values);
    };
    expect(rowOf(1)).not.toEqual(rowOf(2));
  });

  it("end in an outcome where the controller is unstable, never in an exception", () => {
    const wild = loadDemo("Rev B", [
      ...FEW_APPROACHES,
      "approach.controllers.precision autopilot.inner={ pitch: 40, pitchIntegral: 0 1/s, pitchRate: 0 s, bank: 60, rollRate: 0 s, yawRate: 0 s }",
    ]);
    const study = studyOf(readHookonInputs(() => recordReads(wild)));
    const { values, columns } = drawTable(study, "precision-autopilot-light", 4);
    const locked = columns.findIndex(({ name }) => name === "locked");
    const [outcome] = columns;
    for (let i = 0; i < 4; i++) {
      expect(outcome.words![values[i * columns.length]]).toBeDefined();
      expect(values[i * columns.length + locked]).toBe(0);
    }
  });
});
