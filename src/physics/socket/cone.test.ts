import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { coneForces, selfLockingAngle, slidingAngle } from "./index.ts";

const DEGREE = Math.PI / 180;

describe("coneForces", () => {
  it.each([0.1, 0.2, 0.3])("hold themselves below the friction angle of μ = %d and come out above it", (friction) => {
    const angle = selfLockingAngle(friction);
    expectClose(coneForces(angle, friction).extract, 0, { atol: 1e-15, why: "at the friction angle" });
    expect(coneForces(angle - 0.01, friction).extract).toBeGreaterThan(0);
    expect(coneForces(angle + 0.01, friction).extract).toBeLessThan(0);
  });

  it("ratio out over in is (μ − tan α)/(μ + tan α)", () => {
    const t = Math.tan(5 * DEGREE);
    expectClose(coneForces(5 * DEGREE, 0.15).ratio, (0.15 - t) / (0.15 + t), { rtol: 1e-12, why: "divided by cos α" });
  });

  it("without friction force and normal force balance, a sphere of unit load: virtual work", () => {
    // axial travel x opens the cone by x·tan α: F·x = N·x·sin α
    expectClose(coneForces(0.3, 0).insert, Math.sin(0.3), { rtol: 1e-15, why: "virtual work" });
    expectClose(coneForces(0.3, 0).extract, -Math.sin(0.3), { rtol: 1e-15, why: "virtual work" });
  });

  it("the steepest cone that lets slide in and the one that holds add to a right angle", () => {
    expectClose(slidingAngle(0.4) + selfLockingAngle(0.4), Math.PI / 2, { rtol: 1e-15, why: "one friction cone" });
  });

  it("refuses what is no cone or friction", () => {
    expect(() => coneForces(2, 0.1)).toThrow("half angle");
    expect(() => selfLockingAngle(-0.1)).toThrow("friction");
  });
});
