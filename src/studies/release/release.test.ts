import { describe, expect, it } from "vitest";
import { loadDemo } from "../../../test/support/load-demo.ts";
import { recordReads } from "../../inputs/index.ts";
import { caseOf, casesOf, EMERGENCY, NORMAL } from "./cases.ts";
import { edge } from "./envelope.ts";
import { jettisonOf } from "./jettison.ts";
import { judgedRun } from "./run-case.ts";
import { bandTimes, batchConditions, ReleaseSampler, releaseSamples, sampleColumns } from "./samples.ts";
import { readRelease } from "./settings.ts";

const STILL = ["pitch=0 deg", "bank=0 deg", "timing=0 s", "friction=0 %", "sigmas={ light: 0 m/s }"].map(
  (each) => `studies.release.dispersion.${each}`,
);
const read = (set: string[] = []) => {
  const loaded = loadDemo("Rev B", set);
  return readRelease(() => recordReads(loaded))!;
};
const inputs = read();

describe("cases", () => {
  it("begin with the normal and the emergency release; a stuck pin stays shut, a late one opens late", () => {
    const all = casesOf(inputs.settings);
    expect(all.slice(0, 2).map(({ name }) => name)).toEqual([NORMAL, EMERGENCY]);
    const pins = (name: string) =>
      all.find((one) => one.name === name)!.steps.flatMap((step) => (step.kind === "open pin" ? [step] : []));
    expect(pins(NORMAL).map(({ pin, time }) => [pin, time])).toEqual([
      [0, 0.1],
      [1, 0.1],
    ]);
    expect(pins("right aft pin stuck").map(({ pin }) => pin)).toEqual([0]);
    expect(pins("right aft pin late").map(({ time }) => time)).toEqual([0.1, 0.5]);
  });

  it("an emergency does not wait for the pins", () => {
    const cut = caseOf(inputs.settings, EMERGENCY, { nose: "cut" });
    expect(cut.noseAt).toBe(0.15);
    expect(Math.max(...cut.steps.map(({ time }) => time))).toBe(0.15);
  });
});

describe("edges of what is clean", () => {
  it("lie where the outcome changes, to a 32nd of the step, and name what ends them", () => {
    const found = edge([10, 8, 6, 4], (x) => (x > 5.3 ? "clean" : "touches"));
    expect(found.because).toBe("touches");
    expect(found.limit! - 5.3).toBeGreaterThan(0);
    expect(found.limit! - 5.3).toBeLessThanOrEqual(2 / 32);
  });
  it("are the end of a range that is clean throughout, and nothing where its beginning is not", () => {
    expect(edge([1, 2], () => "clean")).toEqual({ limit: 2, wholeRange: true, because: null });
    expect(edge([1, 2], () => "hang-up")).toEqual({ limit: null, wholeRange: false, because: "hang-up" });
  });
});

describe("dispersed releases", () => {
  const [condition] = batchConditions(inputs);
  const size = sampleColumns(inputs).length;
  const rowOf = (sampler: ReleaseSampler, index: number): Float64Array => {
    const row = new Float64Array(size);
    sampler.run(index, row);
    return row;
  };

  it("give the same row in any order, another for another sample, and another for another seed", () => {
    const [a, b] = [new ReleaseSampler(inputs, condition, 0, 1), new ReleaseSampler(inputs, condition, 0, 1)];
    const first = rowOf(a, 0);
    const second = rowOf(a, 1);
    expect(rowOf(b, 1)).toEqual(second);
    expect(rowOf(b, 0)).toEqual(first);
    expect(first).not.toEqual(second);
    expect(rowOf(new ReleaseSampler(inputs, condition, 0, 2), 0)).not.toEqual(first);
  });

  it("are the normal release itself without scatter", () => {
    const still = read(STILL);
    const [only] = batchConditions(still);
    const row = rowOf(new ReleaseSampler(still, only, 0, 1), 3);
    const point = { mass: only.mass, boomAngle: still.settings.boomAngles[0].si };
    const own = judgedRun(still, caseOf(still.settings, NORMAL, {}), point)!;
    expect(row[2]).toBe(own.run.leftAt);
    expect(row[3]).toBe(own.run.exitSpeed);
    expect(row[5]).toBe(own.least!.distance);
  });

  it("open as a study of samples with columns that end in their unit", () => {
    const loaded = loadDemo("Rev B");
    const study = releaseSamples.open({ variant: "Rev B", reads: () => recordReads(loaded), seed: 7 })!;
    expect(study).toMatchObject({ key: "release", seed: 7, success: "clean_1", samples: 60 });
    expect(study.columns).toHaveLength(6 + bandTimes(inputs).length);
    const history = study.sampler(study.conditions[0].key).replay(0);
    expect(history.values.length % history.columns.length).toBe(0);
    expect(history.events[0]?.what).toBe("withdrawn");
  });
});

describe("what is jettisoned", () => {
  const falls = jettisonOf(inputs);
  it("goes with the wind, no farther than the wind itself", () => {
    for (const { still, inWind, footprint } of falls) {
      expect(inWind.along_m).toBeLessThan(still.along_m);
      expect(inWind.right_m).toBeGreaterThan(0);
      expect(inWind.right_m).toBeLessThan(10 * inWind.time_s);
      expect(footprint.halfRight_m).toBeGreaterThan(Math.abs(inWind.right_m));
      expect(Math.abs(footprint.right_m)).toBeLessThan(1e-6 * footprint.halfRight_m + 1e-6);
    }
  });
  it("a lighter thing with more drag lands nearer", () => {
    const at = (thing: string): number => falls.find((one) => one.thing === thing)!.still.along_m;
    expect(at("probe head")).toBeLessThan(at("aircraft without control"));
  });
});
