import { describe, expect, it } from "vitest";
import type { HoldPartContext } from "../hold/index.ts";
import { failedFindings } from "./state-findings.ts";
import type { FailedState, SnubberResult } from "./types.ts";

const context = {
  inputs: { criteria: { timeToDouble: { value: 20, source: "project criterion" } } },
} as unknown as HoldPartContext;
const state = (mass: string, outcome: FailedState["outcome"]): FailedState => ({
  ...{ condition: "hook", mass, state: "no fluid", outcome, weightShare_1: 0, accumulatorStiffness_N_m: 0 },
  ...{ dampingRatio: 0.1, frequency_Hz: 0.8, timeToDouble_s: null },
});
const found = (...failed: FailedState[]) =>
  failedFindings(context, { failed } as unknown as SnubberResult, "hook", ["a"])[0];

describe("a failed snubber", () => {
  it("is not met where one of the masses finds no balance, and says which", () => {
    expect(found(state("full", "analysed")).verdict).toBe("met");
    const mixed = found(state("full", "analysed"), state("empty", "no balance"));
    expect(mixed.verdict).toBe("not met");
    expect(mixed.note).toContain("empty: no balance");
    expect(found(state("empty", "no balance")).verdict).toBe("not met");
  });
});
