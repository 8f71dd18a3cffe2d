import { beforeAll, describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { longshore } from "../../../test/support/longshore.ts";
import { createRk4Workspace, rk4Step } from "../../math/ode/index.ts";
import { derivativeModel } from "../airloads/index.ts";
import { carrierAtTrim, type Environment, hookedPair, PairMotion, rigidCarrier, uniformAir } from "../bodies/index.ts";
import { frozenGust, type GustInput, PENETRATION_OUTPUTS, PenetrationModel, penetrationRms } from "./index.ts";

const HINGE = [6.6, 0, -0.25] as const;
const BODY = { mass: 58_000, Ixx: 1.2e6, Iyy: 1.9e6, Izz: 2.9e6, Ixy: 0, Ixz: 5e4, Iyz: 0 };
const lateral = (beta: number, rollRate: number, yawRate: number) => ({
  beta,
  rollRate,
  yawRate,
  aileron: 0,
  rudder: 0,
});
const still = { elevator: 0, aileron: 0, rudder: 0, thrust: 0 };
const settings = longshore({ revision: "Rev B" });
const V = settings.air.trueAirspeed;

/** Gust velocity by time; may also be read without time through the inputs. */
type Gusts = { readonly carrier: (t: number) => GustInput; readonly carried: (t: number) => GustInput };

function timed(base: Environment, gust: (t: number) => GustInput): Environment {
  return { evaluate: (state, out, time) => frozenGust(base, gust(time), V).evaluate(state, out, time) };
}

function gustyPair(rigid: boolean, gusts: Gusts) {
  const first = hookedPair(settings);
  first.motion.derivative(0, first.state, new Float64Array(first.state.length));
  const trimLoad = first.motion.hingeLoad.slice();
  const set = carrierAtTrim(
    {
      ...{ area: 146, span: 38.6, chord: 4.05, axes: { moments: "stability", sideForce: "wind" } },
      ...{ referencePoint: [0, 0, 0], referenceAlpha: 0 },
      lift: { atReference: 0, alpha: 5.6, pitchRate: 8, alphaRate: 2, elevator: 0 },
      drag: { kind: "parabolic", zeroLift: 0.0265, efficiency: 0.8, elevator: 0 },
      pitch: { atReference: 0, alpha: -1.2, pitchRate: -22, alphaRate: -6, elevator: 0 },
      ...{ side: lateral(-0.9, -0.05, 0.35), roll: lateral(-0.1, -0.52, 0.18), yaw: lateral(0.11, -0.06, -0.17) },
      thrust: { direction: [1, 0, 0], point: [0, 0, 0] },
    },
    { mass: BODY.mass, ...settings.air },
    HINGE,
    trimLoad,
  );
  const environment = timed(uniformAir(settings.air), gusts.carrier);
  const own = { mass: BODY, airloads: derivativeModel(set), controls: still, environment, hinge: HINGE, trimLoad };
  const pair = rigid ? hookedPair(settings, rigidCarrier(own)) : first;
  const motion = new PairMotion({
    ...pair.motion.settings,
    environment: timed(pair.motion.settings.environment, gusts.carried),
  });
  return { motion, state: pair.state };
}

function modelOf(rigid: boolean): PenetrationModel {
  const carrier: GustInput = { down: 0, rate: 0 };
  const carried: GustInput = { down: 0, rate: 0 };
  return new PenetrationModel({
    ...gustyPair(rigid, { carrier: () => carrier, carried: () => carried }),
    carrier,
    carried,
  });
}

const M = PENETRATION_OUTPUTS.length;
function response(model: PenetrationModel, omega: number, lag: number): Float64Array {
  const out = new Float64Array(2 * M);
  model.response(omega, lag, out);
  return out;
}
const size = (out: Float64Array, k: number): number => Math.hypot(out[2 * k], out[2 * k + 1]);

let rigid: PenetrationModel;
let steady: PenetrationModel;
beforeAll(() => {
  rigid = modelOf(true);
  steady = modelOf(false);
});

describe("one vertical gust at both aircraft", () => {
  it("does to the load factor nothing when it is slow, and turns the aircraft under a steady carrier", () => {
    const slow = response(steady, 1e-3, 0);
    // the load factor is that in body axes, which the pitch angle turns by θ·Δθ
    expect(size(slow, 3)).toBeLessThan(1e-3);
    // air from above: the nose goes up into it, by about the whole angle 1/V
    expect(slow[4]).toBeGreaterThan(0);
    expect(Math.abs(slow[4])).toBeGreaterThan(0.5 / V);
    expect(Math.abs(slow[4])).toBeLessThan(1.5 / V);
    // under a carrier that follows the same air nothing is left between them
    expect(size(response(rigid, 1e-3, 0), 2)).toBeLessThan(0.02 / V);
  });

  it("meets the carried aircraft by its distance later: a turn of the phase of its own part", () => {
    for (const omega of [0.4, 3, 9]) {
      const together = response(rigid, omega, 0);
      const opposed = response(rigid, omega, Math.PI / omega);
      const lag = 0.07;
      const [c, s] = [Math.cos(omega * lag), Math.sin(omega * lag)];
      const expected = new Float64Array(2 * M);
      for (let k = 0; k < M; k++) {
        const [x, y] = [0, 1].map((i) => (together[2 * k + i] - opposed[2 * k + i]) / 2);
        expected[2 * k] = (together[2 * k] + opposed[2 * k]) / 2 + c * x + s * y;
        expected[2 * k + 1] = (together[2 * k + 1] + opposed[2 * k + 1]) / 2 + c * y - s * x;
      }
      const scale = Math.max(...together.map(Math.abs));
      expectAllClose(response(rigid, omega, lag), expected, { atol: 1e-9 * scale, why: "superposition" });
    }
  });

  it("is no matter of the lag for a steady carrier but for the phase", () => {
    const [a, b] = [response(steady, 4, 0), response(steady, 4, 0.3)];
    for (let k = 0; k < M; k++) expectClose(size(a, k), size(b, k), { rtol: 1e-9, why: "only one aircraft moves" });
  });

  it.each([false, true])("agrees with the nonlinear motion in time, rigid carrier %s", (isRigid) => {
    const [omega, W, lag, ramp] = [5.2, 0.2, 0.05, 8];
    const wave = (t: number): GustInput => {
      const u = Math.min(1, Math.max(0, t / ramp));
      const [rise, slope] = [u * u * (3 - 2 * u), u > 0 && u < 1 ? (6 * u * (1 - u)) / ramp : 0];
      const [c, s] = [Math.cos(omega * t), Math.sin(omega * t)];
      return { down: W * rise * c, rate: W * (slope * c - rise * omega * s) };
    };
    const { motion, state } = gustyPair(isRigid, { carrier: wave, carried: (t) => wave(t - lag) });
    const G = response(isRigid ? rigid : steady, omega, lag);
    const step = 0.01;
    const period = (2 * Math.PI) / omega;
    const x = state.slice();
    const work = createRk4Workspace(x.length);
    const rate = new Float64Array(x.length);
    const probe = motion.settings.boom!.settings.geometry;
    const e = [-Math.cos(probe.angleDown), 0, Math.sin(probe.angleDown)];
    let mean = 0;
    const samples: { t: number; tension: number; load: number }[] = [];
    const start = 28;
    for (let t = 0; t < start + 4 * period; t += step) {
      if (t >= start) {
        motion.derivative(t, x, rate);
        const f = motion.jointForce;
        const tension = -(f[0] * e[0] + f[2] * e[2]);
        samples.push({ t, tension, load: motion.acceleration[2] });
        mean += tension;
      }
      rk4Step(motion.derivative, t, x, step, x, work);
    }
    mean /= samples.length;
    /** Amplitude of the first harmonic over whole periods. */
    const amplitude = (of: (s: (typeof samples)[number]) => number): number => {
      const n = Math.round((4 * period) / step);
      let c = 0;
      let s = 0;
      for (const one of samples.slice(0, n)) {
        c += of(one) * Math.cos(omega * one.t);
        s += of(one) * Math.sin(omega * one.t);
      }
      return (2 * Math.hypot(c, s)) / n / W;
    };
    const why = "0.2 m/s is not small without end; the sampled harmonic; the boom's own turning in the tension";
    expectClose(
      amplitude(({ tension }) => tension - mean),
      size(G, 0),
      { rtol: 0.03, why },
      "tension",
    );
    expectClose(amplitude(({ load }) => load) / 9.80665, size(G, 3), { rtol: 0.03, why }, "load factor");
  });

  it("adds up in rough air: the lag of the demo hardly changes the RMS, gusts far apart are as if independent", () => {
    // Dryden spectrum of the vertical gust, L = 533 m, unit variance
    const time = 533 / V;
    const spectrum = (w: number): number => ((time / Math.PI) * (1 + 3 * (time * w) ** 2)) / (1 + (time * w) ** 2) ** 2;
    const rms = (model: PenetrationModel, lag: number): number[] => penetrationRms(model, lag, spectrum, 0.02, 20);
    const [together, near, apart, fixed] = [rms(rigid, 0), rms(rigid, -1.007 / V), rms(rigid, 500 / V), rms(steady, 0)];
    // what two independent gusts do: parts of carrier and carried by their sum and difference
    const out = new Float64Array(2 * M);
    const independent =
      (k: number) =>
      (w: number): number => {
        rigid.response(w, 0, out);
        const plus = size(out, k) ** 2;
        rigid.response(w, Math.PI / w, out);
        return (plus + size(out, k) ** 2) / 2;
      };
    for (const [k, { name }] of PENETRATION_OUTPUTS.entries()) {
      expect(Math.abs(near[k] / together[k] - 1), name).toBeLessThan(0.05);
      let sum = 0;
      const n = 2000;
      for (let i = 0; i < n; i++) {
        const w = 0.02 * 1000 ** ((i + 0.5) / n);
        sum += (w * spectrum(w) * independent(k)(w) * Math.log(1000)) / n;
      }
      const why = "half a kilometre is about one scale length: what is left of the correlation";
      expectClose(apart[k], Math.sqrt(sum), { rtol: 0.1, why }, name);
    }
    // the carrier that moves with the gust takes load off the boom's length and puts it across
    expect(together[1]).toBeGreaterThan(fixed[1]);
  });
});
