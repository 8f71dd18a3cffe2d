import { describe, expect, it } from "vitest";
import { hurwitzFour } from "../../../reference/analytic/delayed-integrator/index.ts";
import { expectClose } from "../../../test/support/close.ts";
import { longshore } from "../../../test/support/longshore.ts";
import { createEigenWorkspace, eigenvalues } from "../../math/eigen/index.ts";
import { BugError } from "../../math/errors.ts";
import { closeLoops, type LinearSystem, padeDelay, series, TransferFunction } from "../../math/linear-system/index.ts";
import { integrate } from "../../math/ode/index.ts";
import { bracketedRoot } from "../../math/roots/index.ts";
import {
  bankHold,
  type Channels,
  closedSystem,
  controlSystem,
  controlsFixed,
  cutLoop,
  EFFECTORS,
  pitchHold,
  SIGNALS,
  yawDamper,
} from "../pilot/index.ts";
import { controlPlant, freeAircraft, hookedPair, LOAD_OUTPUTS, linearise, surfaceInputs } from "./index.ts";

const actuator = { lag: 0.06, rate: 0.7, travel: 0.35, delay: 0.04 };
const channels: Channels = {
  elevator: { functions: [pitchHold(0.6, 0.3)], actuator },
  aileron: { functions: [bankHold(0.8, 0.25)], actuator },
  rudder: { functions: [yawDamper(0.4, 2)], actuator },
};
const build = {
  free: (law = surfaceInputs) => freeAircraft({ ...longshore({ equivalentAirspeed: 105 }), law, thrust: "trim" }),
  hooked: (law = surfaceInputs) => hookedPair({ ...longshore({ revision: "Rev B" }), law }),
} as const;
const STATES = ["free", "hooked"] as const;

function roots(A: Float64Array, n: number): { re: number; im: number }[] {
  const [re, im] = [new Float64Array(n), new Float64Array(n)];
  expect(eigenvalues(A, n, createEigenWorkspace(n), re, im)).toBe("converged");
  return Array.from(re, (value, i) => ({ re: value, im: im[i] }));
}
/** Distance of every root to the nearest of the others, relative to its size. */
function expectSameRoots(a: readonly { re: number; im: number }[], b: readonly { re: number; im: number }[]): void {
  for (const root of a) {
    if (Math.hypot(root.re, root.im) < 1e-3) continue;
    const nearest = Math.min(...b.map((other) => Math.hypot(root.re - other.re, root.im - other.im)));
    expect(nearest / Math.hypot(root.re, root.im)).toBeLessThan(1e-6);
  }
}
const reference = (kind: (typeof STATES)[number]) => {
  const { motion, state } = build[kind]();
  motion.derivative(0, state, new Float64Array(motion.stateCount));
  return { ...motion.sensed };
};

describe("control plant", () => {
  it("starts from rest at trim, and sees level flight at its airspeed", () => {
    for (const kind of STATES) {
      const { motion, state, trim } = build[kind]();
      const rate = new Float64Array(motion.stateCount);
      motion.derivative(0, state, rate);
      expect(Math.max(...rate.map(Math.abs))).toBeLessThan(1e-8);
      expectClose(motion.sensed.angleOfAttack, trim.alpha, { rtol: 1e-12, why: "level flight" });
      expectClose(motion.sensed.pitch, trim.alpha, { rtol: 1e-12, why: "level flight" });
      expectClose(motion.sensed.sideslip, 0, { atol: 1e-15, why: "symmetry" });
    }
  });

  it("closed through its loops has the roots of the equations linearised with the law inside", () => {
    for (const kind of STATES) {
      const { motion, state } = build[kind]();
      const closed = closedSystem(controlPlant(motion, state).plant, channels, 3);
      const whole = build[kind](controlSystem(channels, reference(kind), 3));
      const direct = linearise(whole.motion, whole.state);
      expectSameRoots(roots(closed.A, closed.states), roots(direct.matrix, direct.size));
      expectSameRoots(roots(direct.matrix, direct.size), roots(closed.A, closed.states));
    }
  });

  it("cut at a surface and closed again has the same roots, whichever surface", () => {
    const { motion, state } = build.hooked();
    const { plant } = controlPlant(motion, state);
    const closed = closedSystem(plant, channels, 3);
    const all = roots(closed.A, closed.states);
    for (const effector of EFFECTORS) {
      const { open, delay } = cutLoop(plant, channels, effector, 3);
      expect(delay).toBe(0.04);
      const again = closeLoops(series(padeDelay(delay, 3), open), Float64Array.of(1));
      expectSameRoots(all, roots(again.A, again.states));
      expectSameRoots(roots(again.A, again.states), all);
    }
  });

  it("answers a small step of each surface in time as the nonlinear equations do", () => {
    for (const kind of STATES) {
      const { motion, state } = build[kind]();
      const { plant } = controlPlant(motion, state);
      EFFECTORS.forEach((effector, input) => {
        const step = 1e-4;
        const end = 0.8;
        const start = state.slice();
        start[motion.layout.law + input] = step;
        const run = { from: 0, to: end, relativeTolerance: 1e-11, absoluteTolerance: 1e-13, maxSteps: 20000 };
        const nonlinear = integrate({ ...run, derivative: motion.derivative, y0: start });
        motion.derivative(0, nonlinear.y, new Float64Array(motion.stateCount));
        const seen = SIGNALS.map((signal) => motion.sensed[signal] - reference(kind)[signal]);
        const linear = integrate({
          ...run,
          derivative: stepOf(plant, input, step),
          y0: new Float64Array(plant.states),
        });
        const y = outputsOf(plant, linear.y, input, step);
        const largest = Math.max(...seen.slice(0, 8).map(Math.abs));
        for (let i = 0; i < SIGNALS.length; i++) {
          const scale = i < 8 ? largest : Math.max(...seen.slice(8).map(Math.abs));
          expectClose(
            y[i],
            seen[i],
            { atol: 2e-3 * scale + 1e-6, why: "second order of a small step" },
            `${kind} ${effector} ${SIGNALS[i]}`,
          );
        }
        if (kind === "hooked") {
          const scale = Math.max(...y.slice(-3).map(Math.abs));
          const trim = build.hooked().trim.f_onV_byTip_H;
          for (let i = 0; i < 3; i++) {
            const change = motion.jointForce[i] - trim[i];
            expectClose(
              y[SIGNALS.length + 1 + i],
              change,
              { atol: 5e-3 * scale, why: "second order" },
              LOAD_OUTPUTS[1 + i],
            );
          }
        }
      });
    }
  });

  it("moves to the left with left aileron and nose down with the elevator down", () => {
    const { plant } = controlPlant(build.free().motion, build.free().state);
    const out = new Float64Array(2 * plant.outputs);
    const at = (input: number, signal: (typeof SIGNALS)[number]): number => {
      new TransferFunction(plant, input).evaluate(0, 20, out);
      return out[2 * SIGNALS.indexOf(signal)];
    };
    // well above every mode an angle follows its acceleration: −1/ω² of it
    expect(at(0, "pitch")).toBeGreaterThan(0);
    expect(at(1, "bank")).toBeLessThan(0);
    expect(at(2, "yaw")).toBeGreaterThan(0);
  });

  it("needs the surfaces as inputs", () => {
    const { motion, state } = freeAircraft({ ...longshore(), law: controlsFixed, thrust: "trim" });
    expect(() => controlPlant(motion, state)).toThrow(BugError);
  });
});

describe("reduced model of four states", () => {
  it("goes unstable by Hurwitz at the gain at which its eigenvalues do (analytic/delayed-integrator)", () => {
    // longitudinal motion of the free aircraft without height: pitch fed back with the wrong sign
    const { motion, state } = build.free();
    const { plant, names } = controlPlant(motion, state);
    const kept = ["pitch", "x rate", "z rate", "pitch rate"].map((name) => names.indexOf(name));
    const matrixFor = (gain: number): Float64Array => {
      const A = new Float64Array(16);
      kept.forEach((from, i) => {
        kept.forEach((column, j) => {
          A[4 * i + j] = plant.A[from * plant.states + column];
        });
        A[4 * i] += gain * plant.B[from * EFFECTORS.length];
      });
      return A;
    };
    const largest = (gain: number): number => Math.max(...roots(matrixFor(gain), 4).map(({ re }) => re));
    const byHurwitz = (gain: number): number => Math.min(...hurwitzFour(...characteristic(matrixFor(gain))));
    expect(largest(0)).toBeLessThan(0);
    for (const end of [-2, 3]) {
      const eigen = bracketedRoot(largest, 0, end, 1e-12);
      if (eigen.outcome === "no sign change") {
        expect(byHurwitz(end)).toBeGreaterThan(0);
        continue;
      }
      const hurwitz = bracketedRoot(byHurwitz, 0, end, 1e-12);
      expectClose(hurwitz.x, eigen.x, { rtol: 1e-7, why: "two ways to the same limit" });
    }
    expect(bracketedRoot(largest, 0, -2, 1e-12).outcome).toBe("converged");
  });
});

/** a3 … a0 of the characteristic polynomial, by Faddeev and LeVerrier. */
function characteristic(A: Float64Array): [number, number, number, number] {
  const coefficients: number[] = [];
  let M = new Float64Array(16);
  for (let k = 1; k <= 4; k++) {
    const next = new Float64Array(16);
    for (let i = 0; i < 4; i++) {
      for (let j = 0; j < 4; j++) {
        for (let l = 0; l < 4; l++) next[4 * i + j] += A[4 * i + l] * M[4 * l + j];
        if (i === j) next[4 * i + j] += coefficients.at(-1) ?? 1;
      }
    }
    M = next;
    let trace = 0;
    for (let i = 0; i < 4; i++) for (let l = 0; l < 4; l++) trace += A[4 * i + l] * M[4 * l + i];
    coefficients.push(-trace / k);
  }
  return coefficients as [number, number, number, number];
}

function stepOf(plant: LinearSystem, input: number, step: number) {
  const { states: n, inputs: m, A, B } = plant;
  return (_t: number, x: Float64Array, out: Float64Array): void => {
    for (let i = 0; i < n; i++) {
      out[i] = B[i * m + input] * step;
      for (let j = 0; j < n; j++) out[i] += A[i * n + j] * x[j];
    }
  };
}
function outputsOf(plant: LinearSystem, x: Float64Array, input: number, step: number): number[] {
  const { states: n, inputs: m, outputs, C, D } = plant;
  return Array.from({ length: outputs }, (_, row) => {
    let y = D[row * m + input] * step;
    for (let j = 0; j < n; j++) y += C[row * n + j] * x[j];
    return y;
  });
}
