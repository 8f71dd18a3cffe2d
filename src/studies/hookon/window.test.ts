import { describe, expect, it } from "vitest";
import { testPair, testSocket } from "../../../test/support/hookon-pair.ts";
import type { HookonSettings } from "../../physics/hookon-motion/index.ts";
import { captureMaps } from "./capture-map.ts";
import { isLatched, StraightRuns } from "./straight-runs.ts";
import { closedWindow, windowOf } from "./window.ts";

const settings = testPair({}, { equivalentAirspeed: 105 });
const axial = (runs: StraightRuns, closure: number, right = 0) => runs.run({ closure, right, up: 0, angle: 0 });

/** Cone of the same angle, wider and longer by a factor. */
function withFunnel(factor: number): HookonSettings {
  const socket = testSocket();
  const { funnel } = socket;
  const longer = (factor - 1) * funnel.coneDepth;
  const mouthRadius = funnel.throatRadius + factor * (funnel.mouthRadius - funnel.throatRadius);
  const sizes = { mouthRadius, coneDepth: factor * funnel.coneDepth, mouthFromGimbal: funnel.mouthFromGimbal + longer };
  return { ...settings, socket: { ...socket, funnel: { ...funnel, ...sizes } } };
}

describe("closure window", () => {
  const runs = new StraightRuns(settings);
  const window = windowOf(settings, runs, { most: 2.4, planned: 1 });

  it("does not trip below its lower end and latches soundly just above it", () => {
    const { lower_m_s: lower } = window.simulated;
    expect(lower).not.toBeNull();
    expect(axial(runs, lower!).locked).toBe(true);
    expect(isLatched(axial(runs, 0.8 * lower!).outcome)).toBe(false);
  });

  it("its lower end agrees with the energies within 30 %", () => {
    // friction on the way, damping and the inertia of the tip are not in the closed form
    expect(Math.abs(window.agreement_1.lower!)).toBeLessThan(0.3);
  });

  it("a latch that takes more work moves the lower end up, in the motion as in the closed form", () => {
    const latch = { ...settings.latch, force: settings.latch.force.map((force) => 2 * force) };
    const hard = { ...settings, latch };
    expect(closedWindow(hard).lower).toBeGreaterThan(closedWindow(settings).lower);
    const { lower_m_s } = windowOf(hard, new StraightRuns(hard), { most: 2.4, planned: 1 }).simulated;
    expect(lower_m_s!).toBeGreaterThan(window.simulated.lower_m_s!);
  });

  it("names what ends it, and has no end where nothing latches", () => {
    const blocked = { ...settings, latch: { ...settings.latch, force: settings.latch.force.map(() => 1e6) } };
    const none = windowOf(blocked, new StraightRuns(blocked), { most: 1, planned: 1 });
    expect(none.simulated).toEqual({ lower_m_s: null, upper_m_s: null, upperBecause: "no closure latches" });
    expect(none.agreement_1).toEqual({ lower: null, upper: null });
  });
});

describe("capture", () => {
  const plan = { offset: 0.4, closure: 1.6, steps: 5, angles: [0] };
  const latched = (own: HookonSettings): number => {
    const [map] = captureMaps(new StraightRuns(own), plan);
    return map.outcome.flat().filter(isLatched).length;
  };

  it("a bigger funnel of the same angle captures more paths", () => {
    expect(latched(withFunnel(1))).toBeGreaterThan(latched(withFunnel(0.25)));
  });

  it("beyond the mouth nothing latches", () => {
    const [map] = captureMaps(new StraightRuns(withFunnel(0.25)), plan);
    expect(map.captureRadius_m === null || map.captureRadius_m < 0.2).toBe(true);
  });

  it("a funnel without centring tumbles under an off-centre contact", () => {
    const socket = testSocket();
    const gimbal = { ...socket.gimbal, centring: 0, damping: 1, friction: 0, stop: 1.4, tumbled: 0.7 };
    const loose = new StraightRuns({ ...settings, socket: { ...socket, gimbal } });
    expect(axial(loose, 1.2, 0.2).outcome).toBe("socket tumbled");
  });

  it("the same path gives the same outcome", () => {
    const own = new StraightRuns(settings);
    expect(axial(own, 1, 0.1)).toEqual(axial(new StraightRuns(settings), 1, 0.1));
  });
});
