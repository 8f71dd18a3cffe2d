import { Solver } from "odex";
import { describe, expect, test } from "vitest";
import { DomainError } from "../errors.ts";
import { type Derivative, type IntegrateOptions, integrate } from "./index.ts";

const oscillator: Derivative = (_, y, out) => {
  out[0] = y[1]!;
  out[1] = -y[0]!;
};

/** Restricted three-body problem; Hairer, Nørsett and Wanner (1993), eq. II.0.1. */
const threeBody: Derivative = (_, y, out) => {
  const mu = 0.012277471;
  const near = ((y[0]! + mu) ** 2 + y[1]! ** 2) ** 1.5;
  const far = ((y[0]! - 1 + mu) ** 2 + y[1]! ** 2) ** 1.5;
  out[0] = y[2]!;
  out[1] = y[3]!;
  out[2] = y[0]! + 2 * y[3]! - ((1 - mu) * (y[0]! + mu)) / near - (mu * (y[0]! - 1 + mu)) / far;
  out[3] = y[1]! - 2 * y[2]! - ((1 - mu) * y[1]!) / near - (mu * y[1]!) / far;
};

function run(options: Partial<IntegrateOptions> & Pick<IntegrateOptions, "derivative" | "y0" | "to">) {
  return integrate({ from: 0, relativeTolerance: 1e-9, absoluteTolerance: 1e-9, maxSteps: 100_000, ...options });
}

/** End error of the oscillator with steps of fixed length. */
function fixedStepError(step: number): { end: number; inside: number } {
  let inside = 0;
  const probe = new Float64Array(2);
  const { y, rejectedSteps } = run({
    derivative: oscillator,
    y0: [1, 0],
    to: 4,
    relativeTolerance: 1e3,
    absoluteTolerance: 1e3,
    initialStep: step,
    maximumStep: step,
    onStep: ({ from, t, interpolate }) => {
      if (from > 0) return;
      // In the first step the start is exact, so the error is the extension's own: order five locally.
      for (const part of [0.2, 0.45, 0.8]) {
        interpolate(from + part * (t - from), probe);
        inside = Math.max(inside, Math.abs(probe[0]! - Math.cos(from + part * (t - from))));
      }
    },
  });
  expect(rejectedSteps).toBe(0);
  return { end: Math.hypot(y[0]! - Math.cos(4), y[1]! + Math.sin(4)), inside };
}

describe("accuracy", () => {
  test("order five at the end of steps, order four inside them", () => {
    const coarse = fixedStepError(0.2);
    const fine = fixedStepError(0.1);
    const order = Math.log2(coarse.end / fine.end);
    expect(order).toBeGreaterThan(4.8);
    expect(order).toBeLessThan(5.3);
    const local = Math.log2(coarse.inside / fine.inside);
    expect(local).toBeGreaterThan(4.7);
    expect(local).toBeLessThan(6.3);
  });

  test.each([1e-4, 1e-6, 1e-8, 1e-10, 1e-12])("errors follow the tolerance %d", (tolerance) => {
    const { outcome, y, t } = run({
      derivative: oscillator,
      y0: [0, 1],
      to: 20,
      relativeTolerance: tolerance,
      absoluteTolerance: tolerance,
    });
    expect(outcome).toBe("reached");
    expect(t).toBe(20);
    expect(Math.hypot(y[0]! - Math.sin(20), y[1]! - Math.cos(20))).toBeLessThan(100 * tolerance);
  });

  test("against odex on a closed orbit of the restricted three-body problem", () => {
    const y0 = [0.994, 0, 0, -2.0015851063790824];
    const to = 8;
    const own = run({ derivative: threeBody, y0, to, relativeTolerance: 1e-11, absoluteTolerance: 1e-11 });
    const out = new Float64Array(4);
    const solver = new Solver(4);
    solver.absoluteTolerance = 1e-12;
    solver.relativeTolerance = 1e-12;
    solver.maxSteps = 100_000;
    const oracle = solver.solve(
      (t, y) => {
        threeBody(t, Float64Array.from(y), out);
        return Array.from(out);
      },
      0,
      y0,
      to,
    ).y;
    own.y.forEach((value, i) => {
      expect(Math.abs(value - oracle[i]!)).toBeLessThan(1e-6);
    });
  });

  test("the orbit closes after one period", () => {
    const y0 = [0.994, 0, 0, -2.0015851063790824];
    const { y, acceptedSteps } = run({
      derivative: threeBody,
      y0,
      to: 17.065216560157964,
      relativeTolerance: 1e-12,
      absoluteTolerance: 1e-12,
    });
    // Start and period from memory (Arenstorf's orbit); what is tested is that they close, which wrong ones would not.
    // The orbit magnifies errors by about 1e6.
    expect(Math.hypot(y[0]! - y0[0]!, y[1]! - y0[1]!)).toBeLessThan(1e-6);
    expect(acceptedSteps).toBeLessThan(3000);
  });

  test("a time-dependent right-hand side uses the stage times", () => {
    const { y } = run({ derivative: (t, _, out) => out.fill(5 * t ** 4), y0: [0], to: 2 });
    expect(y[0]).toBeCloseTo(32, 8);
  });

  test("backward in time undoes forward", () => {
    const there = run({ derivative: threeBody, y0: [0.5, 0.2, 0.1, 0.4], to: 1 });
    const back = run({ derivative: threeBody, y0: there.y, from: 1, to: 0 });
    expect(back.outcome).toBe("reached");
    [0.5, 0.2, 0.1, 0.4].forEach((value, i) => {
      expect(back.y[i]).toBeCloseTo(value, 6);
    });
  });

  test("tolerances of single components hold", () => {
    const derivative: Derivative = (_, y, out) => {
      out[0] = -y[0]!;
      out[1] = 1e6 * Math.cos(30 * _);
    };
    const tight = run({ derivative, y0: [1, 0], to: 3, relativeTolerance: 1e-13, absoluteTolerance: [1e-12, 1e9] });
    const loose = run({ derivative, y0: [1, 0], to: 3, relativeTolerance: 1e-13, absoluteTolerance: [1e-3, 1e9] });
    expect(Math.abs(tight.y[0]! - Math.exp(-3))).toBeLessThan(1e-10);
    expect(loose.acceptedSteps).toBeLessThan(0.3 * tight.acceptedSteps);
  });
});

describe("steps", () => {
  test("are contiguous, and the extension meets both ends", () => {
    let last = 0;
    const probe = new Float64Array(2);
    const before = Float64Array.of(1, 0);
    const { acceptedSteps, evaluations, rejectedSteps } = run({
      derivative: oscillator,
      y0: [1, 0],
      to: 10,
      onStep: ({ from, t, y, interpolate }) => {
        expect(from).toBe(last);
        expect(t).toBeGreaterThan(from);
        interpolate(from, probe);
        expect(probe).toEqual(before);
        interpolate(t, probe);
        expect(probe[0]).toBeCloseTo(y[0]!, 14);
        before.set(y);
        last = t;
      },
    });
    expect(last).toBe(10);
    expect(evaluations).toBe(2 + 6 * (acceptedSteps + rejectedSteps));
  });

  test("none is longer than asked", () => {
    let longest = 0;
    run({
      derivative: (_, __, out) => out.fill(0),
      y0: [1],
      to: 10,
      maximumStep: 0.25,
      onStep: ({ from, t }) => {
        longest = Math.max(longest, t - from);
      },
    });
    expect(longest).toBeLessThanOrEqual(0.25 * 1.02);
  });

  test("nothing to do", () => {
    const { outcome, y, acceptedSteps } = run({ derivative: oscillator, y0: [3, 4], from: 2, to: 2 });
    expect(outcome).toBe("reached");
    expect([...y]).toEqual([3, 4]);
    expect(acceptedSteps).toBe(0);
  });

  test("the start is not changed", () => {
    const y0 = Float64Array.of(1, 0);
    run({ derivative: oscillator, y0, to: 1 });
    expect([...y0]).toEqual([1, 0]);
  });

  test("goes on from where it stopped", () => {
    const first = run({ derivative: oscillator, y0: [1, 0], to: 50, maxSteps: 20 });
    expect(first.outcome).toBe("too many steps");
    expect(first.t).toBeLessThan(50);
    const rest = run({
      derivative: oscillator,
      y0: first.y,
      from: first.t,
      to: 50,
      initialStep: first.nextStep,
    });
    expect(rest.y[0]).toBeCloseTo(Math.cos(50), 6);
  });
});

test("a run works in the same few arrays whatever its length", () => {
  const arrays = new Set<Float64Array>();
  const { acceptedSteps } = run({
    derivative: (t, y, out) => {
      arrays.add(y);
      arrays.add(out);
      oscillator(t, y, out);
    },
    y0: [1, 0],
    to: 100,
    onStep: ({ y }) => {
      arrays.add(y);
    },
  });
  expect(acceptedSteps).toBeGreaterThan(100);
  // Seven stages, the state at both ends and in between, and the one shown.
  expect(arrays.size).toBeLessThanOrEqual(11);
});

describe("outcomes short of the end", () => {
  test("a pole in finite time: the step becomes too small or the state leaves the range", () => {
    const { outcome, t, y } = run({ derivative: (_, y, out) => out.fill(y[0]! ** 2), y0: [1], to: 2 });
    expect(["step too small", "not finite"]).toContain(outcome);
    expect(t).toBeCloseTo(1, 6);
    expect([...y].every(Number.isFinite)).toBe(true);
  });

  test("a derivative that is NaN from a time on", () => {
    const { outcome, t, y } = run({
      derivative: (t, _, out) => out.fill(t > 0.5 ? Number.NaN : 1),
      y0: [0],
      to: 1,
    });
    expect(outcome).toBe("not finite");
    expect(t).toBeCloseTo(0.5, 6);
    expect(y[0]).toBeCloseTo(0.5, 6);
  });

  test("NaN at once", () => {
    expect(run({ derivative: (_, __, out) => out.fill(Number.NaN), y0: [0], to: 1 }).outcome).toBe("not finite");
  });

  test("refusals", () => {
    const base = { derivative: oscillator, y0: [1, 0], to: 1 };
    expect(() => run({ ...base, y0: [] })).toThrow(DomainError);
    expect(() => run({ ...base, y0: [1, Number.NaN] })).toThrow("initial state 1 is NaN");
    expect(() => run({ ...base, to: Number.POSITIVE_INFINITY })).toThrow("end is Infinity");
    expect(() => run({ ...base, relativeTolerance: 0 })).toThrow("relative tolerance is 0");
    expect(() => run({ ...base, absoluteTolerance: [1, 0] })).toThrow("absolute tolerance 1 is 0");
    expect(() => run({ ...base, absoluteTolerance: [1] })).toThrow(DomainError);
    expect(() => run({ ...base, maxSteps: 0 })).toThrow(DomainError);
    expect(() => run({ ...base, initialStep: 0 })).toThrow("initial step is 0");
    expect(() => run({ ...base, maximumStep: -1 })).toThrow("maximum step is -1");
  });
});
