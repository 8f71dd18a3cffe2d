import { equivalentAirspeed, standardAtmosphere } from "../../physics/atmosphere/index.ts";
import type { TangentialRates } from "../../physics/snubber/index.ts";
import type { HoldInputs, Operating, PointModel } from "../hold/index.ts";
import { type SnubberAt, snubberAt } from "./hardware.ts";
import type { SnubberHardware } from "./settings.ts";

/** The declared speed band as equivalent airspeeds at an operating point [m/s]. */
export function equivalentRange(inputs: HoldInputs, at: Operating): [number, number] {
  const air = standardAtmosphere(at.altitude, at.isaOffset);
  return [equivalentAirspeed(inputs.speedBand.from, air), equivalentAirspeed(inputs.speedBand.to, air)];
}

/** Load on the jack at a model's trim, driving it towards a larger boom angle [N]. */
export function jackLoadOf(inputs: HoldInputs, model: PointModel): number {
  return model.pair.tipLoad.tangential * inputs.tipPerJack(model.at.boomAngleDown);
}

/**
 * The hardware at the tip under a model's trim load, and the tangential path that it makes without a rate of the snubber.
 *
 * The shut-in oil lies in series with the bending of the boom: 1/k = 1/k_b + 1/k_oil.          (README eq. 1)
 */
export function pathWith(
  inputs: HoldInputs,
  model: PointModel,
  hardware: SnubberHardware,
  temperature: number,
  gasLoss?: number,
): { readonly at: SnubberAt; readonly rates: TangentialRates } {
  const ratio = inputs.tipPerJack(model.at.boomAngleDown);
  const at = snubberAt(hardware, temperature, jackLoadOf(inputs, model), ratio, gasLoss);
  const bending = 1 / (1 / model.at.bending + 1 / at.oil);
  return { at, rates: model.ratesWith({ bending, accumulator: at.accumulator, snubber: 0 }) };
}
