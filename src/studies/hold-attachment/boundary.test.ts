import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { loadDemo } from "../../../test/support/load-demo.ts";
import { recordReads } from "../../inputs/index.ts";
import type { PairMode } from "../../physics/modes/index.ts";
import { operatingPoint, readHoldInputs } from "../hold/index.ts";
import { bandPoints, lossAt, lossOver, singlePointStability, speedsOf, stabilityOf } from "./boundary.ts";
import { poseMaps } from "./pose-map.ts";
import { readAttachment } from "./read-settings.ts";

const DEGREE = Math.PI / 180;

function demo(variant: string) {
  const loaded = loadDemo(variant);
  const open = () => recordReads(loaded);
  const { inputs } = readHoldInputs(open);
  const own = readAttachment(open, inputs)!;
  const at = (mass: string) => operatingPoint(inputs, inputs.conditions[0], mass);
  return { inputs, own, at };
}

const root = (real: number, imag: number) => ({ real, imag }) as PairMode;

describe("stability of modes", () => {
  it("is the least damping ratio, or what a real root leaves of the allowed growth", () => {
    expect(stabilityOf([], 20)).toBe(1);
    expectClose(stabilityOf([root(-0.3, 0.4), root(-3, 4)], 20), 0.6, { rtol: 1e-12, why: "3-4-5" });
    expectClose(stabilityOf([root(0.02, 0)], 20), Math.LN2 / 20 - 0.02, { rtol: 1e-12, why: "definition" });
    expect(stabilityOf([root(0.04, 0)], 20)).toBeLessThan(0);
    expect(stabilityOf([root(0.001, 2)], 20)).toBeLessThan(0);
  });
});

describe("where a stability is lost", () => {
  it("is the zero nearest to the extended end", () => {
    const two = (angle: number) => (angle - 0.3) * (angle - 0.6);
    expectClose(lossAt(two, 0.1, 0.9) as number, 0.6, { atol: 2e-6, why: "tolerance of the search" });
    expect(lossAt((angle) => angle, 0.1, 0.9)).toBeNull();
    expect(lossAt((angle) => 0.5 - angle, 0.1, 0.9)).toBe("unstable extended");
    expect(lossAt((angle) => angle - 0.4, 0.1, 0.9, 0.5)).toBeNull();
  });
});

describe("the demo pair", () => {
  it("Rev A is unstable at single point with the boom extended", () => {
    const { inputs, own, at } = demo("Rev A");
    expect(lossOver(inputs, own, bandPoints(own, [at("full")]), "longitudinal").outcome).toBe("unstable extended");
  });
  it("Rev B loses it at one boom angle: stable a little below, unstable a little above, as on the map", () => {
    const { inputs, own, at } = demo("Rev B");
    const points = bandPoints(own, [at("full")], 2);
    const found = lossOver(inputs, own, points, "longitudinal");
    expect(found.outcome).toBe("lost");
    const there = points.find((point) => point.airspeed.value === found.airspeed)!;
    const near = (change: number) => singlePointStability(inputs, there, found.angle! + change, "longitudinal");
    expect(near(0.01 * DEGREE)).toBeGreaterThan(0);
    expect(near(-0.01 * DEGREE)).toBeLessThan(0);
    // nothing is lost at larger angles, looked at ten times closer
    for (let angle = found.angle! + 0.05 * DEGREE; angle < own.stroke.to; angle += 0.2 * DEGREE) {
      expect(singlePointStability(inputs, there, angle, "longitudinal")).toBeGreaterThan(0);
    }
    const [map] = poseMaps(inputs, own, at("full"));
    const slowest = Math.min(...map.airspeed_m_s_EAS);
    expectClose(found.airspeed!, slowest, { rtol: 1e-12, why: "less speed, less stability" });
    const drawn = map.boundary.flat().filter(([, speed]) => Math.abs(speed - slowest) < 1e-6);
    const why = "straight between points of the map a degree apart";
    expectClose(drawn[0][0], found.angle! / DEGREE, { atol: 0.15, why });
  });
  it("has airspeeds from one end of its band to the other", () => {
    const { own, at } = demo("Rev B");
    const speeds = speedsOf(own, at("full"), 3);
    expectClose(speeds[0], 105, { rtol: 1e-9, why: "EAS as stated" });
    expectClose(speeds[1], 115, { rtol: 1e-9, why: "the middle" });
    expectClose(speeds[2], 125, { rtol: 1e-9, why: "EAS as stated" });
  });
});
