/** A made-up result of the part `certainty`: two planes, one sure and one not. */
import type { CertaintyResult, PlaneCertainty } from "../../studies/hold-certainty/types.ts";

/** A triangle of 20 bins of one hundredth about a middle. */
function plane(name: PlaneCertainty["plane"], middle: number, failing: number): PlaneCertainty {
  const counts = Array.from({ length: 20 }, (_, i) => 10 - Math.abs(i - 9.5) + 0.5);
  const samples = counts.reduce((sum, count) => sum + count, 0);
  return {
    plane: name,
    criterion_1: 0.03,
    nominal_1: middle,
    nominalMass: "full",
    samples,
    mean_1: middle,
    standardDeviation_1: 0.041,
    quantiles: [0.05, 0.5, 0.95].map((probability_1) => ({
      probability_1,
      dampingRatio_1: middle + 0.14 * (probability_1 - 0.5),
    })),
    histogram: { from_1: middle - 0.1, width_1: 0.01, counts },
    failing: {
      ...{ count: failing, of: samples, probability_1: failing / samples, otherwise: 0 },
      ...{ lower_1: (0.8 * failing) / samples, upper_1: Math.min(1, (1.2 * failing + 2) / samples) },
    },
    lowerBound_1: middle - 0.07,
    worstMass: [
      { mass: "full", share_1: 0.75 },
      { mass: "empty", share_1: 0.25 },
    ],
    worstCase: {
      dampingRatio_1: middle - 0.12,
      values: [{ path: "carried.airloads.roll.Clbeta", score_1: -3, adds_1: 0.05 }],
      ...{ starts: 5, agreeing: 4, evaluations: 600 },
    },
    distance: {
      outcome: "converged",
      sigma_1: (middle - 0.03) / 0.041,
      values: [{ path: "carried.airloads.roll.Clbeta", score_1: -1.2 }],
      probability_1: 0.12,
    },
    drivers: [
      {
        paths: ["carried.airloads.roll.Clbeta"],
        ...{ firstOrder_1: 0.7, firstOrderError_1: 0.05, total_1: 0.72, totalError_1: 0.06 },
        ...{ linear_1: 0.69, slopes_1: [0.013] },
      },
      {
        paths: ["carried.massStates.full.inertia.Iyy", "carried.massStates.full.inertia.Izz"],
        ...{ firstOrder_1: 0.26, firstOrderError_1: 0.04, total_1: 0.28, totalError_1: 0.05 },
        ...{ linear_1: 0.31, slopes_1: [-0.004, 0.001] },
      },
    ],
    driverPairs: 128,
    linearDeviation_1: 0.04,
    tests: [
      {
        ...{ test: "wind tunnel", varianceBought_1: 0.6, standardDeviation_1: 0.026, failing_1: 0.05, decides_1: 0.4 },
      },
      { ...{ test: "weighing", varianceBought_1: 0.02, standardDeviation_1: 0.04, failing_1: 0.1, decides_1: 0 } },
    ],
  };
}

export function fixtureCertainty(): CertaintyResult {
  return {
    groundTests: [
      { name: "wind tunnel", measures: ["carried.airloads.roll.Clbeta"], accuracy_1: 0.1, cost: "two weeks" },
      { name: "weighing", measures: ["carried.massStates.full.mass"], accuracy_1: 0.002, cost: null },
    ],
    conditions: [
      {
        ...{ condition: "hook", masses: ["full", "empty"], method: "Sobol", samples: 110, seed: 1 },
        ...{ confidence_1: 0.95, bound_1: 3, correlations: 1, notUsed: [], impossible: 1, noTrim: 0 },
        values: [
          {
            path: "carried.airloads.roll.Clbeta",
            text: "-0.022 1/rad ± 35 % (1σ)",
            ...{ nominal: -0.022, sigma: 0.0077, distribution: "normal" },
          },
        ],
        planes: [plane("longitudinal", 0.18, 0), plane("lateral", 0.05, 37)],
      },
    ],
  };
}
