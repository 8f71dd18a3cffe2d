import { describe, expect, test } from "vitest";
import { type Derivative, type EventSpec, type IntegrateOptions, integrate } from "./index.ts";

const oscillator: Derivative = (_, y, out) => {
  out[0] = y[1]!;
  out[1] = -y[0]!;
};

const fall: Derivative = (_, y, out) => {
  out[0] = y[1]!;
  out[1] = -9.80665;
};

const height = (_: number, y: Float64Array) => y[0]!;

function run(events: readonly EventSpec[], options: Partial<IntegrateOptions> = {}) {
  return integrate({
    derivative: oscillator,
    y0: [1, 0],
    from: 0,
    to: 10,
    relativeTolerance: 1e-10,
    absoluteTolerance: 1e-10,
    maxSteps: 10_000,
    events,
    ...options,
  });
}

describe("events", () => {
  test("all zeros of cos, in order", () => {
    const { outcome, events } = run([{ value: height }]);
    expect(outcome).toBe("reached");
    expect(events.length).toBe(3);
    events.forEach(({ t, y, event }, k) => {
      expect(event).toBe(0);
      expect(Math.abs(t - (k + 0.5) * Math.PI)).toBeLessThan(1e-8);
      expect(Math.abs(y[0]!)).toBeLessThan(1e-8);
    });
  });

  test("only in the direction asked for", () => {
    const rising = run([{ value: height, direction: "rising" }]).events;
    const falling = run([{ value: height, direction: "falling" }]).events;
    expect(rising.map(({ t }) => Math.round((t / Math.PI) * 100) / 100)).toEqual([1.5]);
    expect(falling.map(({ t }) => Math.round((t / Math.PI) * 100) / 100)).toEqual([0.5, 2.5]);
  });

  test("the accuracy follows the tolerance", () => {
    const error = (tolerance: number) => {
      const { events } = run([{ value: height }], { relativeTolerance: tolerance, absoluteTolerance: tolerance });
      return Math.max(...events.map(({ t }, k) => Math.abs(t - (k + 0.5) * Math.PI)));
    };
    expect(error(1e-6)).toBeLessThan(1e-4);
    expect(error(1e-12)).toBeLessThan(1e-10);
  });

  test("a terminal event ends the integration there: a fall of 10 m", () => {
    let last = 0;
    const { outcome, t, y, events } = run([{ value: height, terminal: true, direction: "falling" }], {
      derivative: fall,
      y0: [10, 0],
      onStep: (step) => {
        last = step.t;
        expect(step.y[0]).toBeGreaterThan(-1e-9);
      },
    });
    expect(outcome).toBe("event");
    expect(t).toBeCloseTo(Math.sqrt(20 / 9.80665), 12);
    expect(last).toBe(t);
    expect(Math.abs(y[0]!)).toBeLessThan(1e-12);
    expect(y[1]).toBeCloseTo(-Math.sqrt(20 * 9.80665), 11);
    expect(events.length).toBe(1);
    expect(events[0]!.t).toBe(t);
  });

  test("bounces: a start exactly on zero is no event", () => {
    let from = 0;
    let y0: number[] = [0, 10];
    for (let bounce = 1; bounce <= 5; bounce++) {
      const leg = run([{ value: height, terminal: true }], { derivative: fall, y0, from, to: 100 });
      expect(leg.outcome).toBe("event");
      expect(leg.t).toBeCloseTo((bounce * 20) / 9.80665, 9);
      from = leg.t;
      y0 = [0, -leg.y[1]!];
    }
  });

  test("several in one step come in order of time, none after the terminal one", () => {
    const at = (time: number, terminal = false): EventSpec => ({ value: (t) => t - time, terminal });
    const { outcome, t, events } = run([at(0.3), at(0.1), at(0.25, true), at(0.2)], {
      derivative: (_, __, out) => out.fill(0),
      initialStep: 5,
    });
    expect(outcome).toBe("event");
    expect(t).toBeCloseTo(0.25, 12);
    expect(events.map(({ event }) => event)).toEqual([1, 3, 2]);
  });

  test("a function that reaches zero exactly at the end of a step counts once", () => {
    const touch = run([{ value: (t) => (t < 1 ? 1 - t : 0) }], {
      derivative: (_, __, out) => out.fill(0),
      initialStep: 1,
      maximumStep: 1,
      to: 3,
    });
    expect(touch.events.map(({ t }) => t)).toEqual([1]);
  });

  test("backward in time", () => {
    const { events } = run([{ value: height, direction: "rising" }], { from: 0, to: -10 });
    // cos rises through zero, walking backward, at −3π/2.
    expect(events.map(({ t }) => t).map((t) => Math.round((t / Math.PI) * 1e6) / 1e6)).toEqual([-1.5]);
  });

  test("a pair of zeros within one step is found when the step is bounded", () => {
    const pair: EventSpec[] = [{ value: (t) => (t - 5) ** 2 - 0.04 }];
    const still: Derivative = (_, __, out) => out.fill(0);
    expect(run(pair, { derivative: still, maximumStep: 0.3 }).events.length).toBe(2);
  });

  test("NaN in an event function ends it", () => {
    const { outcome } = run([{ value: (t) => (t > 1 ? Number.NaN : 1) }]);
    expect(outcome).toBe("not finite");
  });
});
