import { goldenMaximum } from "../../math/roots/index.ts";
import type { Airspeed } from "../../physics/atmosphere/index.ts";
import type { HoldInputs } from "./inputs.ts";
import type { Operating } from "./operating.ts";
import { PointModel, worstDamping } from "./stability.ts";
import { equivalentAt } from "./sweeps.ts";
import type { SnubberCurve } from "./types.ts";

/** Largest step between airspeeds of the band [m/s] and most airspeeds of it. */
const SPEED_STEP = 2.5;
const MOST_SPEEDS = 41;
const RATES = 81;
/** Half-width to which the logarithm of the rate is found [1]. */
const LOG_TOLERANCE = 1e-6;

function bandEnds(inputs: HoldInputs, at: Operating): [number, number] {
  return [equivalentAt(inputs.speedBand.from, at), equivalentAt(inputs.speedBand.to, at)];
}

function bandStep(inputs: HoldInputs, at: Operating): number {
  const speeds = bandSpeeds(inputs, at);
  return speeds[1] - speeds[0];
}

/** Equivalent airspeeds over the declared band [m/s]. */
export function bandSpeeds(inputs: HoldInputs, at: Operating): number[] {
  const [from, to] = bandEnds(inputs, at);
  const count = Math.min(MOST_SPEEDS, Math.max(2, Math.ceil((to - from) / SPEED_STEP) + 1));
  return Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));
}

/** Linear models of one mass at every speed of the band; speeds without trim are left out. */
export function bandModels(inputs: HoldInputs, at: Operating): { speed: number; model: PointModel }[] {
  return bandSpeeds(inputs, at)
    .map((speed) => {
      const airspeed: Airspeed = { kind: "EAS", value: speed };
      return { speed, model: new PointModel(inputs, { ...at, airspeed }) };
    })
    .filter(({ model }) => model.trimmed);
}

/**
 * The snubber rate that makes the worst longitudinal damping over the speed band as large as it can be.
 *
 * The snubber acts in the swing plane only, so that the lateral modes, which it cannot move, do not enter. The curve
 * is searched on a logarithmic grid over the declared range and the best cell is refined by golden section.
 *
 * @param title  mass name of the curve, or words for several masses together
 * @param points one operating point per mass; the worst over all of them counts
 */
export function snubberChoice(inputs: HoldInputs, points: readonly Operating[], title: string): SnubberCurve | null {
  const models = points.flatMap((at) => bandModels(inputs, at));
  if (models.length === 0) return null;
  let worstSpeed = models[0].speed;
  const worst = (rate: number): number => {
    let value = Number.POSITIVE_INFINITY;
    for (const { speed, model } of models) {
      const modes = model.modes(model.ratesWith({ snubber: rate }), "longitudinal");
      const zeta = worstDamping(modes, "longitudinal", inputs.criteria.timeToDouble.value) ?? 1;
      if (zeta < value) {
        value = zeta;
        worstSpeed = speed;
      }
    }
    return value;
  };
  const { from, to } = inputs.sweeps.snubber;
  const rates = Array.from({ length: RATES }, (_, i) => from * (to / from) ** (i / (RATES - 1)));
  const values = rates.map(worst);
  const best = values.indexOf(Math.max(...values));
  const low = Math.log(rates[Math.max(0, best - 1)]);
  const high = Math.log(rates[Math.min(RATES - 1, best + 1)]);
  const refined = goldenMaximum((logRate) => worst(Math.exp(logRate)), low, high, LOG_TOLERANCE);
  // the grid point stays when the refinement did not beat it: the optimum may lie at the end of the range
  const rate = refined.value >= values[best] ? Math.exp(refined.x) : rates[best];
  let dampingRatio = worst(rate);
  // between the grid of airspeeds the worst may lie a little deeper: look closer around it, mass by mass
  const step = bandStep(inputs, points[0]);
  const near = worstSpeed;
  for (const at of points) {
    for (let i = -8; i <= 8; i++) {
      const speed = near + (i / 8) * step;
      const [low, high] = bandEnds(inputs, at);
      if (i === 0 || speed < low || speed > high) continue;
      const model = new PointModel(inputs, { ...at, airspeed: { kind: "EAS", value: speed } });
      if (!model.trimmed) continue;
      const modes = model.modes(model.ratesWith({ snubber: rate }), "longitudinal");
      const zeta = worstDamping(modes, "longitudinal", inputs.criteria.timeToDouble.value) ?? 1;
      if (zeta < dampingRatio) {
        dampingRatio = zeta;
        worstSpeed = speed;
      }
    }
  }
  return {
    mass: title,
    rate_N_s_m: rates,
    worstDampingRatio: values,
    optimum: { rate_N_s_m: rate, dampingRatio, atAirspeed_m_s_EAS: worstSpeed },
    at_N_s_m: points[0].snubber,
  };
}
