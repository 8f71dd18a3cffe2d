import { gridFromRows } from "../../math/interpolate/index.ts";
import type { Context } from "./context.ts";
import { report, tableAt } from "./context.ts";

/** A table that is a full grid: every combination of its axes once. */
export function checkGrid(context: Context, path: readonly string[], axes: readonly string[]): void {
  const table = tableAt(context, path);
  if (table === undefined || table.rows === 0) return;
  const grid = gridFromRows(axes.map((axis) => table.columns[axis]));
  if (grid.ok) return;
  const allowed = `each combination of ${axes.join(", ")} once`;
  if (grid.missingCount > 0) {
    const shown = grid.missing.map((place) => place.map((x, i) => `${axes[i]} ${spellPlace(axes[i], x)}`).join(", "));
    const more = grid.missingCount > shown.length ? ` and ${grid.missingCount - shown.length} more` : "";
    const which = shown.length === 0 ? `${grid.missingCount} combinations` : `${shown.join("; ")}${more}`;
    report(context, path, `${table.file} has no row for ${which}`, allowed);
  }
  if (grid.repeated.length > 0) {
    const rows = grid.repeated.slice(0, 10).map((row) => row + 3);
    const more = grid.repeated.length > rows.length ? ` and ${grid.repeated.length - rows.length} more` : "";
    report(context, path, `${table.file} gives a combination again on line ${rows.join(", ")}${more}`, allowed);
  }
}

function spellPlace(axis: string, value: number): string {
  if (axis === "alpha" || axis === "beta" || axis === "deflection") {
    return `${Number(((value * 180) / Math.PI).toPrecision(6))} deg`;
  }
  return axis === "mach" ? String(value) : `${value} m`;
}
