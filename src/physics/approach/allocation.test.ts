import { expect, test } from "vitest";
import { emptyTruth } from "../../../test/support/approach-plant.ts";
import { approachSettings, INNER, OUTER } from "../../../test/support/approach-settings.ts";
import { type ApproachSettings, approachGuide, emptyCommands } from "./index.ts";

/** Smallest growth of the heap over several batches: collections and compilation can only enlarge or shrink single ones. */
function heapGrowth(work: () => void, calls: number): number {
  const growths: number[] = [];
  for (let batch = 0; batch < 7; batch++) {
    const before = process.memoryUsage().heapUsed;
    for (let call = 0; call < calls; call++) work();
    growths.push(Math.abs(process.memoryUsage().heapUsed - before));
  }
  return Math.min(...growths);
}

test("a step of the law allocates nothing once compiled, autopilot or pilot", () => {
  const trim = { alpha: 0.07, liftAlpha: 0.11, elevator: 0, aileron: 0, rudder: 0, thrust: 2000, mass: 2600 };
  const plain = approachSettings({ ...trim, trueAirspeed: 110 });
  const noisy = { placeNoise: 0.02, velocityNoise: 0.03, attitudeNoise: 1e-3, rateNoise: 2e-3, latency: 0.1 };
  const dropouts = { meanBetween: 5, meanLength: 0.5 };
  const settings: ApproachSettings = { ...plain, navigation: { ...plain.navigation, ...noisy, dropouts } };
  const axis = { gain: 1, lead: 0.5, lag: 1, neuromuscularLag: 0.1 };
  const thresholds = { placeThreshold: 0.05, speedThreshold: 0.03 };
  const hands = { pitch: axis, bank: axis, delay: 0.3, remnant: 0.005, ...thresholds };
  for (const controller of [settings.controller, { kind: "pilot", outer: OUTER, inner: INNER, hands } as const]) {
    const guide = approachGuide({ ...settings, controller });
    guide.restart(1, 1);
    const truth = emptyTruth();
    truth.p_RestPh_H.set([-6, 0, 1]);
    truth.p_MoPh_H.set([-6, 0, 1]);
    const out = emptyCommands();
    const work = () => {
      truth.time += guide.tick;
      guide.step(truth, out);
    };
    for (let call = 0; call < 6000; call++) work();
    // one array of six numbers a call would be above 400 kB
    expect(heapGrowth(work, 4000)).toBeLessThan(100_000);
  }
  const kept = new Float64Array(1);
  const control = () => {
    kept[0] += new Float64Array(6)[0];
  };
  expect(heapGrowth(control, 4000)).toBeGreaterThan(100_000);
});
