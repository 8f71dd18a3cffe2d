import type { HoldInputs } from "./inputs.ts";
import { type Interval, intervalsAbove } from "./intervals.ts";
import type { Operating } from "./operating.ts";
import { PointModel, worstDamping } from "./stability.ts";
import type { StiffnessInterval, StiffnessNeed } from "./types.ts";

/** Range searched for the tangential stiffness [N/m]: from a boom that gives no support to one that is rigid. */
const FROM = 100;
const TO = 1e9;
const GRID = 281;

/**
 * Tangential stiffness that the hooked pair needs when nothing snubs it.
 *
 * The tangential path is one spring with its structural damping. Ends of the intervals are found by bisection
 * between grid points of a logarithmic search. The upper end of the search, 1e9 N/m, stands for rigid: there the
 * roots differ from those of infinite stiffness by less than 1e-5.
 */
export function stiffnessNeed(inputs: HoldInputs, at: Operating): StiffnessNeed | null {
  const model = new PointModel(inputs, at);
  if (!model.trimmed) return null;
  const criterion = inputs.criteria.rigidBodyDamping.value;
  const worst = (stiffness: number): number => {
    const rates = model.ratesWith({ bending: stiffness, accumulator: Infinity, snubber: 0 });
    return worstDamping(model.modes(rates, "longitudinal"), "longitudinal", inputs.criteria.timeToDouble.value) ?? 1;
  };
  const grid = Array.from({ length: GRID }, (_, i) => FROM * (TO / FROM) ** (i / (GRID - 1)));
  const values = grid.map(worst);
  const found = (level: number): StiffnessInterval[] =>
    intervalsAbove(grid, values, worst, level, "log").map(asStiffness);
  const meets = found(criterion);
  const last = meets.at(-1);
  return {
    mass: at.mass.name,
    criterion_1: criterion,
    stable: found(0),
    meetsCriterion: meets,
    headline_N_m: last !== undefined && last.to_N_m === null ? last.from_N_m : null,
    curve: { stiffness_N_m: grid, worstDampingRatio: values },
  };
}

function asStiffness({ from, to }: Interval): StiffnessInterval {
  return { from_N_m: from, to_N_m: to };
}
