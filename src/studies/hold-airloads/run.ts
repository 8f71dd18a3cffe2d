import { localDerivatives, TableModel } from "../../physics/airloads/index.ts";
import { type FindingDraft, findingMaker } from "../finding/index.ts";
import {
  type HoldInputs,
  type HoldPartContext,
  type HoldPartOutcome,
  type Operating,
  operatingPoint,
  pairAt,
  restsOf,
} from "../hold/index.ts";
import type { AirloadsResult, TrimDerivatives } from "./types.ts";

const DEGREE = Math.PI / 180;

/**
 * Derivatives that coefficient tables give at the trim of each operating point, and whether the trim lies within them.
 *
 * @returns `null` when the pair gives derivatives and no tables
 * @source `physics/airloads`, README eq. 13–14
 * @verified run.test.ts: tables filled from the demo's derivatives give them back
 */
export function runAirloads(context: HoldPartContext): HoldPartOutcome<AirloadsResult> | null {
  const { inputs, groups } = context;
  const { tables } = inputs.carried;
  if (tables === undefined) return null;
  const make = findingMaker(context.findings);
  const points: TrimDerivatives[] = [];
  const drafts: FindingDraft[] = [];
  for (const condition of inputs.conditions) {
    for (const mass of condition.masses) {
      context.step(`derivatives at trim, ${condition.name}, ${mass}`);
      const at = operatingPoint(inputs, condition, mass);
      const id = `${condition.name}.${mass}`;
      const found = trimDerivatives(inputs, at, id);
      if (found === null) continue;
      points.push(found);
      const { trim } = restsOf(groups, condition.name, [mass], false);
      drafts.push(...pointFindings(found, trim));
    }
  }
  return {
    result: { points },
    findings: drafts.map(make),
    limits: [],
    assumptions: [
      tables.beyond === "hold"
        ? "Beyond the ends of its coefficient tables the pair keeps the value at the end: derivatives are zero there."
        : "Beyond the ends of its coefficient tables the pair goes on in a straight line.",
      ...(tables.near === undefined
        ? ["No increments by the carrier are given: the coefficients are those of the aircraft alone."]
        : []),
    ],
    notAnalysed: [],
    answers: [],
  };
}

function trimDerivatives(inputs: HoldInputs, at: Operating, pointId: string): TrimDerivatives | null {
  const pair = pairAt(inputs, at);
  if (pair.trim.outcome !== "trimmed") return null;
  const { airloads, air, probe, boom } = pair.settings;
  if (!(airloads instanceof TableModel)) return null;
  const { alpha, controls } = pair.trim;
  const [cos, sin] = [Math.cos(alpha), Math.sin(alpha)];
  const aft = boom.length * Math.cos(boom.angleDown) + probe[0] * cos + probe[2] * sin;
  const below = boom.length * Math.sin(boom.angleDown) + probe[0] * sin - probe[2] * cos;
  const { density, soundSpeed, trueAirspeed } = air;
  const state = {
    ...{ u: trueAirspeed * cos, v: 0, w: trueAirspeed * sin, p: 0, q: 0, r: 0, density, soundSpeed, aft, below },
  };
  const { alpha: _alpha, beta: _beta, mach, ...values } = localDerivatives(airloads, state, controls);
  return {
    ...{ pointId, condition: at.condition, mass: at.mass.name },
    ...{ alpha_deg: alpha / DEGREE, mach_1: mach, aft_m: aft, below_m: below, inside: airloads.inside, values },
  };
}

function pointFindings(found: TrimDerivatives, rests: readonly string[]): FindingDraft[] {
  const id = `hold.${found.condition}.${found.mass}`;
  const { CLalpha, Cmalpha } = found.values;
  const outside: FindingDraft = found.inside
    ? {
        ...{ id: `${id}.tables`, title: `Angle of attack at trim, within every coefficient table, mass ${found.mass}` },
        ...{ value: found.alpha_deg, unit: "deg", rests },
      }
    : {
        ...{
          id: `${id}.tables`,
          title: `Trim lies beyond a coefficient table, mass ${found.mass}`,
          value: null,
          unit: "1",
        },
        verdict: "not analysed",
        note: `at ${found.alpha_deg.toFixed(2)}° angle of attack, Mach ${found.mach_1.toFixed(3)}, ${found.aft_m.toFixed(2)} m aft and ${found.below_m.toFixed(2)} m below the hinge; what the tables say beyond their ends is an assumption`,
        rests,
      };
  if (CLalpha === 0) return [outside];
  return [
    outside,
    {
      id: `${id}.static-margin`,
      title: `Static margin −Cmα/CLα at trim about the moment reference, in reference chords, mass ${found.mass}`,
      value: -Cmalpha / CLalpha,
      unit: "1",
      rests,
    },
  ];
}
