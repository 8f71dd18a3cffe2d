import { equivalentAirspeed, standardAtmosphere } from "../../physics/atmosphere/index.ts";
import type { ReleasePoint } from "./build.ts";
import { caseOf, NORMAL } from "./cases.ts";
import { judgedRun } from "./run-case.ts";
import type { ReleaseInputs } from "./settings.ts";
import type { ReleaseEdge, ReleaseEnvelope, ReleaseOutcome } from "./types.ts";

/** Airspeeds of the map, and halvings of the step in which an edge lies. */
const SPEEDS = 6;
const HALVINGS = 5;

interface Judged {
  readonly outcome: ReleaseOutcome;
  readonly clearance: number | null;
}

function normalAt(inputs: ReleaseInputs, point: ReleasePoint, loadFactor = 1): Judged {
  const judged = judgedRun(inputs, { ...caseOf(inputs.settings, NORMAL, {}), loadFactor }, point);
  if (judged === null) return { outcome: "no balance", clearance: null };
  return { outcome: judged.outcome, clearance: judged.least?.distance ?? null };
}

/** Lowest and highest airspeed of the envelope [m/s EAS]. */
export function speedRange({ settings, condition }: ReleaseInputs): readonly [number, number] {
  const air = standardAtmosphere(condition.altitude, condition.isaOffset);
  const { from, to } = settings.envelope.airspeed;
  return [from, to].map(({ kind, si }) => equivalentAirspeed({ kind, value: si }, air)) as [number, number];
}

/** Outcome of the normal release over airspeed and load factor, at the first pose. */
export function envelopeOf(inputs: ReleaseInputs, mass: string): ReleaseEnvelope {
  const [from, to] = speedRange(inputs);
  const { loadFactors } = inputs.settings.envelope;
  const speeds = Array.from({ length: SPEEDS }, (_, i) => from + ((to - from) * i) / (SPEEDS - 1));
  const boomAngle = inputs.settings.boomAngles[0].si;
  const cells = loadFactors.map(({ si }) =>
    speeds.map((equivalent) => normalAt(inputs, { mass, boomAngle, equivalentAirspeed: equivalent }, si)),
  );
  return {
    ...{ mass, airspeed_m_s_EAS: speeds, loadFactor_1: loadFactors.map(({ si }) => si) },
    outcome: cells.map((row) => row.map(({ outcome }) => outcome)),
    clearance_m: cells.map((row) => row.map(({ clearance }) => clearance)),
  };
}

/**
 * Least airspeed and largest thrust of a normal release in level flight at the first pose.
 *
 * From the end that is certain, the fast or the weak one, through what is clean to the first place that is not; that step is halved.
 */
export function edgesOf(inputs: ReleaseInputs, { mass, ...map }: ReleaseEnvelope): ReleaseEdge[] {
  const boomAngle = inputs.settings.boomAngles[0].si;
  const level = map.loadFactor_1.indexOf(1);
  const speeds = [...map.airspeed_m_s_EAS].reverse();
  const bySpeed = (equivalent: number): ReleaseOutcome =>
    normalAt(inputs, { mass, boomAngle, equivalentAirspeed: equivalent }).outcome;
  const known = level < 0 ? speeds.map(bySpeed) : [...map.outcome[level]].reverse();
  const thrusts = inputs.settings.envelope.thrusts.map(({ si }) => si);
  const byThrust = (thrust: number): ReleaseOutcome => normalAt(inputs, { mass, boomAngle, thrust }).outcome;
  return [
    { ...{ mass, quantity: "airspeed" as const, unit: "m/s EAS" as const }, ...edge(speeds, bySpeed, known) },
    { ...{ mass, quantity: "thrust" as const, unit: "N" as const }, ...edge(thrusts, byThrust) },
  ];
}

/** Last clean place on the way through a list, with what ends it. */
export function edge(
  places: readonly number[],
  at: (place: number) => ReleaseOutcome,
  known?: readonly ReleaseOutcome[],
): Pick<ReleaseEdge, "limit" | "wholeRange" | "because"> {
  let clean: number | null = null;
  for (const [i, place] of places.entries()) {
    const outcome = known?.[i] ?? at(place);
    if (outcome === "clean") {
      clean = place;
      continue;
    }
    if (clean === null) return { limit: null, wholeRange: false, because: outcome };
    let [good, bad, because] = [clean, place, outcome];
    for (let k = 0; k < HALVINGS; k++) {
      const middle = 0.5 * (good + bad);
      const there = at(middle);
      if (there === "clean") good = middle;
      else [bad, because] = [middle, there];
    }
    return { limit: good, wholeRange: false, because };
  }
  return { limit: clean, wholeRange: true, because: null };
}
