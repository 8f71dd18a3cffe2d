import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { RingDown } from "./ring-down.ts";

function ringOf(zeta: number, hertz: number, more: (t: number) => number = () => 0): RingDown {
  const ring = new RingDown(1e-9);
  const omega = 2 * Math.PI * hertz;
  const sigma = (zeta * omega) / Math.sqrt(1 - zeta * zeta);
  for (let k = 0; k < 800; k++) {
    const t = 0.01 * k;
    ring.take(t, 0.01, 0.2 * Math.exp(-sigma * t) * Math.sin(omega * t + 0.4) + more(t));
  }
  ring.settle();
  return ring;
}

describe("damping from peaks", () => {
  it.each([
    [0.02, 0.8],
    [0.1, 0.7],
    [-0.03, 0.85],
    [0.25, 0.7],
  ])("ζ %d at %d Hz", (zeta, hertz) => {
    const ring = ringOf(zeta, hertz);
    expectClose(ring.dampingRatio, zeta, {
      rtol: 0.01,
      atol: 1e-4,
      why: "the midpoint of a half swing is not its time",
    });
    expectClose(ring.frequency, hertz, { rtol: 2e-3, why: "parabola through three samples" });
    if (Math.abs(zeta) < 0.2) expect(ring.growth > 1).toBe(zeta < 0);
  });

  it("an offset changes nothing, chatter little", () => {
    expectClose(ringOf(0.05, 0.8, () => 3).dampingRatio, 0.05, { rtol: 0.01, why: "differences of extremes" });
    const chatter = ringOf(0.02, 0.8, (t) => 0.002 * Math.sin(2 * Math.PI * 11 * t));
    expectClose(chatter.dampingRatio, 0.02, { atol: 4e-3, why: "chatter of 1 %" });
    expectClose(chatter.frequency, 0.8, { rtol: 0.02, why: "chatter of 1 %" });
  });

  it("says nothing of what does not swing", () => {
    const ring = new RingDown(1e-6);
    for (let k = 0; k < 100; k++) ring.take(0.01 * k, 0.01, k < 50 ? 1e-9 * (k % 3) : 0);
    ring.settle();
    expect([ring.dampingRatio, ring.frequency, ring.growth]).toEqual([Number.NaN, Number.NaN, Number.NaN]);
  });
});
