import type { LinearSystem } from "../../math/linear-system/index.ts";
import {
  attachedPair,
  controlPlant,
  freeAircraft,
  hookedPair,
  type PairMotion,
  surfaceInputs,
} from "../../physics/bodies/index.ts";
import type { PinLink } from "../../physics/links/index.ts";
import { type AircraftMotion, type ControlLaw, controlsFixed } from "../../physics/pilot/index.ts";
import { atBoomAngle, type HoldInputs, type Operating, settingsAt } from "../hold/index.ts";
import { type LatchedInputs, pinsAt } from "../hold-attachment/index.ts";
import { ATTACHMENT_STATES, type AttachmentState, isLatched, isStowed } from "./types.ts";

/** The pair as physics arguments, with its aft pins if it has them. */
export interface ControlInputs extends HoldInputs {
  readonly latched?: LatchedInputs;
}

/** States that the pair gives something for. */
export const statesOf = ({ latched }: ControlInputs): readonly AttachmentState[] =>
  ATTACHMENT_STATES.filter((state) => latched !== undefined || !isLatched(state));

/** The operating point of a state: with the boom up where the state says so. */
export function pointOf(inputs: ControlInputs, at: Operating, state: AttachmentState): Operating {
  return isStowed(state) ? atBoomAngle(inputs, { ...at, boomAngleDown: inputs.latched!.stowed }) : at;
}

/** The carried aircraft held in one way, at rest at trim. */
export interface Held {
  readonly trimmed: boolean;
  readonly motion: PairMotion;
  readonly state: Float64Array;
  /** Force on the aircraft by the tip at trim [N], in H; zero when free. */
  readonly tipForce: readonly [number, number, number];
  /** Latched pins with the loads of their legs at trim [N]. */
  readonly pins: readonly { readonly link: PinLink; readonly tension: number; readonly lateral: number }[];
}

type Build = (inputs: ControlInputs, at: Operating, law: ControlLaw) => Held;

/** Held at socket and aft pins, the law at work about the rest that it has with fixed controls. */
const latchedBy =
  (names: readonly ("left" | "right")[]): Build =>
  (inputs, at, law) => {
    const { pins, socket, elevator } = inputs.latched!;
    const { outcome, motion, state, links, f_onV_bySocket_H } = attachedPair({
      pair: { ...settingsAt(inputs, at), law },
      ...{ pitch: pins.pitch(at.boomAngleDown), elevator, pins: pinsAt(pins, at, names, "closed") },
      ...(socket === null ? {} : { socket }),
      restLaw: controlsFixed,
    });
    const loaded = links.map((link) => ({ link, tension: link.tension, lateral: link.lateralLoad }));
    return { trimmed: outcome === "trimmed", motion, state, tipForce: f_onV_bySocket_H, pins: loaded };
  };

/** Builds the aircraft at an operating point, held in a way, under a law. One entry a way. */
const BUILD: Readonly<Record<AttachmentState, Build>> = {
  free: (inputs, at, law) => {
    const { trim, motion, state } = freeAircraft({ ...settingsAt(inputs, at), law, thrust: "trim" });
    return { trimmed: trim.outcome === "trimmed", motion, state, tipForce: [0, 0, 0], pins: [] };
  },
  "single point": (inputs, at, law) => {
    const { trim, motion, state } = hookedPair({ ...settingsAt(inputs, at), law });
    return { trimmed: trim.outcome === "trimmed", motion, state, tipForce: trim.f_onV_byTip_H, pins: [] };
  },
  "left aft pin": latchedBy(["left"]),
  "three point": latchedBy(["left", "right"]),
  "left aft pin, stowed": latchedBy(["left"]),
  "three point, stowed": latchedBy(["left", "right"]),
};

export function heldAt(inputs: ControlInputs, at: Operating, state: AttachmentState, law: ControlLaw): Held {
  return BUILD[state](inputs, pointOf(inputs, at, state), law);
}

/** Linear plant of one way of being held, with what is sensed at its trim. */
export interface StatePlant {
  readonly state: AttachmentState;
  readonly plant: LinearSystem;
  readonly names: readonly string[];
  readonly reference: AircraftMotion;
}

/** Plant at an operating point; `null` without trim. */
export function plantAt(inputs: ControlInputs, at: Operating, state: AttachmentState): StatePlant | null {
  const held = heldAt(inputs, at, state, surfaceInputs);
  if (!held.trimmed) return null;
  held.motion.derivative(0, held.state, new Float64Array(held.motion.stateCount));
  const reference = { ...held.motion.sensed };
  return { state, reference, ...controlPlant(held.motion, held.state) };
}
