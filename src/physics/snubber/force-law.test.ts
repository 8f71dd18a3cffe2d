import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import { requireLaw } from "./force-law.ts";
import { plainLaw, reliefSpeed, type SnubberForceLaw, travelRate, valveForce } from "./index.ts";

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const laws = fc.record({
  linear: number(1, 1e4),
  quadratic: number(0, 1e5),
  relief: number(10, 2e4),
  reliefRate: number(1, 1e4),
  friction: number(0, 500),
});
const closed = { rtol: 1e-11, atol: 1e-9, why: "closed forms put back into the law" };

/** Speed at a valve force, by the flows: what passes the restrictions and what passes the relief valve. */
function flowSpeed({ linear, quadratic, relief, reliefRate }: SnubberForceLaw, force: number): number {
  let [low, high] = [0, force / linear];
  for (let i = 0; i < 200; i++) {
    const middle = 0.5 * (low + high);
    if (linear * middle + quadratic * middle * middle < force) low = middle;
    else high = middle;
  }
  return 0.5 * (low + high) + Math.max(0, force - relief) / reliefRate;
}

describe("valveForce", () => {
  it("is the force at which the two passages carry the flow, shut and open", () => {
    fc.assert(
      fc.property(laws, number(1, 4e4), (law, force) => {
        expectClose(valveForce(law, flowSpeed(law, force)), force, { rtol: 1e-9, why: "bisection of the flow" });
      }),
      { seed: 21 },
    );
  });

  it("is odd, rises, and takes energy", () => {
    fc.assert(
      fc.property(laws, number(1e-6, 5), number(1e-6, 1), (law, v, more) => {
        expect(valveForce(law, -v)).toBe(-valveForce(law, v));
        expect(valveForce(law, v) * v).toBeGreaterThan(0);
        expect(valveForce(law, v + more)).toBeGreaterThan(valveForce(law, v));
      }),
      { seed: 22 },
    );
  });

  it("is C1·v + C2·v² without a relief valve, and continuous where one opens", () => {
    const law = plainLaw({ linear: 300, quadratic: 5e3 });
    expect(valveForce(law, 2)).toBe(300 * 2 + 5e3 * 4);
    expect(reliefSpeed(law)).toBe(Number.POSITIVE_INFINITY);
    const with_ = { ...law, relief: 5000, reliefRate: 400 };
    const opens = reliefSpeed(with_);
    expectClose(valveForce(with_, opens), 5000, closed);
    expectClose(valveForce(with_, opens + 1e-9), 5000, { rtol: 1e-8, why: "just open" });
  });

  it("stays at the setting with a relief valve of no rise", () => {
    const law = { linear: 300, quadratic: 5e3, relief: 5000, reliefRate: 0, friction: 0 };
    expectClose(valveForce(law, 3), 5000, closed);
    expectClose(valveForce(law, 30), 5000, closed);
  });
});

describe("travelRate", () => {
  it("put back into the law gives the load", () => {
    fc.assert(
      fc.property(laws, number(0, 2e3), number(-5e4, 5e4), (law, c, load) => {
        const w = travelRate(law, c, load);
        if (w === 0) {
          expect(Math.abs(load)).toBeLessThanOrEqual(law.friction + 1e-300);
          return;
        }
        expectClose(c * w + valveForce(law, w) + law.friction * Math.sign(w), load, closed);
      }),
      { seed: 23, numRuns: 500 },
    );
  });

  it("holds with a relief valve of no rise beside a dashpot", () => {
    const law = { linear: 300, quadratic: 5e3, relief: 5000, reliefRate: 0, friction: 0 };
    expectClose(travelRate(law, 200, 6000), 5, closed);
  });

  it("sticks up to the friction and grows from zero beyond it", () => {
    const law = { ...plainLaw({ linear: 0, quadratic: 2e4 }), friction: 30 };
    expect(travelRate(law, 0, 30)).toBe(0);
    expect(travelRate(law, 0, -29)).toBe(0);
    expectClose(travelRate(law, 0, -30 - 2e4 * 0.01), -0.1, closed);
  });
});

describe("requireLaw", () => {
  const law = plainLaw({ linear: 1, quadratic: 1 });
  it.each([
    ["C1", { ...law, linear: -1 }],
    ["C2", { ...law, quadratic: Number.NaN }],
    ["reliefRate", { ...law, reliefRate: -1 }],
    ["friction", { ...law, friction: Number.POSITIVE_INFINITY }],
    ["relief setting", { ...law, relief: 0 }],
  ])("refuses a bad %s", (key, bad) => {
    expect(() => requireLaw(bad)).toThrow(DomainError);
    expect(() => requireLaw(bad)).toThrow(`snubber ${key} is`);
  });
});
