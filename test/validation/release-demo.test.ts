/** The study `release` on the demo: outcomes that the pair was made to show, trends of the trade, what lacks data. */
import { describe, expect, it } from "vitest";
import { hashInputs, recordReads } from "../../src/inputs/index.ts";
import { type ReleaseResult, runRelease } from "../../src/studies/release/index.ts";
import { loadDemo } from "../support/load-demo.ts";

/** One loading and pose, few samples, a coarse envelope: seconds. */
const FEW = [
  "studies.release.masses=[full]",
  "studies.release.boomAngles=[52 deg]",
  "studies.release.dispersion.samples=4",
  "studies.release.dispersion.sigmas={ light: 1.5 m/s }",
  "studies.release.envelope.loadFactors=[1, 1.5]",
  "studies.release.envelope.thrusts=[0 N, 1 kN]",
];

function release(set: string[] = []): ReleaseResult {
  const loaded = loadDemo("Rev B", [...FEW, ...set]);
  return runRelease({
    variant: loaded.variant,
    reads: () => recordReads(loaded),
    hash: (paths) => hashInputs(loaded, paths),
    version: "test",
  })!;
}

describe("release on the demo, Rev B", () => {
  const result = release();
  const named = (name: string) => result.cases.find((one) => one.name === name)!;

  it("leaves clean in the normal and the emergency release, and hangs up on a pin that is stuck", () => {
    expect(named("normal").outcome).toBe("clean");
    expect(named("emergency, probe cut").outcome).toBe("clean");
    expect(named("right aft pin stuck").outcome).toBe("hang-up");
    const stuck = result.hangUps.find(({ left }) => left.startsWith("nose and right"))!;
    expect(stuck.bank_deg).toBeLessThan(0);
    expect(stuck.waysOut.map(({ outcome }) => outcome)).toContain("clean");
  });

  it("touches with the elevator hard over nose up", () => {
    const { outcome, clearance_m, nearest } = named("elevator hard over nose up");
    expect({ outcome, clearance_m }).toEqual({ outcome: "touches", clearance_m: 0 });
    expect(nearest?.other).toBe("carrier");
  });

  it("drag withdraws the probe and thrust holds it (common practice, no source)", () => {
    const out = (name: string): number => named(name).leftAt_s!;
    expect(out("airbrake out")).toBeLessThan(out("normal"));
    expect(out("engine at full thrust")).toBeGreaterThan(out("normal"));
    expect(named("airbrake out").offered_N!).toBeGreaterThan(named("engine at full thrust").offered_N!);
  });

  it("pitches faster out of the socket than the criterion from no pose that a limit allows", () => {
    const [limit] = result.limits.filter(({ id }) => id === "release.boom-angle.full");
    expect(limit).toMatchObject({ status: "analysed", lower: 52, upper: 52 });
  });

  it("gives the same bytes again", () => {
    expect(JSON.stringify(release())).toBe(JSON.stringify(result));
  });

  it("clears nothing without increments near the carrier", () => {
    const bare = release(["studies.release.proximity=~"]);
    const clean = bare.findings.filter(({ id }) => id.startsWith("release.normal"));
    expect(clean.map(({ verdict }) => verdict)).toEqual(["not analysed"]);
    expect(bare.findings.filter(({ verdict }) => verdict === "met").map(({ id }) => id)).not.toContain(
      "release.rough-air.light-full",
    );
    for (const { status, lower, upper } of bare.limits) {
      expect({ status, lower, upper }).toEqual({ status: "not cleared", lower: null, upper: null });
    }
  });
});
