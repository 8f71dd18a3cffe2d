import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { longshore } from "../../../test/support/longshore.ts";
import { eigenSystem } from "../../math/eigen/index.ts";
import { hookedPair, IndependentMotion, linearise } from "./index.ts";

const PAIR = hookedPair(longshore({ weightShare: 0.2 }));

describe("independent states of the hooked pair", () => {
  it.each([false, true])("have rates that carry the whole state along (in the plane alone: %s)", (inPlane) => {
    const motion = new IndependentMotion(PAIR, inPlane);
    const n = motion.size;
    expect(n).toBe(inPlane ? 7 : 13);
    // a motion of every coordinate, none of them small
    const y = motion.rest.map((value, i) => value + 0.05 * Math.sin(1.7 * i + 0.4));
    const rate = new Float64Array(n);
    motion.derivative(y, rate);
    const h = 1e-5;
    const states = [h, -h].map((step) => {
      const state = PAIR.state.slice();
      motion.expand(
        y.map((value, i) => value + step * rate[i]),
        state,
      );
      return state;
    });
    const moved = states[0].map((value, i) => (value - states[1][i]) / (2 * h));
    const state = PAIR.state.slice();
    motion.expand(y, state);
    const expected = new Float64Array(state.length);
    PAIR.motion.derivative(0, state, expected);
    expectAllClose(moved, expected, { rtol: 1e-6, atol: 1e-7, why: "central differences" }, "rates of the whole state");
    const back = new Float64Array(n);
    motion.reduce(state, back);
    expectAllClose(back, y, { atol: 1e-13, why: "round-off" }, "there and back");
  });

  it("rest at trim, and near it have the eigenvalues of the linear model", () => {
    const motion = new IndependentMotion(PAIR, false);
    const n = motion.size;
    const rate = new Float64Array(n);
    motion.derivative(motion.rest, rate);
    expect(Math.max(...rate.map(Math.abs))).toBeLessThan(1e-8);
    const matrix = new Float64Array(n * n);
    const below = new Float64Array(n);
    const y = motion.rest.slice();
    for (let k = 0; k < n; k++) {
      const h = 1e-4;
      y[k] = motion.rest[k] + h;
      motion.derivative(y, rate);
      y[k] = motion.rest[k] - h;
      motion.derivative(y, below);
      y[k] = motion.rest[k];
      for (let i = 0; i < n; i++) matrix[i * n + k] = (rate[i] - below[i]) / (2 * h);
    }
    const own = eigenSystem(matrix, n);
    const linear = linearise(PAIR.motion, PAIR.state);
    const expected = eigenSystem(linear.matrix, linear.size);
    expect(linear.size).toBe(n);
    const close = { rtol: 1e-5, atol: 1e-5, why: "central differences of both" };
    expectAllClose(own.re, expected.re, close, "growth");
    expectAllClose(own.im, expected.im, close, "frequency");
  });

  it("tip travel is positive towards a larger boom angle", () => {
    const motion = new IndependentMotion(PAIR, true);
    const y = motion.rest.slice();
    y[motion.names.indexOf("tip normal")] = 0.01;
    expectClose(motion.tipTravel(y), 0.01, { rtol: 1e-5, why: "an arc of 0.01 m" });
    const state = PAIR.state.slice();
    motion.expand(y, state);
    const { tip } = PAIR.motion.layout;
    expect(state[tip + 2]).toBeGreaterThan(PAIR.state[tip + 2]);
  });
});
