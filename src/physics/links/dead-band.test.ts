import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fundamentalShare } from "../../../reference/analytic/dead-band/closed-form.ts";
import { deadZone } from "../../../reference/analytic/describing-functions/closed-form.ts";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import { deadBandForce, deadBandShare, PinLink } from "./index.ts";

// Closed forms: analytic/dead-band, analytic/describing-functions.

const band = { stiffness: 3e6, damping: 400, clearance: 2e-4 };

/** (1/π)∮F·sin or ·cos over one cycle by the trapezoidal rule, panels between the corners of the force. */
function fundamental(force: (phase: number) => number, weight: (phase: number) => number, corner: number): number {
  const corners = [0, corner, Math.PI - corner, Math.PI, Math.PI + corner, 2 * Math.PI - corner, 2 * Math.PI];
  let sum = 0;
  for (let k = 0; k + 1 < corners.length; k++) {
    const [a, b] = [corners[k], corners[k + 1]];
    const n = 400;
    for (let i = 0; i < n; i++) {
      // Gauss–Legendre, two points a panel, never on a corner
      const [middle, half] = [a + ((i + 0.5) * (b - a)) / n, (b - a) / (2 * n)];
      for (const s of [-1, 1]) {
        const phase = middle + (s * half) / Math.sqrt(3);
        sum += half * force(phase) * weight(phase);
      }
    }
  }
  return sum / Math.PI;
}

describe("dead band", () => {
  it("does nothing inside, bites beyond, and is odd", () => {
    expect(deadBandForce(band, 1.9e-4, 5)).toBe(0);
    expectClose(deadBandForce(band, 5e-4, 0.01), 3e6 * 3e-4 + 4, { rtol: 1e-12, why: "k·(x − δ) + c·ẋ" });
    expect(deadBandForce(band, -5e-4, -0.01)).toBe(-deadBandForce(band, 5e-4, 0.01));
    const tight = { ...band, clearance: 0 };
    expectClose(deadBandForce(tight, 0, 0.01), 4, { rtol: 1e-12, why: "a damper without clearance acts at zero too" });
  });
  it("has the describing function of the closed form, and of the force by quadrature", () => {
    for (const ratio of [1.0001, 1.01, 1.3, 2, 7, 150]) {
      const X = ratio * band.clearance;
      const why = "closed form against closed form, and quadrature of a piecewise smooth force";
      expectClose(deadBandShare(ratio), fundamentalShare(X, band.clearance), { rtol: 1e-9, atol: 1e-12, why });
      expectClose(deadBandShare(ratio), deadZone(X, band.clearance), { rtol: 1e-9, atol: 1e-12, why });
      const spring = { ...band, damping: 0 };
      const b1 = fundamental((t) => deadBandForce(spring, X * Math.sin(t), 0), Math.sin, Math.asin(1 / ratio));
      expectClose(b1 / (3e6 * X), deadBandShare(ratio), { rtol: 1e-7, atol: 1e-10, why });
    }
  });
  it("gives its damper the same share as its spring", () => {
    const omega = 5;
    const damper = { ...band, stiffness: 0 };
    for (const ratio of [1.05, 1.6, 12]) {
      const X = ratio * band.clearance;
      const force = (t: number) => deadBandForce(damper, X * Math.sin(t), omega * X * Math.cos(t));
      const a1 = fundamental(force, Math.cos, Math.asin(1 / ratio));
      expectClose(a1 / (400 * omega * X), deadBandShare(ratio), { rtol: 1e-7, why: "quadrature" });
    }
  });
  it("grows from nothing to the whole spring, and never falls", () => {
    expect(deadBandShare(0)).toBe(0);
    expect(deadBandShare(1)).toBe(0);
    expectClose(deadBandShare(1e6), 1, { atol: 2e-6, why: "1 − (4/π)·δ/X" });
    fc.assert(
      fc.property(fc.double({ min: 1, max: 1e3, noNaN: true }), fc.double({ min: 1, max: 2, noNaN: true }), (a, f) => {
        expect(deadBandShare(a * f)).toBeGreaterThanOrEqual(deadBandShare(a));
      }),
      { seed: 7 },
    );
  });
  it("refuses what cannot be", () => {
    expect(() => deadBandShare(Number.NaN)).toThrow(DomainError);
    const leg = { pin: [0, 0, 0], root: [0, 0, 0], restLateral: 0, along: band, lateral: band } as const;
    expect(() => new PinLink({ ...leg, restLength: 0 })).toThrow("length of a leg");
    expect(() => new PinLink({ ...leg, restLength: 1, along: { ...band, clearance: -1e-4 } })).toThrow("clearance");
  });
});
