import { type Criterion, type Finding, type FindingDraft, findingMaker } from "../finding/index.ts";
import { type HoldPartContext, restsOf } from "../hold/index.ts";
import { key, stateWords, worstOf } from "./finding-words.ts";
import { latchedFindings } from "./latched-findings.ts";
import type { ControlSettings } from "./settings.ts";
import {
  ATTACHMENT_STATES,
  type AttachmentState,
  type ControlLoop,
  type FailureCase,
  type GainSet,
  type HoldControl,
  isLatched,
  type LateralCurve,
  LOOP_NAMES,
  type LoopName,
  type PilotLoop,
  type RollHoldNeed,
} from "./types.ts";

const DEGREE = Math.PI / 180;
const GUIDE = "A guide from memory, no source at hand: 6 dB and 45° in the linear range.";

const ownSet = (state: AttachmentState): GainSet => (state === "free" ? "free" : "hooked");

/** All findings of the part. */
export function controlFindings(context: HoldPartContext, settings: ControlSettings, result: HoldControl): Finding[] {
  const make = findingMaker(context.findings);
  return context.inputs.conditions
    .flatMap((condition): FindingDraft[] => {
      const { groups } = context;
      const own = restsOf(groups, condition.name, condition.masses, false);
      const { actuators, free, hooked, pilot, criteria, failures } = settings.paths;
      const base = [...own.dynamics.longitudinal, ...groups.criteria, ...actuators];
      const rests = {
        loop: [...base, ...criteria, ...free, ...hooked, ...settings.paths.latched],
        pilot: [...base, ...criteria, ...free, ...hooked, ...settings.paths.latched, ...pilot],
        latched: [...base, ...hooked, ...settings.paths.latched, ...pilot, ...groups.upset],
        rollHold: [...base, ...hooked, ...groups.band],
        failure: [...base, ...free, ...hooked, ...settings.paths.latched, ...pilot, ...failures, ...groups.upset],
      };
      const here = <T extends { readonly condition: string }>(all: readonly T[]): T[] =>
        all.filter((each) => each.condition === condition.name);
      const id = `hold.${condition.name}.control`;
      return [
        ...trimFindings(here(result.noTrim), id, [...base, ...settings.paths.latched]),
        ...marginFindings(settings, here(result.loops), id, rests.loop, rests.pilot),
        ...mixedFindings(here(result.loops), id, rests.loop),
        ...pilotFindings(settings, here(result.pilots), id, rests.pilot),
        ...latchedFindings(context, settings, here(result.authority), here(result.modes), id, rests.latched),
        ...here(result.rollHold).flatMap((need) => rollHoldFindings(context, need, id, rests.rollHold)),
        ...failureFindings(settings, here(result.failures), id, rests.failure),
      ];
    })
    .map(make);
}

/** States in which there is nothing to control. */
function trimFindings(missing: HoldControl["noTrim"], id: string, rests: readonly string[]): FindingDraft[] {
  return ATTACHMENT_STATES.flatMap((state): FindingDraft[] => {
    const own = missing.filter((each) => each.state === state);
    if (own.length === 0) return [];
    const title = `Loops and failures, ${stateWords(state)}`;
    const note = `no trim at ${own.map(({ mass }) => mass).join(", ")}`;
    return [{ id: `${id}.${key(state)}.no-trim`, title, value: null, unit: "1", verdict: "not analysed", note, rests }];
  });
}

/** Margins of each loop with the gain set of its state, worst over the masses. */
function marginFindings(
  settings: ControlSettings,
  loops: readonly ControlLoop[],
  id: string,
  restsLoop: readonly string[],
  restsPilot: readonly string[],
): FindingDraft[] {
  const { gainMargin, phaseMargin, delayMargin } = settings.criteria;
  return ATTACHMENT_STATES.flatMap((state) =>
    groupsOf(state).flatMap(({ name, names }): FindingDraft[] => {
      const own = loops.filter(
        (each) => each.state === state && each.gains === ownSet(state) && names.includes(each.loop),
      );
      if (own.length === 0) return [];
      const rests = names.some(isPilot) ? restsPilot : restsLoop;
      const at = `${id}.${key(state)}.${key(name)}`;
      const title = `${words(name)}, ${stateWords(state)}, gain set ${ownSet(state)}`;
      const where = ({ loop, mass }: ControlLoop): string =>
        names.length > 1 ? `${loop}, mass ${mass}` : `mass ${mass}`;
      const growing = own.filter((each) => !each.stable);
      if (growing.length > 0) {
        const masses = [...new Set(growing.map(({ mass }) => mass))].join(", ");
        const open = growing.every(({ growingRootsOpen }) => growingRootsOpen > 0)
          ? ", nor is the rest without it"
          : "";
        const note = `closed loop not stable at mass ${masses}${open}: margins mean nothing`;
        const criterion = atLeast(`phase margin at least ${degrees(phaseMargin.value)}°`, phaseMargin);
        const value = { value: null, unit: "deg", verdict: "not met" as const };
        return [
          {
            id: `${at}.phase-margin`,
            title: `Phase margin: ${title}`,
            ...value,
            criterion: inDegrees(criterion),
            note,
            rests,
          },
        ];
      }
      const gain = worstOf(own, gainReach);
      const phase = worstOf(own, (each) => each.phaseMargin_deg);
      const delay = worstOf(own, (each) => each.delayMargin_s);
      const none = (what: string) => ({ verdict: "met" as const, note: what });
      return [
        {
          ...{ id: `${at}.gain-margin`, title: `Gain margin: ${title}`, unit: "1", rests },
          criterion: atLeast(`gain may rise or fall by a factor of at least ${gainMargin.value}`, gainMargin),
          ...(gain === null
            ? { value: null, ...none("no gain factor within 50 brings the loop to its limit") }
            : { value: gain.value, note: `${gainWords(gain.of)}, ${where(gain.of)}. ${GUIDE}` }),
        },
        {
          ...{ id: `${at}.phase-margin`, title: `Phase margin: ${title}`, unit: "deg", rests },
          criterion: inDegrees(atLeast(`phase margin at least ${degrees(phaseMargin.value)}°`, phaseMargin)),
          ...(phase === null
            ? { value: null, ...none("the loop gain never is 1") }
            : { value: phase.value, note: `at ${phase.of.crossover_rad_s?.toFixed(2)} rad/s, ${where(phase.of)}` }),
        },
        {
          ...{ id: `${at}.delay-margin`, title: `Delay margin: ${title}`, unit: "s", rests },
          criterion: atLeast(`further delay of at least ${delayMargin.value} s borne`, delayMargin),
          ...(delay === null
            ? { value: null, ...none("the loop gain never is 1") }
            : { value: delay.value, note: where(delay.of) }),
        },
      ];
    }),
  );
}

/** What the set of free flight does while hooked, in one finding. */
function mixedFindings(loops: readonly ControlLoop[], id: string, rests: readonly string[]): FindingDraft[] {
  const own = loops.filter((each) => each.state === "single point" && each.gains === "free" && !isPilot(each.loop));
  if (own.length === 0) return [];
  const growing = own.filter((each) => !each.stable);
  const worst = worstOf(own, (each) => each.phaseMargin_deg);
  const title = "Gain set of free flight left engaged while hooked: least phase margin of its loops";
  const shared = { id: `${id}.free-set-hooked`, title, unit: "deg", rests, verdict: "information" as const };
  if (growing.length > 0) {
    const places = [...new Set(growing.map(({ mass }) => mass))].join(", ");
    const note = `the closed loop is not stable at mass ${places}; the two sets are not exchangeable`;
    return [{ ...shared, value: null, note }];
  }
  if (worst === null) return [{ ...shared, value: null, note: "stable; no loop gain reaches 1" }];
  return [{ ...shared, value: worst.value, note: `stable; ${worst.of.loop}, mass ${worst.of.mass}` }];
}

/** Tendency to oscillate with the pilot: resonance of the loop closed by one who learnt free, and phase delay of the aircraft. */
function pilotFindings(
  settings: ControlSettings,
  pilots: readonly PilotLoop[],
  id: string,
  rests: readonly string[],
): FindingDraft[] {
  const { resonance, phaseDelay } = settings.criteria;
  return ATTACHMENT_STATES.filter((state) => !isLatched(state)).flatMap((state) =>
    (["pitch", "bank"] as const).flatMap((axis): FindingDraft[] => {
      const own = pilots.filter((each) => each.state === state && each.axis === axis && each.tunedFor === "free");
      if (own.length === 0) return [];
      const at = `${id}.${key(state)}.pilot-in-${axis}`;
      const title = `pilot in ${axis}, ${stateWords(state)}, habits of free flight`;
      const growing = own.filter((each) => !each.stable);
      const peak = worstOf(own, (each) => (each.resonance_1 === null ? null : -each.resonance_1));
      const late = worstOf(own, (each) => (each.phaseDelay_s === null ? null : -each.phaseDelay_s));
      return [
        {
          ...{ id: `${at}.resonance`, title: `Resonance of the closed loop: ${title}`, unit: "1", rests },
          criterion: {
            ...{ text: `peak of |L/(1 + L)| at most ${resonance.value}`, sense: "at most", limit: resonance.value },
            source: resonance.source,
          },
          ...(growing.length > 0 || peak === null
            ? {
                ...{ value: null, verdict: "not met" as const },
                note: unstableWords(growing),
              }
            : {
                value: -peak.value,
                note: `at ${peak.of.resonanceAt_rad_s?.toFixed(2)} rad/s, mass ${peak.of.mass}. A measure of the tendency to oscillate with the pilot, by a model; no published limit is claimed for a hooked aircraft.`,
              }),
        },
        {
          ...{
            id: `${at}.phase-delay`,
            title: `Phase delay: aircraft in ${axis} as the pilot meets it, ${stateWords(state)}`,
          },
          ...{ unit: "s", rests },
          criterion: {
            ...{ text: `phase delay at most ${phaseDelay.value} s`, sense: "at most", limit: phaseDelay.value },
            source: phaseDelay.source,
          },
          ...(late === null
            ? {
                value: null,
                verdict: "met" as const,
                note: "the phase does not fall through −180° in the range of pilot and actuator",
              }
            : {
                value: -late.value,
                note: `−180° at ${late.of.phase180_rad_s?.toFixed(2)} rad/s, mass ${late.of.mass}`,
              }),
        },
      ];
    }),
  );
}

function unstableWords(growing: readonly PilotLoop[]): string {
  const masses = growing.map(({ mass }) => mass).join(", ");
  return growing.every(({ growsWithout }) => growsWithout)
    ? `the loop is not stable at mass ${masses}; it grows without the pilot too, who does not cure it`
    : `the loop is not stable at mass ${masses}: the pilot drives the oscillation`;
}

function rollHoldFindings(
  { inputs }: HoldPartContext,
  need: RollHoldNeed,
  id: string,
  rests: readonly string[],
): FindingDraft[] {
  const { rigidBodyDamping } = inputs.criteria;
  const criterion: Criterion = {
    text: `damping ratio of every lateral rigid-body-type oscillation at least ${rigidBodyDamping.value}, without a root that doubles too fast`,
    ...{ sense: "at least", limit: rigidBodyDamping.value, source: rigidBodyDamping.source },
  };
  const meets = (curve: LateralCurve): boolean => curve.worst !== null && curve.worst.value >= rigidBodyDamping.value;
  const band = "worst lateral damping ratio over the speed band and all masses";
  const draft = (suffix: string, title: string, curve: LateralCurve | null, tail: string): FindingDraft => ({
    ...{ id: `${id}.roll-hold.${suffix}`, title: `${title}: ${band}`, unit: "1", criterion, rests },
    ...(curve === null || curve.worst === null
      ? {
          ...{ value: null, verdict: "not met" as const },
          note: curve === null ? "the hooked gain set has no roll hold" : "no trim in the band",
        }
      : { value: curve.worst.value, note: `${worstWords(curve.worst)}${tail}` }),
  });
  return [
    draft("none", "Hooked with no function at all", need.none, meets(need.none) ? ": no hold is needed" : ""),
    draft("alone", "Hooked with the roll hold alone", need.alone, ""),
    draft(
      "others",
      "Hooked with every function but the roll hold",
      need.others,
      meets(need.others) ? ": the roll hold is not needed beside them" : ": the roll hold is needed",
    ),
  ];
}

function worstWords({ value, mass, airspeed_m_s_EAS: speed }: NonNullable<LateralCurve["worst"]>): string {
  return `${value === -1 ? "a real root doubles too fast; " : ""}mass ${mass}, ${speed.toFixed(1)} m/s EAS`;
}

/** Failures of each function in each state: shortest time to a limit against recognition and release, and whether an action holds it. */
function failureFindings(
  settings: ControlSettings,
  cases: readonly FailureCase[],
  id: string,
  rests: readonly string[],
): FindingDraft[] {
  const { recognition, release, duration } = settings.failures;
  const names = [...new Set(cases.map((each) => each.function))];
  return ATTACHMENT_STATES.flatMap((state) =>
    names.flatMap((name): FindingDraft[] => {
      const own = cases.filter((each) => each.state === state && each.function === name);
      if (own.length === 0) return [];
      const reached = own.filter((each) => each.timeToLimit_s !== null);
      const shared = { id: `${id}.${key(state)}.failure.${key(name)}`, unit: "s", rests };
      const title = `Failure of the ${name}, ${stateWords(state)}: shortest time to a limit`;
      const budget = state === "free" ? recognition : recognition + release;
      const criterion: Criterion = {
        text:
          state === "free"
            ? `at least the recognition time, ${budget} s`
            : `at least recognition and release, ${budget} s`,
        ...{ sense: "at least", limit: budget, source: "project criterion" },
      };
      if (reached.length === 0) {
        const note = `no limit within ${duration} s in ${own.length} cases`;
        return [{ ...shared, title, value: null, criterion, verdict: "met", note }];
      }
      const worst = reached.reduce((a, b) => ((b.timeToLimit_s as number) < (a.timeToLimit_s as number) ? b : a));
      return [
        {
          ...shared,
          title,
          value: worst.timeToLimit_s,
          criterion,
          note: failureNote(worst, reached.length, own.length),
        },
      ];
    }),
  );
}

function failureNote(worst: FailureCase, reached: number, all: number): string {
  const what = `${worst.kind}${worst.detail === "" ? "" : ` (${worst.detail})`}, ${worst.limit ?? "beyond the model"}, mass ${worst.mass}`;
  const actions = worst.recoveries.map(({ action, outcome }) => `${action}: ${outcome}`).join(", ");
  return `${what}; ${reached} of ${all} cases reach a limit. ${actions === "" ? "" : `Then ${actions}.`}`.trim();
}

const isPilot = (name: LoopName): boolean => name.startsWith("pilot");
const words = (name: string): string => (name.startsWith("pilot") ? name : `${name} loop`);

/** Loops that share findings: each its own, but held by pins those of the autopilot and those of a pilot together. */
function groupsOf(state: AttachmentState): { name: string; names: readonly LoopName[] }[] {
  if (!isLatched(state)) return LOOP_NAMES.map((name) => ({ name, names: [name] }));
  return [
    { name: "any autopilot", names: LOOP_NAMES.filter((name) => !isPilot(name)) },
    { name: "pilot", names: LOOP_NAMES.filter(isPilot) },
  ];
}
const degrees = (angle: number): string => Number((angle / DEGREE).toPrecision(4)).toString();
const atLeast = (text: string, { value, source }: { value: number; source: string }): Criterion => ({
  ...{ text, sense: "at least", limit: value, source },
});
const inDegrees = (criterion: Criterion): Criterion => ({ ...criterion, limit: criterion.limit / DEGREE });

/** Factor, at least 1, by which the gain may change before the limit: the nearer of rise and fall. */
function gainReach({ gainIncrease_1, gainDecrease_1 }: ControlLoop): number | null {
  const reach = [gainIncrease_1, gainDecrease_1 === null ? null : 1 / gainDecrease_1].filter((each) => each !== null);
  return reach.length > 0 ? Math.min(...reach) : null;
}

function gainWords({ gainIncrease_1: up, gainDecrease_1: down }: ControlLoop): string {
  const dB = (factor: number): string => `${(20 * Math.log10(factor)).toFixed(1)} dB`;
  return [
    ...(up === null ? [] : [`may rise by ${up.toFixed(2)} (${dB(up)})`]),
    ...(down === null ? [] : [`may fall to ${down.toFixed(2)} (${dB(down)})`]),
  ].join(", ");
}
