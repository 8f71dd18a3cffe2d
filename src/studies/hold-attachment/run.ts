import {
  atBoomAngle,
  type HoldPartContext,
  type HoldPartOutcome,
  isSymmetric,
  operatingPoint,
  restsOf,
} from "../hold/index.ts";
import { limitCycles } from "./cycles.ts";
import { attachmentFindings, attachmentLimits } from "./findings.ts";
import { statePoint, strokeDamping } from "./points.ts";
import { poseMaps } from "./pose-map.ts";
import { type AttachmentInputs, readAttachment } from "./read-settings.ts";
import { retractRules } from "./rule.ts";
import { statesOf } from "./states.ts";
import type { AttachmentResult, AttachmentState } from "./types.ts";

/** States that are looked at with the boom stowed too, where they are meant to carry the aircraft. */
const STOWED: readonly AttachmentState[] = ["left aft pin", "right aft pin", "three point"];

/**
 * The part `attachment` of `hold`: modes in every state of attachment, from which boom angle on the aft pins must be latched,
 * limit cycles of the pins in their clearance.
 *
 * @returns `null` when the pair has no `studies.hold.attachment`
 * @throws {InputError} when pins are given without what they need
 */
export function runAttachment(context: HoldPartContext): HoldPartOutcome<AttachmentResult> | null {
  const { inputs, reads, groups, step } = context;
  const own = readAttachment(reads, inputs);
  if (own === null) return null;
  const states = statesOf(inputs, own);
  const parts = inputs.conditions.map((condition) => {
    const operating = condition.masses.map((mass) => operatingPoint(inputs, condition, mass));
    step(`${condition.name}: states`);
    const points = operating.flatMap((at) => {
      const stowed = atBoomAngle(inputs, { ...at, boomAngleDown: own.stroke.from });
      return [
        ...states.map((state) => statePoint(inputs, own, at, state)),
        ...states.filter((state) => STOWED.includes(state)).map((state) => statePoint(inputs, own, stowed, state)),
      ];
    });
    step(`${condition.name}: stroke`);
    const stroke = [strokeDamping(inputs, own, operating[0], states)];
    step(`${condition.name}: map of pose and airspeed`);
    const maps = operating.flatMap((at) => poseMaps(inputs, own, at));
    step(`${condition.name}: boundary with uncertain values`);
    const { dynamics } = restsOf(groups, condition.name, condition.masses, isSymmetric(inputs));
    const rules = retractRules(inputs, own, reads, condition.name, dynamics);
    step(`${condition.name}: pins in their clearance`);
    const cycles = own.pins === null ? [] : limitCycles(inputs, own, operating[0]);
    return { states: points, stroke, maps, rules, limitCycles: cycles };
  });
  const result: AttachmentResult = {
    states: parts.flatMap((part) => part.states),
    stroke: parts.flatMap((part) => part.stroke),
    maps: parts.flatMap((part) => part.maps),
    rules: parts.flatMap((part) => part.rules),
    limitCycles: parts.flatMap((part) => part.limitCycles),
  };
  return {
    result,
    findings: inputs.conditions.flatMap((condition) => attachmentFindings(context, own, condition, result)),
    limits: inputs.conditions.flatMap((condition) => attachmentLimits(own, condition, result)),
    assumptions: assumptions(own),
    notAnalysed: notAnalysed(own),
    answers: ["attachment"],
  };
}

function assumptions(own: AttachmentInputs): string[] {
  return [
    "The rule for retracting: every uncertain value is off alone by the stated number of standard deviations, either way; what each moves the boundary to larger angles is added as root-sum-square.",
    "The rule for retracting takes the probe as turning freely in the socket and the weight share of the condition at every boom angle.",
    ...(own.socket === null
      ? []
      : [
          "Socket: the centring moment is about the attitude at trim; in the linear model its friction is a viscous rate of equal work at the declared turning.",
        ]),
    ...(own.pins === null
      ? []
      : [
          "Held at three points: boom and yoke set the pitch of the carried aircraft, the elevator stays as declared, the wing lifts what it lifts at that attitude, and the mechanism carries the rest.",
          "Legs of the yoke: two-force members that swing freely about their lateral hinge, each with its own stiffness along and sideways; their mass and weight are not counted.",
          "Pins in their clearance: the elevator is the one with which the pins carry nothing in the mean, the least favourable case for rattling.",
        ]),
  ];
}

function notAnalysed(own: AttachmentInputs): string[] {
  return own.pins === null
    ? ["Partly latched and three-point states: the pair gives no mechanism.aftPins."]
    : ["Time between single point and latched pins: the approach of the yoke to the pins and its impact."];
}
