/** Form of the part `boundary` inside a result file; mirrors `studies/hold-boundary/types.ts`. */
import type { Issue } from "../../math/errors.ts";
import { type Check, finite, flag, list, nullable, object, oneOf, sameLength, text } from "./shape.ts";

const numbers = list(finite);
const axis = object({
  ...{ key: text, label: text, unit: text },
  scale: oneOf("linear", "log"),
  ...{ from: finite, to: finite },
});
const curve = sameLength(
  object({
    kind: oneOf("oscillation", "real root"),
    level: finite,
    class: oneOf("rigid-body-type", "structural"),
    border: flag,
    ...{ x: numbers, y: numbers, frequency_Hz: numbers },
  }),
  "x",
  ["y", "frequency_Hz"],
);

const mapForm = object({
  ...{ id: text, title: text, condition: text, mass: text },
  method: oneOf("D-decomposition", "continuation"),
  ...{ x: axis, y: axis },
  grid: object({ x: numbers, y: numbers, worst: numbers }),
  curves: list(curve),
  at: object({ x: finite, y: finite, worst: finite, growing: finite }),
  distance_1: nullable(finite),
  crossings: list(object({ level: finite, along: oneOf("x", "y"), below: nullable(finite), above: nullable(finite) })),
  check: nullable(object({ places: finite, largestMiss_1: finite, gridDistance_1: nullable(finite) })),
});

/** The grid of a map must be full. */
const map: Check = (value, path, issues: Issue[]) => {
  const before = issues.length;
  mapForm(value, path, issues);
  if (issues.length > before) return;
  const { grid } = value as { grid: Record<"x" | "y" | "worst", number[]> };
  const cells = grid.x.length * grid.y.length;
  if (grid.worst.length === cells) return;
  issues.push({
    path: `${path}.grid.worst`,
    message: "has the wrong length",
    value: String(grid.worst.length),
    allowed: `${cells}, the product of its axes`,
  });
};

export const boundaryShape: Check = object({
  criterion_1: finite,
  maps: list(map),
  missing: list(object({ id: text, condition: text, reason: text })),
});
