import type { Pair, Quantity, Table } from "../../inputs/index.ts";
import { BugError } from "../../math/errors.ts";
import { gridFromRows } from "../../math/interpolate/index.ts";
import {
  type CoefficientTables,
  type DerivativeSet,
  type GridTable,
  type LateralDerivatives,
  localDerivatives,
  tableModel,
} from "../../physics/airloads/index.ts";
import type { HoldInputs } from "./inputs.ts";
import { stationPoint } from "./station.ts";

type Airloads = Pair["carried"]["airloads"];
type Derivatives = Extract<Airloads, { readonly kind: "derivatives" }>;
type Tables = Extract<Airloads, { readonly kind: "tables" }>;
type Carried = Omit<HoldInputs["carried"], "massStates" | "maximumLift" | "travel">;

/** Airloads of the carried aircraft with the points that they need, in stations. */
export function readAirloads({ carried }: Pair): Carried {
  const { reference, airloads } = carried;
  const lengths = { area: reference.area.si, span: reference.span.si, chord: reference.chord.si };
  const axes = { moments: airloads.axes.moments, sideForce: airloads.axes.sideForce };
  const points = {
    probe: stationPoint(carried.points.probeTip),
    momentReference: stationPoint(airloads.momentReference),
    thrustPoint: stationPoint(carried.thrust.line),
  };
  if (airloads.kind === "derivatives") {
    return { ...points, derivatives: { ...lengths, axes, ...readDerivatives(airloads) } };
  }
  const tables = readTables(airloads);
  return { ...points, tables, derivatives: derivativesAtZero({ ...lengths, axes }, tables) };
}

type Coefficients = Omit<DerivativeSet, "area" | "span" | "chord" | "axes" | "referencePoint" | "thrust">;

function readDerivatives({ lift, pitch, side, roll, yaw, drag }: Derivatives): Coefficients {
  const lateral = (
    beta: Quantity,
    p: Quantity,
    r: Quantity,
    aileron: Quantity,
    rudder: Quantity,
  ): LateralDerivatives => ({
    ...{ beta: beta.si, rollRate: p.si, yawRate: r.si, aileron: aileron.si, rudder: rudder.si },
  });
  return {
    referenceAlpha: 0,
    lift: {
      ...{ atReference: lift.CL0.si, alpha: lift.CLalpha.si, pitchRate: lift.CLq.si },
      ...{ alphaRate: lift.CLalphadot.si, elevator: lift.CLelevator.si },
    },
    drag: { kind: "parabolic", zeroLift: drag.CD0.si, efficiency: drag.spanEfficiency.si, elevator: 0 },
    pitch: {
      ...{ atReference: pitch.Cm0.si, alpha: pitch.Cmalpha.si, pitchRate: pitch.Cmq.si },
      ...{ alphaRate: pitch.Cmalphadot.si, elevator: pitch.Cmelevator.si },
    },
    side: lateral(side.CYbeta, side.CYp, side.CYr, side.CYaileron, side.CYrudder),
    roll: lateral(roll.Clbeta, roll.Clp, roll.Clr, roll.Claileron, roll.Clrudder),
    yaw: lateral(yaw.Cnbeta, yaw.Cnp, yaw.Cnr, yaw.Cnaileron, yaw.Cnrudder),
  };
}

/** A table over its grid; the rows stand in any order. */
function gridTable<A extends string, V extends string>(
  table: Table<A | V>,
  axes: readonly A[],
  values: readonly V[],
): GridTable<A, V> {
  const grid = gridFromRows(axes.map((axis) => table.columns[axis]));
  if (!grid.ok) throw new BugError(`${table.file} passed the checks but is no full grid`);
  const column = (name: V): Float64Array => Float64Array.from(grid.order, (row) => table.columns[name][row]);
  return {
    axes: Object.fromEntries(axes.map((axis, i) => [axis, grid.axes[i]])) as Record<A, Float64Array>,
    values: Object.fromEntries(values.map((name) => [name, column(name)])) as Record<V, Float64Array>,
  };
}

const SIX = ["CL", "CD", "CY", "Cl", "Cm", "Cn"] as const;
const RATES = ["CLq", "CLalphadot", "Cmq", "Cmalphadot", "CYp", "CYr", "Clp", "Clr", "Cnp", "Cnr"] as const;

function readTables(airloads: Tables): CoefficientTables {
  const { still, elevator, aileron, rudder, rates, nearCarrier, beyond } = airloads;
  const control = (table: typeof elevator) => gridTable(table, ["alpha", "deflection"], SIX);
  return {
    still: gridTable(still, ["alpha", "beta", "mach"], SIX),
    ...{ elevator: control(elevator), aileron: control(aileron), rudder: control(rudder) },
    rates: gridTable(rates, ["alpha", "mach"], RATES),
    ...(nearCarrier === undefined ? {} : { near: gridTable(nearCarrier, ["alpha", "aft", "below"], SIX) }),
    beyond,
  };
}

/** Derivatives of tables at zero incidence and the lowest Mach number, for what needs one number each. */
function derivativesAtZero(
  frame: Pick<DerivativeSet, "area" | "span" | "chord" | "axes">,
  tables: CoefficientTables,
): HoldInputs["carried"]["derivatives"] {
  const model = tableModel(
    { ...frame, referencePoint: [0, 0, 0], thrust: { direction: [1, 0, 0], point: [0, 0, 0] } },
    tables,
  );
  const soundSpeed = 340;
  const speed = Math.max(0.05, tables.still.axes.mach[0]) * soundSpeed;
  const air = { u: speed, v: 0, w: 0, p: 0, q: 0, r: 0, density: 1, soundSpeed };
  const at = localDerivatives(model, air, { elevator: 0, aileron: 0, rudder: 0, thrust: 0 });
  const rate = (key: (typeof RATES)[number]): number => tables.rates.values[key][0];
  return {
    ...frame,
    referenceAlpha: 0,
    lift: {
      ...{ atReference: at.CL, alpha: at.CLalpha, pitchRate: rate("CLq"), alphaRate: rate("CLalphadot") },
      elevator: at.CLelevator,
    },
    drag: { kind: "linear", atReference: at.CD, alpha: at.CDalpha, elevator: 0 },
    pitch: {
      ...{ atReference: at.Cm, alpha: at.Cmalpha, pitchRate: rate("Cmq"), alphaRate: rate("Cmalphadot") },
      elevator: at.Cmelevator,
    },
    side: {
      ...{ beta: at.CYbeta, rollRate: rate("CYp"), yawRate: rate("CYr"), aileron: at.CYaileron, rudder: at.CYrudder },
    },
    roll: {
      ...{ beta: at.Clbeta, rollRate: rate("Clp"), yawRate: rate("Clr"), aileron: at.Claileron, rudder: at.Clrudder },
    },
    yaw: {
      ...{ beta: at.Cnbeta, rollRate: rate("Cnp"), yawRate: rate("Cnr"), aileron: at.Cnaileron, rudder: at.Cnrudder },
    },
  };
}
