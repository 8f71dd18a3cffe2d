import { quaternionFromEuler } from "../../math/rotation/index.ts";
import type { AirloadModel } from "../airloads/types.ts";
import type { ControlLaw } from "../pilot/index.ts";
import type { MassProperties } from "./mass-properties.ts";
import { PairMotion } from "./pair-motion.ts";
import { uniformAir } from "./ports.ts";
import { type FreeTrim, trimFree } from "./trim.ts";

/** The carried aircraft alone in level flight at trim. */
export interface FreeAircraft {
  readonly trim: FreeTrim;
  readonly motion: PairMotion;
  /** State of rest at trim, in axes that travel with it. */
  readonly state: Float64Array;
}

/**
 * Builds the free aircraft at trim: balance, equations of motion without boom, state of rest.
 *
 * @param settings mass, airloads, law and air; SI. `thrust` [N] flies on with another thrust than trim asks for: then nothing rests
 * @returns when `trim.outcome` is "no trim" the state is not a balance and must not be used
 * @throws {DomainError} for settings out of their range
 * @source README eq. 1, 2, 7
 * @verified control-plant.test.ts (rest at trim); test/validation/free-modes (the modes of published aircraft)
 */
export function freeAircraft(settings: {
  readonly mass: MassProperties;
  readonly airloads: AirloadModel;
  readonly law: ControlLaw;
  readonly air: { readonly density: number; readonly soundSpeed: number; readonly trueAirspeed: number };
  readonly thrust?: number | "trim";
}): FreeAircraft {
  const { mass, airloads, law, air, thrust = "trim" } = settings;
  const trim = trimFree({ airloads, mass: mass.mass, ...air });
  const environment = uniformAir(air);
  const controls = thrust === "trim" ? trim.controls : { ...trim.controls, thrust };
  const motion = new PairMotion({ mass, airloads, trim: controls, law, environment, attachment: "free" });
  const state = new Float64Array(motion.stateCount);
  quaternionFromEuler(0, trim.alpha, 0, state, 3);
  return { trim, motion, state };
}
