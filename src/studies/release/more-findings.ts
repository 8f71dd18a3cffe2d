import type { FindingDraft } from "../finding/index.ts";
import { airOf } from "../hold/index.ts";
import { operatingAt } from "./build.ts";
import { restsFor, slug } from "./ids.ts";
import type { ReleaseInputs } from "./settings.ts";
import type { ComputedRelease } from "./types.ts";

const NO_DATA = "the pair gives no increments near the carrier";

/** Edges, envelope, rough air and the carrier's answer. */
export function conditionFindings(inputs: ReleaseInputs, computed: ComputedRelease): FindingDraft[] {
  return [
    ...edgeFindings(inputs, computed),
    ...envelopeFindings(inputs, computed),
    ...roughAirFindings(inputs, computed),
    ...carrierFindings(inputs, computed),
  ];
}

const noData = (inputs: ReleaseInputs) =>
  inputs.proximity === null ? { verdict: "not analysed" as const, note: NO_DATA } : {};

/** The condition's own airspeed and thrust lie inside the edges. */
function edgeFindings(inputs: ReleaseInputs, { edges }: ComputedRelease): FindingDraft[] {
  const { settings, condition } = inputs;
  return edges.map(({ mass, quantity, limit, unit, wholeRange, because }): FindingDraft => {
    const at = operatingAt(inputs, { mass, boomAngle: settings.boomAngles[0].si }, settings.weightShare.si);
    const slow = quantity === "airspeed";
    const planned = slow ? airOf(at).equivalentAirspeed : condition.thrust;
    const ends = wholeRange ? "; clean in the whole range" : because === null ? "" : `; beyond it: ${because}`;
    return {
      id: `release.${slow ? "least-speed" : "largest-thrust"}.${slug(mass)}`,
      title: `${slow ? "Least airspeed" : "Largest thrust"} of a clean normal release, ${mass}${ends}`,
      value: limit,
      unit,
      criterion: {
        text: slow
          ? "airspeed of the condition not below the least one"
          : "thrust of the condition not above the largest one",
        ...{ sense: slow ? "at most" : "at least", limit: planned, source: "project criterion" },
      },
      ...(limit === null ? { verdict: "not met" as const } : {}),
      ...noData(inputs),
      rests: restsFor(inputs, [mass]),
    };
  });
}

/** Share of the cells of the envelope that are clean, with the limiting case. */
function envelopeFindings(inputs: ReleaseInputs, { envelopes, limiting }: ComputedRelease): FindingDraft[] {
  return envelopes.map(({ mass, outcome }): FindingDraft => {
    const cells = outcome.flat();
    return {
      id: `release.envelope.${slug(mass)}`,
      title: `Share of the envelope of airspeed and load factor in which the normal release is clean, ${mass}`,
      ...{ value: cells.filter((cell) => cell === "clean").length / cells.length, unit: "1" },
      verdict: inputs.proximity === null ? "not analysed" : "information",
      note: inputs.proximity === null ? NO_DATA : `limiting: ${limiting ?? "none"}`,
      rests: restsFor(inputs, [mass]),
    };
  });
}

/** Lower bound of the share of clean releases; only the design turbulence is judged. */
function roughAirFindings(inputs: ReleaseInputs, { batches, criteria, design }: ComputedRelease): FindingDraft[] {
  const { clean, confidence } = inputs.settings.criteria;
  return batches.map(({ key, sigma, mass, clean: share }): FindingDraft => {
    const judged = sigma === design;
    return {
      id: `release.rough-air.${slug(key)}`,
      title: `Lower bound of the share of clean normal releases, ${sigma} turbulence, ${mass}: ${share.count} of ${share.of}`,
      ...{ value: share.lower_1, unit: "1" },
      ...(judged
        ? {
            criterion: {
              text: `share of clean releases in ${design} turbulence at least ${clean.text}, shown with ${confidence.text}`,
              ...{ sense: "at least" as const, limit: criteria.clean_1 },
              source: clean.provenance.source ?? "project criterion",
            },
          }
        : { verdict: "information" as const }),
      note: "lower end of the two-sided interval of Clopper and Pearson",
      ...noData(inputs),
      rests: restsFor(inputs, [mass]),
    };
  });
}

function carrierFindings(inputs: ReleaseInputs, { carrier }: ComputedRelease): FindingDraft[] {
  const { carrierLoadFactor } = inputs.settings.criteria;
  return carrier.map(({ mass, loadFactor_1, closedForm_1, pitch_deg }): FindingDraft => {
    const known = loadFactor_1 !== null && closedForm_1 !== null && pitch_deg !== null;
    return {
      id: `release.carrier.${slug(mass)}`,
      title: `Largest change of the carrier's load factor in the normal release, ${mass}`,
      ...{ value: known ? Math.abs(loadFactor_1) : null, unit: "1" },
      criterion: {
        text: `carrier's load factor changes by at most ${carrierLoadFactor.text}`,
        ...{ sense: "at most", limit: carrierLoadFactor.si },
        source: carrierLoadFactor.provenance.source ?? "project criterion",
      },
      ...(known
        ? {
            note: `at the same angle of attack ${closedForm_1.toFixed(3)}; pitch at most ${pitch_deg.toFixed(2)}°, controls held`,
          }
        : { verdict: "not analysed" as const, note: "the pair gives no dynamics of the carrier" }),
      rests: restsFor(inputs, [mass]),
    };
  });
}

/** Footprints and the stub; they inform. */
export function jettisonFindings(inputs: ReleaseInputs, { jettison, stub }: ComputedRelease): FindingDraft[] {
  const falls = jettison.map(({ thing, height_m, footprint }): FindingDraft => {
    const { along_m, halfAlong_m, halfRight_m } = footprint;
    return {
      id: `release.jettison.${slug(thing)}.${height_m.toFixed(0)}-m`,
      title: `Footprint of ${thing} from ${height_m.toFixed(0)} m: middle ahead of the release point, half axes ${halfAlong_m.toFixed(0)} m along and ${halfRight_m.toFixed(0)} m across the track`,
      ...{ value: along_m, unit: "m", verdict: "information" },
      note: "drag alone, no lift; for the choice of the area, the local rules decide",
      rests: [...restsFor(inputs, [inputs.settings.masses[0]]), "studies.release.jettison"],
    };
  });
  if (stub === null || stub.aboveLowest_m === null) return falls;
  return [
    ...falls,
    {
      id: "release.stub.ground",
      title: "Height of the stub's end above the lowest point of the carried aircraft, level",
      ...{ value: stub.aboveLowest_m, unit: "m" },
      criterion: {
        text: "the stub is not the first to touch the ground in a level landing",
        ...{ sense: "at least", limit: 0, source: "project criterion" },
      },
      rests: restsFor(inputs, []),
    },
  ];
}
