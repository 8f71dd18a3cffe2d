import type { Airspeed } from "../../physics/atmosphere/index.ts";
import { densityAt, dynamicViscosity } from "../../physics/hydraulics/index.ts";
import type { TangentialRates } from "../../physics/snubber/index.ts";
import { type HoldInputs, type Operating, PointModel, worstDamping } from "../hold/index.ts";
import { lawAtJack, lawToTip, type SnubberAt } from "./hardware.ts";
import { equivalentRange, pathWith } from "./points.ts";
import type { SnubberInputs } from "./settings.ts";
import { jackTravel } from "./slow-motion.ts";
import type { DesignMap } from "./types.ts";

/** Worst damping against the rate of the snubber, over masses and airspeeds. */
export interface DampingCurve {
  /** Rising, logarithmic [N·s/m]. */
  readonly rates: readonly number[];
  readonly worst: readonly number[];
}

const SPEEDS = 9;
const RATES = 49;
const FLOOR = -1;

/**
 * Worst longitudinal damping over masses and the speed band against the snubber rate, with the accumulator as the trim load at
 * each airspeed leaves it.
 *
 * @param hardwareOf hardware at the tip from the trim load of a model
 * @param ratesOf    path of a model with that hardware
 */
export function dampingCurve(
  inputs: HoldInputs,
  points: readonly Operating[],
  ratesOf: (model: PointModel) => { readonly at: SnubberAt; readonly rates: TangentialRates },
): DampingCurve | null {
  const models = points.flatMap((point) => {
    const [from, to] = equivalentRange(inputs, point);
    return Array.from({ length: SPEEDS }, (_, i): Airspeed => {
      return { kind: "EAS", value: from + ((to - from) * i) / (SPEEDS - 1) };
    })
      .map((airspeed) => new PointModel(inputs, { ...point, airspeed }))
      .filter((model) => model.trimmed)
      .map((model) => ({ model, rates: ratesOf(model).rates }));
  });
  if (models.length === 0) return null;
  const { from, to } = inputs.sweeps.snubber;
  const rates = Array.from({ length: RATES }, (_, i) => from * (to / from) ** (i / (RATES - 1)));
  const worst = rates.map((snubber) => {
    let least = 1;
    for (const { model, rates: path } of models) {
      const modes = model.modes({ ...path, snubber }, "longitudinal");
      least = Math.min(least, worstDamping(modes, "longitudinal", inputs.criteria.timeToDouble.value) ?? 1);
    }
    return Math.max(FLOOR, least);
  });
  return { rates, worst };
}

/**
 * Least value of a curve over a range of rates; between points linear in the logarithm of the rate, held at its ends.
 */
export function leastOver({ rates, worst }: DampingCurve, from: number, to: number): number {
  let least = Math.min(valueAt(rates, worst, from), valueAt(rates, worst, to));
  rates.forEach((rate, i) => {
    if (rate > from && rate < to) least = Math.min(least, worst[i]);
  });
  return least;
}

function valueAt(rates: readonly number[], worst: readonly number[], rate: number): number {
  const last = rates.length - 1;
  if (rate <= rates[0]) return worst[0];
  if (rate >= rates[last]) return worst[last];
  const place = (last * Math.log(rate / rates[0])) / Math.log(rates[last] / rates[0]);
  const i = Math.min(last - 1, Math.floor(place));
  return worst[i] + (place - i) * (worst[i + 1] - worst[i]);
}

const GRID = 41;
/** The map reaches this factor to both sides of the rates that are swept, down from their upper end. */
const DECADES = 3;

/**
 * Worst ζ over C1 × C2 at the tip: over masses, airspeeds and amplitudes from nothing to the declared one, with the oil at its
 * normal temperature and from hot to cold, and the largest C1 with which the cold stroke still passes.
 *
 *     C1·μ_hot/μ ≤ c ≤ C1·μ_cold/μ + (8/3π)·C2·ω·X,   ζ_worst = min over c                         (README eq. 4)
 */
export function designMaps(inputs: HoldInputs, snubber: SnubberInputs, points: readonly Operating[]): DesignMap[] {
  const { hardware, settings, declared } = snubber;
  const { cold, normal, hot } = settings.temperatures;
  const curve = dampingCurve(inputs, points, (model) => pathWith(inputs, model, hardware, normal));
  if (curve === null) return [];
  const mu = (temperature: number): number => dynamicViscosity(hardware.fluid, temperature);
  const [thin, thick] = [mu(hot) / mu(normal), mu(cold) / mu(normal)];
  const speed = declared.amplitude * declared.omega;
  const law = lawToTip(lawAtJack(hardware, normal), inputs.tipPerJack(points[0].boomAngleDown));
  const top = inputs.sweeps.snubber.to;
  const linear = logRange(top / 10 ** DECADES, top, law.linear);
  const quadratic = logRange(top / 10 ** DECADES / speed, top / speed, law.quadratic);
  const slowLimit = quadratic.map((c2) => slowLimitOf(inputs, snubber, points[0], c2, thick));
  const oils = [
    ["normal", 1, 1],
    ["hot to cold", thin, thick],
  ] as const;
  return oils.map(([oil, least, most]) => {
    const worst = quadratic.flatMap((c2) =>
      linear.map((c1) => leastOver(curve, c1 * least, c1 * most + (8 / (3 * Math.PI)) * c2 * speed)),
    );
    return {
      condition: points[0].condition,
      oil,
      C1_N_s_m: linear,
      C2_N_s2_m2: quadratic,
      worst,
      slowLimit_N_s_m: slowLimit,
      at: { C1_N_s_m: law.linear, C2_N_s2_m2: law.quadratic },
      best: bestOf(linear, quadratic, worst, slowLimit),
    };
  });
}

/** Largest C1 at the tip, normal oil, with which the cold stroke passes: what orifice and friction leave; `null` for none. */
function slowLimitOf(
  inputs: HoldInputs,
  { hardware, settings, capacity, travel }: SnubberInputs,
  point: Operating,
  quadratic: number,
  thick: number,
): number | null {
  if (capacity === null) return null;
  const ratio = inputs.tipPerJack(point.boomAngleDown);
  const { cold, normal } = settings.temperatures;
  const speed = jackTravel(inputs, travel) / settings.stroke.time;
  const dense = densityAt(hardware.fluid, cold) / densityAt(hardware.fluid, normal);
  const orifice = quadratic * dense * ratio ** 3 * speed ** 2;
  const left = settings.criteria.slowForce.value * capacity - hardware.sealFriction - orifice;
  return left > 0 ? left / (speed * thick * ratio ** 2) : null;
}

function bestOf(
  linear: readonly number[],
  quadratic: readonly number[],
  worst: readonly number[],
  slowLimit: readonly (number | null)[],
): DesignMap["best"] {
  let best: DesignMap["best"] = null;
  quadratic.forEach((c2, i) => {
    linear.forEach((c1, k) => {
      const zeta = worst[i * linear.length + k];
      const limit = slowLimit[i];
      if (limit === null || c1 > limit || (best !== null && zeta <= best.dampingRatio)) return;
      best = { C1_N_s_m: c1, C2_N_s2_m2: c2, dampingRatio: zeta };
    });
  });
  return best;
}

/** Logarithmic grid that holds a value, if it is positive. */
function logRange(from: number, to: number, value: number): number[] {
  const low = value > 0 ? Math.min(from, value / 2) : from;
  const high = Math.max(to, 2 * value);
  return Array.from({ length: GRID }, (_, i) => low * (high / low) ** (i / (GRID - 1)));
}
