import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { TableFlow, uniformFlow } from "./index.ts";

const DEGREE = Math.PI / 180;
const table = {
  below: Float64Array.of(1, 3, 5, 8),
  downwash: Float64Array.of(0.5, 0.9, 1.3, 1.9).map((x) => x * DEGREE),
  sidewash: Float64Array.of(0, 0.2, 0.1, 0).map((x) => x * DEGREE),
  pressureRatio: Float64Array.of(0.9, 0.94, 0.98, 0.99),
};
const flow = new TableFlow(table, 120);
const moved = (below: number, of: { evaluate(b: number, out: Float64Array): void } = flow): Float64Array => {
  const out = new Float64Array(3);
  of.evaluate(below, out);
  return out;
};

describe("flow of the carrier from a table", () => {
  it("deflects the stream by both angles at the local speed", () => {
    const [x, y, z] = moved(3);
    const local = [120 - x, y, z];
    expectClose(Math.hypot(...local), 120 * Math.sqrt(0.94), { rtol: 1e-12, why: "row of the table" });
    expectClose(Math.atan2(z, 120 - x), 0.9 * DEGREE, { rtol: 1e-12, why: "row of the table" }, "downwash");
    expectClose(
      Math.asin(y / Math.hypot(...local)),
      0.2 * DEGREE,
      { rtol: 1e-12, why: "row of the table" },
      "sidewash",
    );
    expect(z).toBeGreaterThan(0);
    expect(y).toBeGreaterThan(0);
  });

  it("says the slopes of a straight piece", () => {
    const at = flow.at(4);
    expectClose(at.perMetre.downwash, 0.2 * DEGREE, { rtol: 1e-6, why: "straight line, differences" });
    expectClose(flow.at(1).perMetre.downwash, 0.2 * DEGREE, { rtol: 1e-3, why: "one-sided at the end" });
    expectClose(at.downwash, 1.1 * DEGREE, { rtol: 1e-9, why: "straight line" });
  });

  it("gives no slope, no angle and no zero beyond its ends", () => {
    expect([0.99, 1, 8, 8.01].map((below) => flow.inside(below))).toEqual([false, true, true, false]);
    expect(flow.inside(Number.NaN)).toBe(false);
    expect(() => flow.at(8.01)).toThrow("place below the boom hinge");
    expectAllClose(moved(20), moved(8), { atol: 0, why: "end value for iterations that pass" });
  });

  it("refuses tables and speeds that mean nothing", () => {
    expect(() => new TableFlow(table, 0)).toThrow("true airspeed");
    expect(() => new TableFlow({ ...table, below: Float64Array.of(1, 5, 3, 8) }, 120)).toThrow();
    expect(() => new TableFlow({ ...table, pressureRatio: Float64Array.of(1, 0, 1, 1) }, 120)).toThrow(
      "pressure ratio",
    );
  });

  it("can be held as it is at one place", () => {
    const held = uniformFlow(flow, 4);
    expectAllClose(moved(7, held), moved(4), { atol: 0, why: "same flow everywhere" });
  });
});
