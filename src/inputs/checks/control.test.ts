import { describe, expect, it } from "vitest";
import { DEMO, loadDemo, readDisk } from "../../../test/support/load-demo.ts";
import { InputError, type Issue } from "../../math/errors.ts";
import { loadPair } from "../pair/index.ts";

/** Issues of the demo pair with its text changed. */
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
const cut = (pattern: RegExp) => (text: string) => {
  expect(text).toMatch(pattern);
  return text.replace(pattern, "");
};
const at = (issues: readonly Issue[]): string[] => issues.map(({ path, message }) => `${path} ${message}`);

describe("control in the pair", () => {
  it("is accepted as the demo has it", () => {
    expect(issuesOf((text) => text)).toEqual([]);
    expect(loadDemo().variant).toBeDefined();
  });

  it("names a limit that is missing, with its place", () => {
    const [issue, ...more] = issuesOf(cut(/ {8}bankLimit: 30 deg\n/));
    expect(more).toEqual([]);
    expect(issue.path).toBe("studies.hold.control.failures.bankLimit");
    expect(issue.message).toBe("is missing");
    expect(issue.line).toBeGreaterThan(300);
  });

  it("refuses a negative delay, a surface without rate and a function that does not exist", () => {
    const delay = issuesOf((text) => text.replace("travel: 4 deg, delay: 0.05 s", "travel: 4 deg, delay: -0.05 s"));
    expect(at(delay)).toHaveLength(1);
    expect(delay[0].path).toBe("control.actuators.elevator.delay");
    expect(delay[0].allowed).toContain("0 to 10 s");
    const rate = issuesOf((text) => text.replace("rate: 40 deg/s, travel: 4 deg", "rate: 0 deg/s, travel: 4 deg"));
    expect(rate[0].path).toBe("control.actuators.elevator.rate");
    const unknown = issuesOf((text) =>
      text.replace("      yawDamper: { rateGain: 0.5 s", "      yawDampr: { rateGain: 0.5 s"),
    );
    expect(at(unknown).join()).toContain("yawDamper");
  });

  it("refuses a height hold without the pitch hold that it commands", () => {
    const issues = issuesOf(cut(/ {6}pitchHold: \{ pitchGain: 0\.6, rateGain: 0\.30 s \}\n/));
    expect(at(issues)).toEqual([
      "control.gains.free.heightHold works through the pitch hold, which is not in this set",
    ]);
  });

  it("asks for actuators, gains and pilot when the study asks for control", () => {
    const issues = issuesOf(cut(/ {2}pilot:\n( {4}.*\n)+/));
    expect(at(issues)).toEqual(["studies.hold.control needs control.pilot, which the pair leaves out"]);
  });

  it("refuses frequencies and times that fall", () => {
    const issues = issuesOf((text) => text.replace("fastest: 20 rad/s", "fastest: 0.5 rad/s"));
    expect(at(issues)).toEqual(["studies.hold.control.failures.fastest must be larger than slowest"]);
    const times = issuesOf((text) =>
      text.replace("recognition: 0.6 s", "recognition: 9.9 s").replace("duration: 10 s", "duration: 9 s"),
    );
    expect(at(times)).toEqual(["studies.hold.control.failures.duration must be larger than recognition"]);
  });

  it("runs without control when the pair does not ask for it", () => {
    const without = cut(/ {4}control:\n {6}criteria:\n( {8}.*\n)+ {6}failures:\n( {8}.*\n)+/);
    expect(issuesOf(without)).toEqual([]);
  });
});
