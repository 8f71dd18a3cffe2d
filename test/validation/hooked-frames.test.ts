/** The same pair seen from elsewhere: shifted datum, other heading, moving frame, mirror. Nothing may change. */
import { describe, expect, it } from "vitest";
import {
  quaternionFromEuler,
  quaternionMultiply,
  rotateToParent,
  rotationMatrix,
} from "../../src/math/rotation/index.ts";
import {
  type CarrierPort,
  type Environment,
  type HookedPair,
  hookedPair,
  linearise,
  PairMotion,
  steadyCarrier,
} from "../../src/physics/bodies/index.ts";
import { expectAllClose, expectClose } from "../support/close.ts";
import { type LongshoreOptions, longshore } from "../support/longshore.ts";
import { hangOnTip } from "../support/vacuum.ts";
import { linearPair, planes, rootGap, rootsOf } from "./hooked-support.ts";

const round = { rtol: 1e-9, atol: 1e-9, why: "round-off of positions of metres" };

/** A change of the frame: turned by a quaternion, moved to a place, drifting. */
interface View {
  readonly attitude: Float64Array;
  readonly R: Float64Array;
  readonly origin: readonly [number, number, number];
  readonly drift: readonly [number, number, number];
}
function view(yaw: number, pitch: number, roll: number, origin: View["origin"], drift: View["drift"]): View {
  const attitude = new Float64Array(4);
  quaternionFromEuler(yaw, pitch, roll, attitude, 0);
  const R = new Float64Array(9);
  rotationMatrix(attitude, 0, R);
  return { attitude, R, origin, drift };
}

/** Turns three numbers of a state and adds a vector. */
function turn({ R }: View, x: Float64Array, at: number, plus: readonly number[] = [0, 0, 0]): void {
  rotateToParent(R, x, at, x, at);
  for (let i = 0; i < 3; i++) x[at + i] += plus[i];
}
function seen(from: View, pair: HookedPair, state: Float64Array): Float64Array {
  const out = state.slice();
  const { tip } = pair.motion.layout;
  turn(from, out, 0, from.origin);
  turn(from, out, 7, from.drift);
  turn(from, out, tip, from.origin);
  turn(from, out, tip + 3, from.drift);
  quaternionMultiply(from.attitude, 0, state, 3, out, 3);
  return out;
}

/** The same equations in the other frame: turned air, gravity and carrier. */
function motionSeen(from: View, pair: HookedPair): PairMotion {
  const { settings } = pair.motion;
  const environment: Environment = {
    evaluate(state, out, time) {
      settings.environment.evaluate(state, out, time);
      turn(from, out.airVelocity, 0, from.drift);
      turn(from, out.gravity, 0);
    },
  };
  const carrier: CarrierPort = steadyCarrier();
  carrier.hinge.set(from.origin);
  carrier.hingeVelocity.set(from.drift);
  carrier.rotation.set(from.R);
  return new PairMotion({ ...settings, environment, carrier });
}

/** A thrown state: everything moves. */
function thrown(pair: HookedPair): Float64Array {
  const state = pair.state.slice();
  const { tip, snubber } = pair.motion.layout;
  quaternionFromEuler(0.2, 0.25, -0.3, state, 3);
  state.set([0.3, -0.2, 0.15], 10);
  for (const [i, x] of [0.03, -0.05, 0.08, 0.4, -0.3, 0.6].entries()) state[tip + i] += x;
  state[snubber] = 0.02;
  hangOnTip(pair.motion, state);
  return state;
}

describe("another frame", () => {
  const pair = hookedPair(longshore({ revision: "Rev B", weightShare: 0.2, cgRight: 0.05 }));
  const derivativeOf = (motion: PairMotion, state: Float64Array): Float64Array => {
    const out = new Float64Array(state.length);
    motion.derivative(0, state, out);
    return out;
  };

  it.each<[string, View]>([
    ["turned to another heading", view(2.1, 0, 0, [0, 0, 0], [0, 0, 0])],
    ["moved elsewhere", view(0, 0, 0, [300, -200, 100], [0, 0, 0])],
    ["drifting past", view(0, 0, 0, [0, 0, 0], [40, -25, 10])],
    ["all of it, upside down", view(-0.7, 1.2, 2.6, [30, 20, -10], [-60, 5, 12])],
  ])("sees the same motion: %s", (_name, from) => {
    const state = thrown(pair);
    const here = derivativeOf(pair.motion, state);
    const there = derivativeOf(motionSeen(from, pair), seen(from, pair, state));
    const { tip, snubber } = pair.motion.layout;
    expect(Math.hypot(here[10], here[11], here[12])).toBeGreaterThan(1);
    for (const at of [7, tip + 3]) {
      const expected = here.slice(at, at + 3);
      turn(from, expected, 0);
      expectAllClose(there.subarray(at, at + 3), expected, { ...round, atol: 1e-7 }, `acceleration ${at}`);
    }
    expectAllClose(there.subarray(10, 13), here.subarray(10, 13), { ...round, atol: 1e-7 }, "body accelerations");
    expectClose(there[snubber], here[snubber], { ...round, atol: 1e-8 }, "snubber");
  });

  it("has the same modes on another heading, with roll hold and without", () => {
    for (const rollHold of [false, true]) {
      const { pair: level, linear } = linearPair(longshore({ weightShare: 0.1, rollHold }));
      const from = view(2.1, 0, 0, [5, 6, -7], [0, 0, 0]);
      const turned = linearise(motionSeen(from, level), seen(from, level, level.state));
      const roots = rootsOf(linear.matrix, linear.size);
      expect(rootGap(roots, rootsOf(turned.matrix, turned.size))).toBeLessThan(1e-8);
    }
  });

  it("takes the motion of the boom from the carrier, not from the frame", () => {
    // tip carried along by a carrier that yaws and drops: no rate across any damper
    const { motion } = hookedPair(longshore({ revision: "Rev B", weightShare: 0.2 }));
    const carrier = steadyCarrier();
    carrier.hingeVelocity.set([0, 3, 2]);
    carrier.angularVelocity.set([0.1, -0.2, 0.3]);
    const moving = new PairMotion({ ...motion.settings, carrier });
    const state = new Float64Array(moving.stateCount);
    const place = moving.settings.boom!.tipAtTrim();
    const [wx, wy, wz] = carrier.angularVelocity;
    const swept = [wy * place[2] - wz * place[1], wz * place[0] - wx * place[2], wx * place[1] - wy * place[0]];
    quaternionFromEuler(0, 0.08, 0, state, 3);
    state.set(place, moving.layout.tip);
    state.set([swept[0], 3 + swept[1], 2 + swept[2]], moving.layout.tip + 3);
    hangOnTip(moving, state);
    moving.derivative(0, state, new Float64Array(moving.stateCount));
    const boom = moving.settings.boom!;
    expectClose(boom.snubberRate, 0, { atol: 1e-12, why: "carried along" }, "snubber");
    const { tension, tangential } = boom.settings.preload;
    const [c, s] = [Math.cos(boom.settings.geometry.angleDown), Math.sin(boom.settings.geometry.angleDown)];
    const expected = [tension * c - tangential * s, 0, -tension * s - tangential * c];
    expectAllClose(boom.force, expected, { atol: 1e-7, why: "preload alone" }, "boom force");
  });
});

describe("another datum", () => {
  it("gives the same modes from shifted stations", () => {
    for (const datumShift of [3, -17]) {
      for (const mass of ["full", "empty"] as const) {
        const options = { revision: "Rev B", mass, weightShare: 0.2 } as const;
        const [here, there] = [planes(longshore(options)), planes(longshore({ ...options, datumShift }))];
        expect(rootGap(here.longitudinal, there.longitudinal)).toBeLessThan(1e-9);
        expect(rootGap(here.lateral, there.lateral)).toBeLessThan(1e-9);
      }
    }
  });
});

describe("the mirror", () => {
  const sides: LongshoreOptions[] = [
    { revision: "Rev A", cgRight: 0.06 },
    { revision: "Rev B", mass: "return", cgRight: 0.06, weightShare: 0.3, boom: { ownMass: 90, ownCentre: 2.5 } },
  ];

  it.each(sides)("shows the same modes with the c.g. on the other side: $revision", (options) => {
    const roots = (cgRight: number) => {
      const { linear } = linearPair(longshore({ ...options, cgRight }));
      return rootsOf(linear.matrix, linear.size);
    };
    const right = roots(0.06);
    expect(rootGap(right, roots(-0.06))).toBeLessThan(1e-9);
    // and the side does matter: it couples the planes
    expect(rootGap(right, roots(0))).toBeGreaterThan(1e-4);
  });

  it("shows the same motion, sideways the other way round", () => {
    const [right, left] = [0.06, -0.06].map((cgRight) => hookedPair(longshore({ ...sides[1], cgRight })));
    // sideways: y, roll and yaw; quaternion x and z
    const flip = (x: Float64Array): Float64Array => {
      const out = x.slice();
      const { tip } = right.motion.layout;
      for (const i of [1, 4, 6, 8, 10, 12, tip + 1, tip + 4]) out[i] = -out[i];
      return out;
    };
    const state = thrown(right);
    const [a, b] = [new Float64Array(state.length), new Float64Array(state.length)];
    right.motion.derivative(0, state, a);
    left.motion.derivative(0, flip(state), b);
    expectAllClose(b, flip(a), { rtol: 1e-8, atol: 1e-8, why: "trim of either side" });
  });
});
