import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { DomainError } from "../errors.ts";
import { bracketedRoot, brentMinimum, goldenMaximum, newtonSystem } from "./index.ts";

describe("bracketedRoot", () => {
  test.each([
    ["cos x = x", (x: number) => Math.cos(x) - x, 0, 1, 0.7390851332151607],
    ["x³ = 2", (x: number) => x ** 3 - 2, 0, 5, Math.cbrt(2)],
    ["tanh, steep", (x: number) => Math.tanh(1e6 * (x - 0.3)), -4, 4, 0.3],
    ["eˣ = 1e10, bounds exchanged", (x: number) => Math.exp(x) - 1e10, 50, -5, 10 * Math.LN10],
    ["a jump", (x: number) => (x < Math.PI ? -1 : 2), 0, 10, Math.PI],
  ])("%s", (_, f, a, b, root) => {
    const found = bracketedRoot(f, a, b, 0);
    expect(found.outcome).toBe("converged");
    expect(Math.abs(found.x - root)).toBeLessThanOrEqual(4 * Number.EPSILON * Math.abs(root));
    expect(found.evaluations).toBeLessThan(80);
  });

  test("smooth functions take few evaluations", () => {
    expect(bracketedRoot((x) => Math.exp(x) - 5, 0, 3, 1e-14).evaluations).toBeLessThan(12);
  });

  test("any sign change of a cubic is found within the tolerance", () => {
    const place = fc.double({ min: -10, max: 10, noNaN: true });
    fc.assert(
      fc.property(place, place, place, (root, a, b) => {
        const f = (x: number) => (x - root) * (1 + (x - root) ** 2);
        fc.pre(f(a) * f(b) < 0);
        const found = bracketedRoot(f, a, b, 1e-9);
        expect(found.outcome).toBe("converged");
        expect(Math.abs(found.x - root)).toBeLessThanOrEqual(1e-9);
        expect(found.value).toBe(f(found.x));
      }),
    );
  });

  test("a root at a bound", () => {
    expect(bracketedRoot((x) => x - 1, 1, 4, 1e-9)).toMatchObject({ outcome: "converged", x: 1, value: 0 });
    expect(bracketedRoot((x) => x - 4, 1, 4, 1e-9)).toMatchObject({ outcome: "converged", x: 4, value: 0 });
  });

  test("a flat root of ninth order ends", () => {
    expect(bracketedRoot((x) => x ** 9, -1, 2, 1e-6)).toMatchObject({ outcome: "converged" });
  });

  test("outcomes short of a root", () => {
    expect(bracketedRoot((x) => x * x + 1, -1, 1, 1e-9).outcome).toBe("no sign change");
    expect(bracketedRoot((x) => (x < 0 ? -1 : Number.NaN), -1, 1, 1e-9).outcome).toBe("not finite");
    expect(bracketedRoot((x) => (Math.abs(x) < 0.6 ? Number.NaN : x), -1, 1, 1e-9).outcome).toBe("not finite");
  });
});

describe("brentMinimum", () => {
  test.each([
    ["a parabola", (x: number) => (x - 2) ** 2, -3, 10, 2],
    ["−cos", (x: number) => -Math.cos(x), -2, 2.5, 0],
    ["x − ln x", (x: number) => x - Math.log(x), 0.01, 9, 1],
    ["a lower bound", (x: number) => x, 1, 3, 1],
    ["an upper bound", (x: number) => -x, 1, 3, 3],
  ])("%s", (_, f, a, b, place) => {
    const found = brentMinimum(f, a, b, 1e-7);
    expect(found.outcome).toBe("converged");
    expect(Math.abs(found.x - place)).toBeLessThan(3e-7);
    expect(found.value).toBe(f(found.x));
  });

  test("needs fewer evaluations than the golden section on a smooth function", () => {
    const f = (x: number) => Math.exp(x) - 2 * x;
    const brent = brentMinimum(f, -2, 3, 1e-7);
    const golden = goldenMaximum((x) => -f(x), -2, 3, 1e-7);
    expect(Math.abs(brent.x - Math.LN2)).toBeLessThan(1e-7);
    expect(Math.abs(golden.x - Math.LN2)).toBeLessThan(1e-7);
    expect(brent.evaluations).toBeLessThan(0.5 * golden.evaluations);
  });

  test("not finite and wrong bounds", () => {
    expect(brentMinimum((x) => Math.log(x - 1), 0, 3, 1e-6).outcome).toBe("not finite");
    expect(() => brentMinimum((x) => x, 0, Number.NaN, 1e-6)).toThrow(DomainError);
    expect(() => brentMinimum((x) => x, 0, 1, 0)).toThrow("tolerance is 0");
  });
});

describe("goldenMaximum", () => {
  test("a corner, as of the worst of two curves", () => {
    const place = fc.double({ min: -1, max: 2, noNaN: true });
    fc.assert(
      fc.property(place, (corner) => {
        const found = goldenMaximum((x) => Math.min(x - corner, 3 * (corner - x)), -1, 2, 1e-10);
        expect(found.outcome).toBe("converged");
        expect(Math.abs(found.x - corner)).toBeLessThan(1e-9);
      }),
    );
  });

  test("a maximum at a bound is the bound itself", () => {
    expect(goldenMaximum((x) => x, 1, 3, 1e-9).x).toBe(3);
    expect(goldenMaximum((x) => -x, 3, 1, 1e-9).x).toBe(1);
  });

  test("never ends below a bound's value, even with several maxima", () => {
    const found = goldenMaximum((x) => (x === 0 ? 5 : Math.sin(9 * x)), 0, 3, 1e-6);
    expect(found).toMatchObject({ x: 0, value: 5 });
  });

  test("not finite", () => {
    expect(goldenMaximum((x) => (x > 1 ? Number.NaN : x), 0, 2, 1e-6).outcome).toBe("not finite");
  });
});

describe("newtonSystem", () => {
  test("a circle and an exponential", () => {
    const { outcome, x, residual } = newtonSystem(
      (at, out) => {
        out[0] = at[0]! ** 2 + at[1]! ** 2 - 4;
        out[1] = Math.exp(at[0]!) + at[1]! - 1;
      },
      [1, -1.7],
      { tolerance: 1e-13 },
    );
    expect(outcome).toBe("converged");
    expect(Math.hypot(x[0]!, x[1]!)).toBeCloseTo(2, 13);
    expect(1 - Math.exp(x[0]!)).toBeCloseTo(x[1]!, 13);
    expect(Math.max(...residual.map(Math.abs))).toBeLessThanOrEqual(1e-13);
  });

  test("the error squares from step to step", () => {
    const errors = [1, 2, 3, 4].map((maxIterations) => {
      const { x } = newtonSystem(
        (at, out) => {
          out[0] = at[0]! ** 2 - 2;
        },
        [2],
        { tolerance: 1e-300, maxIterations },
      );
      return Math.abs(x[0]! - Math.SQRT2);
    });
    // For x² − 2 the next error is e²/(2x).
    for (let k = 1; k < 4; k++) expect(errors[k]!).toBeLessThan(0.4 * errors[k - 1]! ** 2 + 1e-15);
  });

  test("Rosenbrock's valley from its usual far start, with and without derivatives", () => {
    const f = (at: Float64Array, out: Float64Array) => {
      out[0] = 10 * (at[1]! - at[0]! ** 2);
      out[1] = 1 - at[0]!;
    };
    const derivatives = (at: Float64Array, out: Float64Array) => {
      out.set([-20 * at[0]!, 10, -1, 0]);
    };
    for (const options of [{ tolerance: 1e-12 }, { tolerance: [1e-12, 1e-12], derivatives }]) {
      const { outcome, x } = newtonSystem(f, [-1.2, 1], options);
      expect(outcome).toBe("converged");
      expect(Math.abs(x[0]! - 1) + Math.abs(x[1]! - 1)).toBeLessThan(1e-11);
    }
  });

  test("the line search tames a step that would diverge: arctan from 3", () => {
    const { outcome, x } = newtonSystem(
      (at, out) => {
        out[0] = Math.atan(at[0]!);
      },
      [3],
      { tolerance: 1e-12 },
    );
    expect(outcome).toBe("converged");
    expect(Math.abs(x[0]!)).toBeLessThan(1e-12);
  });

  test("a step out of the function's domain is shortened", () => {
    const { outcome, x } = newtonSystem(
      (at, out) => {
        out[0] = Math.log(at[0]!);
      },
      [5],
      { tolerance: 1e-12 },
    );
    expect(outcome).toBe("converged");
    expect(x[0]).toBeCloseTo(1, 11);
  });

  test("scales of the unknowns set the differences", () => {
    const { outcome, x } = newtonSystem(
      (at, out) => {
        out[0] = at[0]! * 1e6 - 3;
        out[1] = Math.sqrt(at[1]! * 1e-6) - 2;
      },
      [1e-6, 1e6],
      { tolerance: 1e-10, scales: [1e-6, 1e6] },
    );
    expect(outcome).toBe("converged");
    expect(x[0]! * 1e6).toBeCloseTo(3, 9);
    expect(x[1]! * 1e-6).toBeCloseTo(4, 9);
  });

  test("a linear system takes one step; a solved one none", () => {
    const f = (at: Float64Array, out: Float64Array) => {
      out[0] = 2 * at[0]! + at[1]! - 3;
      out[1] = at[0]! - at[1]!;
    };
    expect(newtonSystem(f, [50, -9], { tolerance: 1e-9 }).iterations).toBe(1);
    expect(newtonSystem(f, [1, 1], { tolerance: 1e-9 }).iterations).toBe(0);
  });

  test("outcomes short of a solution", () => {
    const run = (f: (x: number) => number, start: number, maxIterations = 50) =>
      newtonSystem(
        (at, out) => {
          out[0] = f(at[0]!);
        },
        [start],
        { tolerance: 1e-12, maxIterations },
      ).outcome;
    expect(run((x) => x * x + 1, 0)).toBe("singular");
    expect(run((x) => x * x + 1, 2)).not.toBe("converged");
    expect(run((x) => Math.sqrt(x), -1)).toBe("not finite");
    expect(run((x) => Math.exp(x), 0, 5)).toBe("too many iterations");
    expect(run((x) => Math.abs(x) + 1, 3)).toBe("no descent");
  });

  test("wrong options", () => {
    const f = (_: Float64Array, out: Float64Array) => out.fill(1);
    expect(() => newtonSystem(f, [], { tolerance: 1 })).toThrow(DomainError);
    expect(() => newtonSystem(f, [1], { tolerance: 0 })).toThrow("tolerance 0 is 0");
    expect(() => newtonSystem(f, [1, 2], { tolerance: [1] })).toThrow(DomainError);
    expect(() => newtonSystem(f, [1], { tolerance: 1, scales: Number.NaN })).toThrow("scale 0 is NaN");
  });
});
