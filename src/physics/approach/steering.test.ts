import { describe, expect, it } from "vitest";
import { DomainError } from "../../math/errors.ts";
import type { SteeringSettings } from "./settings.ts";
import { BoomSteering, chasing } from "./steering.ts";

const TICK = 0.02;
const operator: SteeringSettings = {
  ...{ kind: "operator", gain: 0.5, delay: 0, threshold: 0.1, rateLimit: 0.2, within: 5 },
};
const below = (z: number, x = -1): Float64Array => Float64Array.of(x, 0, z);

describe("steering of the boom", () => {
  it("moves the tip down to a probe below it, beyond the threshold, up to the limit", () => {
    const steering = new BoomSteering(operator, TICK);
    const rate = (z: number) => steering.step(below(z), true);
    expect(rate(0.1)).toBe(0);
    expect(rate(0.3)).toBeCloseTo(0.1, 12);
    expect(rate(-0.3)).toBeCloseTo(-0.1, 12);
    expect(rate(3)).toBe(0.2);
    expect(rate(-3)).toBe(-0.2);
  });

  it("rests unless closing and near", () => {
    const steering = new BoomSteering(operator, TICK);
    expect(steering.step(below(1), false)).toBe(0);
    expect(steering.step(below(1, -6), true)).toBe(0);
    expect(new BoomSteering({ kind: "none" }, TICK).step(below(1), true)).toBe(0);
  });

  it("is late by exactly its delay, and forgets it at the start of a sample", () => {
    const steering = new BoomSteering({ ...operator, delay: 0.1 }, TICK);
    const rates = (): number[] => [0, 0, 1, 1, 1, 1, 1, 1, 1].map((z) => steering.step(below(z), true));
    expect(rates()).toEqual([0, 0, 0, 0, 0, 0, 0, 0.2, 0.2]);
    steering.restart();
    expect(rates()).toEqual([0, 0, 0, 0, 0, 0, 0, 0.2, 0.2]);
  });

  it.each([
    [{ gain: -1 }, "gain"],
    [{ threshold: -1 }, "threshold"],
    [{ rateLimit: 0 }, "rateLimit"],
    [{ within: 0 }, "within"],
    [{ delay: 0.013 }, "delay"],
  ])("refuses %j", (change, word) => {
    expect(() => new BoomSteering({ ...operator, ...change }, TICK)).toThrow(DomainError);
    expect(() => new BoomSteering({ ...operator, ...change }, TICK)).toThrow(word);
  });

  it.each([
    ["rest", "none", "nobody"],
    ["mouth", "none", "the aircraft"],
    ["rest", "automatic", "the boom"],
    ["mouth", "operator", "both"],
  ] as const)("aim %s, steering %s: %s chases", (aim, kind, who) => {
    expect(chasing({ aim }, kind === "none" ? { kind } : { ...operator, kind })).toBe(who);
  });
});
