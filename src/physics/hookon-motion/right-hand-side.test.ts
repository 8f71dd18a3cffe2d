import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { testPair } from "../../../test/support/hookon-pair.ts";
import type { LongshoreOptions } from "../../../test/support/longshore.ts";
import { RandomStream } from "../../math/random/index.ts";
import { PairMotion, steadyCarrier, uniformAir } from "../bodies/index.ts";
import { BoomSprings, type BoomSpringsSettings } from "../boom/index.ts";
import type { ControlLaw } from "../pilot/index.ts";
import { controlsFixed } from "../pilot/index.ts";
import * as at from "./layout.ts";
import { hookonParameters } from "./parameters.ts";
import { hookonRates } from "./right-hand-side.ts";
import { arcStage } from "./stage-arc.ts";
import { framesStage } from "./stage-frames.ts";
import type { HookonSettings } from "./types.ts";

const random = new RandomStream(5, 0);
const spread = (width: number): number => width * (2 * random.uniform() - 1);

/** State near the approach, anywhere within what both hold for. */
function anyState(settings: HookonSettings, states: number): Float64Array {
  const { parameters, X } = { parameters: hookonParameters(settings), X: new Float64Array(states) };
  const q = [1, spread(0.3), spread(0.4), spread(0.3)];
  const size = Math.hypot(...q);
  q.forEach((value, i) => {
    X[at.X_ATTITUDE + i] = value / size;
  });
  for (let i = 0; i < 3; i++) {
    X[i] = -8 + spread(3);
    X[at.X_VELOCITY + i] = spread(8);
    X[at.X_RATE + i] = spread(0.6);
    X[at.X_TIP + i] = parameters.tip[i] + spread(0.4);
    X[at.X_TIP_VELOCITY + i] = spread(2);
    X[at.X_CONTROLS + i] = spread(0.1);
  }
  X[at.X_TRAVEL] = spread(0.05);
  X[at.X_CONTROLS + 3] = 3000;
  return X;
}

/** Largest difference of the accelerations over the largest acceleration of its kind, and of the snubber's rate. */
function compare(boom: BoomSpringsSettings, options: LongshoreOptions, gusts: boolean): number {
  const pair = testPair({ boom, socket: { ...testPair().socket, dragArea: 0 } }, options);
  const { P, states } = hookonParameters(pair);
  const springs = new BoomSprings(boom);
  const U = new Float64Array(at.U_SIZE);
  U[at.U_BUFFER_HELD] = 1;
  const W = new Float64Array(at.W_SIZE);
  const D = new Float64Array(states);
  let worst = 0;
  for (let sample = 0; sample < 60; sample++) {
    const X = anyState(pair, states);
    const gust = Float64Array.from({ length: 6 }, (_, i) => (gusts ? spread(i < 3 ? 6 : 0.2) : 0));
    U.set(gust, at.U_GUST);
    hookonRates(X, U, P, W, D);
    const still = uniformAir(pair.air);
    const held: ControlLaw = {
      ...controlsFixed,
      command(_state, _offset, _sensed, _trim, out) {
        [out.elevator, out.aileron, out.rudder, out.thrust] = X.subarray(at.X_CONTROLS, at.X_CONTROLS + 4);
      },
    };
    const motion = new PairMotion({
      ...{ mass: pair.mass, airloads: pair.airloads, trim: pair.trim.controls, law: held, attachment: "free" },
      ...{ boom: springs, carrier: steadyCarrier(), tipMass: pair.tipMass, probe: pair.probe },
      environment: {
        evaluate(state, out, time) {
          still.evaluate(state, out, time);
          for (let i = 0; i < 3; i++) {
            out.airVelocity[i] += gust[i];
            out.airRotation[i] = gust[3 + i];
          }
          out.airAcceleration[1] = pair.air.trueAirspeed * gust[5];
          out.airAcceleration[2] = -pair.air.trueAirspeed * gust[4];
        },
      },
    });
    const state = new Float64Array(motion.stateCount);
    state.set(X.subarray(0, 19));
    if (springs.stateCount === 1) state[motion.layout.snubber] = X[at.X_TRAVEL];
    const rate = new Float64Array(motion.stateCount);
    motion.derivative(0, state, rate);
    const largest = [0, 1, 2].map((kind) =>
      Math.max(...motion.acceleration.slice(3 * kind, 3 * kind + 3).map(Math.abs)),
    );
    motion.acceleration.forEach((value, i) => {
      const gap = Math.abs(D[ACCELERATIONS[Math.floor(i / 3)] + (i % 3)] - value) / largest[Math.floor(i / 3)];
      worst = Math.max(worst, gap);
    });
    for (let i = 0; i < 19; i++) {
      if (i >= 7 && i < 13) continue;
      if (i < 16) worst = Math.max(worst, Math.abs(D[i] - rate[i]) / Math.max(1, Math.abs(rate[i])));
    }
    if (springs.stateCount === 1) {
      const other = rate[motion.layout.snubber];
      worst = Math.max(worst, Math.abs(D[at.X_TRAVEL] - other) / Math.max(1e-3, Math.abs(other)));
    }
  }
  return worst;
}

/** Where the rates of the c.g.'s velocity, the turning and the tip's velocity are. */
const ACCELERATIONS = [at.X_VELOCITY, at.X_RATE, at.X_TIP_VELOCITY];
const base = { ...testPair().hookedBoom, ownMass: 90, ownCentre: 2.4 };
const law = { linear: 900, quadratic: 20e3, relief: 12e3, reliefRate: 8e4, friction: 150 };
const BOOMS: Record<string, BoomSpringsSettings> = {
  "linear snubber": base,
  "locked jack": { ...base, tangential: { ...base.tangential, accumulator: Number.POSITIVE_INFINITY } },
  "valve, relief, friction": { ...base, nonlinear: { law, freePlay: 0 } },
  "free play": { ...base, nonlinear: { law: { ...law, relief: Number.POSITIVE_INFINITY }, freePlay: 0.02 } },
};

describe("the one equation set", () => {
  it.each(Object.keys(BOOMS))("accelerations are those of PairMotion: %s", (name) => {
    expect(compare(BOOMS[name], {}, false)).toBeLessThan(1e-10);
  });

  it.each<[string, LongshoreOptions]>([
    ["body axes of the moments, side force in body axes", { moments: "body", sideForce: "body" }],
    ["c.g. off the plane of symmetry, products of inertia", { cgRight: 0.05 }],
    ["linear drag", { derivatives: { drag: { kind: "linear", atReference: 0.03, alpha: 0.3, elevator: 0.1 } } }],
  ])("and with %s, in gusts", (_name, options) => {
    expect(compare(base, options, true)).toBeLessThan(1e-10);
  });
});

describe("what is added to it", () => {
  const settings = testPair({ boomRateLimit: 0.1 });
  const { P, states, tip } = hookonParameters(settings);
  const [U, W, D] = [new Float64Array(at.U_SIZE), new Float64Array(at.W_SIZE), new Float64Array(states)];
  const rest = (): Float64Array => {
    const X = new Float64Array(states);
    X[at.X_ATTITUDE] = 1;
    X[0] = -20;
    X.set(tip, at.X_TIP);
    U.fill(0);
    U[at.U_BUFFER_HELD] = 1;
    return X;
  };

  it("an empty tip rests, steering moves the spring's zero no faster than its limit", () => {
    const X = rest();
    hookonRates(X, U, P, W, D);
    expect(Math.max(...D.subarray(at.X_TIP, at.X_TRAVEL + 1).map(Math.abs))).toBeLessThan(1e-9);
    U[at.U_BOOM_RATE] = 0.5;
    hookonRates(X, U, P, W, D);
    expect(D[at.X_ZERO]).toBe(0.1);
    U[at.U_BOOM_RATE] = -0.04;
    hookonRates(X, U, P, W, D);
    expect(D[at.X_ZERO]).toBe(-0.04);
    // a zero moved down pulls the tip down (larger angle): towards −x·sin, +z·cos
    U[at.U_BOOM_RATE] = 0;
    X[at.X_ZERO] = 0.05;
    hookonRates(X, U, P, W, D);
    expect(W[at.W_BOOM + 2]).toBeGreaterThan(100);
  });

  it("actuators lag, within rate and travel", () => {
    const X = rest();
    const { elevator } = settings.trim.controls;
    X[at.X_CONTROLS] = elevator;
    U[at.U_COMMANDS] = elevator + 0.03;
    hookonRates(X, U, P, W, D);
    expectClose(D[at.X_CONTROLS], 0.03 / 0.06, { rtol: 1e-12, why: "the lag" });
    U[at.U_COMMANDS] = elevator + 5;
    hookonRates(X, U, P, W, D);
    expect(D[at.X_CONTROLS]).toBe(0.7);
    X[at.X_CONTROLS] = elevator + 0.2;
    hookonRates(X, U, P, W, D);
    expectClose(D[at.X_CONTROLS], 0, { atol: 1e-12, why: "at the end of its travel" });
  });

  it("drag of the socket pushes with the gust and against its own motion", () => {
    const X = rest();
    U[at.U_SOCKET_AIR] = -5;
    U[at.U_SOCKET_AIR + 1] = 4;
    hookonRates(X, U, P, W, D);
    const V = settings.air.trueAirspeed;
    const half = 0.5 * settings.air.density * settings.socket.dragArea;
    const speed = Math.hypot(V + 5, 4);
    expectClose(D[at.X_TIP_VELOCITY] * settings.tipMass, -half * (speed * (V + 5) - V * V), {
      rtol: 1e-9,
      why: "by hand",
    });
    expectClose(D[at.X_TIP_VELOCITY + 1] * settings.tipMass, half * speed * 4, { rtol: 1e-9, why: "by hand" });
  });

  it("an orbit moves the hinge round a circle whose rate is its velocity", () => {
    const moved = testPair({ orbit: { radius: 0.2, period: 3 } });
    const { P: Q } = hookonParameters(moved);
    const X = rest();
    const place = (t: number): number[] => {
      U[at.U_TIME] = t;
      hookonRates(X, U, Q, W, D);
      return [...W.subarray(at.W_HINGE, at.W_HINGE + 6)];
    };
    const [before, now, after] = [place(0.699), place(0.7), place(0.701)];
    expectClose(Math.hypot(now[0], now[1], now[2]), 0.2, { rtol: 1e-12, why: "the radius" });
    for (let i = 0; i < 3; i++) {
      expectClose(now[3 + i], (after[i] - before[i]) / 0.002, { atol: 1e-6, why: "central difference" });
    }
  });

  it("a carrier answers the change of the hook load, and carries the hinge with it", () => {
    // a free mass of 50 t that only heaves: z, ż
    const A = Float64Array.of(0, 1, 0, 0);
    const B = new Float64Array(24);
    B[12 + 2] = 1 / 50e3;
    const C = new Float64Array(24);
    C[2 * 2] = 1;
    C[2 * 8 + 1] = 1;
    const { P: Q, states: n } = hookonParameters(testPair({ carrier: { size: 2, A, B, C } }));
    const X = new Float64Array(n);
    X.set(rest());
    const E = new Float64Array(n);
    hookonRates(X, U, Q, W, E);
    expect(E[at.X_CARRIER + 1]).toBeCloseTo(0, 12);
    X[at.X_CARRIER] = 0.1;
    X[at.X_CARRIER + 1] = -0.3;
    X[at.X_TIP + 2] += 0.1;
    X[at.X_TIP_VELOCITY + 2] = -0.3;
    hookonRates(X, U, Q, W, E);
    // the whole pair 0.1 m lower and rising together: nothing between them changes
    expect(Math.abs(E[at.X_CARRIER + 1])).toBeLessThan(1e-9);
    expect(E[at.X_CARRIER]).toBe(-0.3);
    X[at.X_TIP + 2] += 0.05;
    hookonRates(X, U, Q, W, E);
    expectClose(E[at.X_CARRIER + 1] * 50e3, -W[at.W_BOOM + 2], { rtol: 1e-9, why: "reaction of the boom" });
    expect(E[at.X_CARRIER + 1]).toBeGreaterThan(0);
  });
});

describe("small angles by polynomials", () => {
  it("sine and cosine of the tilt are those of Math, within the limit and beyond", () => {
    const { P, states } = hookonParameters(testPair());
    const [X, W] = [new Float64Array(states), new Float64Array(at.W_SIZE)];
    X[at.X_ATTITUDE] = 1;
    for (let b = -1.3; b < 1.3; b += 0.0037) {
      X[at.X_TILT + 1] = b;
      framesStage(X, P, W);
      expect(Math.abs(W[at.W_TILT] - Math.cos(b))).toBeLessThanOrEqual(2.3e-16);
      expect(Math.abs(W[at.W_TILT + 1] - Math.sin(b))).toBeLessThanOrEqual(2.3e-16);
    }
  });

  it("angles from the tangents of their halves are those of Math", () => {
    const W = new Float64Array(at.W_SIZE);
    for (let angle = -0.82; angle < 0.82; angle += 0.0013) {
      const [u, v] = [90 * Math.cos(angle), 90 * Math.sin(angle)];
      W[at.W_HALF] = v / (Math.sqrt(u * u + v * v) + u);
      W[at.W_HALF + 1] = -W[at.W_HALF];
      arcStage(W);
      // a few roundings of the tangent
      expect(Math.abs(W[at.W_ARC] - Math.atan2(v, u))).toBeLessThanOrEqual(6e-16 * Math.abs(angle));
      expect(W[at.W_ARC + 1]).toBe(-W[at.W_ARC]);
    }
  });
});
