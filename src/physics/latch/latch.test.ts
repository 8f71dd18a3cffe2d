import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { testLatch } from "../../../test/support/hookon-pair.ts";
import { checkLatch, hookForce, plungerForce, tripEnergy, tripSpeed } from "./index.ts";

const latch = testLatch();

describe("the latch's curve", () => {
  it("its energy is the area, by summing the force", () => {
    const n = 30_000;
    const sum = Array.from({ length: n }, (_, i) => plungerForce(latch, ((i + 0.5) * 0.03) / n)).reduce(
      (a, b) => a + b,
    );
    expectClose(tripEnergy(latch), (sum * 0.03) / n, { rtol: 1e-8, why: "midpoint rule over straight lines" });
  });

  it("a constant force: E = F·x; a spring: ½·k·x²", () => {
    const constant = testLatch({ travel: Float64Array.of(0, 0.02), force: Float64Array.of(500, 500) });
    const spring = testLatch({ travel: Float64Array.of(0, 0.02), force: Float64Array.of(0, 500) });
    expectClose(tripEnergy(constant), 10, { rtol: 1e-12, why: "rectangle" });
    expectClose(tripEnergy(spring), 5, { rtol: 1e-12, why: "triangle" });
  });

  it.each([
    ["travel of the latch", { travel: Float64Array.of(0, 0.02, 0.01) }],
    ["force of the latch", { force: Float64Array.of(0, -1, 2) }],
    ["trip energy", { force: Float64Array.of(0, 0, 0) }],
    ["latch stiffness", { stiffness: 0 }],
  ])("refuses a wrong %s", (words, change) => {
    expect(() => checkLatch(testLatch(change))).toThrow(words);
  });
});

describe("the lower end of the closure window", () => {
  const free = { friction: 0, preload: 1e9, stiffness: 0 };

  it("½·m·v² is the trip energy, and friction adds to it", () => {
    const { speed } = tripSpeed(latch, 120, free);
    expectClose(0.5 * 120 * speed * speed, tripEnergy(latch), { rtol: 1e-12, why: "by definition" });
    const rough = tripSpeed(latch, 120, { ...free, friction: 7 });
    expectClose(0.5 * 120 * rough.speed ** 2, tripEnergy(latch) + 7, { rtol: 1e-12, why: "by definition" });
  });

  it("a buffer that gives way before the latch takes (F² − P²)/2k; without stiffness it never trips", () => {
    const soft = tripSpeed(latch, 120, { friction: 0, preload: 700, stiffness: 4e4 });
    expectClose(soft.buffer, (1200 ** 2 - 700 ** 2) / 8e4, { rtol: 1e-12, why: "area of the buffer's line" });
    expect(tripSpeed(latch, 120, { friction: 0, preload: 700, stiffness: 0 }).speed).toBe(Number.POSITIVE_INFINITY);
    expect(tripSpeed(latch, 120, { friction: 0, preload: 1200, stiffness: 4e4 }).buffer).toBe(0);
  });
});

it("a hook's ramp: without friction the slope of the wedge, with it up to where it locks itself", () => {
  expectClose(hookForce(100, Math.PI / 4, 0), 100, { rtol: 1e-12, why: "a slope of 45°" });
  expect(hookForce(100, 0.5, 0.2)).toBeGreaterThan(hookForce(100, 0.5, 0));
  expect(hookForce(100, Math.PI / 2 - Math.atan(0.2), 0.2)).toBeGreaterThan(1e10);
});
