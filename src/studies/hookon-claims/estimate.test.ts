import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { fisherExact } from "../../math/distributions/index.ts";
import {
  attemptsToCarry,
  checkPrediction,
  claimVerdict,
  estimateShare,
  groupingOf,
  learningOf,
  missScatter,
} from "./estimate.ts";
import type { Attempt } from "./settings.ts";

const FLAT = { hits: 1, misses: 1 };

function attempt(captured: boolean, rest: Partial<Attempt> = {}): Attempt {
  const outcome = captured ? "locked" : "missed";
  return { turbulence: "light", outcome, captured, light: null, controller: null, miss: null, ...rest };
}

describe("estimate of a share", () => {
  it("18 of 20: 72 % with 95 % confidence, one-sided", () => {
    const found = estimateShare({ hits: 18, of: 20 }, 0.95, FLAT);
    expectClose(found.lower_1, 0.7174, { atol: 5e-5, why: "72 % as the task states it, two more digits by SciPy" });
    expect(found.exact.lower_1).toBeLessThan(found.lower_1);
    expectClose(found.posterior.mean_1, 19 / 22, { rtol: 1e-15, why: "closed form" });
  });

  it("bounds enclose the share, and the verdict follows from them", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 60 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        (of, part, target) => {
          const found = estimateShare({ hits: Math.round(part * of), of }, 0.9, FLAT);
          expect(found.lower_1).toBeLessThanOrEqual(found.share_1! + 1e-12);
          expect(found.upper_1).toBeGreaterThanOrEqual(found.share_1! - 1e-12);
          const verdict = claimVerdict(found, target);
          expect(verdict === "demonstrated").toBe(target <= found.lower_1);
          expect(verdict === "shown to fall short").toBe(target > found.upper_1);
        },
      ),
    );
  });

  it("no attempts say nothing; no capture carries no fuel that is enough", () => {
    const none = estimateShare({ hits: 0, of: 0 }, 0.95, FLAT);
    expect([none.share_1, none.lower_1, none.upper_1]).toEqual([null, 0, 1]);
    expect(claimVerdict(none, 0.5)).toBe("no attempts");
    expectClose(none.posterior.lower_1, 0.025, { atol: 1e-12, why: "the flat prior itself" });
    const failed = attemptsToCarry(estimateShare({ hits: 0, of: 5 }, 0.95, FLAT), 0.99);
    expect([failed.atShare, failed.atLower]).toEqual([null, null]);
    expect(failed.atUpper).toBeGreaterThan(1);
  });

  it("fewer captures never ask for fewer attempts", () => {
    let last = 0;
    for (let hits = 20; hits >= 1; hits--) {
      const { atLower, atShare, atUpper } = attemptsToCarry(estimateShare({ hits, of: 20 }, 0.95, FLAT), 0.999);
      expect(atLower).toBeGreaterThanOrEqual(last);
      expect(atShare).toBeLessThanOrEqual(atLower!);
      expect(atUpper).toBeLessThanOrEqual(atShare!);
      last = atLower!;
    }
  });
});

describe("log against simulation", () => {
  const simulated = { turbulence: "light", title: "simulation", hits: 960, of: 1000, rests: [] };

  it("names the first counts that would show a difference", () => {
    const found = checkPrediction({ hits: 18, of: 20 }, simulated, 0.95);
    expect(found.differs).toBe(false);
    const p = (hits: number) => fisherExact({ hits: [hits, 960], of: [20, 1000] }).twoSided;
    expect(p(found.showsBelow)).toBeLessThan(0.05);
    expect(p(found.showsBelow + 1)).toBeGreaterThanOrEqual(0.05);
    expect(found.showsAbove).toBe(21);
    expect(checkPrediction({ hits: found.showsBelow, of: 20 }, simulated, 0.95).differs).toBe(true);
  });

  it("few attempts show nothing", () => {
    const { showsBelow, showsAbove } = checkPrediction({ hits: 0, of: 1 }, { ...simulated, hits: 500 }, 0.95);
    expect([showsBelow, showsAbove]).toEqual([-1, 2]);
  });
});

describe("groups and halves", () => {
  it("a controller apart from the others is found; words that are missing are left out", () => {
    const log = [
      ...Array.from({ length: 8 }, () => attempt(true, { controller: "pilot A" })),
      ...Array.from({ length: 8 }, (_, i) => attempt(i === 0, { controller: "pilot B" })),
      attempt(false),
    ];
    const found = groupingOf("controller", log, 0.95)!;
    expect(found.groups.map(({ name, hits, of }) => [name, hits, of])).toEqual([
      ["pilot A", 8, 8],
      ["pilot B", 1, 8],
    ]);
    expect(found.least_1).toBeLessThan(0.01);
    expect(groupingOf("light", log, 0.95)).toBeNull();
  });

  it("halves that learn differ, equal halves do not", () => {
    const learned = [...Array(10)].map((_, i) => attempt(i >= 5));
    expectClose(learningOf(learned)!.p_1, 2 / 252, { rtol: 1e-12, why: "2 of 252 divisions" });
    expect(learningOf([...Array(10)].map((_, i) => attempt(i % 2 === 0)))!.p_1).toBeCloseTo(1, 12);
    expect(learningOf([attempt(true)])).toBeNull();
  });
});

describe("misses", () => {
  it("have their sample moments and a share in the circle", () => {
    const miss = (y: number, z: number) => attempt(true, { miss: [y, z] });
    const found = missScatter([miss(0.1, 0), miss(-0.1, 0), miss(0, 0.1), miss(0, -0.1)], 0.2)!;
    expectClose(found.sigmaRight_m, Math.sqrt(0.02 / 3), { rtol: 1e-12, why: "rounding" });
    expectClose(found.correlation_1, 0, { atol: 1e-12, why: "symmetry" });
    expectClose(found.inCircle_1!, -Math.expm1((-0.5 * 0.04) / (0.02 / 3)), { rtol: 1e-10, why: "Rayleigh" });
    expect(found.counted_1).toBe(1);
  });

  it("that are too few or lie on a line have none", () => {
    const line = [0, 1, 2, 3].map((x) => attempt(true, { miss: [x, 2 * x] }));
    expect(missScatter(line, 1)).toBeNull();
    expect(missScatter(line.slice(0, 2), 1)).toBeNull();
    expect(
      missScatter(
        line.map((each) => ({ ...each, miss: null })),
        null,
      ),
    ).toBeNull();
  });
});
