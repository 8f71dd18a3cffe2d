import { freeAircraft } from "../../physics/bodies/index.ts";
import {
  type Channels,
  type ControlFunction,
  type ControlSystem,
  controlSystem,
  EFFECTORS,
  handOver,
  type TunedPilot,
} from "../../physics/pilot/index.ts";
import { type Operating, planeMargin, settingsAt } from "../hold/index.ts";
import { type ControlInputs, type Held, heldAt, type StatePlant } from "./attachments.ts";
import { type Failure, failuresOf } from "./failure-laws.ts";
import { controlledModes } from "./modes.ts";
import { type PilotAxis, pilotChannels } from "./pilots.ts";
import { type ControlSettings, channelsOf, otherSet } from "./settings.ts";
import { boundedUpset, Excursion, type ExcursionLimits, follow, type Run, type Track } from "./simulate.ts";
import { type FailureCase, type FailureHistory, isLatched, type Recovery, type RecoveryAction } from "./types.ts";

const DEGREE = Math.PI / 180;
/** Share of a limit below which a motion that is left counts as settled. */
const SETTLED = 0.5;
const PLANES = ["longitudinal", "lateral"] as const;

/** What the failures of one state are simulated with. */
export interface FailureScene {
  readonly inputs: ControlInputs;
  readonly settings: ControlSettings;
  readonly at: Operating;
  readonly of: StatePlant;
  /** Plant of the free aircraft, for what follows a release; `null` without trim. */
  readonly free: StatePlant | null;
  /** Pilots who have learnt this state; `null` where there is nothing to learn. */
  readonly pilots: Readonly<Record<PilotAxis, TunedPilot | null>>;
  /** Whether surfaces of functions that are not needed are run away with too, where pins hold the aircraft. */
  readonly runaways: boolean;
}

/** An aircraft under a law with what watches it. */
interface Flight {
  readonly held: Held;
  readonly law: ControlSystem;
  readonly excursion: Excursion;
}

const emptyTrack = (): Track => ({ time: [], pitch: [], bank: [], load: [], surface: [] });

/** All failures of one state; the one that reaches a limit first carries its time histories. */
export function failureCases(scene: FailureScene): FailureCase[] {
  const { settings, of, at } = scene;
  const set = of.state === "free" ? "free" : "hooked";
  const own = settings.gains[set];
  const margins = (functions: readonly ControlFunction[]): number[] => {
    const modes = controlledModes(scene.inputs, at, of, channelsOf(settings, functions), settings.padeOrder);
    return PLANES.map((plane) => planeMargin(scene.inputs, modes, plane));
  };
  const whole = margins(own);
  const isNeeded = (each: ControlFunction): boolean =>
    margins(own.filter((other) => other !== each)).some((margin, plane) => margin < 0 && whole[plane] >= 0);
  const needed = new Set(own.filter(isNeeded).map(({ name }) => name));
  // held by pins, what is not needed is not missed: only what runs away by itself can hurt, at one mass as at another
  const matters = ({ upset, function: name }: Failure): boolean =>
    !isLatched(of.state) || needed.has(name) || (scene.runaways && !upset);
  const found = failuresOf(of, settings, own, settings.gains[otherSet(set)])
    .filter(matters)
    .map((failure) => oneCase(scene, failure));
  let first = -1;
  found.forEach(({ case: { timeToLimit_s } }, i) => {
    const best = first < 0 ? null : found[first].case.timeToLimit_s;
    if (timeToLimit_s !== null && (best === null || timeToLimit_s < best)) first = i;
  });
  return found.map(({ case: each, histories }, i) => ({
    ...{ condition: at.condition, mass: at.mass.name, state: of.state },
    ...each,
    needed: needed.has(each.function),
    histories: i === first ? histories : [],
  }));
}

type CaseBody = Omit<FailureCase, "condition" | "mass" | "state" | "needed" | "histories">;

function oneCase(scene: FailureScene, failure: Failure): { case: CaseBody; histories: FailureHistory[] } {
  const { settings, inputs, of } = scene;
  const { recognition, duration, release } = settings.failures;
  const failed = flightOf(scene, failure.channels);
  const isPitch = failure.effector === "elevator";
  const { pitch, roll } = inputs.upset;
  const begin = failure.upset
    ? boundedUpset(failed.held, failed.excursion, of.reference, isPitch ? pitch : 0, isPitch ? 0 : roll)
    : { state: failed.held.state, share: null };
  const surface = surfaceOf(failed, failure);
  const opening = emptyTrack();
  const before = follow(failed.held, failed.excursion, { time: 0, state: begin.state }, recognition, surface, opening);
  const rest = copyOf(opening);
  const after =
    before.outcome === "stayed inside"
      ? follow(failed.held, failed.excursion, { time: recognition, state: before.state }, duration, surface, rest)
      : before;
  const reached = after.outcome !== "stayed inside";
  const histories = [historyOf("none", rest)];
  const recoveries: Recovery[] = [];
  if (reached) {
    for (const action of actionsAgainst(scene, failure)) {
      if (before.outcome !== "stayed inside") {
        const { time: limitAt_s, limit } = before;
        recoveries.push({ action, from_s: recognition, outcome: "too late", limitAt_s, limit });
        continue;
      }
      const track = copyOf(opening);
      recoveries.push(recoverBy(scene, failure, failed, before.state, action, track));
      histories.push(historyOf(action, track));
    }
  }
  const timeToLimit_s = reached ? after.time : null;
  return {
    case: {
      function: failure.function,
      kind: failure.kind,
      detail: failure.detail,
      upset_1: begin.share,
      timeToLimit_s,
      limit: after.limit,
      largestShare_1: Math.max(before.largestShare, after.largestShare),
      recoveries,
      releaseInTime: of.state === "free" ? null : timeToLimit_s === null || recognition + release < timeToLimit_s,
    },
    histories,
  };
}

const axisOf = ({ effector }: Failure): PilotAxis => (effector === "elevator" ? "pitch" : "bank");

/** What may be done: a lost function cannot be switched off, and only a hooked aircraft can be released. */
function actionsAgainst({ of, free, pilots }: FailureScene, failure: Failure): RecoveryAction[] {
  return [
    ...(failure.kind === "loss" ? [] : (["switch off"] as const)),
    ...(pilots[axisOf(failure)] === null ? [] : (["pilot takes over"] as const)),
    ...(of.state !== "free" && free !== null ? (["release"] as const) : []),
  ];
}

function recoverBy(
  scene: FailureScene,
  failure: Failure,
  failed: Flight,
  state: Float64Array,
  action: RecoveryAction,
  track: Track,
): Recovery {
  const { settings } = scene;
  const { recognition, release, duration } = settings.failures;
  const end = (run: Run, whenLate: "limit reached" | "too late" = "limit reached"): Recovery => ({
    ...{ action, from_s: recognition },
    outcome: run.outcome !== "stayed inside" ? whenLate : run.lateShare > SETTLED ? "not settled" : "held",
    limitAt_s: run.outcome === "stayed inside" ? null : run.time,
    limit: run.limit,
  });
  if (action !== "release") {
    const axis = axisOf(failure);
    const channels =
      action === "switch off"
        ? withSurface(settings, failure, channelsOf(settings, failure.left))
        : pilotChannels(settings, failure.left, axis, scene.pilots[axis]!);
    const next = flightOf(scene, withSurface(settings, failure, channels));
    const from = { time: recognition, state: handOver(failed.law, state, failed.held.motion.layout.law, next.law) };
    return end(follow(next.held, next.excursion, from, duration, surfaceOf(next, failure), track));
  }
  const freed = recognition + release;
  const still = follow(
    failed.held,
    failed.excursion,
    { time: recognition, state },
    freed,
    surfaceOf(failed, failure),
    track,
  );
  if (still.outcome !== "stayed inside") return end(still, "too late");
  const away = released(scene, failure, failed, still.state);
  return end(
    follow(away.held, away.excursion, { time: freed, state: away.state }, duration, surfaceOf(away, failure), track),
  );
}

/** Keeps the failed surface under an actuator without functions, so that it goes back to trim at its rate. */
function withSurface(settings: ControlSettings, { effector }: Failure, channels: Channels): Channels {
  if (channels[effector] !== undefined) return channels;
  return { ...channels, [effector]: { functions: [], actuator: settings.actuators[effector] } };
}

function limitsOf({ failures }: ControlSettings): ExcursionLimits {
  return { pitch: failures.pitchLimit, bank: failures.bankLimit, load: failures.loadLimit };
}

function flightOf({ inputs, settings, at, of }: FailureScene, channels: Channels): Flight {
  const law = controlSystem(channels, of.reference, settings.padeOrder);
  const held = heldAt(inputs, at, of.state, law);
  return { held, law, excursion: new Excursion(held, of.reference, limitsOf(settings)) };
}

/**
 * The aircraft let go: place, attitude, speed and surfaces as they are, thrust as it was while hooked, the free gain set without what
 * failed.
 */
function released(scene: FailureScene, failure: Failure, failed: Flight, state: Float64Array) {
  const { inputs, settings, at } = scene;
  const free = scene.free!;
  const left = settings.gains.free.filter(
    ({ name, effector }) =>
      name !== failure.function &&
      !(failure.kind !== "loss" && failure.kind !== "wrong gain set" && effector === failure.effector),
  );
  const channels: Channels = Object.fromEntries(
    EFFECTORS.map((name) => [
      name,
      channelsOf(settings, left)[name] ?? { functions: [], actuator: settings.actuators[name] },
    ]),
  );
  const law = controlSystem(channels, free.reference, settings.padeOrder);
  const aircraft = freeAircraft({ ...settingsAt(inputs, at), law, thrust: failed.held.motion.settings.trim.thrust });
  const held: Held = { trimmed: true, motion: aircraft.motion, state: aircraft.state, tipForce: [0, 0, 0], pins: [] };
  const offset = failed.held.motion.layout.law;
  const begin = new Float64Array(held.motion.stateCount);
  begin.set(state.subarray(0, 13));
  const own = held.motion.layout.law;
  for (const effector of EFFECTORS) {
    const old = failed.law.actuatorState[effector];
    const now = law.actuatorState[effector];
    if (now === undefined) continue;
    const before = failed.held.motion.settings.trim[effector] + (old === undefined ? 0 : state[offset + old]);
    begin[own + now] = before - held.motion.settings.trim[effector];
  }
  return { held, law, excursion: new Excursion(held, free.reference, limitsOf(settings)), state: begin };
}

const surfaceOf = ({ held, law }: Pick<Flight, "held" | "law">, { effector }: Failure) => {
  const place = law.actuatorState[effector];
  const trim = held.motion.settings.trim[effector];
  return (state: Float64Array): number => trim + (place === undefined ? 0 : state[held.motion.layout.law + place]);
};

const copyOf = (track: Track): Track =>
  Object.fromEntries(Object.entries(track).map(([key, values]) => [key, [...values]])) as unknown as Track;

function historyOf(action: FailureHistory["action"], track: Track): FailureHistory {
  const rounded = (values: readonly number[], unit: number): number[] =>
    values.map((value) => Number((value / unit).toPrecision(5)));
  return {
    action,
    time_s: rounded(track.time, 1),
    pitch_deg: rounded(track.pitch, DEGREE),
    bank_deg: rounded(track.bank, DEGREE),
    load_kN: rounded(track.load, 1000),
    surface_deg: rounded(track.surface, DEGREE),
  };
}
