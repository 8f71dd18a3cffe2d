import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../errors.ts";
import { type CurveProblem, liesOnCurve, type TracedCurve, traceCurve } from "./index.ts";

/** (x/a)² + (y/b)² = 1 */
function ellipse(a: number, b: number, box = 10): CurveProblem {
  return {
    size: 2,
    from: [-box, -box],
    to: [box, box],
    evaluate(u, residual, derivatives) {
      residual[0] = (u[0] / a) ** 2 + (u[1] / b) ** 2 - 1;
      derivatives[0] = (2 * u[0]) / a ** 2;
      derivatives[1] = (2 * u[1]) / b ** 2;
      return true;
    },
  };
}
/** Largest distance of chord middles from the unit circle, and largest error of the points. */
function errorsOnCircle({ points }: TracedCurve): { chord: number; point: number } {
  let chord = 0;
  let point = 0;
  points.forEach((u, i) => {
    point = Math.max(point, Math.abs(Math.hypot(u[0], u[1]) - 1));
    if (i === 0) return;
    const before = points[i - 1];
    chord = Math.max(chord, 1 - Math.hypot(0.5 * (u[0] + before[0]), 0.5 * (u[1] + before[1])));
  });
  return { chord, point };
}

describe("traceCurve", () => {
  it("closes a circle, with points on it and chords within the deviation", () => {
    for (const deviation of [1e-2, 1e-3, 1e-4, 1e-5]) {
      const curve = traceCurve(ellipse(1, 1), [0.9, 0.2], { deviation })!;
      expect([curve.closed, ...curve.ends]).toEqual([true, "closed", "closed"]);
      const { chord, point } = errorsOnCircle(curve);
      expect(point).toBeLessThan(1e-12);
      // eq. 3 is exact on a circle to its next order; the last chord ends at the start and may be shorter only
      expect(chord).toBeLessThan(1.02 * deviation);
      expect(curve.points.at(-1)).toEqual(curve.points[0]);
    }
  });

  it("needs points by the inverse square root of the deviation: chords are of order two", () => {
    const count = (deviation: number): number => traceCurve(ellipse(1, 1), [1, 0], { deviation })!.points.length;
    for (const deviation of [1e-3, 1e-4, 1e-5]) {
      const ratio = count(deviation / 16) / count(deviation);
      expectClose(ratio, 4, { rtol: 0.15, why: "whole numbers of points and the first small steps" });
    }
  });

  it("ends on the border, exactly, from any start near the curve", () => {
    const starts = fc.double({ min: -0.45, max: 0.45, noNaN: true });
    fc.assert(
      fc.property(starts, starts, (angle, off) => {
        const start = [(1 + 0.2 * off) * Math.cos(angle), (1 + 0.2 * off) * Math.sin(angle)];
        const problem = { ...ellipse(1, 1), from: [0, -0.8], to: [2, 0.6] };
        const curve = traceCurve(problem, start, { deviation: 1e-4 })!;
        expect(curve.ends).toEqual(["border", "border"]);
        const ends = [curve.points[0], curve.points.at(-1)!].sort((p, q) => p[1] - q[1]);
        for (const [end, y] of [
          [ends[0], -0.8],
          [ends[1], 0.6],
        ] as const) {
          expect(end[1]).toBe(y);
          expectClose(end[0], Math.sqrt(1 - y * y), { atol: 1e-9, why: "tolerance of the corrector" });
        }
      }),
      { seed: 71, numRuns: 60 },
    );
  });

  it("passes folds: the arc length of a cubic through both of its turns", () => {
    // x = y³ − 3y turns back in x at y = ±1
    const problem: CurveProblem = {
      size: 2,
      from: [-20, -2.5],
      to: [20, 2.5],
      evaluate(u, residual, derivatives) {
        residual[0] = u[1] ** 3 - 3 * u[1] - u[0];
        derivatives[0] = -1;
        derivatives[1] = 3 * u[1] ** 2 - 3;
        return true;
      },
    };
    const { points, ends } = traceCurve(problem, [0, 0], { deviation: 1e-5 })!;
    expect(ends).toEqual(["border", "border"]);
    let length = 0;
    for (let i = 1; i < points.length; i++) {
      length += Math.hypot(points[i][0] - points[i - 1][0], points[i][1] - points[i - 1][1]);
    }
    let exact = 0;
    const n = 20000;
    for (let i = 0; i < n; i++) {
      const y = -2.5 + (5 * (i + 0.5)) / n;
      exact += (5 / n) * Math.hypot(1, 3 * y * y - 3);
    }
    expectClose(length, exact, { rtol: 1e-4, why: "chords within 1e-5 of the curve" });
    const turns = points.filter((u, i) => i > 0 && i + 1 < points.length && (points[i + 1][0] - u[0]) * (u[0] - points[i - 1][0]) < 0); // biome-ignore format: a condition
    expect(turns).toHaveLength(2);
    for (const turn of turns) expectClose(Math.abs(turn[0]), 2, { atol: 1e-3, why: "a vertex next to the fold" });
  });

  it("follows two equations in three unknowns: a helix on a cylinder", () => {
    const problem: CurveProblem = {
      size: 3,
      from: [-2, -2, 0],
      to: [2, 2, 9],
      evaluate(u, residual, derivatives) {
        residual[0] = u[0] - Math.cos(u[2]);
        residual[1] = u[1] - Math.sin(u[2]);
        derivatives.set([1, 0, Math.sin(u[2]), 0, 1, -Math.cos(u[2])]);
        return true;
      },
    };
    const curve = traceCurve(problem, [1, 0.1, 0.2], { deviation: 1e-5 })!;
    expect(curve.closed).toBe(false);
    const zs = curve.points.map((u) => u[2]);
    expectClose(Math.abs(zs[0] - zs.at(-1)!), 9, { rtol: 1e-12, why: "both ends on the border" });
    for (const u of curve.points) expectClose(u[0], Math.cos(u[2]), { atol: 1e-9, why: "tolerance" });
  });

  it("shortens its step where the equations cannot be evaluated and says when it is stuck", () => {
    const base = ellipse(1, 1);
    const blind: CurveProblem = {
      ...base,
      evaluate: (u, r, d) => u[0] > 0 && base.evaluate(u, r, d),
    };
    const curve = traceCurve(blind, [1, 0], { deviation: 1e-4 })!;
    expect(curve.ends).toEqual(["stuck", "stuck"]);
    for (const end of [curve.points[0], curve.points.at(-1)!]) {
      expectClose(end[0], 0, { atol: 1e-4, why: "as near as the shortest step" });
    }
  });

  it("does not step over a narrow spike when it holds the middles of chords too, and follows no curve that is known", () => {
    // y = a spike of height 0.2 and width 0.02 at x = 0.05, flat elsewhere: the tangents of both ends of a long chord are alike
    const spike: CurveProblem = {
      size: 2,
      from: [-3, -1],
      to: [3, 1],
      evaluate(u, residual, derivatives) {
        const t = (u[0] - 0.05) / 0.02;
        residual[0] = u[1] - 0.2 * Math.exp(-t * t);
        derivatives[0] = (0.2 * Math.exp(-t * t) * 2 * t) / 0.02;
        derivatives[1] = 1;
        return true;
      },
    };
    const options = { deviation: 1e-3, longestStep: 0.18, firstStep: 0.18 };
    const top = (curve: TracedCurve): number => Math.max(...curve.points.map((u) => u[1]));
    // from −0.0403 the steps of 0.18 have the spike near the middle of one
    const start = [-0.04, 0];
    expect(top(traceCurve(spike, start, options)!)).toBeLessThan(0.01);
    expectClose(top(traceCurve(spike, start, { ...options, middles: true })!), 0.2, {
      atol: 2e-3,
      why: "the deviation",
    });
    const starts: number[][] = [];
    const known = (u: Float64Array): boolean => starts.push(Array.from(u)) > 0;
    expect(traceCurve(ellipse(1, 1), [0.9, 0.2], { deviation: 1e-3, known })).toBeNull();
    expectClose(Math.hypot(...starts[0]), 1, { rtol: 1e-12, why: "asked once the start is on the curve" });
  });

  it("returns null where there is no curve, and refuses what makes no sense", () => {
    const nothing: CurveProblem = {
      ...ellipse(1, 1),
      evaluate(u, r, d) {
        r[0] = u[0] ** 2 + u[1] ** 2 + 1;
        d[0] = 2 * u[0];
        d[1] = 2 * u[1];
        return true;
      },
    };
    expect(traceCurve(nothing, [0.3, 0.4], { deviation: 1e-3 })).toBeNull();
    expect(traceCurve(ellipse(1, 1), [0.9, 0], { deviation: 1e-9, mostPoints: 20 })!.ends).toContain("too many points");
    expect(() => traceCurve(ellipse(1, 1), [1, 0], { deviation: 0 })).toThrow(DomainError);
    expect(() => traceCurve(ellipse(1, 1), [1], { deviation: 1e-3 })).toThrow(DomainError);
    expect(() => traceCurve({ ...ellipse(1, 1), size: 1 }, [1], { deviation: 1e-3 })).toThrow(DomainError);
  });
});

describe("liesOnCurve", () => {
  it("measures to chords, not to points, and only within the distance", () => {
    const curve: TracedCurve = {
      points: [Float64Array.of(0, 0), Float64Array.of(10, 0), Float64Array.of(10, 5)],
      closed: false,
      ends: ["border", "border"],
    };
    expect(liesOnCurve(curve, [5, 0.09], 0.1)).toBe(true);
    expect(liesOnCurve(curve, [5, 0.11], 0.1)).toBe(false);
    expect(liesOnCurve(curve, [10.05, 5.05], 0.1)).toBe(true);
    expect(liesOnCurve(curve, [-0.2, 0], 0.1)).toBe(false);
  });
});
