import { allowedRate, meanCrossings, peakDistance } from "../../math/crossings/index.ts";
import type { HookedPair } from "../../physics/bodies/index.ts";
import {
  type GustModel,
  gustModel,
  ResponseSpectra,
  type StationaryResponse,
  spectralResponse,
  stationaryResponse,
} from "../../physics/gust-response/index.ts";
import { drydenFilter, type GustFlight } from "../../physics/turbulence/index.ts";
import { airOf, type HoldInputs, pairAt } from "../hold/index.ts";
import { exitsOf, type Limited, largestSigma, passage } from "./bands.ts";
import { gustsOf } from "./gusts.ts";
import { indexOf, QUANTITIES } from "./quantities.ts";
import type { RoughAirInputs } from "./settings.ts";
import { answerOf } from "./severity.ts";
import { simulated } from "./simulated.ts";
import { incidenceToStall } from "./stall.ts";
import type { PointTask } from "./task.ts";
import type { RoughAirLevel, RoughAirLimit, RoughAirPoint, RoughAirQuantity } from "./types.ts";

/** Rough air at one condition and mass. */
export function roughAirPoint(task: PointTask): RoughAirPoint {
  const { inputs, settings, at, id } = task;
  const pair = pairAt(inputs, at);
  const head = { id, condition: at.condition, mass: at.mass.name };
  if (pair.trim.outcome !== "trimmed") return { ...head, ...EMPTY, outcome: "no trim", timeToDouble_s: null };
  const tipPerJack = inputs.tipPerJack(at.boomAngleDown);
  const model = gustModel(pair, tipPerJack);
  const { span, chord } = inputs.carried.derivatives;
  const flight: GustFlight = { scales: task.scales, sigma: 1, speed: model.speed, span };
  const response = respond(model, flight, chord);
  if (response.outcome !== "stationary") {
    const timeToDouble_s = response.largestReal > 0 ? Math.LN2 / response.largestReal : null;
    return { ...head, ...EMPTY, outcome: "grows without rough air", timeToDouble_s };
  }
  const limited = limitedAt(inputs, settings, pair, model, response);
  const quantities = quantitiesOf(settings, model, response, limited);
  return {
    ...head,
    outcome: "stationary",
    timeToDouble_s: null,
    quantities,
    levels: levelsOf(task, quantities, limited),
    answer: answerOf(settings, limited, task.chart),
    probability: probabilityCurves(settings, limited),
    exceedance: exceedanceCurves(settings, limited),
    spectra: spectraOf(model, flight, chord),
    gusts: gustsOf(settings, model, chord, airOf(at), limited),
    check: task.check ? simulated(task, pair, model, tipPerJack, flight, chord) : null,
  };
}

const EMPTY = {
  quantities: [],
  levels: [],
  answer: null,
  probability: { sigma_m_s: [], any_1: [], alone_1: {} },
  exceedance: { share_1: [], perHour: {} },
  spectra: { frequency_Hz: [], pitch_deg2_Hz: [], bank_deg2_Hz: [], tip_mm2_Hz: [] },
  gusts: null,
  check: null,
} as const;

function respond(model: GustModel, flight: GustFlight, chord: number): StationaryResponse {
  return flight.scales.form === "Dryden"
    ? stationaryResponse(model, drydenFilter(flight, chord))
    : spectralResponse(model, flight, chord);
}

/** Spread below which a quantity does not move at all: round-off of a plane that the gusts do not reach. */
const STILL = 1e-9;

/** The limited quantities of a point; the stall is one of them always. */
function limitedAt(
  inputs: HoldInputs,
  settings: RoughAirInputs,
  pair: HookedPair,
  model: GustModel,
  response: StationaryResponse,
): Limited[] {
  const limited = settings.limits.map(({ key, kind, lower, upper }): Limited => {
    const i = indexOf(key);
    const from = kind === "from trim" ? model.mean[i] : 0;
    return { ...processOf(model, response, i), key, lower: from + lower, upper: from + upper };
  });
  const i = indexOf("incidence");
  const upper = model.mean[i] + incidenceToStall(inputs, pair);
  limited.push({ ...processOf(model, response, i), key: "incidence", lower: -Infinity, upper });
  return limited;
}

function processOf(model: GustModel, response: StationaryResponse, i: number) {
  const deviation = response.deviation[i] > STILL ? response.deviation[i] : 0;
  const crossings = deviation > 0 ? meanCrossings(deviation, response.rateDeviation[i]) : 0;
  return { mean: model.mean[i], deviationPerSigma: deviation, crossings };
}

function quantitiesOf(
  settings: RoughAirInputs,
  model: GustModel,
  response: StationaryResponse,
  limited: readonly Limited[],
): RoughAirQuantity[] {
  const finite = (value: number, factor: number): number | null => (Number.isFinite(value) ? factor * value : null);
  return QUANTITIES.map(({ key, title, unit, factor }, i) => {
    const own = limited.find((one) => one.key === key);
    const { mean, deviationPerSigma, crossings } = processOf(model, response, i);
    const stated = settings.limits.find((one) => one.key === key);
    const limit: RoughAirLimit | null =
      own === undefined
        ? null
        : {
            lower: finite(own.lower, factor),
            upper: finite(own.upper, factor),
            source: stated?.source ?? "CLmax of the carried aircraft",
          };
    return {
      ...{ key, title, unit, mean: factor * mean, deviationPerSigma: factor * deviationPerSigma },
      crossings_1_s: crossings,
      limit,
      largestSigma_m_s: own === undefined ? null : largestSigma([own], settings.probability, settings.timeHooked),
    };
  });
}

function levelsOf(task: PointTask, quantities: readonly RoughAirQuantity[], limited: readonly Limited[]) {
  const { settings, chart } = task;
  const named = [
    ...settings.sigmas.map(({ name, sigma }) => ({ name, sigma, origin: "project" as const })),
    ...chart.severities.map(({ name, sigma }) => ({ name, sigma, origin: "chart" as const })),
  ];
  const allowed = allowedRate(settings.probability, settings.timeHooked);
  return named.map(
    ({ name, sigma, origin }): RoughAirLevel => ({
      ...{ name, origin, sigma_m_s: sigma },
      probability_1: passage(limited, sigma, settings.timeHooked),
      rows: quantities.map(({ key, mean, deviationPerSigma, crossings_1_s }) => {
        const deviation = sigma * deviationPerSigma;
        const reach = peakDistance({ mean, deviation, crossings: crossings_1_s }, allowed);
        const own = limited.find((one) => one.key === key);
        const exits = own === undefined ? null : exitsOf([own], sigma);
        const exits_1_h = exits === null || !Number.isFinite(exits) ? null : 3600 * exits;
        return { key, deviation, lower: mean - reach, upper: mean + reach, exits_1_h };
      }),
    }),
  );
}

const CURVE = 61;

function probabilityCurves({ timeHooked, design }: RoughAirInputs, limited: readonly Limited[]) {
  // from a tenth to ten times the design intensity
  const sigma_m_s = Array.from({ length: CURVE }, (_, k) => design.sigma * 10 ** (-1 + (2 * k) / (CURVE - 1)));
  return {
    sigma_m_s,
    any_1: sigma_m_s.map((sigma) => passage(limited, sigma, timeHooked)),
    alone_1: Object.fromEntries(
      limited.map((one) => [one.key, sigma_m_s.map((sigma) => passage([one], sigma, timeHooked))]),
    ),
  };
}

/** Exits through both ends of the band, moved to a share of its distance from trim. */
function exceedanceCurves({ design }: RoughAirInputs, limited: readonly Limited[]) {
  const share_1 = Array.from({ length: CURVE }, (_, k) => 0.02 + (1.48 * k) / (CURVE - 1));
  const at = (one: Limited, share: number): number =>
    exitsOf(
      [{ ...one, lower: one.mean - share * (one.mean - one.lower), upper: one.mean + share * (one.upper - one.mean) }],
      design.sigma,
    );
  const inside = limited.filter(({ mean, lower, upper }) => mean > lower && mean < upper);
  return {
    share_1,
    perHour: Object.fromEntries(inside.map((one) => [one.key, share_1.map((share) => 3600 * at(one, share))])),
  };
}

/** Spectra at σ = 1 m/s from 0.01 to 10 Hz, per Hz. */
function spectraOf(model: GustModel, flight: GustFlight, chord: number): RoughAirPoint["spectra"] {
  const spectra = new ResponseSpectra(model, flight, chord);
  const out = new Float64Array(QUANTITIES.length);
  const frequency_Hz = Array.from({ length: 181 }, (_, k) => 10 ** (-2 + (3 * k) / 180));
  const rows = frequency_Hz.map((frequency) => {
    spectra.at(2 * Math.PI * frequency, out);
    return out.map((value) => 2 * Math.PI * value);
  });
  const column = (key: "pitch" | "bank" | "tipNormal", factor: number): number[] =>
    rows.map((row) => factor ** 2 * row[indexOf(key)]);
  const degree = 180 / Math.PI;
  return {
    frequency_Hz,
    pitch_deg2_Hz: column("pitch", degree),
    bank_deg2_Hz: column("bank", degree),
    tip_mm2_Hz: column("tipNormal", 1e3),
  };
}
