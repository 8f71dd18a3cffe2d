import { describe, expect, it } from "vitest";
import { approachSettings, INNER, OUTER } from "../../../test/support/approach-settings.ts";
import { DEMO, loadDemo, readDisk } from "../../../test/support/load-demo.ts";
import { InputError, type Issue } from "../../math/errors.ts";
import { loadPair } from "../pair/index.ts";

function issuesOf(change: (text: string) => string): readonly Issue[] {
  const read: typeof readDisk = (path) => {
    const found = readDisk(path);
    if (path !== DEMO || !found.ok) return found;
    return { ok: true, bytes: new TextEncoder().encode(change(new TextDecoder().decode(found.bytes))) };
  };
  try {
    loadPair(DEMO, read, {});
    return [];
  } catch (error) {
    if (error instanceof InputError) return error.issues;
    throw error;
  }
}
const put = (from: string, to: string) => (text: string) => {
  expect(text.split(from)).toHaveLength(2);
  return text.replace(from, to);
};
const at = (issues: readonly Issue[]): string[] => issues.map(({ path, message }) => `${path} ${message}`);
const NO_TRIM = { alpha: 0, liftAlpha: 0, elevator: 0, aileron: 0, rudder: 0, thrust: 0, mass: 1, trueAirspeed: 1 };

/** The study that needs an approach. */
const HOOKON = /^ {2}hookon:\n( {4}.*\n)+/m;

describe("approach in the pair", () => {
  it("has in the demo the gains and positions that the tests of the physics fly with", () => {
    const approach = loadDemo().pair.approach!;
    const { autopilot } = approach.controllers;
    if (autopilot.kind !== "autopilot") throw new Error("no autopilot");
    for (const key of Object.keys(OUTER) as (keyof typeof OUTER)[]) {
      expect(autopilot.outer[key].si, key).toBeCloseTo(OUTER[key], 12);
    }
    for (const key of Object.keys(INNER) as (keyof typeof INNER)[]) {
      expect(autopilot.inner[key].si, key).toBeCloseTo(INNER[key], 12);
    }
    const { schedule, tick } = approachSettings(NO_TRIM);
    expect(approach.tick.si).toBeCloseTo(tick, 12);
    const { aft, right, below } = approach.schedule.preContact;
    expect([-aft.si, right.si, below.si]).toEqual(schedule.preContact);
    expect(approach.schedule.closure.si).toBe(schedule.closure);
    expect(approach.disturbances.bowWave!.rows).toBe(64);
    expect(approach.disturbances.wake!.rows).toBe(100);
  });

  it("may be left out, and each disturbance too: then it is not analysed", () => {
    expect(issuesOf((text) => text.replace(/^approach:\n( {2}.*\n)+/m, "").replace(HOOKON, ""))).toEqual([]);
    expect(issuesOf((text) => text.replace(/ {2}disturbances:\n( {4}.*\n)+/, "  disturbances: {}\n"))).toEqual([]);
  });

  it("needs the hooked gains that it names, and actuators", () => {
    const without = issuesOf((text) => text.replace(/^control:\n( {2}.*\n)+/m, ""));
    expect(at(without)).toContain("approach needs control.actuators, which the pair leaves out");
    expect(at(without)).toContain("approach.hooked.law needs control.gains.hooked, which the pair leaves out");
  });

  it("refuses a pre-contact position ahead of the socket, an approach without closure and a time of part of a tick", () => {
    expect(at(issuesOf(put("preContact: { aft: 6 m", "preContact: { aft: -6 m")))).toEqual([
      "approach.schedule.preContact.aft is out of range",
    ]);
    expect(at(issuesOf(put("closure: 1.2 m/s", "closure: -1.2 m/s")))).toEqual([
      "approach.schedule.closure is out of range",
    ]);
    const [issue] = issuesOf(put("latency: 40 ms", "latency: 50 ms"));
    expect(issue.message).toBe("is no whole number of ticks");
    expect(issue.allowed).toBe("a multiple of 20 ms");
  });
});
