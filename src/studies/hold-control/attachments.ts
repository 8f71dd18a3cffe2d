import type { LinearSystem } from "../../math/linear-system/index.ts";
import { controlPlant, freeAircraft, hookedPair, type PairMotion, surfaceInputs } from "../../physics/bodies/index.ts";
import type { AircraftMotion, ControlLaw } from "../../physics/pilot/index.ts";
import { type HoldInputs, type Operating, settingsAt } from "../hold/index.ts";
import type { AttachmentState } from "./types.ts";

/** The carried aircraft held in one way, at rest at trim. */
export interface Held {
  readonly trimmed: boolean;
  readonly motion: PairMotion;
  readonly state: Float64Array;
  /** Force on the aircraft by the tip at trim [N], in H; zero when free. */
  readonly tipForce: readonly [number, number, number];
}

/** Builds the aircraft at an operating point, held in a way, under a law. One entry a way. */
const BUILD: Readonly<Record<AttachmentState, (inputs: HoldInputs, at: Operating, law: ControlLaw) => Held>> = {
  free: (inputs, at, law) => {
    const { trim, motion, state } = freeAircraft({ ...settingsAt(inputs, at), law, thrust: "trim" });
    return { trimmed: trim.outcome === "trimmed", motion, state, tipForce: [0, 0, 0] };
  },
  "single point": (inputs, at, law) => {
    const { trim, motion, state } = hookedPair({ ...settingsAt(inputs, at), law });
    return { trimmed: trim.outcome === "trimmed", motion, state, tipForce: trim.f_onV_byTip_H };
  },
};

export function heldAt(inputs: HoldInputs, at: Operating, state: AttachmentState, law: ControlLaw): Held {
  return BUILD[state](inputs, at, law);
}

/** Linear plant of one way of being held, with what is sensed at its trim. */
export interface StatePlant {
  readonly state: AttachmentState;
  readonly plant: LinearSystem;
  readonly names: readonly string[];
  readonly reference: AircraftMotion;
}

/** Plant at an operating point; `null` without trim. */
export function plantAt(inputs: HoldInputs, at: Operating, state: AttachmentState): StatePlant | null {
  const held = heldAt(inputs, at, state, surfaceInputs);
  if (!held.trimmed) return null;
  held.motion.derivative(0, held.state, new Float64Array(held.motion.stateCount));
  const reference = { ...held.motion.sensed };
  return { state, reference, ...controlPlant(held.motion, held.state) };
}
