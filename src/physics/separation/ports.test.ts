import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { noAir, vacuum, vacuumBody } from "../../../test/support/vacuum.ts";
import { MonotoneGrid } from "../../math/interpolate/index.ts";
import { createRk4Workspace, rk4Step } from "../../math/ode/index.ts";
import type { AirLoad } from "../airloads/types.ts";
import { emptySurroundings, rigidCarrier, STANDARD_GRAVITY, uniformAir } from "../bodies/index.ts";
import { looseRoot, manoeuvringCarrier, pullUp, SeparationAirloads, terminalSpeed } from "./index.ts";

const rest = { elevator: 0, aileron: 0, rudder: 0, thrust: 0 };
const empty = (): AirLoad => ({ load: new Float64Array(6), perAcceleration: new Float64Array(36) });
const air = (alpha: number, beta: number, speed = 100) => ({
  u: speed * Math.cos(alpha) * Math.cos(beta),
  v: speed * Math.sin(beta),
  w: speed * Math.sin(alpha) * Math.cos(beta),
  ...{ p: 0, q: 0, r: 0, density: 0.9, soundSpeed: 330, aft: 6, below: 4 },
});

/** One coefficient after another, the same at every node, over 2 × 2 × 2 × 2 nodes. */
function grid(values: readonly number[]): MonotoneGrid {
  const axes = [
    [4, 8],
    [-2, 2],
    [2, 6],
    [-0.2, 0.2],
  ];
  return new MonotoneGrid(
    axes,
    values.map((value) => new Float64Array(16).fill(value)),
    "hold",
  );
}

describe("airloads of a separation", () => {
  it("brake against the motion", () => {
    const model = new SeparationAirloads(noAir, null);
    model.brakeArea = 0.4;
    const out = empty();
    model.evaluate(air(0.1, 0.05), rest, out);
    const { u, v, w } = air(0.1, 0.05);
    const scale = 0.5 * 0.9 * 100 * 0.4;
    expectAllClose(out.load, [-scale * u, -scale * v, -scale * w, 0, 0, 0], { rtol: 1e-12, why: "½ρAV·V" });
  });

  it("add increments in wind and stability axes, by hand", () => {
    const near = { grid: grid([0.2, 0.03, 0.1, 0.01, -0.05, 0.02]), area: 8, span: 7, chord: 1.2 };
    const model = new SeparationAirloads(noAir, near);
    const out = empty();
    const [alpha, beta] = [0.1, 0.05];
    model.evaluate(air(alpha, beta), rest, out);
    const qS = 0.5 * 0.9 * 1e4 * 8;
    const [ca, sa, cb, sb] = [Math.cos(alpha), Math.sin(alpha), Math.cos(beta), Math.sin(beta)];
    const expected = [
      qS * (-0.03 * ca * cb + 0.2 * sa - 0.1 * ca * sb),
      qS * (-0.03 * sb + 0.1 * cb),
      qS * (-0.03 * sa * cb - 0.2 * ca - 0.1 * sa * sb),
      qS * 7 * (0.01 * ca - 0.02 * sa),
      qS * 1.2 * -0.05,
      qS * 7 * (0.01 * sa + 0.02 * ca),
    ];
    expectAllClose(out.load, expected, { rtol: 1e-10, why: "turn of axes by hand" });
    expect(model.outside).toBe(false);
  });

  it("never stretches the grid: outside nothing is added and the run is marked", () => {
    const model = new SeparationAirloads(noAir, { grid: grid([1, 1, 1, 1, 1, 1]), area: 8, span: 7, chord: 1.2 });
    const out = empty();
    model.evaluate({ ...air(0, 0), aft: 9 }, rest, out);
    expectAllClose(out.load, new Float64Array(6), { atol: 0, why: "nothing" });
    expect(model.outside).toBe(true);
    model.evaluate(air(0, 0), rest, out);
    expect(model.outside, "stays until cleared").toBe(true);
  });
});

describe("pull-up", () => {
  it("is the level world at one g, bit for bit", () => {
    const base = uniformAir({ density: 1, soundSpeed: 330, trueAirspeed: 110 });
    expect(pullUp(base, 1, 110)).toBe(base);
  });

  it("a free body follows a straight line seen from outside", () => {
    const n = 2;
    const V = 110;
    const rate = ((n - 1) * STANDARD_GRAVITY) / V;
    const { motion, state } = vacuumBody(
      { mass: 1000, Ixx: 1000, Iyy: 2000, Izz: 2500, Ixy: 0, Ixz: 0, Iyz: 0 },
      pullUp(vacuum([0, 0, 0]), n, V),
    );
    const work = createRk4Workspace(state.length);
    for (let i = 0; i < 400; i++) rk4Step(motion.derivative, 0, state, 0.005, state, work);
    const t = 2;
    // the origin flies a circle of radius V/ω; the body goes straight on, without gravity; axes nose up by ωt
    const [c, s] = [Math.cos(rate * t), Math.sin(rate * t)];
    const R = V / rate;
    const dx = V * t - R * s;
    const dz = R * (1 - c);
    expectAllClose(state.subarray(0, 3), [c * dx - s * dz, 0, s * dx + c * dz], { atol: 1e-7, why: "order four" });
  });

  it("curves the air about the hinge", () => {
    const world = pullUp(uniformAir({ density: 1, soundSpeed: 330, trueAirspeed: 110 }), 1.5, 110);
    const out = emptySurroundings();
    world.evaluate(Float64Array.of(-10, 0, 5, 1, 0, 0, 0, 0, 0, 0), out, 0);
    const rate = (0.5 * STANDARD_GRAVITY) / 110;
    expectAllClose(out.airVelocity, [-110 - 5 * rate, 0, -10 * rate], { rtol: 1e-12, why: "−ω×r" });
    expectAllClose(out.airRotation, [0, -rate, 0], { rtol: 1e-12, why: "−ω" });
  });
});

describe("carrier", () => {
  it("pulls through its c.g. and does not turn", () => {
    const hinge = [6, 0, -1] as const;
    const mass = 50e3;
    const base = rigidCarrier({
      mass: { mass, Ixx: 1e6, Iyy: 2e6, Izz: 3e6, Ixy: 0, Ixz: 0, Iyz: 0 },
      ...{ airloads: noAir, controls: rest, environment: vacuum(), hinge, trimLoad: new Float64Array(6) },
    });
    const carrier = manoeuvringCarrier(base, hinge);
    carrier.pull = 0.5 * mass * STANDARD_GRAVITY;
    const state = new Float64Array(12);
    const out = new Float64Array(12);
    carrier.evaluate(state, 0);
    carrier.derivative(state, 0, new Float64Array(6), out, 0);
    expectAllClose(out, [0, 0, 0, 0, 0, 0, 0, 0, -0.5 * STANDARD_GRAVITY, 0, 0, 0], { atol: 1e-12, why: "n = 0.5" });
  });

  it("of a jettisoned boom is a root that falls, and ends at its terminal speed", () => {
    const fall = (dragArea: number, time: number): Float64Array => {
      const world = uniformAir({ density: 0.9, soundSpeed: 330, trueAirspeed: 0 });
      const root = looseRoot(80, dragArea, world);
      const state = new Float64Array(6);
      const work = createRk4Workspace(6);
      const load = new Float64Array(6);
      const derivative = (t: number, y: Float64Array, out: Float64Array): void => {
        root.evaluate(y, 0);
        root.derivative(y, 0, load, out, t);
      };
      for (let t = 0; t < time; t += 0.01) rk4Step(derivative, t, state, 0.01, state, work);
      return state;
    };
    expectClose(fall(0, 1)[2], 0.5 * STANDARD_GRAVITY, { rtol: 0.03, why: "a hundred steps, give or take one" });
    expectClose(fall(0.5, 60)[5], terminalSpeed(80, 0.5, 0.9, STANDARD_GRAVITY), {
      rtol: 1e-7,
      why: "60 s are long enough",
    });
  });
});
