import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { loadDemo } from "../../../test/support/load-demo.ts";
import { recordReads } from "../../inputs/index.ts";
import { deadBandShare } from "../../physics/links/index.ts";
import type { PairMode } from "../../physics/modes/index.ts";
import { atBoomAngle, operatingPoint, readHoldInputs } from "../hold/index.ts";
import { cycleInTime } from "./cycle-in-time.ts";
import { balances, centringOnly, type UnloadedPair, unloadedPair } from "./limit-cycle.ts";
import { readAttachment } from "./read-settings.ts";
import { stateModel } from "./states.ts";

const DEGREE = Math.PI / 180;

/** A mass on a spring with free travel and a damper that drives: m·ẍ − c·ẋ + k₀·x + N·(c₁·ẋ + k₁·x) = 0. */
function oneFreedom(clearance: number, drive: number, damper: number): UnloadedPair {
  const [m, k0, k1] = [100, 4e4, 9e4];
  const slope = new Float64Array(6);
  slope[2] = 1;
  const shape = new Float64Array(18);
  shape[4] = 1;
  return {
    size: 2,
    open: new Float64Array(4),
    weights: [1, 1, 1, 1, 1, 1],
    elements: [{ pin: "left", key: "along", clearance, stiffness: k1, slope, adds: new Float64Array(4) }],
    modes: ([share], plane) => {
      const real = -(share * damper - drive) / (2 * m);
      const imag = Math.sqrt((k0 + share * k1) / m - real * real);
      return [{ real, imag, plane, shape } as unknown as PairMode];
    },
  };
}

describe("harmonic balance", () => {
  it("finds the amplitude of one freedom in closed form: N(X) = drive over damper", () => {
    const found = balances(oneFreedom(2e-3, 30, 120), "longitudinal");
    expect(found).toHaveLength(1);
    const [{ ratio, stable, frequency, travel, force }] = found;
    expectClose(deadBandShare(ratio), 30 / 120, { rtol: 1e-6, why: "tolerance of the root" });
    expect(stable).toBe(true);
    expectClose(frequency, Math.sqrt((4e4 + 0.25 * 9e4) / 100), { rtol: 1e-6, why: "its natural frequency" });
    expectClose(travel[0], ratio * 2e-3, { rtol: 1e-12, why: "definition" });
    expectClose(force[0], 0.25 * 9e4 * travel[0], { rtol: 1e-6, why: "fundamental of the spring" });
  });
  it("finds none when nothing drives, or the drive wins at every amplitude", () => {
    expect(balances(oneFreedom(2e-3, -30, 120), "longitudinal")).toEqual([]);
    expect(balances(oneFreedom(2e-3, 150, 120), "longitudinal")).toEqual([]);
  });
});

describe("the demo pair with unloaded pins, stowed", () => {
  const loaded = loadDemo("Rev B");
  const open = () => recordReads(loaded);
  const { inputs } = readHoldInputs(open);
  const read = readAttachment(open, inputs)!;
  const own = { ...read, socket: null };
  const at = atBoomAngle(inputs, {
    ...operatingPoint(inputs, inputs.conditions[0], "full"),
    boomAngleDown: 14 * DEGREE,
  });
  const pair = unloadedPair(inputs, own, at)!;

  it("is open without contact and closed with all of it", () => {
    const free = stateModel(inputs, own, at, "three point, in clearance").modes;
    const rootsOf = (modes: readonly PairMode[]) =>
      modes
        .filter(({ plane, imag }) => plane === "longitudinal" && imag > 0)
        .flatMap(({ real, imag }) => [real, imag])
        .sort((a, b) => a - b);
    const why = "the same matrix, put together in two ways";
    expectAllClose(rootsOf(pair.modes([0, 0, 0, 0], "longitudinal")), rootsOf(free), { rtol: 1e-6, atol: 1e-7, why });
    const closed = pair.modes([1, 1, 1, 1], "longitudinal");
    expect(Math.max(...closed.map(({ real }) => real))).toBeLessThan(0);
    expect(Math.max(...free.map(({ real }) => real))).toBeGreaterThan(0);
  });

  it("has a limit cycle that the motion in time shows too", () => {
    const [found] = balances(pair, "longitudinal");
    expect(found.stable).toBe(true);
    expect(found.ratio).toBeGreaterThan(1);
    const time = cycleInTime(inputs, own, at, found, 0, undefined);
    expect(time.outcome).toBe("ran");
    const why = "the fundamental alone; the contact is short and the force far from a sine";
    expectClose(time.travel, found.travel[0], { rtol: 0.05, why });
    expectClose(time.frequency, found.frequency / (2 * Math.PI), { rtol: 0.06, why });
    expect(time.history.time.length).toBe(time.history.travel.length);
  });

  it("is held still by dry friction in the socket", () => {
    const [found] = balances(unloadedPair(inputs, read, at)!, "longitudinal");
    const turning = { ...centringOnly(read).socket!, friction: read.socket!.friction };
    const time = cycleInTime(inputs, read, at, found, 0, turning);
    expect(time.travel).toBeLessThan(0.5 * read.pins!.clearance.along);
  });
});
