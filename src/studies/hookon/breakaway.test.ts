import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { breakawayCurve } from "./breakaway.ts";

const plan = {
  ...{ reactions: [0.5, 1, 1.5, 2, 3], gap: 2, closing: 0.5, goesOn: 0 },
  carried: { acceleration: 2, lag: 0 },
  carrier: { acceleration: 0.5, lag: 0, reaction: 1 },
  planned: 1,
};

describe("breakawayCurve", () => {
  const curve = breakawayCurve(plan, 0.5);

  it("without lag and with a steady closing rate: g − c·r − c²/2a", () => {
    for (const { reaction_s: r, alone_m } of curve.points) {
      expectClose(alone_m!, 2 - 0.5 * r - 0.25 / 4, { rtol: 1e-9, why: "root finding" });
    }
    expectClose(curve.longestReaction_s!, (1.5 - 0.25 / 4) / 0.5, { rtol: 1e-6, why: "root finding" });
    expectClose(curve.planned_m!, 2 - 0.5 - 0.25 / 4, { rtol: 1e-9, why: "root finding" });
  });

  it("falls with the reaction, and a carrier that climbs never takes away", () => {
    const worse = breakawayCurve({ ...plan, goesOn: 0.3 }, 0.5).points;
    worse.forEach(({ alone_m, both_m }, i) => {
      expect(both_m!).toBeGreaterThanOrEqual(alone_m! - 1e-9);
      if (i > 0) expect(alone_m!).toBeLessThan(worse[i - 1].alone_m!);
    });
  });

  it("says null where they never part and where the carrier does not climb", () => {
    const still = breakawayCurve({ ...plan, carried: { acceleration: 0, lag: 0 }, carrier: null }, 0.5);
    expect(still.points.every(({ alone_m, both_m }) => alone_m === null && both_m === null)).toBe(true);
    expect(still.longestReaction_s).toBeNull();
  });
});
