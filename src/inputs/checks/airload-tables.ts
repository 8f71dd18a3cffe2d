import type { Context } from "./context.ts";
import { report, tableAt } from "./context.ts";
import { checkGrid } from "./grid.ts";

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
    checkGrid(context, ["carried", "airloads", key], axes);
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
