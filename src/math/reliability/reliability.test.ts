import { describe, expect, test } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../errors.ts";
import { boxMinimum, nearestFailure } from "./index.ts";

const zeros = (n: number) => new Float64Array(n);

describe("nearestFailure", () => {
  test("a plane: exact distance, point and importance in any number of inputs", () => {
    const w = [3, -4, 12, 0];
    const found = nearestFailure((u) => 26 - w.reduce((sum, each, j) => sum + each * u[j], 0), 4);
    expect(found.outcome).toBe("converged");
    expectClose(found.distance, 2, { atol: 1e-8, why: "26/13" });
    expectAllClose(
      found.point,
      w.map((each) => (2 * each) / 13),
      { atol: 1e-6, why: "gradient by differences" },
    );
    expectAllClose(
      found.importance,
      w.map((each) => (each / 13) ** 2),
      { atol: 1e-8, why: "gradient by differences" },
    );
  });

  test("an origin that fails has a negative distance", () => {
    const found = nearestFailure((u) => u[0] - 1.5, 2);
    expect(found.outcome).toBe("converged");
    expectClose(found.distance, -1.5, { atol: 1e-8, why: "plane" });
  });

  test("a parabola: u₂ = 3 + ½u₁² is nearest on the axis; bent towards the origin it is nearest aside", () => {
    const away = nearestFailure((u) => 3 + 0.5 * u[0] ** 2 - u[1], 2);
    expectClose(away.distance, 3, { atol: 1e-6, why: "on the axis" });
    // u₂ = 3 − ½(u₁ − 0.05)²: the nearer of its two nearest points by a scan; about √5 at u₁ = ∓2
    const limit = (x: number) => 3 - 0.5 * (x - 0.05) ** 2;
    let nearest = Number.POSITIVE_INFINITY;
    for (let x = -3; x <= 3; x += 1e-4) nearest = Math.min(nearest, Math.hypot(x, limit(x)));
    const towards = nearestFailure((u) => limit(u[0]) - u[1], 2);
    expect(towards.outcome).toBe("converged");
    expectClose(towards.distance, nearest, { rtol: 1e-3, why: "turned until aligned to 0.01 rad" });
    expectClose(nearest, Math.sqrt(5), { rtol: 0.03, why: "shift of 0.05" });
  });

  test("a lognormal resistance over a lognormal load has a closed form", () => {
    const [r, s, a, b] = [5, 3, 0.2, 0.25];
    const found = nearestFailure((u) => r * Math.exp(a * u[0]) - s * Math.exp(b * u[1]), 2);
    expect(found.outcome).toBe("converged");
    expectClose(found.distance, Math.log(r / s) / Math.hypot(a, b), { rtol: 1e-6, why: "differences of step 0.01" });
  });

  test("a corner of two planes is on the limit, and no nearer failure exists", () => {
    const found = nearestFailure((u) => Math.max(2 - u[0], 2 - u[1]), 2);
    expect(["on the limit", "converged"]).toContain(found.outcome);
    expectClose(found.distance, 2 * Math.SQRT2, { rtol: 0.02, why: "found by steps that end at the edge" });
  });

  test("the nearer of two limits", () => {
    const found = nearestFailure((u) => Math.min(2 - u[0], 5 + u[1]), 2);
    expectClose(found.distance, 2, { atol: 1e-6, why: "plane" });
  });

  test("a ray finds a failure that the slope at the origin does not lead to", () => {
    // falls gently along u₁ and never fails there; fails beyond u₂ = 2.5
    const g = (u: Float64Array) => (u[1] > 2 ? 2.5 - u[1] : 0.5 + 0.3 * Math.exp(-u[0]));
    expect(nearestFailure(g, 2)).toMatchObject({ outcome: "not reached", distance: 8 });
    const found = nearestFailure(g, 2, { rays: [Float64Array.of(0.4, 1)] });
    expectClose(found.distance, 2.5, { rtol: 1e-4, why: "turned until aligned to 0.01 rad" });
    expect(found.outcome).toBe("converged");
  });

  test("says when nothing fails within the radius, nothing changes, or there is no value", () => {
    expect(nearestFailure((u) => 20 + u[0], 1)).toMatchObject({ outcome: "not reached", distance: 8 });
    expect(nearestFailure(() => 1, 3).outcome).toBe("flat");
    expect(nearestFailure(() => Number.NaN, 3).outcome).toBe("no value");
    expect(() => nearestFailure(() => 1, 0)).toThrow(DomainError);
  });
});

describe("boxMinimum", () => {
  test("the corner of a monotone function, from any start", () => {
    const f = (x: Float64Array) => 2 * x[0] - 5 * x[1] + Math.exp(0.1 * x[2]);
    const found = boxMinimum(f, 3, [zeros(3), Float64Array.of(9, 1, -1)]);
    expect([...found.point]).toEqual([-3, 3, -3]);
    expect(found.agreeing).toBe(2);
    expect(found.value).toBe(f(found.point));
  });

  test("several starts find a corner that one misses", () => {
    // two coordinates must move together: from the origin no single move helps
    const f = (x: Float64Array) => (x[0] > 1 && x[1] > 1 ? -10 : Math.abs(x[0]) + Math.abs(x[1]));
    expect(boxMinimum(f, 2, [zeros(2)]).value).toBe(0);
    const found = boxMinimum(f, 2, [zeros(2), Float64Array.of(1.5, 1.5)]);
    expect(found).toMatchObject({ value: -10, start: 1, agreeing: 1 });
  });

  test("a valley in the middle, points without value, and refusals", () => {
    expect([...boxMinimum((x) => x[0] ** 2 - x[1], 2, [Float64Array.of(2, 0)]).point]).toEqual([0, 2]);
    const found = boxMinimum((x) => (x[0] > 1 ? Number.NaN : -x[0]), 2, [zeros(1)]);
    expect(found.value).toBeLessThanOrEqual(0);
    expect(() => boxMinimum(() => 0, 0, [zeros(1)])).toThrow(DomainError);
    expect(() => boxMinimum(() => 0, 1, [])).toThrow("number of starts");
  });
});
