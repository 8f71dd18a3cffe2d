import * as z from "zod";
import { choice } from "./leaf.ts";
import { point } from "./point.ts";
import { COORDINATE, DERIVATIVE, PLAIN_DERIVATIVE } from "./ranges.ts";
import { type ColumnSpec, table } from "./table.ts";

const ANGLE: ColumnSpec = { kind: "angle", range: { atLeast: -Math.PI, atMost: Math.PI, words: "-180 to 180 deg" } };
const MACH: ColumnSpec = { kind: "number", range: { atLeast: 0, below: 1, words: "a Mach number from 0 to below 1" } };
const COEFFICIENT: ColumnSpec = { kind: "number", range: PLAIN_DERIVATIVE };
const RATE: ColumnSpec = { kind: "rateDerivative", range: DERIVATIVE };
const PLACE: ColumnSpec = { kind: "length", range: COORDINATE };

const SIX = {
  ...{ CL: COEFFICIENT, CD: COEFFICIENT, CY: COEFFICIENT },
  ...{ Cl: COEFFICIENT, Cm: COEFFICIENT, Cn: COEFFICIENT },
};
const EACH = "A row for each combination of";

const control = (what: string, example: string) =>
  table(`Increments by ${what}. ${EACH} angle of attack and deflection.`, example, {
    ...{ alpha: ANGLE, deflection: ANGLE, ...SIX },
  });

/** Airloads from coefficient tables, in declared axes. */
export const tables = <A extends z.ZodType>(axes: A) =>
  z
    .strictObject({
      kind: z.literal("tables").meta({ description: "Coefficients in tables." }),
      axes,
      momentReference: point("Point about which the moments are given; they are transferred to each c.g."),
      beyond: choice("What holds beyond the ends of a table: the end value, or a straight line from it.", [
        "hold",
        "linear",
      ]),
      still: table(
        `Coefficients without rates and control deflections. ${EACH} angle of attack, sideslip and Mach number; one value where nothing depends on it.`,
        "coefficients.csv",
        { alpha: ANGLE, beta: ANGLE, mach: MACH, ...SIX },
      ),
      elevator: control("the elevator, trailing edge down positive", "elevator.csv"),
      aileron: control("the aileron, right wing down positive", "aileron.csv"),
      rudder: control("the rudder, trailing edge left positive", "rudder.csv"),
      rates: table(`Derivatives with the rates. ${EACH} angle of attack and Mach number.`, "rates.csv", {
        ...{ alpha: ANGLE, mach: MACH, CLq: RATE, CLalphadot: RATE, Cmq: RATE, Cmalphadot: RATE },
        ...{ CYp: RATE, CYr: RATE, Clp: RATE, Clr: RATE, Cnp: RATE, Cnr: RATE },
      }),
      nearCarrier: table(
        `Increments by the carrier. ${EACH} angle of attack and place of the c.g. aft of and below the boom hinge.`,
        "near-carrier.csv",
        { alpha: ANGLE, aft: PLACE, below: PLACE, ...SIX },
      ).optional(),
    })
    .meta({ description: "Airloads from coefficient tables, interpolated monotonely between their nodes." });
