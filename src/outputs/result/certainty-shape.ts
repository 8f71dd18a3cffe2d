/** Form of the part `certainty` inside a result file; mirrors `studies/hold-certainty/types.ts`. */
import { type Check, finite, list, nullable, object, oneOf, text } from "./shape.ts";

const valueAt = object({ path: text, score_1: finite });
const plane = object({
  plane: oneOf("longitudinal", "lateral"),
  criterion_1: finite,
  nominal_1: nullable(finite),
  nominalMass: nullable(text),
  samples: finite,
  mean_1: finite,
  standardDeviation_1: finite,
  quantiles: list(object({ probability_1: finite, dampingRatio_1: finite })),
  histogram: object({ from_1: finite, width_1: finite, counts: list(finite) }),
  failing: object({
    count: finite,
    of: finite,
    probability_1: finite,
    lower_1: finite,
    upper_1: finite,
    otherwise: finite,
  }),
  lowerBound_1: finite,
  worstMass: list(object({ mass: text, share_1: finite })),
  worstCase: nullable(
    object({
      dampingRatio_1: finite,
      values: list(object({ path: text, score_1: finite, adds_1: finite })),
      starts: finite,
      agreeing: finite,
      evaluations: finite,
    }),
  ),
  distance: object({
    outcome: oneOf("converged", "on the limit", "not reached", "flat", "no value"),
    sigma_1: finite,
    values: list(valueAt),
    probability_1: finite,
  }),
  drivers: list(
    object({
      paths: list(text),
      firstOrder_1: finite,
      firstOrderError_1: finite,
      total_1: finite,
      totalError_1: finite,
      linear_1: finite,
      slopes_1: list(finite),
    }),
  ),
  driverPairs: finite,
  linearDeviation_1: nullable(finite),
  tests: list(
    object({
      test: text,
      varianceBought_1: finite,
      standardDeviation_1: finite,
      failing_1: finite,
      decides_1: finite,
    }),
  ),
});

export const certaintyShape: Check = object({
  groundTests: list(object({ name: text, measures: list(text), accuracy_1: finite, cost: nullable(text) })),
  conditions: list(
    object({
      condition: text,
      masses: list(text),
      method: oneOf("Sobol", "Latin hypercube"),
      samples: finite,
      seed: finite,
      confidence_1: finite,
      bound_1: finite,
      values: list(object({ path: text, text, nominal: finite, sigma: finite, distribution: text })),
      correlations: finite,
      notUsed: list(text),
      impossible: finite,
      noTrim: finite,
      planes: list(plane),
    }),
  ),
});
