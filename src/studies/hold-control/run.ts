import { cutLoop, EFFECTORS, type Effector } from "../../physics/pilot/index.ts";
import type { HoldCondition, HoldPartContext, HoldPartOutcome, Operating } from "../hold/index.ts";
import { operatingPoint } from "../hold/index.ts";
import { type ControlInputs, plantAt, type StatePlant, statesOf } from "./attachments.ts";
import { authorityOf } from "./authority.ts";
import { failureCases } from "./failures.ts";
import { controlFindings } from "./findings.ts";
import { type JudgedLoop, judgeLoop, openLoop, thinned } from "./loops.ts";
import { modesOfState, rollHoldNeed } from "./modes.ts";
import { besidePilot, learnt, type PilotAxis, pilotLoop, SURFACE } from "./pilots.ts";
import { type ControlSettings, channelsOf, readControl } from "./settings.ts";
import {
  type AttachmentState,
  type ControlLoop,
  type ControlledModes,
  type FailureCase,
  GAIN_SETS,
  type HoldControl,
  isLatched,
  isStowed,
  type LoopName,
  type PilotLoop,
  type Place,
  type RollHoldNeed,
  type SurfaceAuthority,
} from "./types.ts";

const DEGREE = Math.PI / 180;
/** Gain factors beyond it are not searched for (math/linear-system). */
const FAR = 50;
const AXES = ["pitch", "bank"] as const;

/**
 * The part `control` of `hold`: margins of every loop free and hooked, a pilot in the loop, what each gain set does in each state, whether
 * a roll hold is needed, and failures of every function. `null` when the pair does not ask for it.
 */
export function runControl(context: HoldPartContext): HoldPartOutcome<HoldControl> | null {
  const settings = readControl(context.reads);
  if (settings === null) return null;
  const { latched } = settings;
  const inputs: ControlInputs = latched === null ? context.inputs : { ...context.inputs, latched };
  const parts = inputs.conditions.map((condition) =>
    conditionPart(inputs, settings, condition, (what) => context.step(`${condition.name}: ${what}`)),
  );
  const { criteria, failures } = settings;
  const result: HoldControl = {
    padeOrder: settings.padeOrder,
    criteria: {
      gainMargin_1: criteria.gainMargin.value,
      phaseMargin_deg: criteria.phaseMargin.value / DEGREE,
      delayMargin_s: criteria.delayMargin.value,
      resonance_1: criteria.resonance.value,
      phaseDelay_s: criteria.phaseDelay.value,
    },
    failureSettings: {
      recognition_s: failures.recognition,
      release_s: failures.release,
      duration_s: failures.duration,
      pitchLimit_deg: failures.pitchLimit / DEGREE,
      bankLimit_deg: failures.bankLimit / DEGREE,
      loadLimit_kN: failures.loadLimit / 1000,
    },
    loops: parts.flatMap((part) => part.loops),
    pilots: parts.flatMap((part) => part.pilots),
    modes: parts.flatMap((part) => part.modes),
    authority: parts.flatMap((part) => part.authority),
    rollHold: parts.flatMap((part) => part.rollHold),
    failures: parts.flatMap((part) => part.failures),
    noTrim: parts.flatMap((part) => part.noTrim),
  };
  return {
    result,
    findings: controlFindings(context, settings, result),
    limits: [],
    assumptions: assumptions(settings),
    notAnalysed: latched === null ? [...NOT_ANALYSED, ONLY_TWO] : [...NOT_ANALYSED, AT_PINS],
    answers: ["control"],
  };
}

interface ConditionPart {
  readonly loops: ControlLoop[];
  readonly pilots: PilotLoop[];
  readonly modes: ControlledModes[];
  readonly authority: SurfaceAuthority[];
  readonly rollHold: RollHoldNeed[];
  readonly failures: FailureCase[];
  readonly noTrim: HoldControl["noTrim"][number][];
}

function conditionPart(
  inputs: ControlInputs,
  settings: ControlSettings,
  condition: HoldCondition,
  step: (what: string) => void,
): ConditionPart {
  const points = condition.masses.map((mass) => operatingPoint(inputs, condition, mass));
  const part: ConditionPart = {
    ...{ loops: [], pilots: [], modes: [], authority: [], rollHold: [], failures: [], noTrim: [] },
  };
  const states = statesOf(inputs);
  const plantsOf = points.map((at) => states.map((state) => plantAt(inputs, at, state)));
  points.forEach((at, i) => {
    const plants = plantsOf[i];
    states.forEach((state, k) => {
      if (plants[k] === null) part.noTrim.push({ condition: condition.name, mass: at.mass.name, state });
    });
    for (const of of plants) {
      if (of === null) continue;
      step(`loops, ${at.mass.name}, ${of.state}`);
      const authority = authorityOf(inputs, settings, at, of);
      part.authority.push(...authority);
      part.modes.push(...modesOfState(inputs, settings, at, of));
      const draw = i === 0 && !isStowed(of.state);
      part.loops.push(...autopilotLoops(inputs, settings, at, of, draw));
      const piloted = pilotLoops(inputs, settings, at, of, plants, draw, idle(authority));
      part.pilots.push(...piloted.pilots);
      part.loops.push(...piloted.loops);
    }
  });
  step("roll hold");
  part.rollHold.push(rollHoldNeed(inputs, settings, points, (at, state) => plantAt(inputs, at, state)));
  points.forEach((at, i) => {
    const plants = plantsOf[i];
    for (const of of plants) {
      if (of === null) continue;
      step(`failures, ${at.mass.name}, ${of.state}`);
      const set = of.state === "free" ? "free" : "hooked";
      const first = plantsOf.findIndex((all) => all.some((each) => each?.state === of.state));
      const nothing = idle(authorityOf(inputs, settings, at, of));
      const learn = (axis: PilotAxis) => (nothing.has(SURFACE[axis]) ? null : learnt(of, settings, set, axis));
      const pilots = { pitch: learn("pitch"), bank: learn("bank") };
      part.failures.push(...failureCases({ inputs, settings, at, of, free: plants[0], pilots, runaways: i === first }));
    }
  });
  return { ...part, failures: withWorstHistories(part.failures) };
}

/** Surfaces that move nothing against the mechanism. */
const idle = (authority: readonly SurfaceAuthority[]): ReadonlySet<Effector> =>
  new Set(
    authority.filter(({ state, movesNothing }) => isLatched(state) && movesNothing).map(({ surface }) => surface),
  );

/** Leaves time histories to the case of each state that reaches a limit first, whatever the mass. */
function withWorstHistories(cases: readonly FailureCase[]): FailureCase[] {
  const first = new Map<AttachmentState, FailureCase>();
  for (const each of cases) {
    if (each.timeToLimit_s === null) continue;
    const other = first.get(each.state);
    if (other === undefined || each.timeToLimit_s < (other.timeToLimit_s as number)) first.set(each.state, each);
  }
  return cases.map((each) => (first.get(each.state) === each ? each : { ...each, histories: [] }));
}

/** Growth from which a root counts as unstable: that of the pair's time to double. */
const growthLimit = ({ criteria }: ControlInputs): number => Math.LN2 / criteria.timeToDouble.value;

/** The loop of each surface that the autopilot moves, with each gain set. */
function autopilotLoops(
  inputs: ControlInputs,
  settings: ControlSettings,
  at: Operating,
  of: StatePlant,
  draw: boolean,
): ControlLoop[] {
  return GAIN_SETS.flatMap((gains) => {
    const channels = channelsOf(settings, settings.gains[gains]);
    return EFFECTORS.flatMap((loop) => {
      const channel = channels[loop];
      if (channel === undefined) return [];
      const judged = judgeLoop(
        openLoop(cutLoop(of.plant, channels, loop, settings.padeOrder), settings.padeOrder),
        growthLimit(inputs),
      );
      const place = { condition: at.condition, mass: at.mass.name, state: of.state, gains };
      return [
        describe(
          place,
          loop,
          channel.functions.map(({ name }) => name),
          judged,
          draw,
        ),
      ];
    });
  });
}

function describe(
  place: Place,
  loop: LoopName,
  functions: readonly string[],
  { margins, growingOpen, growing, growingExact }: JudgedLoop,
  draw: boolean,
): ControlLoop {
  const deciding = margins.gainCrossings.length
    ? margins.gainCrossings.reduce((a, b) => (Math.abs(b.phaseMargin) < Math.abs(a.phaseMargin) ? b : a))
    : null;
  return {
    ...place,
    loop,
    functions,
    stable: growing === 0,
    growingRootsOpen: growingOpen,
    growingRoots: growing,
    growingRootsExact: growingExact,
    gainIncrease_1: (margins.gainIncrease ?? Infinity) > FAR ? null : margins.gainIncrease,
    gainDecrease_1: (margins.gainDecrease ?? 0) < 1 / FAR ? null : margins.gainDecrease,
    phaseMargin_deg: margins.phaseMargin === null ? null : margins.phaseMargin / DEGREE,
    delayMargin_s: margins.delayMargin,
    crossover_rad_s: deciding?.omega ?? null,
    closest_1: margins.closest.distance,
    curve: draw ? thinned(margins.curve) : null,
  };
}

/** A pilot who learnt free and one who learnt this state, in each axis, with the gain set of the state beside. */
function pilotLoops(
  inputs: ControlInputs,
  settings: ControlSettings,
  at: Operating,
  of: StatePlant,
  plants: readonly (StatePlant | null)[],
  draw: boolean,
  nothing: ReadonlySet<Effector>,
) {
  const setOf = (state: AttachmentState) => (state === "free" ? "free" : "hooked");
  const gains = setOf(of.state);
  const place: Place = { condition: at.condition, mass: at.mass.name, state: of.state, gains };
  const schools = plants.filter((plant) => plant !== null && (plant.state === "free" || plant.state === of.state));
  const pilots: PilotLoop[] = [];
  const loops: ControlLoop[] = [];
  for (const axis of AXES.filter((each) => !nothing.has(SURFACE[each]))) {
    for (const school of schools as StatePlant[]) {
      const pilot = learnt(school, settings, setOf(school.state), axis);
      if (pilot === null) continue;
      const { judged, peak, delay } = pilotLoop(of, settings, gains, axis, pilot, growthLimit(inputs));
      pilots.push({
        ...place,
        ...{ axis, tunedFor: school.state, gain_1: pilot.gain, lead_s: pilot.lead, lag_s: pilot.lag },
        ...{ slope_1: pilot.slopeReached, stable: judged.growing === 0 },
        growsWithout: judged.growingOpen > 0,
        ...{ resonance_1: peak?.value ?? null, resonanceAt_rad_s: peak?.omega ?? null },
        ...{ phaseDelay_s: delay.value, phase180_rad_s: delay.omega180 },
      });
      if (school.state !== "free") continue;
      const functions = [`pilot in ${axis}`, ...besidePilot(settings.gains[gains], axis).map(({ name }) => name)];
      loops.push(describe(place, `pilot in ${axis}`, functions, judged, draw));
    }
  }
  return { pilots, loops };
}

function assumptions({ padeOrder, pilot, latched }: ControlSettings): string[] {
  return [
    `Control: delays are exact in margins and in the count of Nyquist, Padé approximations of order ${padeOrder} in roots and in time.`,
    "Control: sensors are perfect; functions act on deviations from the trim of the state they fly in; gains do not change with airspeed.",
    `Control: the pilot is linear, of crossover type with ${(1000 * pilot.delay).toFixed(0)} ms delay, without remnant or threshold, and takes the lead or lag that makes the loop an integrator about the crossover.`,
    "Control: thrust stays as trimmed, also after a release.",
    "Control: a function switched off or taken over leaves its surface to go back to trim at the actuator's rate; delays and filters of what takes over start at rest.",
    "Control: a case that stays inside its limits for the time followed, and inside half of them in its last quarter, counts as held.",
    ...(latched === null ? [] : LATCHED_ASSUMPTIONS),
  ];
}

const LATCHED_ASSUMPTIONS = [
  "Control: with latched aft pins the hooked gain set is engaged, pins are in contact, functions act on deviations from the rest in that state, and excursions count from it.",
  "Control: a latched pin is held to the same change of load as the socket, for the pair states no limit of its own; an upset turns the aircraft only as far as leaves every limit half unused.",
  "Control: a release lets socket and pins go together.",
  "Control: with latched pins every failure of a needed function is flown; hard-over and oscillation of a surface without one at the first mass that has a trim in that state. A surface whose full travel moves less than a tenth of the upset is named as moving nothing, and no pilot takes over on it.",
];

const NOT_ANALYSED = [
  "Control: the actuator's hinge moment limit, backlash, sensor noise, gust response of the loops, and failures of two functions at once.",
];
const AT_PINS =
  "Control: a lock of the stowed boom, the right latch alone where the pair is not symmetric, and pins inside their clearance.";
const ONLY_TWO = "Control: states with latched aft pins; the pair gives no mechanism.aftPins.";
