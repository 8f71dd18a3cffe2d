import { allowedGrowth, type BoundaryPiece, pathBoundary } from "./exact-boundary.ts";
import type { HoldInputs, Range } from "./inputs.ts";
import type { Operating } from "./operating.ts";
import { PointModel, worstDamping } from "./stability.ts";
import type { StabilityMap } from "./types.ts";

const GRID = 41;
/** Worst damping below this is drawn as this: deeper than any picture needs. */
const FLOOR = -1;

function logGrid(from: number, to: number): number[] {
  return Array.from({ length: GRID }, (_, i) => from * (to / from) ** (i / (GRID - 1)));
}

/**
 * Maps of the worst longitudinal damping: accumulator × snubber and bending × snubber, at one operating point.
 *
 * The grid shades the map; the boundaries are exact curves and do not depend on it.
 */
export function holdMaps(inputs: HoldInputs, at: Operating, variant: string): StabilityMap[] {
  const model = new PointModel(inputs, at);
  if (!model.trimmed) return [];
  const { sweeps } = inputs;
  const snubbers = logGrid(sweeps.snubber.from, sweeps.snubber.to);
  const stiffness = [
    { key: "accumulator", label: "Accumulator stiffness at the tip", range: sweeps.accumulator },
    { key: "bending", label: "Boom bending stiffness at the tip", range: sweeps.bending },
  ] as const;
  return stiffness.map(({ key, label, range }) => {
    const values = logGrid(range.from, range.to);
    const worst: number[] = [];
    for (const snubber of snubbers) {
      for (const value of values) {
        const modes = model.modes(model.ratesWith({ snubber, [key]: value }), "longitudinal");
        const zeta = worstDamping(modes, "longitudinal", inputs.criteria.timeToDouble.value);
        worst.push(Math.max(FLOOR, zeta ?? 1));
      }
    }
    const x = values.map((value) => value / 1e3);
    const y = snubbers.map((value) => value / 1e3);
    const levels = [0, inputs.criteria.rigidBodyDamping.value];
    return {
      id: `${key}-snubber`,
      title: `Worst longitudinal damping ratio: ${label.toLowerCase()} and snubber rate`,
      condition: at.condition,
      mass: at.mass.name,
      x: { label, unit: "kN/m", values: x },
      y: { label: "Snubber rate at the tip", unit: "kN·s/m", values: y },
      plane: "longitudinal",
      worst,
      boundaries: levels.map((level) => ({ level, lines: exactLines(inputs, model, key, range, level) })),
      marks: [{ label: variant, x: at[key] / 1e3, y: at.snubber / 1e3 }],
    };
  });
}

/**
 * Lines, as pairs in kN/m and kN·s/m, on which the worst damping takes a level: the pieces of the exact curve of a
 * rigid-body-type oscillation that no other such oscillation is worse than, and of a real root that doubles as fast as allowed.
 */
function exactLines(
  inputs: HoldInputs,
  model: PointModel,
  along: "bending" | "accumulator",
  stiffness: Range,
  level: number,
): (readonly [number, number])[][] {
  const ranges = { stiffness, snubber: inputs.sweeps.snubber };
  const decides = ({ border, class: kind }: BoundaryPiece): boolean => border && kind === "rigid-body-type";
  const pieces = [
    ...pathBoundary(inputs, model, along, ranges, { kind: "oscillation", dampingRatio: level }, level),
    ...pathBoundary(inputs, model, along, ranges, { kind: "real root", growth: allowedGrowth(inputs) }, level),
  ].filter(decides);
  return pieces.map(({ x, y }) => x.map((u, i) => [Math.exp(u) / 1e3, Math.exp(y[i]) / 1e3] as const));
}
