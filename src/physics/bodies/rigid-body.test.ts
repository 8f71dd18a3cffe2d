import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { vacuum, vacuumBody, walk } from "../../../test/support/vacuum.ts";
import {
  quaternionFromEuler,
  quaternionFromRotationVector,
  quaternionMultiply,
  rotateToParent,
  rotationMatrix,
} from "../../math/rotation/index.ts";
import { armFromStation, inertiaMatrix, type MassProperties } from "./index.ts";

const skew: MassProperties = { mass: 2600, Ixx: 2050, Iyy: 5700, Izz: 7000, Ixy: 110, Ixz: 250, Iyz: -90 };
const weightless = vacuum([0, 0, 0]);

/** Angular momentum about the c.g. in H and the energy of the turning. */
function turning(mass: MassProperties, state: Float64Array) {
  const I = inertiaMatrix(mass);
  const rate = state.subarray(10, 13);
  const H = new Float64Array(3);
  for (let i = 0; i < 3; i++) for (let j = 0; j < 3; j++) H[i] += I[3 * i + j] * rate[j];
  const energy = 0.5 * (H[0] * rate[0] + H[1] * rate[1] + H[2] * rate[2]);
  const R = new Float64Array(9);
  rotationMatrix(state, 3, R);
  rotateToParent(R, H, 0, H, 0);
  return { momentum: H, energy };
}

describe("rigid body without load", () => {
  it("precesses like the closed form of a symmetric top", () => {
    // C about x, A across it: q + i·r turns at (C − A)·p/A in the body; the axis turns at |H|/A in space
    const [C, A] = [2000, 5000];
    const mass: MassProperties = { mass: 100, Ixx: C, Iyy: A, Izz: A, Ixy: 0, Ixz: 0, Iyz: 0 };
    const { motion, state } = vacuumBody(mass, weightless);
    quaternionFromEuler(0.4, -0.7, 1.1, state, 3);
    const start = state.slice();
    start.set([3, 0.8, -0.5], 10);
    const { momentum } = turning(mass, start);
    const time = 6;
    const end = walk(motion, start, 0.005, time / 0.005, () => {});

    const angle = (((C - A) * 3) / A) * time;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    const rates = [3, 0.8 * c + 0.5 * s, 0.8 * s - 0.5 * c];
    expectAllClose(end.subarray(10, 13), rates, { atol: 1e-8, why: "integration error, order four" }, "body rates");

    // R(t) = turn by H/A·t about H, then the attitude at the start, then turn by p·(1 − C/A)·t about x
    const expected = new Float64Array(12);
    const inSpace = Array.from(momentum, (h) => (h / A) * time) as [number, number, number];
    quaternionFromRotationVector(...inSpace, expected, 0);
    quaternionFromRotationVector(3 * (1 - C / A) * time, 0, 0, expected, 4);
    quaternionMultiply(start, 3, expected, 4, expected, 8);
    quaternionMultiply(expected, 0, expected, 8, expected, 4);
    const [R, Rx] = [new Float64Array(9), new Float64Array(9)];
    rotationMatrix(end, 3, R);
    rotationMatrix(expected, 4, Rx);
    expectAllClose(R, Rx, { atol: 1e-7, why: "integration error, order four" }, "attitude");
  });

  it("keeps angular momentum in space and energy, with order four", () => {
    const { motion, state } = vacuumBody(skew, weightless);
    quaternionFromEuler(2, 0.3, -1, state, 3);
    state.set([1.2, 0.9, -1.5], 10);
    const before = turning(skew, state);
    const drift = [0.04, 0.02].map((step) => {
      const after = turning(
        skew,
        walk(motion, state, step, 20 / step, () => {}),
      );
      const change =
        Math.hypot(...after.momentum.map((h, i) => h - before.momentum[i])) / Math.hypot(...before.momentum);
      return { change, energy: Math.abs(after.energy / before.energy - 1) };
    });
    expect(drift[1].change).toBeLessThan(1e-6);
    expect(drift[1].energy).toBeLessThan(1e-6);
    expect(Math.log2(drift[0].change / drift[1].change)).toBeGreaterThan(3.7);
    expect(Math.log2(drift[0].energy / drift[1].energy)).toBeGreaterThan(3.7);
  });

  it("keeps its quaternion at length one and draws it back when it is not", () => {
    const { motion, state } = vacuumBody(skew, weightless);
    state.set([1.2, 0.9, -1.5], 10);
    const length = (x: Float64Array): number => Math.hypot(x[3], x[4], x[5], x[6]);
    expectClose(length(walk(motion, state, 0.02, 1000, () => {})), 1, { atol: 1e-8, why: "integration error" });
    state[3] = 1.01;
    expectClose(length(walk(motion, state, 0.02, 1000, () => {})), 1, { atol: 1e-6, why: "decays as exp(−t)" });
  });

  it("falls on a parabola, whatever it turns like", () => {
    const { motion, state } = vacuumBody(skew, vacuum([0.3, -0.2, 9.8]));
    state.set([5, 6, 7], 0);
    state.set([10, -2, 3, 1.2, 0.9, -1.5], 7);
    const end = walk(motion, state, 0.05, 40, () => {});
    const expected = [5 + 20 + 0.6, 6 - 4 - 0.4, 7 + 6 + 19.6];
    expectAllClose(end.subarray(0, 3), expected, { rtol: 1e-13, why: "a quadratic is exact" }, "place");
  });
});

describe("mass properties", () => {
  it("puts products of inertia in with a minus sign", () => {
    // two points of 1 kg at ±(1, 2, 3)
    const body = { mass: 2, Ixx: 26, Iyy: 20, Izz: 10, Ixy: 4, Ixz: 6, Iyz: 12 };
    expect(Array.from(inertiaMatrix(body))).toEqual([26, -4, -6, -4, 20, -12, -6, -12, 10]);
  });

  it("refuses what cannot exist", () => {
    const body = { mass: 1, Ixx: 1, Iyy: 1, Izz: 1, Ixy: 0, Ixz: 0, Iyz: 0 };
    expect(() => inertiaMatrix({ ...body, Izz: 2.01 })).toThrow("moments of a body that can exist");
    expect(() => inertiaMatrix({ ...body, Ixx: -1 })).toThrow("moments of a body that can exist");
    expect(() => inertiaMatrix({ ...body, Ixz: 0.51 })).toThrow("moments of a body that can exist");
    expect(() => inertiaMatrix({ ...body, Iyy: Number.NaN })).toThrow("moments of a body that can exist");
    expect(() => inertiaMatrix({ ...body, mass: 0 })).toThrow("mass");
    // a rod and a plate are the limits of what can
    expect(inertiaMatrix({ ...body, Ixx: 0 })[0]).toBe(0);
    expect(inertiaMatrix({ ...body, Izz: 2 })[8]).toBe(2);
  });

  it("turns stations (aft, right, up) into body arms (forward, right, down)", () => {
    const arm = armFromStation({ FS: 4.3, BL: 0.1, WL: 1 }, { FS: 2.1, BL: 0.3, WL: 1.85 });
    expectAllClose(arm, [2.2, 0.2, -0.85], { atol: 1e-15, why: "round-off" });
  });
});
