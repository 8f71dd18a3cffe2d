import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { type LongshoreOptions, longshore } from "../../../test/support/longshore.ts";
import { meanCrossings } from "../../math/crossings/index.ts";
import { createRk4Workspace, rk4Step } from "../../math/ode/index.ts";
import { hookedPair, PairMotion } from "../bodies/index.ts";
import {
  drydenFilter,
  type GustFlight,
  gustAlleviation,
  gustHistory,
  oneMinusCosine,
  oneMinusCosineSlope,
  turbulenceScales,
} from "../turbulence/index.ts";
import {
  type GustModel,
  gustAir,
  gustModel,
  gustPeaks,
  OUTPUT_COUNT,
  OUTPUTS,
  OutputMeter,
  searchGusts,
  simulateGusts,
  spectralResponse,
  stationaryResponse,
} from "./index.ts";

const RATIO = 3.63;
const CHORD = 1.2;
const at = (key: string): number => OUTPUTS.findIndex((output) => output.key === key);

function made(options: LongshoreOptions = { revision: "Rev B" }) {
  const pair = hookedPair(longshore(options));
  const model = gustModel(pair, RATIO);
  const flight: GustFlight = {
    scales: turbulenceScales("MIL-F-8785C", "Dryden", 3000),
    sigma: 1,
    speed: model.speed,
    span: 7.4,
  };
  return { pair, model, flight, filter: drydenFilter(flight, CHORD) };
}
const { pair, model, flight, filter } = made();

describe("outputs", () => {
  it("at trim are the loads of the trim", () => {
    const { tipLoad, trim } = pair;
    expectClose(model.mean[at("tension")]!, tipLoad.tension, { rtol: 1e-9, why: "same balance" });
    expectClose(model.mean[at("shear")]!, tipLoad.tangential, { rtol: 1e-9, why: "same balance" });
    expectClose(model.mean[at("towLoad")]!, trim.f_onV_byTip_H[0], { rtol: 1e-9, why: "same balance" });
    expectClose(model.mean[at("pitch")]!, trim.alpha, { rtol: 1e-9, why: "level flight" });
    expectClose(model.mean[at("incidence")]!, trim.alpha, { rtol: 1e-9, why: "still air" });
    expectClose(model.mean[at("loadFactor")]!, Math.cos(trim.alpha), { rtol: 1e-9, why: "at rest" });
    for (const key of ["sideLoad", "jackTravel", "tipNormal", "tipSide", "bank", "sideLoadFactor"]) {
      expectClose(model.mean[at(key)]!, 0, { atol: 1e-8, why: "symmetric, at trim" }, key);
    }
  });

  it("the boom's springs carry what the meter says, when the tip has no mass", () => {
    const light = made({ revision: "Rev B", boom: { effectiveTipMass: 0, structuralDamping: 0 } });
    const state = light.pair.state.slice();
    const { tip } = light.pair.motion.layout;
    // the whole aircraft goes 2 mm down with the tip: stretch and swing of the boom by geometry
    state[2] = state[2]! + 0.002;
    state[tip + 2] = state[tip + 2]! + 0.002;
    const out = new Float64Array(OUTPUT_COUNT);
    new OutputMeter(light.pair.motion, RATIO).measure(0, state, out);
    const angle = (52 * Math.PI) / 180;
    expectClose(out[at("tipNormal")]!, 0.002 * Math.cos(angle), { rtol: 1e-3, why: "turn of the boom" });
    const stretched = light.pair.tipLoad.tension + 6e6 * 0.002 * Math.sin(angle);
    expectClose(out[at("tension")]!, stretched, { rtol: 1e-3, why: "axial spring" });
  });
});

describe("linear model", () => {
  it("follows the nonlinear equations in a steady gust to second order", () => {
    for (let g = 0; g < 6; g++) {
      const deviation = (size: number): number => {
        const gust = new Float64Array(6);
        gust[g] = size;
        const environment = gustAir(pair.motion.settings.environment, model.speed, (_t, out) => out.set(gust));
        const meter = new OutputMeter(new PairMotion({ ...pair.motion.settings, environment }), RATIO);
        const out = new Float64Array(OUTPUT_COUNT);
        meter.measure(0, pair.state, out);
        let worst = 0;
        for (let i = 0; i < OUTPUT_COUNT; i++) {
          const scale = OUTPUTS[i]!.unit === "N" ? 1000 : 1;
          worst = Math.max(worst, Math.abs(out[i]! - model.mean[i]! - model.D[6 * i + g]! * size) / scale);
        }
        return worst;
      };
      const size = g < 3 ? 0.5 : 0.01;
      const [one, half] = [deviation(size), deviation(size / 2)];
      expect(half).toBeLessThan(0.3 * one + 1e-9);
    }
  });

  it("symmetric pair: u, w, q move nothing sideways, v, p, r nothing in the plane", () => {
    const { B, D, names } = model;
    const lateral = new Set(["y rate", "roll rate", "yaw rate"]);
    names.forEach((name, i) => {
      for (let g = 0; g < 6; g++) {
        if (lateral.has(name) === [1, 3, 5].includes(g)) continue;
        expect(Math.abs(B[6 * i + g]!)).toBeLessThan(1e-7);
      }
    });
    OUTPUTS.forEach(({ plane, unit }, i) => {
      for (let g = 0; g < 6; g++) {
        if ((plane === "lateral") === [1, 3, 5].includes(g)) continue;
        expect(Math.abs(D[6 * i + g]!)).toBeLessThan(unit === "N" ? 1e-4 : 1e-7);
      }
    });
  });
});

describe("signs", () => {
  const by = (key: string, g: number): number => model.D[6 * at(key) + g]!;

  it("air that goes down takes lift away and hangs the aircraft into the boom; a tailwind takes lift and drag away", () => {
    expect(by("loadFactor", 2)).toBeLessThan(0);
    expect(by("tension", 2)).toBeGreaterThan(0);
    expect(by("incidence", 2)).toBeCloseTo(-1 / model.speed, 3);
    expect(by("loadFactor", 0)).toBeLessThan(0);
    expect(by("towLoad", 0)).toBeLessThan(0);
  });

  it("air that goes right pushes right, air that rolls right rolls the aircraft right", () => {
    expect(by("sideLoadFactor", 1)).toBeGreaterThan(0);
    const roll = model.names.indexOf("roll rate");
    expect(model.B[6 * roll + 3]).toBeGreaterThan(0);
    const yaw = model.names.indexOf("yaw rate");
    // Cnβ > 0 turns the nose into the wind, which comes from the left
    expect(model.B[6 * yaw + 1]).toBeLessThan(0);
  });
});

describe("spread in turbulence", () => {
  it("Lyapunov's equation and the integral of the spectra agree, loads and their rates", () => {
    const covariance = stationaryResponse(model, filter);
    const spectral = spectralResponse(model, flight, CHORD);
    expect(covariance.outcome).toBe("stationary");
    const close = { rtol: 1e-6, atol: 1e-9, why: "tolerance of the integral" };
    expectAllClose(spectral.deviation, covariance.deviation, close, "σ");
    expectAllClose(spectral.rateDeviation, covariance.rateDeviation, close, "σ̇");
    expectClose(spectral.largestReal, covariance.largestReal, { rtol: 1e-8, why: "same roots" });
  });

  it("both documents give the same, von Kármán nearly the same, and the spread goes with σ", () => {
    const other = { ...flight, scales: turbulenceScales("MIL-HDBK-1797", "Dryden", 3000) };
    const own = stationaryResponse(model, filter).deviation;
    expectAllClose(stationaryResponse(model, drydenFilter(other, CHORD)).deviation, own, {
      rtol: 1e-9,
      atol: 1e-12,
      why: "one model",
    });
    const strong = stationaryResponse(model, drydenFilter({ ...flight, sigma: 3 }, CHORD)).deviation;
    expectAllClose(
      strong,
      own.map((x) => 3 * x),
      { rtol: 1e-9, atol: 1e-12, why: "linear" },
    );
    const karman = { ...flight, scales: turbulenceScales("MIL-F-8785C", "von Karman", 3000) };
    spectralResponse(model, karman, CHORD).deviation.forEach((x, i) => {
      expect(Math.abs(x - own[i]!)).toBeLessThan(0.3 * own[i]! + 1e-9);
    });
  });

  it("an unstable pair has no stationary response", () => {
    const unstable = made({ revision: "Rev A" });
    for (const { outcome, deviation, largestReal } of [
      stationaryResponse(unstable.model, unstable.filter),
      spectralResponse(unstable.model, unstable.flight, CHORD),
    ]) {
      expect(outcome).toBe("grows without rough air");
      expect(deviation.every((x) => x === 0)).toBe(true);
      expect(largestReal).toBeGreaterThan(0.1);
    }
  });

  it("seeded simulation of the nonlinear pair: spread and N₀ within the sampling error, linear motion in the same gusts", () => {
    const { deviation, rateDeviation, squareIntegral } = spectralResponse(model, flight, CHORD);
    const sums = new Float64Array(OUTPUT_COUNT);
    const rises = new Float64Array(OUTPUT_COUNT);
    const seeds = 4;
    let time = 0;
    for (let index = 0; index < seeds; index++) {
      const history = gustHistory(filter, 0.01, 9000, 4, index);
      const run = simulateGusts(pair, model, RATIO, history, 15);
      expect(run.outcome).toBe("completed");
      time += run.time;
      for (let i = 0; i < OUTPUT_COUNT; i++) {
        sums[i]! += run.nonlinear[i]! ** 2 / seeds;
        rises[i]! += run.crossings[i]! / seeds;
        // what is left between the two in the same gusts is the curvature of the equations
        expect(Math.abs(run.linear[i]! / run.nonlinear[i]! - 1)).toBeLessThan(0.04);
      }
    }
    expect(time).toBeGreaterThan(290);
    const slow = OUTPUTS.filter((_, i) => meanCrossings(deviation[i]!, rateDeviation[i]!) <= 1);
    expect(slow.map(({ key }) => key)).toEqual(["shear", "jackTravel", "tipNormal", "pitch", "bank"]);
    for (let i = 0; i < OUTPUT_COUNT; i++) {
      // variance of a mean square over T: (2π/T)·∫Φ² dω
      const error = Math.sqrt((2 * Math.PI * squareIntegral[i]!) / time) / deviation[i]! ** 2;
      expect(error).toBeLessThan(0.25);
      const close = { atol: 4 * error, why: "four standard deviations of the sampling" };
      expectClose(sums[i]! / deviation[i]! ** 2, 1, close, OUTPUTS[i]!.key);
      // Rice: crossings of the mean, counted in the motions; loads cross faster than the steps of the history can tell
      const n0 = meanCrossings(deviation[i]!, rateDeviation[i]!);
      if (n0 > 1) continue;
      const counted = { rtol: 4 / Math.sqrt(n0 * time), why: "four times the spread of so many independent crossings" };
      expectClose(rises[i]!, n0, counted, `N₀ of ${OUTPUTS[i]!.key}`);
    }
  });

  it("the same seed gives the same history, weaker gusts a smaller difference from the linear motion", () => {
    const weak = drydenFilter({ ...flight, sigma: 0.1 }, CHORD);
    const run = (f: typeof filter) => simulateGusts(pair, model, RATIO, gustHistory(f, 0.01, 3000, 2, 0), 5);
    const [strong, small, again] = [run(filter), run(weak), run(weak)];
    expect(again).toEqual(small);
    const worst = (r: typeof strong): number => Math.max(...r.linear.map((x, i) => Math.abs(x / r.nonlinear[i]! - 1)));
    expect(worst(small)).toBeLessThan(0.3 * worst(strong));
  });
});

describe("discrete gusts", () => {
  it("the linear peak is that of the nonlinear motion in a small gust", () => {
    const gradient = 40;
    const amplitude = 0.2;
    const peaks = gustPeaks(model, CHORD, "vertical", amplitude, gradient);
    // the same lags of the lift as states beside the nonlinear equations
    const lags = [0.13, 1].map((rate) => (rate * 2 * model.speed) / CHORD);
    const lagged = new Float64Array(2);
    const source = (time: number, out: Float64Array): void => {
      const U = oneMinusCosine(amplitude, gradient, model.speed * time);
      out.fill(0);
      out[2] = 0.5 * (lagged[0]! + lagged[1]!);
      out[4] = -(0.5 * (lags[0]! * (U - lagged[0]!) + lags[1]! * (U - lagged[1]!))) / model.speed;
    };
    const environment = gustAir(pair.motion.settings.environment, model.speed, source);
    const motion = new PairMotion({ ...pair.motion.settings, environment });
    const meter = new OutputMeter(motion, RATIO);
    const n = pair.state.length;
    const derivative = (time: number, y: Float64Array, out: Float64Array): void => {
      lagged.set(y.subarray(n));
      motion.derivative(time, y.subarray(0, n), out);
      const U = oneMinusCosine(amplitude, gradient, model.speed * time);
      for (let k = 0; k < 2; k++) out[n + k] = lags[k]! * (U - lagged[k]!);
    };
    const state = new Float64Array(n + 2);
    state.set(pair.state);
    const work = createRk4Workspace(n + 2);
    const largest = new Float64Array(OUTPUT_COUNT);
    const out = new Float64Array(OUTPUT_COUNT);
    const h = 0.002;
    for (let k = 1; k * h < 4; k++) {
      rk4Step(derivative, (k - 1) * h, state, h, state, work);
      lagged.set(state.subarray(n));
      meter.measure(k * h, state.subarray(0, n), out);
      for (let i = 0; i < OUTPUT_COUNT; i++) largest[i] = Math.max(largest[i]!, Math.abs(out[i]! - model.mean[i]!));
    }
    OUTPUTS.forEach(({ key, plane }, i) => {
      if (plane === "lateral") return;
      expectClose(peaks.distance[i]!, largest[i]!, { rtol: 0.02, why: "0.2 m/s is not infinitely small" }, key);
    });
  });

  it("the slope of the gust is its derivative in the turning of the air", () => {
    expect(oneMinusCosineSlope(1, 30, 15)).toBeGreaterThan(0);
    const long = gustPeaks(model, CHORD, "vertical", 1, 100);
    const short = gustPeaks(model, CHORD, "vertical", 1, 10);
    expect(long.distance[at("pitch")]).not.toBe(short.distance[at("pitch")]);
  });

  it("a heaving aircraft alone meets the gust alleviation factor within its own accuracy", () => {
    // ẇ = −(ρVSa/2m)·(w − w_g); load factor from the same; H = 12.5 chords, as Kg was made for
    for (const mu of [10, 30, 80]) {
      const speed = 60;
      const chord = 2;
      const rate = speed / (chord * mu);
      const heave: GustModel = {
        size: 1,
        A: Float64Array.of(-rate),
        B: Float64Array.of(0, 0, rate, 0, 0, 0),
        C: new Float64Array(OUTPUT_COUNT),
        D: new Float64Array(6 * OUTPUT_COUNT),
        mean: new Float64Array(OUTPUT_COUNT),
        names: ["w"],
        speed,
      };
      const n = at("loadFactor");
      heave.C[n] = -rate;
      heave.D[6 * n + 2] = rate;
      const { distance } = gustPeaks(heave, chord, "vertical", 1, 12.5 * chord);
      const own = distance[n]! / rate;
      expectClose(own, gustAlleviation(mu), { rtol: 0.1, why: "Kg is a fit with lags of the motion too" }, `μ ${mu}`);
    }
  });

  it("the search is never below a fine scan, and a gust of twice the size gives twice the peak", () => {
    const { worst, worstGradient } = searchGusts(model, CHORD, "vertical", () => 2);
    for (let H = 9.2; H < 106; H += 7.7) {
      const { distance } = gustPeaks(model, CHORD, "vertical", 2, H);
      distance.forEach((x, i) => {
        expect(x).toBeLessThanOrEqual(worst[i]! * 1.001 + 1e-9);
      });
    }
    const key = at("pitch");
    const again = gustPeaks(model, CHORD, "vertical", 4, worstGradient[key]!);
    expectClose(again.distance[key]!, 2 * worst[key]!, { rtol: 1e-6, why: "linear" });
  });
});
