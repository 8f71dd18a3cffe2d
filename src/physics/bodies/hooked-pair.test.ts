import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { longshore } from "../../../test/support/longshore.ts";
import { linearPair, type Root, rootsOf } from "../../../test/validation/hooked-support.ts";
import { freeMassCarrier, hookedPair, linearise } from "./index.ts";

describe("hooked pair", () => {
  it("has no unloaded boom angle when nothing in the path holds it", () => {
    expect(hookedPair(longshore({ boom: { bending: 0 } })).unloadedAngleDown).toBeNull();
    expect(hookedPair(longshore({ boom: { accumulator: 0 } })).unloadedAngleDown).toBeNull();
    expect(
      hookedPair(longshore({ boom: { accumulator: 0, snubber: Number.POSITIVE_INFINITY } })).unloadedAngleDown,
    ).not.toBeNull();
  });

  it("returns to the loaded angle from the unloaded one under the tip load", () => {
    const pair = hookedPair(longshore({ weightShare: 0.3, boom: { ownMass: 120, ownCentre: 2.4 } }));
    const { bending, accumulator, length, angleDown } = pair.settings.boom;
    const series = 1 / (1 / bending + 1 / accumulator);
    const travel = length * (angleDown - pair.unloadedAngleDown!);
    expectClose(series * travel, pair.tipLoad.tangential, { rtol: 1e-12, why: "series stiffness" });
    // the boom's own weight pushes down like a load at its tip, by the lever
    const bare = hookedPair(longshore({ weightShare: 0.3 }));
    const own = ((120 * 2.4) / 5.6) * 9.80665 * Math.cos(angleDown);
    expectClose(pair.tipLoad.tangential - bare.tipLoad.tangential, own, { rtol: 1e-9, why: "lever" });
  });

  it("refuses damping ratios that are none", () => {
    for (const structuralDamping of [-0.01, 1, Number.NaN]) {
      expect(() => hookedPair(longshore({ boom: { structuralDamping } }))).toThrow("structural damping ratio");
    }
  });

  it("rests at trim whatever the boom weighs: the jack carries it, not the aircraft", () => {
    const [with_, without] = [longshore({ boom: { ownMass: 150, ownCentre: 2.6 } }), longshore()].map((settings) => {
      const pair = hookedPair(settings);
      const rate = new Float64Array(pair.state.length);
      pair.motion.derivative(0, pair.state, rate);
      expect(Math.max(...rate.map(Math.abs))).toBeLessThan(1e-8);
      return pair;
    });
    expectAllClose(with_.trim.f_onV_byTip_H, without.trim.f_onV_byTip_H, { atol: 1e-9, why: "same balance" });
  });
});

describe("carrier of finite mass", () => {
  const atTrim = () => {
    const settings = longshore({ revision: "Rev B", weightShare: 0.2, boom: { ownMass: 100, ownCentre: 2.5 } });
    const steady = linearPair(settings);
    const [fx, fy, fz] = steady.pair.trim.f_onV_byTip_H;
    return { settings, steady, load: Float64Array.of(-fx, -fy, 100 * 9.80665 - fz) };
  };

  it("rests at trim when its lift and thrust carry the hook load", () => {
    const { settings, load } = atTrim();
    const pair = hookedPair(settings, freeMassCarrier(58_000, load));
    const rate = new Float64Array(pair.state.length);
    pair.motion.derivative(0, pair.state, rate);
    expect(Math.max(...rate.map(Math.abs))).toBeLessThan(1e-8);
  });

  it("becomes the steady carrier in proportion to 1/mass, and adds only modes that drift", () => {
    const { settings, steady, load } = atTrim();
    const roots = rootsOf(steady.linear.matrix, steady.linear.size);
    const gap = (mass: number): number => {
      const { motion, state } = hookedPair(settings, freeMassCarrier(mass, load));
      const linear = linearise(motion, state);
      expect(linear.size).toBe(steady.linear.size + 6);
      const all = rootsOf(linear.matrix, linear.size);
      const size = (root: Root): number => Math.hypot(root.re, root.im);
      const slow = [...all].sort((a, b) => size(a) - size(b)).slice(0, 6);
      expect(Math.max(...slow.map(size))).toBeLessThan(0.5);
      return Math.max(...roots.map((r) => Math.min(...all.map((s) => Math.hypot(r.re - s.re, r.im - s.im))) / size(r)));
    };
    const gaps = [1e6, 1e7, 1e8].map(gap);
    expect(gaps[0]).toBeLessThan(0.01);
    expect(gaps[0] / gaps[1]).toBeGreaterThan(9);
    expect(gaps[1] / gaps[2]).toBeGreaterThan(9);
    expect(gaps[1] / gaps[2]).toBeLessThan(11);
  });

  it("makes the hooked modes faster: the boom pulls a lighter pair together", () => {
    const { settings, steady, load } = atTrim();
    const { motion, state } = hookedPair(settings, freeMassCarrier(20_000, load));
    const linear = linearise(motion, state);
    const fastest = (all: readonly Root[]): number => Math.max(...all.map((root) => root.im));
    expect(fastest(rootsOf(linear.matrix, linear.size))).toBeGreaterThan(
      1.02 * fastest(rootsOf(steady.linear.matrix, steady.linear.size)),
    );
  });

  it("needs a mass", () => {
    expect(() => freeMassCarrier(0, new Float64Array(3))).toThrow("carrier mass");
  });
});
