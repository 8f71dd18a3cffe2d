import type { HookedPair } from "../../physics/bodies/index.ts";
import {
  type GustModel,
  OUTPUT_COUNT,
  ResponseSpectra,
  simulateGusts,
  spectralResponse,
  stationaryResponse,
} from "../../physics/gust-response/index.ts";
import { drydenFilter, type GustFlight, gustHistory, turbulenceScales } from "../../physics/turbulence/index.ts";
import { QUANTITIES } from "./quantities.ts";
import type { PointTask } from "./task.ts";
import type { RoughAirCheck } from "./types.ts";

/** Longest and shortest step of the simulation [s]; a pair that asks for a shorter one is not simulated. */
const LONGEST = 0.01;
const SHORTEST = 1e-3;
/** Of the integral of the spectra; a smaller difference is not told apart from it. */
const INTEGRAL_TOLERANCE = 1e-7;
/** Step times the fastest root: far inside the stable range of the integration. */
const REACH = 0.7;
/** Time after the start at rest that does not count [s]. */
const SETTLE = 15;

/** Seeded simulation of the nonlinear pair in Dryden turbulence, beside what the linear model says. */
export function simulated(
  { settings, seed, height }: PointTask,
  pair: HookedPair,
  model: GustModel,
  tipPerJack: number,
  unit: GustFlight,
  chord: number,
): RoughAirCheck | null {
  const { simulation } = settings;
  if (simulation === undefined) return null;
  // histories are made by linear filters, which von Kármán's spectra do not have
  const scales = turbulenceScales(settings.document, "Dryden", height);
  const flight = { ...unit, scales, sigma: simulation.sigma };
  const filter = drydenFilter(flight, chord);
  const covariance = stationaryResponse(model, filter);
  const spectral = spectralResponse(model, flight, chord, INTEGRAL_TOLERANCE);
  const fastest = new ResponseSpectra(model, flight, chord)
    .roots()
    .reduce((most, [real, imag]) => Math.max(most, Math.hypot(real, imag)), 1);
  const step = Math.min(LONGEST, REACH / fastest);
  const integralDifference_1 = covariance.deviation.reduce(
    (most, x, i) => (x > 1e-9 ? Math.max(most, Math.abs(spectral.deviation[i] / x - 1)) : most),
    INTEGRAL_TOLERANCE,
  );
  const head = { sigma_m_s: simulation.sigma, seeds: simulation.seeds, integralDifference_1 };
  if (step < SHORTEST) return { ...head, outcome: "too stiff to simulate", time_s: 0, rows: [] };
  const squares = new Float64Array(OUTPUT_COUNT);
  const linear = new Float64Array(OUTPUT_COUNT);
  let time = 0;
  for (let index = 0; index < simulation.seeds; index++) {
    const count = Math.ceil((SETTLE + simulation.time) / step) + 1;
    const run = simulateGusts(pair, model, tipPerJack, gustHistory(filter, step, count, seed, index), SETTLE);
    if (run.outcome !== "completed") return { ...head, outcome: "left", time_s: time, rows: [] };
    time += run.time;
    for (let i = 0; i < OUTPUT_COUNT; i++) {
      squares[i] += run.nonlinear[i] ** 2 / simulation.seeds;
      linear[i] += run.linear[i] ** 2 / simulation.seeds;
    }
  }
  const rows = QUANTITIES.map(({ key, factor }, i) => {
    const variance = covariance.deviation[i] ** 2;
    // half the relative error of a mean square is that of its root
    const samplingError_1 =
      variance > 0 ? (0.5 * Math.sqrt((2 * Math.PI * spectral.squareIntegral[i]) / time)) / variance : 0;
    return {
      ...{ key, samplingError_1 },
      computed: factor * covariance.deviation[i],
      simulated: factor * Math.sqrt(squares[i]),
      linear: factor * Math.sqrt(linear[i]),
    };
  });
  return { ...head, outcome: "completed", time_s: time, rows };
}
