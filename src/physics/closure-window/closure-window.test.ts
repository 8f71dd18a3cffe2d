import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import { type ClosureWindowSettings, closureWindow } from "./index.ts";

/** A constant latch force, so that the energies are written down at once. */
const base: ClosureWindowSettings = {
  latch: {
    ...{ travel: Float64Array.of(0, 0.02), force: Float64Array.of(1000, 1000), lockTime: 0.05, lockWindow: 0.01 },
    ...{ stiffness: 1e6, damping: 0, sideStiffness: 4e5, holds: 5e4, holdsHalf: 4e3 },
  },
  buffer: {
    ...{ preload: 2000, stiffness: 3e4, compressionDamping: 0, extensionDamping: 0 },
    ...{ stroke: 0.1, bottomStiffness: 1e6, headMass: 20 },
  },
  aircraft: { along: 1500, boom: 900 },
  tip: { mass: 200, stiffness: 5e4 },
  arc: { stiffness: 4e5, share: 0.6 },
  limits: { axial: 2e4, side: 1.5e4 },
};

describe("closureWindow", () => {
  it("lower end: trip energy and what the tip's spring takes", () => {
    const { lower } = closureWindow(base);
    expectClose(0.5 * 1500 * lower ** 2, 20 + 1000 ** 2 / 1e5, { rtol: 1e-12, why: "round-off" });
  });

  it("a soft tip raises the lower end, a rigid one leaves the trip energy", () => {
    const at = (stiffness: number): number => closureWindow({ ...base, tip: { mass: 200, stiffness } }).lower;
    expect(at(1e4)).toBeGreaterThan(at(1e5));
    expectClose(at(1e15), Math.sqrt(40 / 1500), { rtol: 1e-6, why: "spring energy of a nearly rigid tip" });
  });

  it("a buffer that gives way before the latch trips takes its share", () => {
    const buffer = { ...base.buffer, preload: 600 };
    const { lower } = closureWindow({ ...base, buffer });
    expectClose(0.5 * 1500 * lower ** 2, 20 + 10 + (1e6 - 36e4) / 6e4, { rtol: 1e-12, why: "round-off" });
  });

  it("the least upper end counts and is named", () => {
    const { upper, upperBecause, ends } = closureWindow(base);
    expect(upper).toBe(Math.min(...Object.values(ends)));
    expect(ends[upperBecause]).toBe(upper);
    // P·X + ½·k·X² = 350 J and 5000²/2K = 250 J
    expectClose(ends["buffer comes to its stop"], Math.sqrt(1200 / 1500), { rtol: 1e-12, why: "round-off" });
    expect(ends["push along the probe"]).toBe(Number.POSITIVE_INFINITY);
    expectClose(ends["load across the probe"], 1.5e4 / (0.6 * Math.sqrt(4e5 * 900)), { rtol: 1e-12, why: "round-off" });
  });

  it("a limit load below the buffer's end limits the push before the stop", () => {
    const { ends } = closureWindow({ ...base, limits: { axial: 3500, side: 1.5e4 } });
    expect(ends["push along the probe"]).toBeLessThan(ends["buffer comes to its stop"]);
    const x = 1500 / 3e4;
    const energy = 2000 * x + 0.5 * 3e4 * x * x + 3500 ** 2 / 1e5;
    expectClose(0.5 * 1500 * ends["push along the probe"] ** 2, energy, { rtol: 1e-12, why: "round-off" });
  });

  it("a boom square to the path is never forced onto its arc", () => {
    const { ends } = closureWindow({ ...base, arc: { stiffness: 4e5, share: 0 } });
    expect(ends["load across the probe"]).toBe(Number.POSITIVE_INFINITY);
  });

  it("grows as the square root of the energies over the mass", () => {
    const heavy = closureWindow({ ...base, aircraft: { along: 6000, boom: 900 } });
    expectClose(heavy.lower, closureWindow(base).lower / 2, { rtol: 1e-12, why: "round-off" });
  });

  it("refuses what is not positive", () => {
    expect(() => closureWindow({ ...base, tip: { mass: 0, stiffness: 1 } })).toThrow(DomainError);
    expect(() => closureWindow({ ...base, limits: { axial: Number.NaN, side: 1 } })).toThrow("limit load along");
  });
});
