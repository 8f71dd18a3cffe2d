import { bracketedRoot } from "../../math/roots/index.ts";
import { staticDeterminant } from "../../physics/equilibrium/index.ts";
import { SwingResponse, swingSystem } from "../../physics/stability-boundary/index.ts";
import { atBoomAngle, type HoldInputs, type Operating, PointModel, type Range } from "../hold/index.ts";
import type { DivergenceSearch, StaticStiffness } from "./types.ts";

const DEGREE = Math.PI / 180;
const GRID = 29;
/** Half-width to which a divergence is found, as a share of the range. */
const TOLERANCE = 1e-9;

/**
 * Places along a range at which a real root of the pair in its trim passes zero, by the sign of det(−A) and bracketed root finding.
 *
 * @source physics/equilibrium README eq. 6
 * @verified hold-equilibrium.test.ts: the root there is zero; physics/equilibrium against the torsion spring
 */
function searchAlong(
  inputs: HoldInputs,
  at: Operating,
  spec: Pick<DivergenceSearch, "along" | "unit"> & { range: Range; per: number; point: (value: number) => Operating },
): DivergenceSearch {
  const { along, unit, range, per, point } = spec;
  let reference: number | null = null;
  const determinant = (value: number): number | null => {
    const model = new PointModel(inputs, point(value));
    if (!model.trimmed) return null;
    const { matrix, size } = model.matrix();
    const { sign, log } = staticDeterminant(matrix, size);
    reference ??= log;
    // its scale does not matter; a determinant far from zero must not overflow
    return sign * Math.exp(Math.min(600, Math.max(-600, log - reference)));
  };
  const grid = Array.from({ length: GRID }, (_, i) => range.from + ((range.to - range.from) * i) / (GRID - 1));
  const values = grid.map(determinant);
  const found: number[] = [];
  for (let i = 1; i < GRID; i++) {
    const [a, b] = [values[i - 1], values[i]];
    if (a === null || b === null || a * b > 0) continue;
    const width = TOLERANCE * (range.to - range.from);
    const root = bracketedRoot((x) => determinant(x) ?? Number.NaN, grid[i - 1], grid[i], width);
    if (root.outcome === "converged") found.push(root.x);
  }
  const first = grid.find((_, i) => values[i] !== null);
  return {
    ...{ condition: at.condition, mass: at.mass.name, along, unit },
    ...{ from: range.from / per, to: range.to / per },
    at: found.map((value) => ({ value: value / per, plane: planeOf(inputs, point(value)) })),
    growingBelow: first === undefined ? 0 : growingReal(inputs, point(first)),
    ...{ withoutTrim: values.filter((value) => value === null).length, places: GRID },
  };
}

/** Plane of the real root nearest to zero. */
function planeOf(inputs: HoldInputs, at: Operating): "longitudinal" | "lateral" {
  const roots = new PointModel(inputs, at).modes().filter(({ imag }) => imag === 0);
  const nearest = roots.sort((a, b) => Math.abs(a.real) - Math.abs(b.real))[0];
  return nearest?.plane ?? "longitudinal";
}

function growingReal(inputs: HoldInputs, at: Operating): number {
  return new PointModel(inputs, at).modes().filter(({ imag, real }) => imag === 0 && real > 0).length;
}

/** Static divergence of a mass along airspeed, boom angle and weight share, each alone, in the pair's own trim. */
export function divergenceSearches(inputs: HoldInputs, at: Operating, speeds: Range): DivergenceSearch[] {
  const { boomAngle, weightShare } = inputs.sweeps;
  return [
    searchAlong(inputs, at, {
      ...{ along: "airspeed", unit: "m/s", range: speeds, per: 1 },
      point: (value) => ({ ...at, airspeed: { kind: "EAS", value } }),
    }),
    searchAlong(inputs, at, {
      ...{ along: "boomAngle", unit: "deg", range: boomAngle, per: DEGREE },
      point: (value) => atBoomAngle(inputs, { ...at, boomAngleDown: value }),
    }),
    searchAlong(inputs, at, {
      ...{ along: "weightShare", unit: "%", range: weightShare, per: 0.01 },
      point: (value) => ({ ...at, weightShare: value }),
    }),
  ];
}

/**
 * Static tangential stiffness at which a real root is zero: k = −1/H(0), with H the receptance of the tip without path.
 *
 * @source physics/stability-boundary README eq. 3 at s = 0
 * @verified hold-equilibrium.test.ts: the determinant passes zero there
 */
export function staticStiffness(inputs: HoldInputs, at: Operating): StaticStiffness {
  const model = new PointModel(inputs, at);
  const present = 1 / (1 / at.bending + 1 / at.accumulator);
  let needed: number | null = null;
  if (model.trimmed) {
    const swing = swingSystem(model.base, inputs.boom.length);
    const response = new SwingResponse(swing.size);
    if (response.evaluate(swing, 0, 0) && response.re !== 0) needed = -1 / response.re;
  }
  const { trimmed: trims } = model;
  return { condition: at.condition, mass: at.mass.name, trims, needed_N_m: needed, present_N_m: present };
}
