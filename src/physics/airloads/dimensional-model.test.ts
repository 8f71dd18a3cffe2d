import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import {
  type AirLoad,
  type AirState,
  type DerivativeSet,
  type DimensionalSet,
  derivativeModel,
  dimensionalModel,
  momentsFromPrimed,
  normalToFlow,
} from "./index.ts";

const still = { elevator: 0, aileron: 0, rudder: 0, thrust: 0 };
const exact = { rtol: 1e-12, atol: 1e-9, why: "round-off" };

/** Every derivative different, so that none can take another's place. */
const set: DimensionalSet = {
  mass: 1000,
  Ixx: 2000,
  Iyy: 5000,
  Izz: 7000,
  Ixz: 300,
  trim: { speed: 100, alpha: 0.1, pitch: 0.15, gravity: 9.8 },
  longitudinal: {
    Xu: -0.02,
    Xw: 0.08,
    Xudot: 0.002,
    Xwdot: -0.004,
    Xq: 0.3,
    Xelevator: 0.5,
    Zu: -0.25,
    Zw: -0.9,
    Zudot: -0.005,
    Zwdot: 0.03,
    Zq: -7,
    Zelevator: -13,
    Mu: 0.0003,
    Mw: -0.008,
    Mudot: 0.0002,
    Mwdot: -0.0015,
    Mq: -0.7,
    Melevator: -4.2,
  },
  lateral: {
    moments: "primed",
    Yv: -0.12,
    Yp: 0.2,
    Yr: 0.4,
    Yaileron: -0.01,
    Yrudder: 3,
    Lbeta: -5.5,
    Lp: -2,
    Lr: 0.64,
    Laileron: 6,
    Lrudder: -0.01,
    Nbeta: 0.67,
    Np: -0.12,
    Nr: -0.21,
    Naileron: 0.03,
    Nrudder: -1.24,
  },
  thrust: { trim: 500, direction: [1, 0, 0], point: [0, 0, 0.4] },
};
const trimAir: AirState = {
  u: 100 * Math.cos(0.1),
  v: 0,
  w: 100 * Math.sin(0.1),
  p: 0,
  q: 0,
  r: 0,
  density: 1,
  soundSpeed: 330,
};
const trimControls = { ...still, thrust: 500 };

const zeros = Object.fromEntries(
  Object.keys(set.longitudinal).map((key) => [key, 0]),
) as unknown as typeof set.longitudinal;

/** An airframe of which only the α̇ and q derivatives are left. */
function onlyRates(referenceAlpha: number): DerivativeSet {
  const none = { beta: 0, rollRate: 0, yawRate: 0, aileron: 0, rudder: 0 };
  return {
    area: 8,
    span: 7,
    chord: 1.2,
    axes: { moments: "stability", sideForce: "wind" },
    referencePoint: [0, 0, 0],
    referenceAlpha,
    lift: { atReference: 0, alpha: 0, pitchRate: 6, alphaRate: 1.8, elevator: 0 },
    drag: { kind: "linear", atReference: 0, alpha: 0, elevator: 0 },
    pitch: { atReference: 0, alpha: 0, pitchRate: -12, alphaRate: -3.5, elevator: 0 },
    side: none,
    roll: none,
    yaw: none,
    thrust: { direction: [1, 0, 0], point: [0, 0, 0] },
  };
}

function evaluate(model: DimensionalSet, change: Partial<AirState>, controls = trimControls): AirLoad {
  const out = { load: new Float64Array(6), perAcceleration: new Float64Array(36) };
  dimensionalModel(model).evaluate({ ...trimAir, ...change }, controls, out);
  return out;
}
/** Change of the load from trim, divided into accelerations: forces by mass, moments by the inertia matrix. */
function accelerations(model: DimensionalSet, change: Partial<AirState>, controls = trimControls): number[] {
  const trim = evaluate(model, {}).load;
  const d = evaluate(model, change, controls).load.map((x, i) => x - trim[i]);
  const det = model.Ixx * model.Izz - model.Ixz * model.Ixz;
  return [
    d[0] / model.mass,
    d[1] / model.mass,
    d[2] / model.mass,
    (model.Izz * d[3] + model.Ixz * d[5]) / det,
    d[4] / model.Iyy,
    (model.Ixz * d[3] + model.Ixx * d[5]) / det,
  ];
}

describe("dimensional model", () => {
  it("balances the weight at the trim attitude, with no moment", () => {
    const weight = 9800;
    const { load } = evaluate(set, {});
    expectAllClose(load, [weight * Math.sin(0.15), 0, -weight * Math.cos(0.15), 0, 0, 0], exact);
  });

  it("gives each derivative as an acceleration per motion", () => {
    const perBeta = 0.01;
    const rows: [Partial<AirState>, number[]][] = [
      [{ u: trimAir.u + 2 }, [-0.04, 0, -0.5, 0, 0.0006, 0]],
      [{ w: trimAir.w + 3 }, [0.24, 0, -2.7, 0, -0.024, 0]],
      [{ q: 0.2 }, [0.06, 0, -1.4, 0, -0.14, 0]],
      [{ v: 100 * perBeta }, [0, -0.12, 0, -0.055, 0, 0.0067]],
      [{ p: 0.5 }, [0, 0.1, 0, -1, 0, -0.06]],
      [{ r: 0.5 }, [0, 0.2, 0, 0.32, 0, -0.105]],
    ];
    for (const [change, expected] of rows) {
      expectAllClose(accelerations(set, change), expected, {
        rtol: 1e-9,
        atol: 1e-12,
        why: "round-off of a difference",
      });
    }
  });

  it("gives each control derivative, and thrust above trim at its point", () => {
    const close = { rtol: 1e-9, atol: 1e-12, why: "round-off of a difference" };
    const elevator = accelerations(set, {}, { ...trimControls, elevator: 0.1 });
    expectAllClose(elevator, [0.05, 0, -1.3, 0, -0.42, 0], close);
    const aileron = accelerations(set, {}, { ...trimControls, aileron: 0.1 });
    expectAllClose(aileron, [0, -0.001, 0, 0.6, 0, 0.003], close);
    const rudder = accelerations(set, {}, { ...trimControls, rudder: 0.1 });
    expectAllClose(rudder, [0, 0.3, 0, -0.001, 0, -0.124], close);
    const thrust = accelerations(set, {}, { ...still, thrust: 600 });
    expectAllClose(thrust, [0.1, 0, 0, 0, (0.4 * 100) / 5000, 0], close);
  });

  it("puts the parts with u̇ and ẇ, and nothing else, into the acceleration part", () => {
    const { perAcceleration } = evaluate(set, { p: 0.3, v: 4 });
    const expected = new Float64Array(36);
    expected[0] = 1000 * 0.002;
    expected[2] = 1000 * -0.004;
    expected[12] = 1000 * -0.005;
    expected[14] = 1000 * 0.03;
    expected[24] = 5000 * 0.0002;
    expected[26] = 5000 * -0.0015;
    expectAllClose(perAcceleration, expected, exact);
  });

  it("completes printed derivatives so that α̇ and q turn with the flow, like the coefficient build-up", () => {
    // The same aircraft twice: lift and moment due to α̇ and q from coefficients, and from body-axis Z_ẇ, M_ẇ, Z_q, M_q
    const alpha = 0.12;
    const mass = 1000;
    const coefficients = derivativeModel(onlyRates(alpha));
    const air = { ...trimAir, u: 100 * Math.cos(alpha), w: 100 * Math.sin(alpha) };
    const quiet = { load: new Float64Array(6), perAcceleration: new Float64Array(36) };
    const turning = { load: new Float64Array(6), perAcceleration: new Float64Array(36) };
    coefficients.evaluate(air, still, quiet);
    coefficients.evaluate({ ...air, q: 0.1 }, still, turning);
    const perQ = (i: number): number => (turning.load[i] - quiet.load[i]) / 0.1;
    const P = turning.perAcceleration;
    const printed = { ...zeros, Zwdot: P[14] / mass, Mwdot: P[26] / 5000, Zq: perQ(2) / mass, Mq: perQ(4) / 5000 };
    const full = normalToFlow(printed, alpha);
    const round = { rtol: 1e-12, atol: 1e-15, why: "round-off: the relation is exact" };
    expectClose(mass * full.Xudot, P[0], round, "X_u̇");
    expectClose(mass * full.Xwdot, P[2], round, "X_ẇ");
    expectClose(mass * full.Zudot, P[12], round, "Z_u̇");
    expectClose(5000 * full.Mudot, P[24], round, "M_u̇");
    expectClose(mass * full.Xq, perQ(0), { rtol: 1e-9, why: "round-off of a difference" }, "X_q");
    expect(() => normalToFlow(printed, 1.6)).toThrow(/trim angle of attack \[rad\] is 1.6; allowed: within ±π\/2/);
  });

  it("has no lateral load without lateral motion or controls", () => {
    const { load } = evaluate(set, { u: 90, w: 20, q: 0.4 }, { ...trimControls, elevator: 0.1 });
    expect([load[1], load[3], load[5]]).toEqual([0, 0, 0]);
  });

  it("primed derivatives and the plain ones they stand for give the same load", () => {
    // L′ = (L + (I_xz/I_xx)·N)/(1 − I_xz²/(I_xx·I_zz)), N′ = (N + (I_xz/I_zz)·L)/(…), as printed in the reports
    const prime = 1 / (1 - (300 * 300) / (2000 * 7000));
    const primed = (L: number, N: number): [number, number] => [
      prime * (L + (300 / 2000) * N),
      prime * (N + (300 / 7000) * L),
    ];
    const plain = { ...set.lateral, moments: "plain" as const };
    const [Lbeta, Nbeta] = primed(plain.Lbeta, plain.Nbeta);
    const [Lp, Np] = primed(plain.Lp, plain.Np);
    const [Lr, Nr] = primed(plain.Lr, plain.Nr);
    const [Laileron, Naileron] = primed(plain.Laileron, plain.Naileron);
    const [Lrudder, Nrudder] = primed(plain.Lrudder, plain.Nrudder);
    const withPrimes = { ...plain, moments: "primed" as const, Lbeta, Nbeta, Lp, Np, Lr, Nr };
    const a = { ...set, lateral: plain };
    const b = { ...set, lateral: { ...withPrimes, Laileron, Naileron, Lrudder, Nrudder } };
    const change = { v: 3, p: 0.2, r: -0.1 };
    const controls = { ...trimControls, aileron: 0.05, rudder: -0.02 };
    expectAllClose(evaluate(b, change, controls).load, evaluate(a, change, controls).load, exact);
    const moments = momentsFromPrimed(set, Lbeta, Nbeta);
    expectClose(moments.roll, 2000 * plain.Lbeta, exact);
    expectClose(moments.yaw, 7000 * plain.Nbeta, exact);
  });

  it.each([
    [{ ...set, mass: 0 }, /mass is 0; allowed: greater than 0/],
    [{ ...set, Ixz: 4000 }, /Ixz is 4000; allowed: Ixz² below Ixx·Izz/],
    [{ ...set, trim: { ...set.trim, speed: -1 } }, /speed is -1/],
    [{ ...set, longitudinal: { ...set.longitudinal, Mq: Number.NaN } }, /Mq is NaN; allowed: a finite number/],
    [{ ...set, thrust: { ...set.thrust, direction: [0, 0, 0] as const } }, /thrust direction/],
  ])("refuses a set that cannot be %#", (wrong, message) => {
    expect(() => dimensionalModel(wrong)).toThrow(message);
  });
});
