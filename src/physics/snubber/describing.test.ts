import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  coulomb,
  deadZone,
  fundamental,
  quadratic,
  saturation,
} from "../../../reference/analytic/describing-functions/closed-form.ts";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import {
  describingRate,
  equivalentSnubberRate,
  plainLaw,
  type SnubberForceLaw,
  speedsWithRate,
  valveForce,
} from "./index.ts";

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const rounding = { rtol: 1e-12, why: "the same terms in another order" };
const points = { rtol: 1e-9, why: "midpoint rule with 200 000 points on a function with kinks" };

describe("closed forms of the reference", () => {
  it("are their integrals", () => {
    expectClose(
      fundamental((v) => v * Math.abs(v), 0.3),
      quadratic(0.3),
      points,
    );
    expectClose(fundamental(Math.sign, 0.3), coulomb(0.3), points);
    expectClose(
      fundamental((v) => Math.max(-0.1, Math.min(0.1, v)), 0.3),
      saturation(0.3, 0.1),
      points,
    );
    const dead = (x: number) => Math.sign(x) * Math.max(0, Math.abs(x) - 0.1);
    expectClose(fundamental(dead, 0.3), deadZone(0.3, 0.1), points);
  });
});

describe("describingRate", () => {
  const none: SnubberForceLaw = plainLaw({ linear: 0, quadratic: 0 });

  it("adds orifice, bleed and friction in closed form", () => {
    const law = { ...none, linear: 700, quadratic: 2e4, friction: 40 };
    expectClose(describingRate(law, 0.2), 700 + 2e4 * quadratic(0.2) + 40 * coulomb(0.2), rounding);
    const plain = plainLaw({ linear: 700, quadratic: 2e4 });
    expectClose(describingRate(plain, 0.05 * 4), equivalentSnubberRate(plain, 0.05, 4), rounding);
  });

  it("is a saturation for a bleed with a relief valve of no rise", () => {
    const law = { ...none, linear: 1000, relief: 120 };
    for (const speed of [0.05, 0.12, 0.13, 0.5, 40]) {
      expectClose(describingRate(law, speed), 1000 * saturation(speed, 0.12), { rtol: 1e-9, why: "Gauss rule" });
    }
  });

  it("is the fundamental of the force for any law", () => {
    const law = { linear: 300, quadratic: 2e4, relief: 900, reliefRate: 500, friction: 25 };
    for (const speed of [0.1, 0.21, 0.3, 2]) {
      const direct = fundamental((v) => valveForce(law, v) + 25 * Math.sign(v), speed);
      expectClose(describingRate(law, speed), direct, points, `at ${speed}`);
    }
  });

  it("falls to the rise of the relief valve in large motion", () => {
    const law = { linear: 300, quadratic: 2e4, relief: 900, reliefRate: 500, friction: 25 };
    const far = describingRate(law, 1e5);
    // the passages still open with the square root of the force
    expect(far).toBeLessThan(500);
    expect(far).toBeGreaterThan(470);
  });

  it("refuses a speed of nothing and a law that cannot be", () => {
    expect(() => describingRate(none, 0)).toThrow(DomainError);
    expect(() => describingRate({ ...none, linear: -1 }, 1)).toThrow("snubber C1 is");
  });
});

describe("speedsWithRate", () => {
  it("inverts the pure orifice, so that the amplitude goes exactly with 1/C2", () => {
    fc.assert(
      fc.property(number(1e3, 1e5), number(50, 5e3), (c2, rate) => {
        const [found, ...more] = speedsWithRate(plainLaw({ linear: 0, quadratic: c2 }), rate, 1e-6, 1e3);
        expect(more).toEqual([]);
        expect(found.rises).toBe(true);
        expectClose(found.speed, (rate * 3 * Math.PI) / (8 * c2), { rtol: 1e-12, why: "bisection to the last digits" });
      }),
      { seed: 31 },
    );
  });

  it("finds two with friction: stiff when small, stiff when large", () => {
    const law = { ...plainLaw({ linear: 0, quadratic: 2e4 }), friction: 30 };
    const found = speedsWithRate(law, 3000, 1e-5, 10);
    expect(found.map(({ rises }) => rises)).toEqual([false, true]);
    for (const { speed } of found) expectClose(describingRate(law, speed), 3000, { rtol: 1e-9, why: "a root" });
  });

  it("finds none that the law does not reach", () => {
    expect(speedsWithRate(plainLaw({ linear: 500, quadratic: 1e3 }), 400, 1e-6, 10)).toEqual([]);
  });
});
