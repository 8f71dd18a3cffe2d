import { type Finding, findingMaker, type Limit } from "../finding/index.ts";
import {
  equivalentAt,
  type HoldPartContext,
  type HoldPartOutcome,
  operatingPoint,
  type Range,
  restsOf,
} from "../hold/index.ts";
import { branchFamily } from "./balances.ts";
import { divergenceSearches, staticStiffness } from "./divergence.ts";
import { divergenceLimits, type EquilibriumEvidence, equilibriumFindings } from "./findings.ts";
import { bandCurve, bandOf, loadCurves } from "./hook-loads.ts";
import type { EquilibriumResult } from "./types.ts";

/**
 * Balances of the hooked pair against airspeed with the jack at its length, static divergence, and what the hook carries in trim.
 *
 * @returns `null` when the pair does not ask for it (`studies.hold.equilibrium`)
 */
export function runEquilibrium(context: HoldPartContext): HoldPartOutcome<EquilibriumResult> | null {
  const view = context.reads();
  const settings = view.pair.studies?.hold?.equilibrium;
  if (settings === undefined) return null;
  const { inputs, groups } = context;
  const make = findingMaker({ ...context.findings, seed: null });
  const thrust: Range | null =
    settings.thrust === undefined ? null : { from: settings.thrust.from.si, to: settings.thrust.to.si };
  const limit = settings.hookLoadLimit;
  const hookLoadLimit =
    limit === undefined ? null : { value: limit.si, source: limit.provenance.source ?? "project criterion" };
  const jackCapacity = view.pair.mechanism.linkage?.jackCapacity?.si ?? null;
  const searched = settings.airspeed ?? null;
  const speedsOf = searched === null ? inputs.sweeps.airspeed : asSpeeds(searched);
  const own = view.paths();
  const all: { -readonly [K in keyof EquilibriumResult]: EquilibriumResult[K] } = {
    ...{ families: [], loads: [], divergence: [], stiffness: [] },
    hookLoadLimit_N: hookLoadLimit?.value ?? null,
  };
  const findings: Finding[] = [];
  const limits: Limit[] = [];
  for (const condition of inputs.conditions) {
    const id = `hold.${condition.name}.equilibrium`;
    for (const mass of condition.masses) {
      context.step(`${condition.name}, ${mass}`);
      const at = operatingPoint(inputs, condition, mass);
      const speeds = { from: equivalentAt(speedsOf.from, at), to: equivalentAt(speedsOf.to, at) };
      const evidence: EquilibriumEvidence = {
        families: (["fixed", "holds weight share"] as const)
          .map((elevator) => branchFamily(inputs, at, speeds, elevator))
          .filter((family) => family !== null),
        divergence: divergenceSearches(inputs, at, speeds),
        stiffness: [staticStiffness(inputs, at)],
        overBand: bandCurve(inputs, at, bandOf(inputs, at)),
        ...{ hookLoadLimit, jackCapacity },
      };
      const { trim } = restsOf(groups, condition.name, [mass], false);
      const rests = {
        trim: [...trim, ...groups.stall, ...own],
        swing: [...trim, ...groups.swing, ...groups.ratio, ...groups.law, ...groups.sweeps, ...own],
        ...{ band: groups.band, limit: own },
      };
      findings.push(...equilibriumFindings(evidence, id, mass, rests).map(make));
      limits.push(...divergenceLimits(evidence.divergence, id));
      all.families = [...all.families, ...evidence.families];
      all.loads = [...all.loads, ...loadCurves(inputs, at, speeds, thrust)];
      all.divergence = [...all.divergence, ...evidence.divergence];
      all.stiffness = [...all.stiffness, ...evidence.stiffness];
    }
  }
  return {
    result: all,
    ...{ findings, limits },
    assumptions: [
      "Balances with the jack at its length: wings level, no sideslip; accumulator and bending keep the stiffness that they have at the tip at the condition's boom angle.",
      "Static divergence is searched in the pair's own trim, which holds boom angle and weight share; balances with the jack at its length are followed apart from it.",
    ],
    notAnalysed: ["Balances with bank and sideslip, and balances beyond 45° angle of attack."],
    answers: [],
  };
}

type Speed = { readonly kind: "EAS" | "CAS" | "TAS" | "Mach"; readonly si: number };

function asSpeeds({ from, to }: { readonly from: Speed; readonly to: Speed }) {
  const speed = ({ kind, si }: Speed) => ({ kind, value: si });
  return { from: speed(from), to: speed(to) };
}
