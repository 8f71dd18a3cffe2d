import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import { NonlinearPath, type NonlinearSnubber, plainLaw, type TangentialRates, valveForce } from "./index.ts";

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const RATES: TangentialRates = { bending: 60e3, bendingDamping: 230, accumulator: 40e3, snubber: 0 };
const motions = fc.record({ x: number(-0.2, 0.2), rate: number(-2, 2), s: number(-0.2, 0.2) });
const rounding = { rtol: 1e-11, atol: 1e-8, why: "the same equation in another order" };
const REAL: NonlinearSnubber = {
  law: { linear: 300, quadratic: 2e4, relief: 900, reliefRate: 500, friction: 25 },
  freePlay: 0,
};

describe("NonlinearPath", () => {
  it("with a linear law is the linear relaxing path", () => {
    const path = new NonlinearPath(RATES, { law: plainLaw({ linear: 1500, quadratic: 0 }), freePlay: 0 }, 0);
    fc.assert(
      fc.property(motions, ({ x, rate, s }) => {
        const { bending, bendingDamping, accumulator } = RATES;
        path.evaluate(x, rate, s);
        const w = (bending * (x - s) + bendingDamping * rate - accumulator * s) / (1500 + bendingDamping);
        expectClose(path.travelRate, w, rounding, "rate");
        expectClose(path.force, accumulator * s + 1500 * w, rounding, "force");
      }),
      { seed: 41 },
    );
  });

  it("carries one force through boom, accumulator and snubber", () => {
    const path = new NonlinearPath(RATES, REAL, -1600);
    fc.assert(
      fc.property(motions, ({ x, rate, s }) => {
        path.evaluate(x, rate, s);
        const w = path.travelRate;
        const resists = path.force - RATES.accumulator * s;
        if (w === 0) expect(Math.abs(resists)).toBeLessThanOrEqual(REAL.law.friction + 1e-8);
        else expectClose(resists, valveForce(REAL.law, w) + Math.sign(w) * REAL.law.friction, rounding);
      }),
      { seed: 42 },
    );
  });

  it("takes energy: what goes in is stored or lost, whatever the law", () => {
    // power in P·ẋ, stored k_b·e·ė + k_a·s·ṡ; the rest leaves in dampers, snubber and seals
    const path = new NonlinearPath(RATES, REAL, 0);
    fc.assert(
      fc.property(motions, ({ x, rate, s }) => {
        path.evaluate(x, rate, s);
        const w = path.travelRate;
        const stored = RATES.bending * (x - s) * (rate - w) + RATES.accumulator * s * w;
        const lost = path.force * rate - stored;
        expect(lost).toBeGreaterThanOrEqual(-1e-9 * (1 + Math.abs(stored)));
      }),
      { seed: 43 },
    );
  });

  it("scales: λ times the motion with C2/λ gives λ times the force", () => {
    fc.assert(
      fc.property(motions, number(0.1, 10), ({ x, rate, s }, factor) => {
        const one = new NonlinearPath(RATES, { law: plainLaw({ linear: 200, quadratic: 2e4 }), freePlay: 0 }, 0);
        const law = plainLaw({ linear: 200, quadratic: 2e4 / factor });
        const other = new NonlinearPath(RATES, { law, freePlay: 0 }, 0);
        one.evaluate(x, rate, s);
        other.evaluate(factor * x, factor * rate, factor * s);
        expectClose(other.force, factor * one.force, { ...rounding, rtol: 1e-10 });
      }),
      { seed: 44 },
    );
  });

  it("is the linear path of the bleed in the limit of small motion", () => {
    const path = new NonlinearPath(RATES, { law: plainLaw({ linear: 800, quadratic: 2e4 }), freePlay: 0 }, 0);
    const w0 = (60e3 * 0.5 + 230 * 1 - 40e3 * 0.25) / (800 + 230);
    for (const [small, rtol] of [
      [1e-4, 1e-1],
      [1e-6, 1e-3],
      [1e-8, 1e-5],
    ]) {
      path.evaluate(0.75 * small, small, 0.25 * small);
      expectClose(path.travelRate / small, w0, { rtol, why: "the orifice's share falls with the amplitude" });
    }
  });

  describe("free play", () => {
    const play = (preload: number): NonlinearPath => new NonlinearPath(RATES, { ...REAL, freePlay: 2e-3 }, preload);

    it("is not felt while the joint keeps its load", () => {
      const plain = new NonlinearPath(RATES, REAL, -1600);
      const path = play(-1600);
      for (const e of [-0.1, 0, 1600 / 60e3 - 1e-6]) {
        plain.evaluate(e, 0.3, 0);
        path.evaluate(e, 0.3, 0);
        expect(path.contact).toBe("loaded");
        expect(path.force).toBe(plain.force);
      }
    });

    it.each([1600, -1600])("opens where the load of %d N is gone and takes up again beyond the play", (preload) => {
      const path = play(preload);
      const sense = Math.sign(preload);
      const loose = -preload / 60e3;
      path.evaluate(loose - sense * 1e-3, 0, 0);
      expect(path.contact).toBe("open");
      expect(path.force).toBe(-preload);
      // beyond the other stop the whole joint pushes the other way
      path.evaluate(loose - sense * 5e-3, 0, 0);
      expect(path.contact).toBe("other");
      const w = path.travelRate;
      const elastic = -preload - sense * 60e3 * 3e-3;
      expectClose(path.force, elastic - 230 * w, rounding);
    });
  });

  it.each([
    ["a rigid boom", { ...RATES, bending: Number.POSITIVE_INFINITY }, REAL],
    ["no resistance", { ...RATES, bendingDamping: 0 }, { law: plainLaw({ linear: 0, quadratic: 0 }), freePlay: 0 }],
    ["a negative play", RATES, { ...REAL, freePlay: -1 }],
    ["a relief valve without rise and play", RATES, { law: { ...REAL.law, reliefRate: 0 }, freePlay: 1e-3 }],
  ])("refuses %s", (_, rates, snubber) => {
    expect(() => new NonlinearPath(rates, snubber, 0)).toThrow(DomainError);
  });
});
