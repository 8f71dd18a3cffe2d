import { type LinearSystem, select, series, TransferFunction } from "../../math/linear-system/index.ts";
import {
  type ActuatorSettings,
  actuatorLag,
  bankHold,
  type Channels,
  closedSystem,
  EFFECTORS,
  pitchHold,
  SIGNALS,
  type TunedPilot,
  tunePilot,
} from "../pilot/index.ts";
import type { InnerGains } from "./settings.ts";

export interface LearntSettings {
  readonly actuators: Readonly<Record<"elevator" | "aileron", ActuatorSettings>>;
  /** Of these the rate gains in pitch and roll work on as dampers. */
  readonly inner: InnerGains;
  /** Where the pilot closes each loop [rad/s]. */
  readonly crossover: { readonly pitch: number; readonly bank: number };
  readonly neuromuscularLag: number;
  /** [s] */
  readonly largestLead: number;
  readonly largestLag: number;
}

const AXES = { pitch: "elevator", bank: "aileron" } as const;

/** Aircraft with dampers and actuator, from the pilot's deflection to the angle that is tracked. */
export function controlledElement(plant: LinearSystem, axis: "pitch" | "bank", settings: LearntSettings): LinearSystem {
  const { inner, actuators } = settings;
  const dampers: Channels = {
    elevator: { functions: [pitchHold(0, inner.pitchRate)], actuator: actuators.elevator },
    aileron: { functions: [bankHold(0, inner.rollRate)], actuator: actuators.aileron },
  };
  const surface = AXES[axis];
  const closed = closedSystem(plant, dampers, 3);
  const response = select(closed, [EFFECTORS.indexOf(surface)], [SIGNALS.indexOf(axis)]);
  return series(actuatorLag(actuators[surface]), response);
}

/**
 * A pilot who has learnt to fly the free aircraft: lead or lag and gain of each axis by the crossover rule.
 *
 * @param plant  of the free aircraft by `controlPlant`: surfaces → `SIGNALS`
 * @returns both axes, for `PilotHands`; `slopeReached` says how near to −1 the pilot came
 * @throws {DomainError} for settings out of range or a surface that moves nothing at the crossover
 * @source `tunePilot`; the dampers stand inside, README eq. 12
 * @verified hands.test.ts (slope −1 and unit gain at the crossover of pilot and aircraft)
 */
export function learntPilot(
  plant: LinearSystem,
  settings: LearntSettings,
): { readonly pitch: TunedPilot; readonly bank: TunedPilot } {
  const { crossover, neuromuscularLag, largestLead, largestLag } = settings;
  const tuned = (axis: "pitch" | "bank"): TunedPilot => {
    const transfer = new TransferFunction(controlledElement(plant, axis, settings));
    return tunePilot((omega, out) => transfer.evaluate(0, omega, out), {
      ...{ crossover: crossover[axis], neuromuscularLag, largestLead, largestLag },
    });
  };
  return { pitch: tuned("pitch"), bank: tuned("bank") };
}
