import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { drydenFilter, gustAt, gustHistory, turbulenceScales } from "./index.ts";

const flight = { scales: turbulenceScales("MIL-F-8785C", "Dryden", 3000), sigma: 1.3, speed: 122, span: 7.4 };

describe("seeded histories of gusts", () => {
  it("have the variances of the filter, from the first row on, within the sampling error", () => {
    const filter = drydenFilter(flight, 1.2);
    const first = new Float64Array(6);
    const samples = 400;
    for (let index = 0; index < samples; index++) {
      const { values } = gustHistory(filter, 0.05, 2, 5, index);
      for (let i = 0; i < 6; i++) first[i]! += values[i]! ** 2 / samples;
    }
    const { values, count } = gustHistory(filter, 0.05, 60_000, 5, 999);
    const along = new Float64Array(6);
    for (let k = 0; k < count; k++) for (let i = 0; i < 6; i++) along[i]! += values[6 * k + i]! ** 2 / count;
    for (let i = 0; i < 6; i++) {
      // 400 samples: √(2/400) = 7 %; 3000 s of turbulence with a scale of 4 s: about 5 %
      expectClose(first[i]!, along[i]!, { rtol: 0.3, why: "four standard deviations" }, `component ${i}`);
    }
    expectClose(along[2]!, 1.3 ** 2, { rtol: 0.2, why: "four standard deviations" });
  });

  it("one step of h is two steps of h/2: covariance after a time does not depend on the step", () => {
    const filter = drydenFilter(flight);
    const lagged = (step: number, rows: number): number => {
      let sum = 0;
      const samples = 3000;
      for (let index = 0; index < samples; index++) {
        const { values } = gustHistory(filter, step, rows + 1, 8, index);
        sum += (values[2]! * values[6 * rows + 2]!) / samples;
      }
      return sum / 1.3 ** 2;
    };
    // covariance of w of the Dryden form: (1 − t/2T)·e^(−t/T)
    const T = (1750 * 0.3048) / 122;
    const exact = (1 - 2 / (2 * T)) * Math.exp(-2 / T);
    for (const [step, rows] of [
      [2, 1],
      [0.25, 8],
    ]) {
      expectClose(lagged(step!, rows!), exact, { atol: 4 * Math.sqrt(2 / 3000), why: "four standard deviations" });
    }
  });

  it("repeat by seed and index, differ otherwise, and are straight between the rows", () => {
    const filter = drydenFilter(flight, 1.2);
    const one = gustHistory(filter, 0.1, 50, 3, 7);
    expect(gustHistory(filter, 0.1, 50, 3, 7).values).toEqual(one.values);
    expect(gustHistory(filter, 0.1, 50, 3, 8).values).not.toEqual(one.values);
    const out = new Float64Array(6);
    gustAt(one, 1.25, out);
    expectClose(out[2]!, 0.5 * (one.values[6 * 12 + 2]! + one.values[6 * 13 + 2]!), { rtol: 1e-9, why: "middle" });
    gustAt(one, 1e6, out);
    expect(out[0]).toBe(one.values[6 * 49]);
  });
});
