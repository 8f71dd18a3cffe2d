import { findingMaker } from "../finding/index.ts";
import { type HoldPartContext, type HoldPartOutcome, operatingPoint, restsOf } from "../hold/index.ts";
import { boundaryFindings } from "./findings.ts";
import { pathMaps } from "./path-maps.ts";
import { trimMaps } from "./trim-maps.ts";
import type { BoundaryMap, BoundaryMissing, BoundaryResult } from "./types.ts";

/** Levels of damping that are drawn beside the limit of stability and the criterion when the pair names none. */
const FURTHER = [0.05, 0.1];

/**
 * Exact boundaries of hooked longitudinal stability: stiffness × snubber rate by D-decomposition, airspeed × snubber rate and
 * boom angle × airspeed by continuation; curves of constant damping; the distance of the pair from them.
 *
 * For the first mass of each condition, as the maps of the base.
 *
 * @returns `null` when the pair does not ask for it (`studies.hold.boundary`)
 */
export function runBoundary(context: HoldPartContext): HoldPartOutcome<BoundaryResult> | null {
  const view = context.reads();
  const settings = view.pair.studies?.hold?.boundary;
  if (settings === undefined) return null;
  const further = settings.levels?.map(({ si }) => si) ?? FURTHER;
  const own = view.paths();
  const { inputs, groups } = context;
  const make = findingMaker({ ...context.findings, seed: null });
  const criterion = inputs.criteria.rigidBodyDamping.value;
  const maps: BoundaryMap[] = [];
  const missing: BoundaryMissing[] = [];
  const findings = inputs.conditions.flatMap((condition) => {
    const at = operatingPoint(inputs, condition, condition.masses[0]);
    context.step(`${condition.name}, stiffness and snubber`);
    const path = pathMaps(inputs, at, further);
    if (path.length === 0) {
      missing.push({ id: "all", condition: condition.name, reason: "the aircraft does not trim at the condition" });
      return [];
    }
    context.step(`${condition.name}, airspeed and boom angle`);
    const trim = trimMaps(inputs, at, further);
    maps.push(...path, ...trim.maps);
    missing.push(...trim.missing);
    const rests = [
      ...restsOf(groups, condition.name, [at.mass.name], false).judged.longitudinal,
      ...groups.sweeps,
      ...groups.ratio,
      ...own,
    ];
    return boundaryFindings([...path, ...trim.maps], `hold.${condition.name}.boundary`, criterion, rests).map(make);
  });
  return {
    result: { criterion_1: criterion, maps, missing },
    findings,
    limits: [],
    assumptions: [
      "Boundaries over two parameters: everything else of the pair stays as it is; the structural damping of the boom follows its bending stiffness.",
    ],
    notAnalysed: [
      ...missing.map(({ id, condition, reason }) => `Boundary map ${id}, condition ${condition}: ${reason}.`),
      "Boundaries of the lateral modes over two parameters, and of masses other than the first of a condition.",
    ],
    answers: [],
  };
}
