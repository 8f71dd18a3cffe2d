import { PairMotion } from "../../physics/bodies/index.ts";
import {
  frozenGust,
  type GustInput,
  PENETRATION_OUTPUTS,
  PenetrationModel,
  penetrationRms,
} from "../../physics/gust-penetration/index.ts";
import { acrossSpectrum, type GustFlight, turbulenceScales } from "../../physics/turbulence/index.ts";
import type { HoldInputs, Operating } from "../hold/index.ts";
import { type CarrierChoice, carrierModes, carrierPair } from "./models.ts";
import type { CarrierBody } from "./read-carrier.ts";
import type { GustCurve, GustPenetration } from "./types.ts";

const DEGREE = Math.PI / 180;
/** Frequencies of the curves [Hz] and the least wavelength in chords of the carrier for which a gust is quasi-steady. */
const [LOWEST, COUNT, LEAST_WAVELENGTH] = [0.01, 121, 10];

/** Heights below which the turbulence model says nothing [m]. */
const LOWEST_HEIGHT = 10;

function frequencies(speed: number, chord: number): number[] {
  const highest = speed / (LEAST_WAVELENGTH * chord);
  return Array.from({ length: COUNT }, (_, i) => LOWEST * (highest / LOWEST) ** (i / (COUNT - 1)));
}

/**
 * Response of the pair to one vertical gust, undisturbed air otherwise: rigid carrier with and without the lag of the
 * distance, and steady carrier.
 *
 * @returns curves are empty when a longitudinal motion grows by itself, where a response means nothing
 */
export function gustPenetration(inputs: HoldInputs, at: Operating, body: CarrierBody): GustPenetration | null {
  const rigid = modelFor(inputs, at, body, "rigid");
  const steady = modelFor(inputs, at, body, "steady");
  if (rigid === null || steady === null) return null;
  // c.g. of the carrier against the hinge is the hinge's arm turned round
  const distance = -body.hinge[0] - rigid.state[0];
  const lag = distance / rigid.speed;
  const frequency = frequencies(rigid.speed, body.set.chord);
  const air: GustFlight = {
    scales: turbulenceScales("MIL-F-8785C", "Dryden", Math.max(at.altitude, LOWEST_HEIGHT)),
    ...{ sigma: 1, speed: rigid.speed, span: body.set.span },
  };
  const found = { distance_m: distance, lag_s: lag, frequency_Hz: frequency };
  if (rigid.grows || steady.grows) return { ...found, curves: [] };
  return {
    ...found,
    curves: [
      curve("rigid, with lag", rigid.model, frequency, lag, air),
      curve("rigid, without lag", rigid.model, frequency, 0, air),
      curve("steady", steady.model, frequency, 0, air),
    ],
  };
}

function modelFor(inputs: HoldInputs, at: Operating, body: CarrierBody, motion: CarrierChoice["motion"]) {
  const carrier: GustInput = { down: 0, rate: 0 };
  const carried: GustInput = { down: 0, rate: 0 };
  const made = carrierPair(inputs, at, { body, motion, table: null, gradients: true }, carrier);
  const { pair } = made;
  if (pair.trim.outcome !== "trimmed") return null;
  const speed = pair.settings.air.trueAirspeed;
  const environment = frozenGust(pair.motion.settings.environment, carried, speed);
  const gusty = new PairMotion({ ...pair.motion.settings, environment });
  const grows = carrierModes(inputs, at, made).some((mode) => mode.plane === "longitudinal" && mode.real > 0);
  const model = new PenetrationModel({ motion: gusty, state: pair.state, carried, carrier });
  return { model, state: pair.state, speed, grows };
}

function curve(
  model: GustCurve["model"],
  of: PenetrationModel,
  hertz: readonly number[],
  lag: number,
  air: GustFlight,
): GustCurve {
  const [from, to] = [2 * Math.PI * hertz[0], 2 * Math.PI * hertz[hertz.length - 1]];
  const rms = penetrationRms(of, lag, (omega) => acrossSpectrum(air, "w", omega), from, to);
  const out = new Float64Array(2 * PENETRATION_OUTPUTS.length);
  const rows = hertz.map((each) => {
    of.response(2 * Math.PI * each, lag, out);
    return PENETRATION_OUTPUTS.map((_, k) => Math.hypot(out[2 * k], out[2 * k + 1]));
  });
  const column = (k: number, unit = 1): number[] => toPeak(rows.map((row) => row[k] / unit));
  return {
    model,
    tension_N_per_m_s: column(0),
    shear_N_per_m_s: column(1),
    relativePitch_deg_per_m_s: column(2, DEGREE),
    loadFactor_1_per_m_s: column(3),
    rms: {
      tension_N: digits(rms[0]),
      shear_N: digits(rms[1]),
      relativePitch_deg: digits(rms[2] / DEGREE),
      loadFactor_1: digits(rms[3]),
    },
  };
}

/** Seven digits: what lies below differs between machines. */
function digits(value: number): number {
  return Number(value.toPrecision(7));
}

/** Values to seven digits of the greatest: what two aircraft do alike leaves a difference that is round-off below that. */
function toPeak(values: readonly number[]): number[] {
  const peak = Math.max(...values);
  if (!(peak > 0)) return [...values];
  const decimals = 6 - Math.floor(Math.log10(peak));
  return values.map((value) => Number(`${Math.round(value * 10 ** decimals)}e${-decimals}`));
}
