import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import { type BreakawaySettingsTwoBodies, breakawayGap, longestReaction } from "./breakaway.ts";

const base: BreakawaySettingsTwoBodies = {
  ...{ gap: 5, closing: 0.8, closingAcceleration: 0.3 },
  carried: { reaction: 1.2, acceleration: 2, lag: 0.5 },
  carrier: { reaction: 2, acceleration: 0.6, lag: 1.5 },
};
const positive = (most: number) => fc.double({ min: 0, max: most, noNaN: true });
const leaving = fc.record({
  reaction: positive(3),
  acceleration: fc.double({ min: 0.3, max: 5, noNaN: true }),
  lag: positive(2),
});
const any = fc.record({
  ...{ gap: fc.double({ min: 0, max: 20, noNaN: true }), closing: positive(3), closingAcceleration: positive(1) },
  ...{ carried: leaving, carrier: fc.option(leaving, { nil: null }) },
});

/** The same by stepping the two motions: accelerations through their lags. */
function stepped({ gap, closing, closingAcceleration: b, carried, carrier }: BreakawaySettingsTwoBodies): number {
  const dt = 1e-3;
  let g = gap;
  let rate = -closing;
  let least = gap;
  for (let k = 0; k < 40_000; k++) {
    const t = (k + 0.5) * dt;
    let a = t < carried.reaction ? -b : 0;
    for (const one of carrier === null ? [carried] : [carried, carrier]) {
      const s = t - one.reaction;
      if (s > 0) a += one.acceleration * (one.lag > 0 ? 1 - Math.exp(-s / one.lag) : 1);
    }
    g += rate * dt + 0.5 * a * dt * dt;
    rate += a * dt;
    least = Math.min(least, g);
    if (rate > 0 && t > 3 && a > 0) break;
  }
  return least;
}

describe("breakaway of two bodies", () => {
  it("has the closed form of one aircraft without lag", () => {
    for (const r of [0, 0.5, 2]) {
      const carried = { reaction: r, acceleration: 2, lag: 0 };
      const { leastGap, at } = breakawayGap({ ...base, carried, carrier: null });
      const speed = 0.8 + 0.3 * r;
      expectClose(leastGap, 5 - 0.8 * r - 0.15 * r * r - speed ** 2 / 4, { atol: 1e-12, why: "README eq. 16" });
      expectClose(at, r + speed / 2, { atol: 1e-9, why: "v/a after the reaction" });
    }
  });

  it("agrees with motions stepped in time", () => {
    fc.assert(
      fc.property(any, (settings) => {
        const least = Math.max(-1e9, stepped(settings));
        expectClose(breakawayGap(settings).leastGap, least, { atol: 5e-3, rtol: 1e-3, why: "steps of 1 ms" });
      }),
      { numRuns: 40 },
    );
  });

  it("never gains by a slower reaction, a longer lag, less acceleration or a carrier that stays", () => {
    fc.assert(
      fc.property(any, positive(1), (settings, more) => {
        const gap = (change: Partial<BreakawaySettingsTwoBodies["carried"]>) =>
          breakawayGap({ ...settings, carried: { ...settings.carried, ...change } }).leastGap;
        const { reaction, lag, acceleration } = settings.carried;
        const now = gap({}) + 1e-9;
        expect(gap({ reaction: reaction + more })).toBeLessThanOrEqual(now);
        expect(gap({ lag: lag + more })).toBeLessThanOrEqual(now);
        expect(gap({ acceleration: acceleration / (1 + more) })).toBeLessThanOrEqual(now);
        expect(breakawayGap({ ...settings, carrier: null }).leastGap).toBeLessThanOrEqual(now);
      }),
    );
  });

  it("says when they touch, and when nothing ends the closing", () => {
    expect(breakawayGap(base).outcome).toBe("clear");
    expect(breakawayGap({ ...base, gap: 0.5 }).outcome).toBe("touches");
    const limp = { ...base, carried: { ...base.carried, acceleration: 0 }, carrier: null };
    expect(breakawayGap(limp)).toEqual({ outcome: "never parts", leastGap: -Infinity, at: Infinity });
    expect(breakawayGap({ ...limp, closing: 0, closingAcceleration: 0 })).toEqual({
      outcome: "clear",
      leastGap: 5,
      at: 0,
    });
  });

  it("gives the longest reaction that keeps a distance", () => {
    const longest = longestReaction(base, 2, 10)!;
    const { leastGap } = breakawayGap({ ...base, carried: { ...base.carried, reaction: longest } });
    expectClose(leastGap, 2, { atol: 1e-7, why: "root" });
    // 5 − 1·r − 1²/(2·2) = 2: r = 2.75
    const plain = { gap: 5, closing: 1, closingAcceleration: 0, carrier: null };
    const carried = { reaction: 0, acceleration: 2, lag: 0 };
    expectClose(longestReaction({ ...plain, carried }, 2, 10)!, 2.75, { atol: 1e-7, why: "by hand" });
    expect(longestReaction({ ...plain, carried }, 6, 10)).toBeNull();
    expect(longestReaction({ ...plain, carried }, 2, 1)).toBe(1);
  });

  it("refuses what is negative or not finite", () => {
    expect(() => breakawayGap({ ...base, closing: -1 })).toThrow(DomainError);
    expect(() => breakawayGap({ ...base, gap: Number.NaN })).toThrow("gap");
    expect(() => breakawayGap({ ...base, carried: { ...base.carried, lag: -1 } })).toThrow("lag");
    expect(() => longestReaction(base, 1, 0)).toThrow(DomainError);
  });
});
