import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { type Longshore, longshore } from "../../../test/support/longshore.ts";
import { rootGap, rootsOf } from "../../../test/validation/hooked-support.ts";
import { createJacobianWorkspace, jacobian } from "../../math/differentiate/index.ts";
import { BoomSprings } from "../boom/index.ts";
import type { TangentialRates } from "../snubber/index.ts";
import { freeMassCarrier, hookedPair, linearise, PairMotion, steadyCarrier, TangentialModel } from "./index.ts";
import { perturb } from "./linearise.ts";

/** Pair in flight, with another tangential path in its boom, kept at the same trim. */
function withPath(settings: Longshore, tangential: TangentialRates) {
  const pair = hookedPair(settings);
  const boom = new BoomSprings({ ...pair.motion.settings.boom!.settings, tangential });
  const motion = new PairMotion({ ...pair.motion.settings, boom });
  const state = new Float64Array(motion.stateCount);
  state.set(pair.state.subarray(0, motion.layout.snubber));
  return linearise(motion, state);
}
const empty = { bending: 0, bendingDamping: 0, accumulator: 0, snubber: 0 };

describe("linearisation", () => {
  it("names coordinates, rates, snubber and law in this order", () => {
    const { names, coordinates, size } = withPath(longshore({ rollHold: true }), {
      ...empty,
      bending: 1e4,
      accumulator: 1e4,
      snubber: 100,
    });
    expect(coordinates).toBe(6);
    expect(size).toBe(14);
    expect(names.slice(0, 6)).toEqual(["x", "y", "z", "roll", "pitch", "yaw"]);
    expect(names.slice(6, 12)).toEqual(names.slice(0, 6).map((name) => `${name} rate`));
    expect(names.slice(12)).toEqual(["snubber travel", "law 0"]);
  });

  it("moves only as the joint allows", () => {
    const pair = hookedPair(longshore({ cgRight: 0.05 }));
    const { basis, coordinates } = linearise(pair.motion, pair.state);
    const rows = pair.motion.jointRows(pair.state);
    for (let r = 0; r < 3; r++) {
      for (let k = 0; k < coordinates; k++) {
        let sum = 0;
        for (let j = 0; j < 9; j++) sum += rows[9 * r + j] * basis[j * coordinates + k];
        expectClose(sum, 0, { atol: 1e-14, why: "round-off" }, `joint ${r}, coordinate ${k}`);
      }
    }
  });

  it("is extrapolated to order four", () => {
    // accelerations by all coordinates and rates, at steps that are large enough to be wrong
    const { motion, state } = hookedPair(longshore({ weightShare: 0.2 }));
    const outputs = 9;
    const evaluate = (x: Float64Array, out: Float64Array): void => {
      const moved = new Float64Array(motion.stateCount);
      perturb(state, x, 9, motion.layout, moved);
      motion.derivative(0, moved, new Float64Array(motion.stateCount));
      out.set(motion.acceleration);
    };
    const inputs = 18 + motion.stateCount - motion.layout.snubber;
    const at = (scale: number): Float64Array => {
      const steps = new Float64Array(inputs).map((_, i) => scale * (i < 9 ? 0.1 : 2));
      const out = new Float64Array(outputs * inputs);
      expect(
        jacobian(evaluate, new Float64Array(inputs), steps, outputs, out, createJacobianWorkspace(inputs, outputs)),
      ).toBe(true);
      return out;
    };
    const best = at(0.01);
    const error = [1, 0.5].map((scale) => Math.max(...at(scale).map((x, i) => Math.abs(x - best[i]))));
    const order = Math.log2(error[0] / error[1]);
    expect(order).toBeGreaterThan(3.7);
    expect(order).toBeLessThan(4.5);
  });

  it("refuses a state that moves", () => {
    const { motion, state } = hookedPair(longshore());
    state[11] = 0.01;
    expect(() => linearise(motion, state)).toThrow("at rest");
  });
});

describe("tangential model", () => {
  const settings = longshore({ rollHold: true, weightShare: 0.2, boom: { ownMass: 120, ownCentre: 2.4 } });
  const model = new TangentialModel(withPath(settings, empty), settings.boom.length);
  const rigid = Number.POSITIVE_INFINITY;

  it.each<[string, TangentialRates]>([
    ["with all four rates", { bending: 6e4, bendingDamping: 230, accumulator: 6e4, snubber: 2e3 }],
    ["without structural damping", { bending: 9e4, bendingDamping: 0, accumulator: 2e4, snubber: 3.5e3 }],
    ["without snubber", { bending: 9e4, bendingDamping: 230, accumulator: 2e4, snubber: 0 }],
    ["without accumulator", { bending: 9e4, bendingDamping: 230, accumulator: 0, snubber: 3.5e3 }],
    ["without any damping", { bending: 9e4, bendingDamping: 0, accumulator: 2e4, snubber: 0 }],
    ["with a rigid boom", { bending: rigid, bendingDamping: 0, accumulator: 2e4, snubber: 3.5e3 }],
    ["with a locked snubber", { bending: 9e4, bendingDamping: 230, accumulator: 2e4, snubber: rigid }],
    ["with a rigid accumulator", { bending: 9e4, bendingDamping: 230, accumulator: rigid, snubber: 0 }],
    ["with nothing", empty],
  ])("equals the linearisation %s", (_name, rates) => {
    const direct = withPath(settings, rates);
    const out = new Float64Array(model.sizeFor(rates) ** 2);
    const n = model.assemble(rates, out);
    expect(n).toBe(direct.size);
    const largest = (row: number): number => Math.max(...direct.matrix.subarray(row * n, row * n + n).map(Math.abs));
    for (let i = 0; i < n; i++) {
      const close = { atol: 1e-8 * largest(i), why: "difference quotients of either" };
      expectAllClose(out.subarray(i * n, i * n + n), direct.matrix.subarray(i * n, i * n + n), close, direct.names[i]);
    }
    const gap = rootGap(rootsOf(direct.matrix, n), rootsOf(out.slice(0, n * n), n), 0.1);
    expect(gap).toBeLessThan(1e-8);
  });

  it("follows a carrier that is turned in H", () => {
    const tilt = 0.3;
    const carrier = steadyCarrier();
    carrier.rotation.set([Math.cos(tilt), 0, Math.sin(tilt), 0, 1, 0, -Math.sin(tilt), 0, Math.cos(tilt)]);
    const level = longshore();
    const pair = hookedPair(level);
    const s = pair.motion.settings.boom!.settings;
    const turned = (tangential: TangentialRates) => {
      // nose up, the carrier's −x axis points down: the same boom has a smaller angle in carrier axes
      const geometry = { ...s.geometry, angleDown: s.geometry.angleDown - tilt };
      const boom = new BoomSprings({ ...s, geometry, tangential });
      const motion = new PairMotion({ ...pair.motion.settings, boom, carrier });
      const state = new Float64Array(motion.stateCount);
      state.set(pair.state.subarray(0, motion.layout.snubber));
      return linearise(motion, state);
    };
    const base = turned(empty);
    const direct = turned(s.tangential);
    const out = new Float64Array(direct.size ** 2);
    new TangentialModel(base, level.boom.length).assemble(s.tangential, out);
    const same = linearise(pair.motion, pair.state);
    const roots = rootsOf(same.matrix, same.size);
    expect(rootGap(roots, rootsOf(direct.matrix, direct.size))).toBeLessThan(1e-8);
    expect(rootGap(roots, rootsOf(out, direct.size))).toBeLessThan(1e-8);
  });

  it("refuses a carrier that would move with the hinge moment, and a pair without boom", () => {
    const carrier = freeMassCarrier(5e4, new Float64Array(3));
    const pair = hookedPair(longshore(), carrier);
    expect(() => new TangentialModel(linearise(pair.motion, pair.state), 5.6)).toThrow("swing port");
  });
});
