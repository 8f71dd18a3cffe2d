/** ζ against weight share three ways: linear model, differences in other coordinates, decay in time of the nonlinear motion. */
import { describe, expect, it } from "vitest";
import { eigenSystem } from "../../src/math/eigen/index.ts";
import { integrate } from "../../src/math/ode/index.ts";
import {
  eulerFromQuaternion,
  quaternionFromRotationVector,
  quaternionMultiply,
} from "../../src/math/rotation/index.ts";
import { type HookedPair, type Linearisation, linearise } from "../../src/physics/bodies/index.ts";
import { expectClose } from "../support/close.ts";
import { longshore, MASS_NAMES, REVISION_NAMES, WEIGHT_SHARES } from "../support/longshore.ts";
import { hangOnTip, walk } from "../support/vacuum.ts";
import { linearisePolar } from "./hooked-coordinates.ts";
import {
  dampingRatio,
  linearPair,
  longitudinalRoots,
  naturalFrequency,
  oscillations,
  planes,
  type Root,
  rootGap,
  rootsOf,
  worstDamping,
} from "./hooked-support.ts";

const cases = REVISION_NAMES.flatMap((revision) =>
  MASS_NAMES.flatMap((mass) => WEIGHT_SHARES.map((weightShare) => ({ revision, mass, weightShare }))),
);

/**
 * Root of a decaying oscillation from equally spaced samples of several signals: least squares of
 * y(n+1) = a·y(n) + b·y(n−1), whose characteristic root is exp(λΔ).
 */
function fitDecay(samples: readonly (readonly number[])[], interval: number): Root {
  let [s11, s12, s22, t1, t2] = [0, 0, 0, 0, 0];
  for (let n = 1; n + 1 < samples.length; n++) {
    samples[n].forEach((y1, channel) => {
      const [y0, y2] = [samples[n - 1][channel], samples[n + 1][channel]];
      s11 += y1 * y1;
      s12 += y1 * y0;
      s22 += y0 * y0;
      t1 += y1 * y2;
      t2 += y0 * y2;
    });
  }
  const determinant = s11 * s22 - s12 * s12;
  const a = (t1 * s22 - t2 * s12) / determinant;
  const b = (s11 * t2 - s12 * t1) / determinant;
  // μ² = a·μ + b, complex pair
  const size = Math.sqrt(-b);
  return { re: Math.log(size) / interval, im: Math.acos(a / (2 * size)) / interval };
}

/** State near trim with the largest coordinate moved by `amplitude` in a shape of the linear model. */
function upset({ motion, state }: HookedPair, linear: Linearisation, shape: readonly number[], amplitude: number) {
  const { coordinates: nq, basis } = linear;
  const factor = amplitude / Math.max(...shape.slice(0, nq).map(Math.abs));
  const all = (offset: number): number[] =>
    Array.from({ length: 9 }, (_, i) =>
      Array.from({ length: nq }, (_, j) => factor * basis[i * nq + j] * shape[offset + j]).reduce((a, b) => a + b),
    );
  const [place, rate] = [all(0), all(nq)];
  const start = state.slice();
  const { tip, snubber } = motion.layout;
  const turn = new Float64Array(4);
  quaternionFromRotationVector(place[3], place[4], place[5], turn, 0);
  quaternionMultiply(state, 3, turn, 0, start, 3);
  for (let i = 0; i < 3; i++) {
    start[10 + i] = rate[3 + i];
    start[tip + i] += place[6 + i];
    start[tip + 3 + i] = rate[6 + i];
  }
  for (let i = snubber; i < start.length; i++) start[i] += factor * shape[2 * nq + i - snubber];
  hangOnTip(motion, start);
  return start;
}

/** Nonlinear motion from a small upset in the shape of a mode; the root that its decay shows. */
function decayOf(pair: HookedPair, root: Root): Root {
  const { motion, state } = pair;
  const linear = linearise(motion, state);
  const { re, im, vectors } = eigenSystem(linear.matrix, linear.size);
  const k = Array.from(re.keys()).reduce((best, i) => {
    const gap = (j: number): number => Math.hypot(re[j] - root.re, im[j] - root.im);
    return gap(i) < gap(best) ? i : best;
  }, 0);
  const shape = Array.from({ length: linear.size }, (_, i) => vectors[i * linear.size + k]);
  const start = upset(pair, linear, shape, 1e-5);
  const samples: number[][] = [];
  const angles = new Float64Array(3);
  const [every, step] = [10, 0.01];
  walk(motion, start, step, 250, (now, index) => {
    if (index % every !== 0) return;
    eulerFromQuaternion(now, 3, angles, 0);
    samples.push([angles[0], angles[1] - pair.trim.alpha, angles[2], now[10], now[11], now[12]]);
  });
  return fitDecay(samples, every * step);
}

describe("damping against weight share", () => {
  it.each(cases)("agrees three ways: $revision, $mass, share $weightShare", (options) => {
    const { pair, linear } = linearPair(longshore(options));
    const roots = rootsOf(linear.matrix, linear.size);
    // other coordinates, other differences: the same 13 roots
    const polar = linearisePolar(pair);
    expect(rootGap(roots, rootsOf(polar.matrix, polar.size))).toBeLessThan(1e-8);
    // both slow pairs of the longitudinal motion and both of the lateral one
    const slow = oscillations(roots, 1.5);
    expect(slow).toHaveLength(4);
    for (const root of slow) {
      const seen = decayOf(pair, root);
      const label = `${naturalFrequency(root).toFixed(3)} Hz`;
      const why = "second order in an upset of 1e-5, integration of order four";
      expectClose(dampingRatio(seen), dampingRatio(root), { atol: 2e-5, why }, `ζ from the decay, ${label}`);
      expectClose(naturalFrequency(seen), naturalFrequency(root), { rtol: 2e-5, why }, `frequency, ${label}`);
    }
  });

  it("moves the way the linear model says: more share, less lateral and more longitudinal damping in Rev A", () => {
    const pairs = WEIGHT_SHARES.map((weightShare) => planes(longshore({ weightShare })));
    const longitudinal = pairs.map((plane) => worstDamping(plane.longitudinal));
    const lateral = pairs.map((plane) => worstDamping(plane.lateral));
    expect([...longitudinal].sort((a, b) => a - b)).toEqual(longitudinal);
    expect([...lateral].sort((a, b) => b - a)).toEqual(lateral);
    const close = { rtol: 0.02, why: "generated/hooked-independent, three digits" };
    expectClose(longitudinal[3] - longitudinal[0], 0.0237, close, "longitudinal");
    expectClose(lateral[3] - lateral[0], -0.0067, close, "lateral");
  });
});

describe("an upset that knows nothing of modes", () => {
  it("grows in pitch from crest to crest as the linear model of Rev A says", () => {
    const { pair, linear } = linearPair(longshore());
    const unstable = oscillations(longitudinalRoots(linear))[0];
    expect(unstable.re).toBeGreaterThan(0.2);
    // a nose-up rate of 1e-4 rad/s; the other modes are gone after 10 s
    const start = pair.state.slice();
    start[11] = 1e-4;
    hangOnTip(pair.motion, start);
    const crests = crestsOf(pair, start, 16).filter(({ t }) => t > 10);
    expect(crests.length).toBeGreaterThan(3);
    const [first, last] = [crests[0], crests[crests.length - 1]];
    const decrement = Math.log(first.pitch / last.pitch) / (crests.length - 1);
    const period = (last.t - first.t) / (crests.length - 1);
    const zeta = decrement / Math.hypot(2 * Math.PI, decrement);
    const why = "logarithmic decrement between crests; another mode has decayed by e⁻¹²";
    expectClose(zeta, dampingRatio(unstable), { atol: 1e-4, why }, "ζ");
    expectClose((2 * Math.PI) / period, unstable.im, { rtol: 1e-4, why }, "frequency");
  });
});

/** Crests of the pitch angle above trim: where the pitch rate falls through zero. */
function crestsOf(pair: HookedPair, start: Float64Array, until: number): { t: number; pitch: number }[] {
  const angles = new Float64Array(3);
  const { outcome, events } = integrate({
    derivative: pair.motion.derivative,
    y0: start,
    from: 0,
    to: until,
    relativeTolerance: 1e-10,
    absoluteTolerance: 1e-12,
    maxSteps: 20_000,
    maximumStep: 0.05,
    events: [{ value: (_t, y) => y[11], direction: "falling" }],
  });
  expect(outcome).toBe("reached");
  return events.map(({ t, y }) => {
    eulerFromQuaternion(y, 3, angles, 0);
    return { t, pitch: angles[1] - pair.trim.alpha };
  });
}
