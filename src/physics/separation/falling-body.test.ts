import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { STANDARD_GRAVITY } from "../bodies/index.ts";
import { type FallAir, fallToGround, terminalSpeed, withdrawalForce, withdrawalTime } from "./index.ts";

const still = (density: number, north = 0, east = 0): FallAir => ({
  density: () => density,
  wind: (_height, out) => {
    out[0] = north;
    out[1] = east;
  },
  gravity: STANDARD_GRAVITY,
});
const start = { height: 3000, velocity: [120, 0, 0] as const };

describe("a fall", () => {
  it("without air is the parabola", () => {
    const fall = fallToGround({ mass: 300, dragArea: 0 }, still(1.2), start);
    const time = Math.sqrt((2 * 3000) / STANDARD_GRAVITY);
    expectClose(fall.time, time, { rtol: 1e-12, why: "fourth order is exact on a parabola" });
    expectClose(fall.north, 120 * time, { rtol: 1e-12, why: "as above" });
    expectClose(fall.sinkRate, STANDARD_GRAVITY * time, { rtol: 1e-12, why: "as above" });
  });

  it("straight down follows the closed form of quadratic drag", () => {
    const body = { mass: 300, dragArea: 0.8 };
    const v = terminalSpeed(300, 0.8, 1.1, STANDARD_GRAVITY);
    const fall = fallToGround(body, still(1.1), { height: 500, velocity: [0, 0, 0] });
    // h = v²/g·ln cosh(g·t/v), speed v·tanh(g·t/v)
    const height = ((v * v) / STANDARD_GRAVITY) * Math.log(Math.cosh((STANDARD_GRAVITY * fall.time) / v));
    expectClose(height, 500, { rtol: 1e-7, why: "steps of 50 ms, order four" });
    expectClose(fall.sinkRate, v * Math.tanh((STANDARD_GRAVITY * fall.time) / v), { rtol: 1e-6, why: "as above" });
  });

  it("ends at the terminal speed and with the wind", () => {
    const fall = fallToGround({ mass: 300, dragArea: 2 }, still(1.2, -8, 5), start);
    expectClose(fall.sinkRate, terminalSpeed(300, 2, 1.2, STANDARD_GRAVITY), { rtol: 1e-4, why: "3 km are enough" });
    const calm = fallToGround({ mass: 300, dragArea: 2 }, still(1.2), { ...start, velocity: [120 + 8, -5, 0] });
    // the fall seen from the air is the same fall
    expectClose(fall.north, calm.north - 8 * calm.time, { atol: 1e-6, why: "moving axes" });
    expectClose(fall.east, calm.east + 5 * calm.time, { atol: 1e-6, why: "moving axes" });
  });

  it("converges with order four", () => {
    const body = { mass: 300, dragArea: 1 };
    const north = (step: number): number => fallToGround(body, still(1.2), start, step).north;
    const exact = north(0.0125);
    const order = Math.log2(Math.abs(north(0.4) - exact) / Math.abs(north(0.2) - exact));
    expect(order).toBeGreaterThan(3.5);
  });

  it("refuses what is no fall", () => {
    expect(() => fallToGround({ mass: 0, dragArea: 1 }, still(1.2), start)).toThrow(/mass/);
    expect(() => fallToGround({ mass: 1, dragArea: -1 }, still(1.2), start)).toThrow(/drag area/);
    expect(() => fallToGround({ mass: 1, dragArea: 1 }, still(1.2), { ...start, height: 0 })).toThrow(/height/);
  });
});

describe("withdrawal in closed form", () => {
  it("needs what friction holds, and takes the time of uniform acceleration", () => {
    expect(withdrawalForce(5000, 0.15, 200)).toBe(950);
    expectClose(withdrawalTime(0.15, 2000, 1950)!, Math.sqrt((2 * 0.15) / (2000 / 1950)), {
      rtol: 1e-15,
      why: "definition",
    });
    expect(withdrawalTime(0.15, 0, 1950)).toBeNull();
    expect(withdrawalTime(0.15, -5, 1950)).toBeNull();
  });
});
