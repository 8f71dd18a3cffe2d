import { gridFromRows } from "../../math/interpolate/index.ts";
import type { Context } from "./context.ts";
import { report, tableAt } from "./context.ts";

const AXES: Readonly<Record<string, readonly string[]>> = {
  still: ["alpha", "beta", "mach"],
  elevator: ["alpha", "deflection"],
  aileron: ["alpha", "deflection"],
  rudder: ["alpha", "deflection"],
  rates: ["alpha", "mach"],
  nearCarrier: ["alpha", "aft", "below"],
};

/** Tables of coefficients that are full grids: every combination once. */
export function checkAirloadTables(context: Context): void {
  for (const [key, axes] of Object.entries(AXES)) {
    const path = ["carried", "airloads", key];
    const table = tableAt(context, path);
    if (table === undefined || table.rows === 0) continue;
    const grid = gridFromRows(axes.map((axis) => table.columns[axis]));
    if (grid.ok) continue;
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
  const travel = tableAt(context, ["carried", "airloads", "still"]);
  if (travel !== undefined && travel.rows > 0 && new Set(travel.columns.alpha).size < 2) {
    report(
      context,
      ["carried", "airloads", "still"],
      "has one angle of attack",
      "two or more, or the aircraft cannot trim",
    );
  }
}

function spellPlace(axis: string, value: number): string {
  if (axis === "alpha" || axis === "beta" || axis === "deflection") {
    return `${Number(((value * 180) / Math.PI).toPrecision(6))} deg`;
  }
  return axis === "mach" ? String(value) : `${value} m`;
}
