/** Ring-down after lock: the nonlinear motion with closed hooks against the linear single point model of the same pair. */
import { describe, expect, it } from "vitest";
import { eigenSystem } from "../../src/math/eigen/index.ts";
import {
  eulerFromQuaternion,
  quaternionFromRotationVector,
  quaternionMultiply,
} from "../../src/math/rotation/index.ts";
import { type HookedPair, hookedPair, type Linearisation, linearise } from "../../src/physics/bodies/index.ts";
import { HookonMotion, hookonParameters } from "../../src/physics/hookon-motion/index.ts";
import * as at from "../../src/physics/hookon-motion/layout.ts";
import { RingDown } from "../../src/physics/hookon-motion/ring-down.ts";
import { unwatched } from "../support/bare-contact.ts";
import { expectClose } from "../support/close.ts";
import { testLatch, testPair } from "../support/hookon-pair.ts";
import { longshore } from "../support/longshore.ts";
import { hangOnTip } from "../support/vacuum.ts";
import { dampingRatio, naturalFrequency, oscillations, type Root, rootsOf } from "./hooked-support.ts";

/** State of the pair moved in the shape of a mode by `amplitude` at most. */
function inShapeOf(pair: HookedPair, linear: Linearisation, root: Root, amplitude: number): Float64Array {
  const { re, im, vectors } = eigenSystem(linear.matrix, linear.size);
  const gap = (j: number): number => Math.hypot(re[j] - root.re, im[j] - root.im);
  const k = Array.from(re.keys()).reduce((best, i) => (gap(i) < gap(best) ? i : best), 0);
  const shape = Array.from({ length: linear.size }, (_, i) => vectors[i * linear.size + k]);
  const { coordinates: nq, basis } = linear;
  const factor = amplitude / Math.max(...shape.slice(0, nq).map(Math.abs));
  const all = (offset: number): number[] =>
    Array.from({ length: 9 }, (_, i) =>
      Array.from({ length: nq }, (_, j) => factor * basis[i * nq + j] * shape[offset + j]).reduce((a, b) => a + b),
    );
  const [place, rate] = [all(0), all(nq)];
  const { motion, state } = pair;
  const start = state.slice();
  const turn = new Float64Array(4);
  quaternionFromRotationVector(place[3], place[4], place[5], turn, 0);
  quaternionMultiply(state, 3, turn, 0, start, 3);
  const { tip, snubber } = motion.layout;
  for (let i = 0; i < 3; i++) {
    start[10 + i] = rate[3 + i];
    start[tip + i] += place[6 + i];
    start[tip + 3 + i] = rate[6 + i];
  }
  start[snubber] += factor * shape[2 * nq];
  hangOnTip(motion, start);
  return start;
}

/** Root that the decay of several signals shows: least squares of y(n+1) = a·y(n) + b·y(n−1). */
function fitDecay(samples: readonly (readonly number[])[], interval: number): Root {
  let [s11, s12, s22, t1, t2] = [0, 0, 0, 0, 0];
  for (let n = 1; n + 1 < samples.length; n++) {
    samples[n].forEach((y1, i) => {
      const [y0, y2] = [samples[n - 1][i], samples[n + 1][i]];
      s11 += y1 * y1;
      s12 += y1 * y0;
      s22 += y0 * y0;
      t1 += y1 * y2;
      t2 += y0 * y2;
    });
  }
  const determinant = s11 * s22 - s12 * s12;
  const [a, b] = [(t1 * s22 - t2 * s12) / determinant, (s11 * t2 - s12 * t1) / determinant];
  const size = Math.sqrt(-b);
  return { re: Math.log(size) / interval, im: Math.acos(a / (2 * size)) / interval };
}

/** Hook-on motion with closed hooks at a state of the hooked pair. */
function hookedMotion(
  revision: "Rev A" | "Rev B",
  hooks: { stiffness: number; damping: number; sideStiffness: number },
) {
  const pair = hookedPair(longshore({ revision, mass: "return" }));
  const settings = testPair({ latch: testLatch(hooks) }, { revision });
  const controls = { ...pair.trim.controls };
  const socket = { ...settings.socket, dragArea: 0 };
  const parameters = hookonParameters({
    ...settings,
    socket,
    boom: settings.hookedBoom,
    trim: { ...pair.trim, controls },
  });
  // thrust is idle while hooked
  const motion = new HookonMotion(parameters);
  const place = (state: Float64Array): void => {
    const { X, U } = motion;
    X.fill(0);
    X.set(state.subarray(0, 20));
    X.set([controls.elevator, controls.aileron, controls.rudder, controls.thrust], at.X_CONTROLS);
    U.set(X.subarray(at.X_CONTROLS, at.X_CONTROLS + 4), at.U_COMMANDS);
    U[at.U_BUFFER_HELD] = 1;
    U[at.U_NEAR] = 1;
    U[at.U_LATCH] = 2;
    U[at.U_HOLDS] = 1e9;
    // the tow load stretches the hooks by nothing here
    U[at.U_HELD_AT] = -pair.trim.f_onV_byTip_H[0] / hooks.stiffness;
    motion.time = 0;
  };
  return { pair, motion, place };
}

const STIFF = { stiffness: 3e8, damping: 3e4, sideStiffness: 3e8 };

describe("closed hooks are the single point of the linear model", () => {
  it.each(["Rev A", "Rev B"] as const)("slow modes of %s: damping and frequency from the decay", (revision) => {
    const { pair, motion, place } = hookedMotion(revision, STIFF);
    const linear = linearise(pair.motion, pair.state);
    const slow = oscillations(rootsOf(linear.matrix, linear.size), 1.5);
    expect(slow.length).toBe(4);
    for (const root of slow) {
      place(inShapeOf(pair, linear, root, 1e-4));
      const samples: number[][] = [];
      const angles = new Float64Array(3);
      for (let k = 0; k < 26; k++) {
        motion.advance(0.1 * k, unwatched);
        eulerFromQuaternion(motion.X, at.X_ATTITUDE, angles, 0);
        const { X } = motion;
        samples.push([angles[0], angles[1] - pair.trim.alpha, angles[2], X[10], X[11], X[12]]);
      }
      const seen = fitDecay(samples, 0.1);
      const label = `${revision}, ${naturalFrequency(root).toFixed(3)} Hz, ζ ${dampingRatio(root).toFixed(4)}`;
      const why = "hooks of 0.3 GN/m in series with the boom, upset of 1e-4";
      expectClose(dampingRatio(seen), dampingRatio(root), { atol: 2e-4, why }, `ζ, ${label}`);
      expectClose(naturalFrequency(seen), naturalFrequency(root), { rtol: 3e-4, why }, `frequency, ${label}`);
    }
  });

  it("Rev A grows and Rev B decays, and the peaks of the swing say so", () => {
    for (const [revision, grows] of [
      ["Rev A", true],
      ["Rev B", false],
    ] as const) {
      const { pair, motion, place } = hookedMotion(revision, { stiffness: 4e6, damping: 4e3, sideStiffness: 2e6 });
      const linear = linearise(pair.motion, pair.state);
      const [worst] = oscillations(rootsOf(linear.matrix, linear.size), 1.5);
      place(inShapeOf(pair, linear, worst, 2e-4));
      const ring = new RingDown();
      for (let k = 0; k < 700; k++) {
        motion.advance(0.01 * k, unwatched);
        ring.take(motion.time, 0.01, motion.X[at.X_RATE + 1] + motion.X[at.X_RATE]);
      }
      ring.settle();
      const why = "hooks of 4 MN/m give; peaks of a swing of 0.2 mm or mrad";
      expectClose(ring.dampingRatio, dampingRatio(worst), { atol: 3e-3, why }, `ζ of ${revision}`);
      expectClose(ring.frequency, naturalFrequency(worst), { rtol: 0.01, why }, `frequency of ${revision}`);
      expect(ring.growth > 1).toBe(grows);
      expect(ring.dampingRatio < 0).toBe(grows);
    }
  });
});
