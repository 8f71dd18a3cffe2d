import type { PairMode } from "../../physics/modes/index.ts";
import type { HoldInputs } from "./inputs.ts";
import { type Interval, intervalsAbove } from "./intervals.ts";
import type { Operating } from "./operating.ts";
import { PointModel, planeMargin, worstDamping } from "./stability.ts";
import type { StiffnessInterval, StiffnessNeed } from "./types.ts";

/** Range searched for the tangential stiffness [N/m]: from a boom that gives no support to one that is rigid. */
const FROM = 100;
const TO = 1e9;
const GRID = 281;

/**
 * Tangential stiffness that the hooked pair needs when nothing snubs it.
 *
 * The tangential path is one spring with its structural damping. Every longitudinal mode is judged by the criterion of its
 * own class; a stiff spring makes the tangential mode structural, which is said where it happens. Ends of the intervals are found by bisection
 * between grid points of a logarithmic search. The upper end of the search, 1e9 N/m, stands for rigid: there the
 * roots differ from those of infinite stiffness by less than 1e-5.
 */
export function stiffnessNeed(inputs: HoldInputs, at: Operating): StiffnessNeed | null {
  const model = new PointModel(inputs, at);
  if (!model.trimmed) return null;
  const modesAt = (stiffness: number): PairMode[] =>
    model.modes(model.ratesWith({ bending: stiffness, accumulator: Infinity, snubber: 0 }), "longitudinal");
  const margin = (stiffness: number): number => planeMargin(inputs, modesAt(stiffness), "longitudinal");
  const decay = (stiffness: number): number => Math.min(...modesAt(stiffness).map((mode) => -mode.real));
  const grid = Array.from({ length: GRID }, (_, i) => FROM * (TO / FROM) ** (i / (GRID - 1)));
  const found = (f: (stiffness: number) => number): StiffnessInterval[] =>
    intervalsAbove(grid, grid.map(f), f, 0, "log").map(asStiffness);
  const meets = found(margin);
  const last = meets.at(-1);
  const worst = (stiffness: number): number =>
    worstDamping(modesAt(stiffness), "longitudinal", inputs.criteria.timeToDouble.value) ?? 1;
  return {
    mass: at.mass.name,
    criterion_1: inputs.criteria.rigidBodyDamping.value,
    stable: found(decay),
    meetsCriterion: meets,
    headline_N_m: last !== undefined && last.to_N_m === null ? last.from_N_m : null,
    classChanges_N_m: classChanges(grid, modesAt),
    curve: { stiffness_N_m: grid, worstDampingRatio: grid.map(worst) },
  };
}

/** Stiffness at which an oscillation changes its class, and with it the criterion that judges it; to 0.1 %. */
function classChanges(grid: readonly number[], modesAt: (stiffness: number) => readonly PairMode[]): number[] {
  const structural = (stiffness: number): number =>
    modesAt(stiffness).filter((mode) => mode.imag > 0 && mode.class === "structural").length;
  const counts = grid.map(structural);
  return grid.flatMap((value, i) => {
    if (i === 0 || counts[i] === counts[i - 1]) return [];
    let [low, high] = [Math.log(grid[i - 1]), Math.log(value)];
    while (high - low > 1e-3) {
      const middle = 0.5 * (low + high);
      if (structural(Math.exp(middle)) === counts[i - 1]) low = middle;
      else high = middle;
    }
    return [Math.exp(high)];
  });
}

function asStiffness({ from, to }: Interval): StiffnessInterval {
  return { from_N_m: from, to_N_m: to };
}
