import { type Finding, type FindingContext, type FindingDraft, findingMaker, type Verdict } from "../finding/index.ts";
import { cleanWays } from "./after.ts";
import { EMERGENCY, NORMAL } from "./cases.ts";
import { restsFor, slug } from "./ids.ts";
import { conditionFindings, jettisonFindings } from "./more-findings.ts";
import type { ReleaseInputs } from "./settings.ts";
import type { ComputedRelease, ReleaseCaseResult } from "./types.ts";

/** Document that demands the two criteria of the stroke; their values are the project's own. */
const STROKE = "MIL-STD-2088B 5.1.7 and 5.1.8 demand that it be specified";
const NO_DATA = "the pair gives no increments near the carrier";
const LEFT = "the run leaves the grid of increments near the carrier";

/** Findings of the study, in the order of its questions. */
export function releaseFindings(inputs: ReleaseInputs, computed: ComputedRelease, context: FindingContext): Finding[] {
  const drafts = [
    ...computed.cases.map((one) => caseFinding(inputs, one)),
    ...strokeFindings(inputs, computed),
    ...conditionFindings(inputs, computed),
    ...computed.hangUps.map((state): FindingDraft => {
      const clean = cleanWays(state);
      return {
        id: `release.hang-up.${slug(state.left.split(":")[0])}.${slug(state.mass)}`,
        title: `Ways out that end clean, ${state.mass}, left by ${state.left}`,
        value: clean,
        unit: "1",
        criterion: {
          text: "ways out of each hang-up that end clean, at least 1",
          ...{ sense: "at least", limit: 1, source: "project criterion" },
        },
        ...(inputs.proximity === null ? { verdict: "not analysed" as const, note: NO_DATA } : {}),
        rests: restsFor(inputs, [state.mass]),
      };
    }),
    ...jettisonFindings(inputs, computed),
  ];
  return drafts.map(findingMaker(context));
}

/** Which word of the id tells normal, emergency and failure cases apart. */
const kindOf = (name: string): string => (name === NORMAL ? "normal" : name === EMERGENCY ? "emergency" : "failure");

/** Least distance of one case; what does not come free has none. */
function caseFinding(inputs: ReleaseInputs, one: ReleaseCaseResult): FindingDraft {
  const { clearance } = inputs.settings.criteria;
  const kind = kindOf(one.name);
  const pose = one.name === NORMAL ? `.${one.boomAngle_deg.toFixed(0)}-deg` : "";
  const own = kind === "failure" ? `.${slug(one.name)}` : "";
  const where =
    one.nearest === null || one.clearanceAt_s === null
      ? ""
      : `, ${one.nearest.carried} to ${one.nearest.other} after ${one.clearanceAt_s.toFixed(2)} s`;
  return {
    id: `release.${kind}${own}.${slug(one.mass)}${pose}`,
    title: `Least distance once free, ${one.name}, ${one.mass}, boom ${one.boomAngle_deg.toFixed(0)}°: ${one.outcome}${where}`,
    value: one.outcome === "not analysed" ? null : one.clearance_m,
    unit: "m",
    criterion: {
      text: `${kind === "normal" ? "normal release" : kind === "emergency" ? "emergency release" : "release with a failure"}: distance once free at least ${clearance.text}`,
      ...{ sense: "at least", limit: clearance.si, source: clearance.provenance.source ?? "project criterion" },
    },
    ...verdictOfCase(inputs, one),
    rests: restsFor(inputs, [one.mass]),
  };
}

function verdictOfCase(inputs: ReleaseInputs, one: ReleaseCaseResult): { verdict: Verdict; note?: string } {
  const note = one.what;
  switch (one.outcome) {
    case "clean":
      return inputs.proximity === null ? { verdict: "not analysed", note: NO_DATA } : { verdict: "met", note };
    case "not analysed":
      return { verdict: "not analysed", note: inputs.bodies === null ? "the pair gives no bodies" : LEFT };
    case "no balance":
      return { verdict: "not analysed", note: "the held pair has no balance from which it could begin" };
    default:
      return { verdict: "not met", note };
  }
}

/** Speed out of the bore and pitch rate at its end, worst over the poses; withdrawal needed and offered. */
function strokeFindings(inputs: ReleaseInputs, { cases }: ComputedRelease): FindingDraft[] {
  const { exitSpeed, exitPitchRate } = inputs.settings.criteria;
  const source = (given: { readonly provenance: { readonly source?: string } }): string =>
    `${given.provenance.source ?? "project criterion"}; ${STROKE}`;
  return inputs.settings.masses.flatMap((mass): FindingDraft[] => {
    const normal = cases.filter((one) => one.name === NORMAL && one.mass === mass);
    const speeds = normal.map(({ exitSpeed_m_s }) => exitSpeed_m_s);
    const rates = normal.map(({ exitPitchRate_deg_s }) => exitPitchRate_deg_s);
    const complete = normal.length > 0 && speeds.every((value) => value !== null);
    const missing = complete ? {} : { verdict: "not met" as const, note: "in some pose the probe does not come out" };
    const rests = restsFor(inputs, [mass]);
    const [first] = normal;
    return [
      {
        id: `release.stroke.speed.${slug(mass)}`,
        title: `Least speed of the probe out of the socket over the poses, ${mass}`,
        ...{ value: complete ? Math.min(...speeds.map((value) => value!)) : null, unit: "m/s" },
        criterion: {
          text: `separation velocity at the end of the stroke at least ${exitSpeed.text}`,
          ...{ sense: "at least", limit: exitSpeed.si, source: source(exitSpeed) },
        },
        ...missing,
        rests,
      },
      {
        id: `release.stroke.pitch-rate.${slug(mass)}`,
        title: `Largest pitch rate as the probe leaves over the poses, either way, ${mass}`,
        ...{ value: complete ? Math.max(...rates.map((value) => Math.abs(value!))) : null, unit: "deg/s" },
        criterion: {
          text: `pitch rate at the end of the stroke at most ${exitPitchRate.text}`,
          ...{ sense: "at most", limit: (exitPitchRate.si * 180) / Math.PI, source: source(exitPitchRate) },
        },
        ...missing,
        rests,
      },
      ...(first === undefined || first.offered_N === null || first.needed_N === null
        ? []
        : [
            {
              id: `release.stroke.withdrawal.${slug(mass)}`,
              title: `Pull along the bore at the nose's command less what friction can hold, ${mass}: ${first.offered_N.toFixed(0)} N offered, ${first.needed_N.toFixed(0)} N needed`,
              ...{ value: first.offered_N - first.needed_N, unit: "N", verdict: "information" as const, rests },
              note: "that drag withdraws the probe is common practice, no source",
            },
          ]),
    ];
  });
}
