import { contourLines } from "../../math/contour/index.ts";
import type { HoldInputs } from "./inputs.ts";
import type { Operating } from "./operating.ts";
import { PointModel, worstDamping } from "./stability.ts";
import type { StabilityMap } from "./types.ts";

const GRID = 41;
/** Worst damping below this is drawn as this: deeper than any picture needs. */
const FLOOR = -1;

function logGrid(from: number, to: number): number[] {
  return Array.from({ length: GRID }, (_, i) => from * (to / from) ** (i / (GRID - 1)));
}

/** Maps of the worst longitudinal damping: accumulator × snubber and bending × snubber, at one operating point. */
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
      boundaries: levels.map((level) => ({ level, lines: logContours(x, y, worst, level) })),
      marks: [{ label: variant, x: at[key] / 1e3, y: at.snubber / 1e3 }],
    };
  });
}

/** Lines of a level, interpolated on logarithmic axes, as pairs in axis units. */
function logContours(
  x: readonly number[],
  y: readonly number[],
  worst: readonly number[],
  level: number,
): (readonly [number, number])[][] {
  const lines = contourLines(x.map(Math.log), y.map(Math.log), worst, level);
  return lines.map((line) => Array.from(line.x, (a, i) => [Math.exp(a), Math.exp(line.y[i])] as const));
}
