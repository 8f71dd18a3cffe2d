import { expect, test } from "vitest";
import { drydenFilter, GustSampler, gustHistory, turbulenceScales } from "./index.ts";

test("draws the history step by step, the same bits, from any sample to any other", () => {
  const scales = turbulenceScales("MIL-HDBK-1797", "Dryden", 3000);
  const filter = drydenFilter({ scales, sigma: 1.5, speed: 110, span: 7.4 }, 1.2);
  const sampler = new GustSampler(filter, 0.02);
  const row = new Float64Array(6);
  for (const index of [3, 0, 3]) {
    const { values } = gustHistory(filter, 0.02, 40, 7, index);
    sampler.restart(7, index);
    for (let k = 0; k < 40; k++) {
      sampler.step(row);
      expect([...row]).toEqual([...values.subarray(6 * k, 6 * k + 6)]);
    }
  }
});
