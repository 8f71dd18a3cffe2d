import type { FindingContext } from "../finding/index.ts";
import { meetsCriteria } from "./criteria.ts";
import type { HoldEvidence } from "./evidence.ts";
import { holdFindings } from "./findings.ts";
import type { HoldCondition, HoldInputs } from "./inputs.ts";
import { jackSignShareOf } from "./jack-sign.ts";
import { holdLimits } from "./limits.ts";
import { holdMaps } from "./maps.ts";
import { airOf, type Operating, operatingPoint } from "./operating.ts";
import { OPEN_QUESTIONS } from "./part.ts";
import { pilotTime } from "./pilot-time.ts";
import { holdPoint } from "./points.ts";
import type { ReadGroups } from "./read-groups.ts";
import { type OpenReads, readHoldInputs } from "./read-pair.ts";
import { snubberChoice } from "./snubber-choice.ts";
import { speedBands } from "./speed-limits.ts";
import { PointModel } from "./stability.ts";
import { stiffnessNeed } from "./stiffness-need.ts";
import { holdSweeps } from "./sweeps.ts";
import type { HoldPoint, HoldResult, PilotTime } from "./types.ts";

export interface HoldContext {
  readonly variant: string;
  readonly reads: OpenReads;
  readonly hash: (paths: readonly string[]) => string;
  readonly version: string;
  /** Called between parts of the work with what comes next. */
  readonly progress?: (part: string, done: number, of: number) => void;
}

/** The modes of the hooked pair with what they were computed from, for the parts of `hold` that build on them. */
export interface HoldBase {
  readonly result: HoldResult;
  readonly inputs: HoldInputs;
  readonly groups: ReadGroups;
}

/**
 * The study `hold` without its parts: is the hooked pair stable, and which stiffness and snubber does it need?
 *
 * Deterministic; no chance enters, so that the findings carry no seed.
 */
export function runHold(context: HoldContext): HoldResult {
  return holdBase(context).result;
}

/** As `runHold`, with the physics arguments and the pair paths behind them. */
export function holdBase(context: HoldContext): HoldBase {
  const { inputs, groups } = readHoldInputs(context.reads);
  const findings: FindingContext = { study: "hold", version: context.version, seed: null, hash: context.hash };
  const parts = inputs.conditions.map((condition, i) => {
    const step = (part: string, done: number): void =>
      context.progress?.(`${condition.name}: ${part}`, i * 6 + done, inputs.conditions.length * 6);
    return conditionPart(inputs, condition, groups, findings, context.variant, step);
  });
  const result: HoldResult = {
    study: "hold",
    variant: context.variant,
    points: parts.flatMap((part) => part.points),
    sweeps: parts.flatMap((part) => part.sweeps),
    maps: parts.flatMap((part) => part.maps),
    snubber: parts.flatMap((part) => part.snubber),
    stiffness: parts.flatMap((part) => part.stiffness),
    pilotTime: parts.flatMap((part) => part.pilotTime),
    findings: parts.flatMap((part) => part.findings),
    limits: parts.flatMap((part) => part.limits),
    assumptions: assumptions(inputs),
    notAnalysed: Object.values(OPEN_QUESTIONS),
  };
  return { result, inputs, groups };
}

function conditionPart(
  inputs: HoldInputs,
  condition: HoldCondition,
  groups: ReadGroups,
  context: FindingContext,
  variant: string,
  step: (part: string, done: number) => void,
) {
  const operating = condition.masses.map((mass) => operatingPoint(inputs, condition, mass));
  const pointId = (at: Operating): string => `${condition.name}.${at.mass.name}`;
  step("modes", 0);
  const points = operating.map((at) => holdPoint(inputs, at, pointId(at)));
  const pilot = operating.flatMap((at, i) => pilotTimes(inputs, at, points[i]));
  step("snubber", 1);
  const perMass = operating.map((at) => snubberChoice(inputs, [at], at.mass.name));
  const together = operating.length > 1 ? [snubberChoice(inputs, operating, "all masses")] : [];
  const snubber = [...perMass, ...together].filter((curve) => curve !== null);
  step("stiffness", 2);
  const stiffness = operating.map((at) => stiffnessNeed(inputs, at)).filter((need) => need !== null);
  step("airspeeds", 3);
  const bands = (["longitudinal", "lateral"] as const).map((plane) => speedBands(inputs, operating, plane));
  const jackSignShare = operating.map((at) => ({ mass: at.mass.name, ...jackSignShareOf(inputs, at) }));
  const evidence: HoldEvidence = { condition, points, snubber, stiffness, pilotTime: pilot, bands, jackSignShare };
  step("sweeps", 4);
  const sweeps = points[0].trim === null ? [] : holdSweeps(inputs, operating[0]);
  step("maps", 5);
  const maps = holdMaps(inputs, operating[0], variant);
  return {
    ...{ points, sweeps, maps, snubber, stiffness, pilotTime: pilot },
    findings: holdFindings(inputs, evidence, groups, context),
    limits: holdLimits(inputs, evidence, airOf(operating[0]).equivalentAirspeed),
  };
}

/** Time to the limit for each plane that has a growing mode. */
function pilotTimes(inputs: HoldInputs, at: Operating, point: HoldPoint): PilotTime[] {
  if (point.trim === null) return [];
  const planes = (["longitudinal", "lateral"] as const).filter((plane) =>
    point.modes.some((mode) => mode.plane === plane && mode.real_1_s > 0 && !meetsCriteria(inputs, mode)),
  );
  if (planes.length === 0) return [];
  const modes = new PointModel(inputs, at).modes();
  return planes.map((plane) => pilotTime(inputs, at, point.id, plane, modes));
}

function assumptions(inputs: HoldInputs): string[] {
  const own =
    inputs.boom.ownMass > 0
      ? "The boom's own weight acts at its declared centre."
      : "The boom's own weight is not declared in the pair: jack load and unloaded angle are those of the aircraft alone.";
  return [
    "In the modes the carrier flies steadily, straight and level; its mass is infinite against the hooked aircraft.",
    ...(inputs.carried.tables === undefined
      ? [
          "In the modes the air is uniform and at rest: no downwash, sidewash or turbulence of the carrier at the carried aircraft.",
          "The carried aircraft is rigid; its derivatives do not change with Mach number, angle of attack or proximity.",
        ]
      : [
          "In the modes the air is uniform and at rest; what the carrier does to it is in the increments of the coefficient tables, if anywhere.",
          "The carried aircraft is rigid.",
        ]),
    "In the modes the probe turns freely in the socket: no friction, no centring moment, no free play.",
    "In the modes the snubber is linear at the equivalent rate of its declared amplitude and frequency.",
    "Boom springs are linear; structural damping is viscous at the declared damping ratio of the hooked mass on each spring.",
    `Controls: ${inputs.lawName}.`,
    own,
    ...(inputs.boom.tip.motions === 0
      ? []
      : [
          `The boom bends in ${inputs.boom.tip.motions} motions in each plane besides what its tip springs say; sweeps and needs of stiffness change those springs and leave inertia and frequencies of the motions as they are.`,
        ]),
  ];
}
