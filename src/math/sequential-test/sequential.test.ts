import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../errors.ts";
import { followPlan, operatingCharacteristic, sequentialPlan } from "./index.ts";

const generated = JSON.parse(
  readFileSync(new URL("../../../reference/generated/claims-scipy/values.json", import.meta.url), "utf8"),
) as { readonly plan: readonly (readonly number[])[] };

const SMALL = { acceptable: 0.8, unacceptable: 0.4, refusingGood: 0.15, acceptingBad: 0.2, most: 11 };

describe("sequential plan", () => {
  test.each([0.2, 0.4, 0.65, 0.8, 0.97])("share %d: every series of eleven trials one by one", (share) => {
    const plan = sequentialPlan(SMALL);
    let [accept, refuse, expected] = [0, 0, 0];
    for (let code = 0; code < 2 ** plan.most; code++) {
      const series = Array.from({ length: plan.most }, (_, i) => ((code >> i) & 1) === 1);
      const chance = series.reduce((p, good) => p * (good ? share : 1 - share), 1);
      const { outcome, trials } = followPlan(plan, series);
      if (outcome === "accepted") accept += chance;
      if (outcome === "refused") refuse += chance;
      expected += chance * trials;
    }
    expectClose(accept + refuse, 1, { atol: 1e-12, why: "every series ends in a decision" });
    const found = operatingCharacteristic(plan, share);
    expectClose(found.accept, accept, { atol: 1e-12, why: "rounding of 2048 terms" });
    expectClose(found.expectedTrials, expected, { rtol: 1e-12, why: "rounding of 2048 terms" });
  });

  test("values from the likelihood ratio itself (generated/claims-scipy)", () => {
    for (const [p0, p1, alpha, beta, most, share, accept, trials] of generated.plan) {
      const aim = { acceptable: p0!, unacceptable: p1!, refusingGood: alpha!, acceptingBad: beta!, most: most! };
      const found = operatingCharacteristic(sequentialPlan(aim), share!);
      expectClose(found.accept, accept!, { rtol: 1e-11, atol: 1e-14, why: "rounding" }, `${p0}/${p1} at ${share}`);
      expectClose(found.expectedTrials, trials!, { rtol: 1e-11, why: "rounding" });
    }
  });

  test("far from the cut Wald's inequalities hold, and close to his risks", () => {
    const aim = { acceptable: 0.95, unacceptable: 0.8, refusingGood: 0.05, acceptingBad: 0.1, most: 3000 };
    const plan = sequentialPlan(aim);
    const alpha = 1 - operatingCharacteristic(plan, 0.95).accept;
    const beta = operatingCharacteristic(plan, 0.8).accept;
    expect(alpha).toBeLessThanOrEqual(0.05 / 0.9);
    expect(beta).toBeLessThanOrEqual(0.1 / 0.95);
    expect(alpha + beta).toBeLessThanOrEqual(0.15);
    expect(alpha).toBeGreaterThan(0.02);
    expect(operatingCharacteristic(plan, 0.95).reachesEnd).toBeLessThan(1e-9);
  });

  test("acceptance rises with the share; certain ends; no failures end it soonest", () => {
    const plan = sequentialPlan({ ...SMALL, most: 60 });
    const accepted = [0, 0.2, 0.4, 0.6, 0.8, 1].map((share) => operatingCharacteristic(plan, share).accept);
    expect([...accepted].sort((a, b) => a - b)).toEqual(accepted);
    expect([accepted[0], accepted.at(-1)]).toEqual([0, 1]);
    const first = followPlan(plan, new Array(60).fill(true));
    expect(first.outcome).toBe("accepted");
    const sure = operatingCharacteristic(plan, 1);
    expect([sure.expectedTrials, sure.trials90]).toEqual([first.trials, first.trials]);
  });

  test("an open series goes on; what no plan can be is refused", () => {
    expect(followPlan(sequentialPlan(SMALL), [true])).toEqual({ outcome: "go on", trials: 1, failures: 0 });
    expect(() => sequentialPlan({ ...SMALL, unacceptable: 0.8 })).toThrow(DomainError);
    expect(() => sequentialPlan({ ...SMALL, refusingGood: 0 })).toThrow("risks");
    expect(() => sequentialPlan({ ...SMALL, most: 30_000 })).toThrow("trials of a plan");
    expect(() => operatingCharacteristic(sequentialPlan(SMALL), 1.2)).toThrow("share");
  });
});
