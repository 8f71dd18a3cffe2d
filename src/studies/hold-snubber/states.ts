import type { TangentialRates } from "../../physics/snubber/index.ts";
import { type HoldInputs, jackSignShareOf, type Operating, PointModel, worstDamping } from "../hold/index.ts";
import { growthOf, rateIn } from "./nodding.ts";
import { pathWith } from "./points.ts";
import type { SnubberInputs } from "./settings.ts";
import type { FailedState } from "./types.ts";

/**
 * What the pair does when the snubber has failed.
 *
 * - valve closed: the oil is shut in, boom and oil alone yield;
 * - valve open: nothing resists but the accumulator;
 * - gas lost: only oil and hose yield behind the valve;
 * - no fluid: the jack holds nothing. The pair balances only with the weight share that leaves no load normal to the boom.
 */
export function failedStates(inputs: HoldInputs, snubber: SnubberInputs, point: Operating): FailedState[] {
  const model = new PointModel(inputs, point);
  if (!model.trimmed) return [];
  const { hardware, settings, declared } = snubber;
  const { at, rates } = pathWith(inputs, model, hardware, settings.temperatures.normal);
  const rate = rateIn(at.law, declared.amplitude, declared.omega);
  const closed = { ...rates, snubber: Number.POSITIVE_INFINITY };
  const noGas = { ...rates, accumulator: at.withoutGas, snubber: rate };
  return [
    stateOf(inputs, model, "valve closed", closed, null),
    stateOf(inputs, model, "valve open", rates, rates.accumulator),
    stateOf(inputs, model, "gas lost", noGas, at.withoutGas),
    withoutFluid(inputs, point),
  ];
}

function withoutFluid(inputs: HoldInputs, point: Operating): FailedState {
  const { share } = jackSignShareOf(inputs, point);
  const missing: FailedState = {
    ...{ condition: point.condition, mass: point.mass.name, state: "no fluid", outcome: "no balance" },
    ...{ weightShare_1: point.weightShare, accumulatorStiffness_N_m: 0 },
    ...{ dampingRatio: null, frequency_Hz: null, timeToDouble_s: null },
  };
  if (share === null) return missing;
  const model = new PointModel(inputs, { ...point, weightShare: share });
  if (!model.trimmed) return missing;
  const slack = model.ratesWith({ bending: 0, accumulator: 0, snubber: 0 });
  return stateOf(inputs, model, "no fluid", slack, 0);
}

function stateOf(
  inputs: HoldInputs,
  model: PointModel,
  state: FailedState["state"],
  rates: TangentialRates,
  accumulator: number | null,
): FailedState {
  const modes = model.modes(rates, "longitudinal");
  const fastest = Math.max(0, ...modes.map((mode) => mode.real));
  const { omega } = growthOf(model, rates);
  return {
    condition: model.at.condition,
    mass: model.at.mass.name,
    state,
    outcome: "analysed",
    weightShare_1: model.at.weightShare,
    accumulatorStiffness_N_m: accumulator,
    dampingRatio: worstDamping(modes, "longitudinal", inputs.criteria.timeToDouble.value),
    frequency_Hz: omega > 0 ? omega / (2 * Math.PI) : null,
    timeToDouble_s: fastest > 0 ? Math.LN2 / fastest : null,
  };
}
