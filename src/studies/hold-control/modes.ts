import { linearise } from "../../physics/bodies/index.ts";
import { ModeAnalysis, type PairMode } from "../../physics/modes/index.ts";
import { type Channels, type ControlFunction, controlSystem, controlsFixed } from "../../physics/pilot/index.ts";
import {
  airOf,
  type HoldInputs,
  type Operating,
  PointModel,
  planeMargin,
  settingsAt,
  worstDamping,
} from "../hold/index.ts";
import { modesAt } from "../hold-attachment/index.ts";
import { type ControlInputs, heldAt, pointOf, type StatePlant } from "./attachments.ts";
import { type ControlSettings, channelsOf } from "./settings.ts";
import {
  type AttachmentState,
  type ControlledModes,
  GAIN_SETS,
  isLatched,
  type LateralCurve,
  type RollHoldNeed,
} from "./types.ts";

/** Roots below this are drift of a free aircraft: height and heading [1/s]. */
const NEUTRAL = 1e-2;

/** Modes with channels engaged. */
export function controlledModes(
  inputs: ControlInputs,
  at: Operating,
  of: StatePlant,
  channels: Channels,
  padeOrder: number,
): PairMode[] {
  const engaged = Object.keys(channels).length > 0;
  const law = engaged ? controlSystem(channels, of.reference, padeOrder) : controlsFixed;
  if (of.state === "single point") return new PointModel({ ...inputs, law }, at).modes();
  const held = heldAt(inputs, at, of.state, law);
  if (isLatched(of.state)) return modesAt(inputs, pointOf(inputs, at, of.state), held.motion, held.state);
  const model = linearise(held.motion, held.state);
  const energy = { mass: settingsAt(inputs, at).mass, tipMass: 0, basis: model.basis, coordinates: model.coordinates };
  return new ModeAnalysis(model.size).modes(model.matrix, energy, NEUTRAL);
}

/** What a plane's modes come to (held by pins, the structural ones too) against the pair's criteria. */
export function planeSummary(
  inputs: HoldInputs,
  modes: readonly PairMode[],
  plane: PairMode["plane"],
  latched = false,
): Pick<ControlledModes, "worstDampingRatio" | "frequency_Hz" | "timeToDouble_s" | "meetsCriteria"> {
  const own = modes.filter((mode) => mode.plane === plane);
  const swinging = own.filter((mode) => mode.imag > 0 && (latched || mode.class === "rigid-body-type"));
  const ratio = ({ real, imag }: PairMode): number => -real / Math.hypot(real, imag);
  const worst = swinging.length > 0 ? swinging.reduce((a, b) => (ratio(b) < ratio(a) ? b : a)) : null;
  const fastest = Math.max(0, ...own.map(({ real }) => real));
  return {
    worstDampingRatio: worst === null ? null : ratio(worst),
    frequency_Hz: worst === null ? null : worst.imag / (2 * Math.PI),
    timeToDouble_s: fastest > NEUTRAL / 10 ? Math.LN2 / fastest : null,
    meetsCriteria: planeMargin(inputs, modes, plane) >= 0,
  };
}

/** Modes of one state without functions and with each gain set, by plane. */
export function modesOfState(
  inputs: ControlInputs,
  settings: ControlSettings,
  at: Operating,
  of: StatePlant,
): ControlledModes[] {
  const sets = ["none", ...GAIN_SETS] as const;
  return sets.flatMap((gains) => {
    const functions = gains === "none" ? [] : settings.gains[gains];
    const modes = controlledModes(inputs, at, of, channelsOf(settings, functions), settings.padeOrder);
    return (["longitudinal", "lateral"] as const).map((plane) => ({
      ...{ condition: at.condition, mass: at.mass.name, state: of.state, gains, plane },
      ...planeSummary(inputs, modes, plane, isLatched(of.state)),
    }));
  });
}

const SPEEDS = 11;

/** Worst lateral damping, hooked, with nothing and with the roll hold of the hooked set alone, over the speed band and masses. */
export function rollHoldNeed(
  inputs: ControlInputs,
  settings: ControlSettings,
  points: readonly Operating[],
  plantAt: (at: Operating, state: AttachmentState) => StatePlant | null,
): RollHoldNeed {
  const equivalent = (airspeed: Operating["airspeed"]): number => airOf({ ...points[0], airspeed }).equivalentAirspeed;
  const [from, to] = [equivalent(inputs.speedBand.from), equivalent(inputs.speedBand.to)];
  const speeds = Array.from({ length: SPEEDS }, (_, i) => from + ((to - from) * i) / (SPEEDS - 1));
  const isRollHold = ({ name }: ControlFunction): boolean => name === "roll hold";
  const worstAt = (functions: readonly ControlFunction[], speed: number) => {
    let worst: { value: number; mass: string } | null = null;
    for (const point of points) {
      const at: Operating = { ...point, airspeed: { kind: "EAS", value: speed } };
      const of = plantAt(at, "single point");
      if (of === null) return null;
      const modes = controlledModes(inputs, at, of, channelsOf(settings, functions), settings.padeOrder);
      const value = worstDamping(modes, "lateral", inputs.criteria.timeToDouble.value) ?? 1;
      if (worst === null || value < worst.value) worst = { value, mass: at.mass.name };
    }
    return worst;
  };
  const curve = (functions: readonly ControlFunction[]): LateralCurve => {
    const found = speeds.map((speed) => worstAt(functions, speed));
    let worst: LateralCurve["worst"] = null;
    found.forEach((each, i) => {
      if (each !== null && (worst === null || each.value < worst.value)) {
        worst = { ...each, airspeed_m_s_EAS: speeds[i] };
      }
    });
    return { dampingRatio: found.map((each) => each?.value ?? null), worst };
  };
  const rollHold = settings.gains.hooked.filter(isRollHold);
  return {
    condition: points[0].condition,
    airspeed_m_s_EAS: speeds,
    none: curve([]),
    alone: rollHold.length > 0 ? curve(rollHold) : null,
    others: curve(settings.gains.hooked.filter((each) => !isRollHold(each))),
  };
}
