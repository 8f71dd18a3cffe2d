import { describe, expect, it } from "vitest";
import { expectAllClose } from "../../../test/support/close.ts";
import { hangOnTip, noAir } from "../../../test/support/vacuum.ts";
import { quaternionFromEuler, rotateToBody, rotateToParent, rotationMatrix } from "../../math/rotation/index.ts";
import type { AirLoad, AirloadModel, AirState } from "../airloads/index.ts";
import { BoomSprings } from "../boom/index.ts";
import { controlsFixed } from "../pilot/index.ts";
import { freeMassCarrier, inertiaMatrix, PairMotion, type PairMotionSettings } from "./index.ts";

const mass = { mass: 2600, Ixx: 2050, Iyy: 5700, Izz: 7000, Ixy: 110, Ixz: 250, Iyz: -90 };
const [wind, spin] = [
  [-95, 4, -7],
  [0.02, -0.03, 0.05],
];

/** Airloads without any structure: every load follows every motion and every acceleration. Keeps what it saw. */
class AnyAirloads implements AirloadModel {
  readonly seen: AirState = { u: 0, v: 0, w: 0, p: 0, q: 0, r: 0, density: 0, soundSpeed: 0 };
  readonly given: AirLoad = { load: new Float64Array(6), perAcceleration: new Float64Array(36) };
  evaluate(air: AirState, controls: { elevator: number }, out: AirLoad): void {
    Object.assign(this.seen, air);
    const motion = [air.u, air.v, air.w, air.p, air.q, air.r];
    for (let i = 0; i < 6; i++) {
      out.load[i] = 300 * Math.sin(i + 1) + 1000 * controls.elevator;
      for (let j = 0; j < 6; j++) {
        out.load[i] += 10 * Math.sin(3 * i + 5 * j + 1) * motion[j];
        out.perAcceleration[6 * i + j] = 60 * Math.cos(2 * i + 7 * j + 1);
      }
    }
    this.given.load.set(out.load);
    this.given.perAcceleration.set(out.perAcceleration);
  }
}

function build(airloads: AirloadModel, change: Partial<PairMotionSettings> = {}) {
  const boom = new BoomSprings({
    geometry: { length: 5.6, angleDown: 0.9 },
    preload: { tension: 2000, tangential: 900, lateral: -300 },
    axial: 8e5,
    axialDamping: 3000,
    lateral: 6e5,
    lateralDamping: 700,
    tangential: { bending: 9e4, bendingDamping: 240, accumulator: 3e4, snubber: 3500 },
    ownMass: 85,
    ownCentre: 2.5,
  });
  const motion = new PairMotion({
    mass,
    airloads,
    trim: { elevator: 0.1, aileron: 0, rudder: 0, thrust: 0 },
    law: controlsFixed,
    environment: {
      evaluate(_state, out) {
        out.gravity.set([0.3, -0.2, 9.7]);
        out.airVelocity.set(wind);
        out.airRotation.set(spin);
        out.density = 0.9;
        out.soundSpeed = 330;
      },
    },
    attachment: "single point",
    boom,
    carrier: freeMassCarrier(40_000, new Float64Array(3)),
    tipMass: 130,
    probe: [2.2, 0.15, -0.85],
    ...change,
  });
  const state = new Float64Array(motion.stateCount);
  quaternionFromEuler(0.3, -0.2, 0.5, state, 3);
  state.set([0.4, -0.3, 0.25], 10);
  const { tip, snubber, carrier } = motion.layout;
  state.set(boom.tipAtTrim(), tip);
  for (const [i, x] of [0.05, -0.1, 0.2, 0.5, -0.3, 0.4].entries()) state[tip + i] += x;
  state[snubber] = 0.03;
  state.set([0.02, 0.01, -0.03, 0.3, 0.2, -0.1], carrier);
  hangOnTip(motion, state);
  return { motion, state, boom };
}

const matrixOf = (state: Float64Array): Float64Array => {
  const R = new Float64Array(9);
  rotationMatrix(state, 3, R);
  return R;
};
const cross = (a: ArrayLike<number>, b: ArrayLike<number>): number[] => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
/** Velocity against the air and rates against the air, body axes, straight from a state. */
const againstAir = (state: Float64Array): number[] => {
  const R = matrixOf(state);
  const velocity = Float64Array.from(wind, (w, i) => state[7 + i] - w);
  const turning = Float64Array.from(spin);
  rotateToBody(R, velocity, 0, velocity, 0);
  rotateToBody(R, turning, 0, turning, 0);
  return [...velocity, ...turning.map((x, i) => state[10 + i] - x)];
};

describe("equations of motion at a state where everything moves", () => {
  const airloads = new AnyAirloads();
  const { motion, state, boom } = build(airloads);
  const rate = new Float64Array(state.length);
  motion.derivative(0, state, rate);
  const f = motion.jointForce.slice();
  const force = boom.force.slice();
  // rates of the body components of the airspeed, by differences along the motion
  const step = 1e-5;
  const moved = (sign: number): number[] => againstAir(state.map((x, i) => x + sign * step * rate[i]));
  const [ahead, back] = [moved(1), moved(-1)];
  const airAcceleration = ahead.slice(0, 3).map((x, i) => (x - back[i]) / (2 * step));
  const accelerations = [...airAcceleration, ...rate.subarray(10, 13)];
  motion.derivative(0, state, rate);
  const { load, perAcceleration } = airloads.given;
  const total = Array.from(load, (x, i) =>
    accelerations.reduce((sum, a, j) => sum + perAcceleration[6 * i + j] * a, x),
  );
  const R = matrixOf(state);
  const close = { atol: 1e-4, why: "differences of the air components, loads of 10⁴ N" };

  it("shows the airloads their own motion against the air", () => {
    const { u, v, w, p, q, r } = airloads.seen;
    expectAllClose([u, v, w, p, q, r], againstAir(state), { atol: 1e-12, why: "round-off" });
    expect(Math.abs(v) + Math.abs(w)).toBeGreaterThan(5);
  });

  it("obeys Newton for the aircraft, README eq. 1 and 5", () => {
    const air = Float64Array.from(total.slice(0, 3));
    rotateToParent(R, air, 0, air, 0);
    const expected = [0.3, -0.2, 9.7].map((g, i) => mass.mass * g + air[i] + f[i]);
    expectAllClose(
      rate.subarray(7, 10).map((a) => mass.mass * a),
      expected,
      close,
    );
  });

  it("obeys Euler for the aircraft, README eq. 2 and 5", () => {
    const I = inertiaMatrix(mass);
    const times = (x: ArrayLike<number>): number[] =>
      [0, 1, 2].map((i) => I[3 * i] * x[0] + I[3 * i + 1] * x[1] + I[3 * i + 2] * x[2]);
    const w = state.subarray(10, 13);
    const inBody = f.slice();
    rotateToBody(R, inBody, 0, inBody, 0);
    const moment = cross([2.2, 0.15, -0.85], inBody);
    const gyroscopic = cross(w, times(w));
    const left = times(rate.subarray(10, 13)).map((x, i) => x + gyroscopic[i]);
    expectAllClose(
      left,
      total.slice(3).map((x, i) => x + moment[i]),
      close,
    );
  });

  it("obeys Newton for the tip and the joint, README eq. 3 and 4", () => {
    const { tip } = motion.layout;
    expectAllClose(
      rate.subarray(tip + 3, tip + 6).map((a) => 130 * a),
      force.map((x, i) => x - f[i]),
      { atol: 1e-8, why: "round-off of loads of 10⁵ N" },
    );
    // the probe's acceleration by differences of its velocity along the motion
    const probeVelocity = (x: Float64Array): number[] => {
      const arm = Float64Array.from(cross(x.subarray(10, 13), [2.2, 0.15, -0.85]));
      rotateToParent(matrixOf(x), arm, 0, arm, 0);
      return Array.from(arm, (v, i) => v + x[7 + i]);
    };
    const [a, b] = [1, -1].map((sign) => probeVelocity(state.map((x, i) => x + sign * step * rate[i])));
    const acceleration = a.map((x, i) => (x - b[i]) / (2 * step));
    expectAllClose(acceleration, rate.subarray(tip + 3, tip + 6), { atol: 1e-6, why: "central difference" });
  });

  it("turns the attitude with the body rates, README eq. 5", () => {
    const [a, b] = [1, -1].map((sign) => matrixOf(state.map((x, i) => x + sign * step * rate[i])));
    const slope = a.map((x, i) => (x - b[i]) / (2 * step));
    // Ṙ = R·[ω×]
    const [p, q, r] = state.subarray(10, 13);
    const hat = [0, -r, q, r, 0, -p, -q, p, 0];
    const expected = Array.from({ length: 9 }, (_, k) =>
      [0, 1, 2].reduce((sum, j) => sum + R[3 * Math.floor(k / 3) + j] * hat[3 * j + (k % 3)], 0),
    );
    expectAllClose(slope, expected, { atol: 1e-8, why: "central difference" });
  });

  it("draws a gap of the joint back like a critically damped spring", () => {
    const still = build(noAir);
    const apart = still.state.slice();
    apart[0] += 1e-3;
    const [closed, open] = [still.state, apart].map((x) => {
      const out = new Float64Array(x.length);
      still.motion.derivative(0, x, out);
      const { tip } = still.motion.layout;
      const arm = Float64Array.from(cross(out.subarray(10, 13), [2.2, 0.15, -0.85]));
      rotateToParent(matrixOf(x), arm, 0, arm, 0);
      return out[7] + arm[0] - out[tip + 3];
    });
    expectAllClose([open - closed], [-400 * 1e-3], { rtol: 1e-6, why: "κ² = 400 1/s²" });
  });
});

describe("settings", () => {
  it("refuses a free tip without mass, and a hooked aircraft without boom", () => {
    expect(() => build(noAir, { attachment: "free", tipMass: 0 })).toThrow("effective mass of the boom tip");
    expect(() => build(noAir, { tipMass: -1 })).toThrow("effective mass of the boom tip");
    const { settings } = build(noAir).motion;
    const { boom: _boom, carrier: _carrier, ...bare } = settings;
    expect(() => new PairMotion(bare)).toThrow("needs boom, carrier and probe");
  });

  it("lets the tip swing apart from the aircraft when nothing joins them", () => {
    const { motion, state, boom } = build(noAir, { attachment: "free" });
    const rate = new Float64Array(state.length);
    motion.derivative(0, state, rate);
    const { tip } = motion.layout;
    expectAllClose(rate.subarray(7, 10), [0.3, -0.2, 9.7], { atol: 1e-12, why: "free fall" });
    const swing = boom.force.map((x) => x / 130);
    expectAllClose(rate.subarray(tip + 3, tip + 6), swing, { rtol: 1e-12, why: "boom force alone" });
    expect(Array.from(motion.jointForce)).toEqual([0, 0, 0]);
  });
});
