import { beforeAll, describe, expect, it } from "vitest";
import { hashInputs, recordReads } from "../../src/inputs/index.ts";
import { type BalanceResult, runBalance } from "../../src/studies/balance/index.ts";
import { expectClose } from "../support/close.ts";
import { loadDemo } from "../support/load-demo.ts";

function balanceDemo(variant?: string, set: string[] = []): BalanceResult {
  const loaded = loadDemo(variant, set);
  return runBalance({
    variant: loaded.variant,
    reads: () => recordReads(loaded),
    hash: (paths) => hashInputs(loaded, paths),
    version: "test",
  });
}

describe("balance of the demo pair", () => {
  let result: BalanceResult;
  const finding = (id: string) => result.findings.find((one) => one.id === id)!;

  beforeAll(() => {
    result = balanceDemo();
  });

  it("has the masses of the scenario", () => {
    const total = (key: string) => result.totals.find((one) => one.key === key)!;
    expect(total("empty").mass_kg).toBe(33_800);
    expect(result.items.find(({ kind }) => kind === "kit")!.mass_kg).toBe(1450);
    const fuel = result.items.filter(({ kind }) => kind === "fuel");
    expect(fuel.reduce((sum, { capacity_kg }) => sum + capacity_kg!, 0)).toBe(17_500);
    expect(total("start").mass_kg).toBeLessThanOrEqual(58_000);
    // c.g. of the aircraft stowed by the drawn mechanism, as the table of the scenario has it
    const hung = result.items.find(({ kind }) => kind === "carried aircraft")!;
    expectClose(hung.FS_m, 18.03, { atol: 0.005, why: "two decimals in the table" });
  });

  it("keeps the plan inside the limits and finds the one state in between that does not keep the margin", () => {
    const missed = result.findings.filter(({ verdict }) => verdict === "not met").map(({ id }) => id);
    expect(missed).toEqual(["balance.cg.margin.stuck-52-single-point"]);
    expect(finding(missed[0]!).note).toContain("descent and landing, 7 h 34 min after the start");
    const hanging = result.limits.find(({ id }) => id === "balance.fuel.hanging")!;
    expect(hanging).toMatchObject({ status: "analysed", upper: 16_400 });
    expect(hanging.lower!).toBeGreaterThan(4000);
    expect(hanging.lower!).toBeLessThan(6000);
  });

  it("names the moment when the c.g. is outside: a finding, not an error", () => {
    const heavy = balanceDemo(undefined, ["carrier.weights.payload.spares and tools.mass=9 t"]);
    const planned = heavy.findings.find(({ id }) => id === "balance.cg.margin.planned")!;
    expect(planned.verdict).toBe("not met");
    expect(planned.value!).toBeLessThan(0);
    expect(planned.note).toMatch(
      /^outside the limits in .*: \d+ kg, c\.g\. [\d.]+ % MAC, aft limit .* towards the nose/,
    );
  });

  it("rests on what it read, and changes its hashes with that alone", () => {
    const other = balanceDemo(undefined, ["studies.balance.criteria.tipBack=16 deg"]);
    const changed = result.findings.filter(
      (one) => one.inputHash !== other.findings.find(({ id }) => id === one.id)!.inputHash,
    );
    expect(changed.map(({ id }) => id)).toContain("balance.ground.tip-back");
    expect(changed.map(({ id }) => id)).not.toContain("balance.mass.take-off");
    expect(finding("balance.mass.take-off").rests).toContain("carrier.weights.largest.takeOff");
    expect(finding("balance.cg.margin.planned").rests).toContain("carrier.weights.envelope");
  });

  it("says what is missing", () => {
    expect(() => balanceDemo(undefined, ["studies.balance=~"])).toThrow("studies.balance: is missing");
  });
});
