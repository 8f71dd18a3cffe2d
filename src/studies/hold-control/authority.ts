import { TransferFunction } from "../../math/linear-system/index.ts";
import { FIRST_LOAD } from "../../physics/bodies/index.ts";
import { EFFECTORS, type Effector, SIGNALS, type Signal } from "../../physics/pilot/index.ts";
import type { Operating } from "../hold/index.ts";
import type { ControlInputs, StatePlant } from "./attachments.ts";
import type { ControlSettings } from "./settings.ts";
import type { SurfaceAuthority } from "./types.ts";

const DEGREE = Math.PI / 180;
/** Share of the declared upset below which a surface moves nothing that its function could hold. */
const LEAST_SHARE = 0.1;
const ANGLE: Readonly<Record<Effector, Signal>> = { elevator: "pitch", aileron: "bank", rudder: "yaw" };

/**
 * What each surface can do in a state, nothing engaged.
 *
 *     ψ = travel·|G(jω_c)|,  ω_c the pilot's crossover in the axis of the surface               (README eq. 5)
 *
 * @source own derivation, README eq. 5
 * @verified attached-states.test.ts
 */
export function authorityOf(
  inputs: ControlInputs,
  settings: ControlSettings,
  at: Operating,
  of: StatePlant,
): SurfaceAuthority[] {
  const out = new Float64Array(2 * of.plant.outputs);
  return EFFECTORS.map((surface, column) => {
    const axis = surface === "elevator" ? "pitch" : "bank";
    new TransferFunction(of.plant, column).evaluate(0, settings.pilot.crossover[axis], out);
    const { travel } = settings.actuators[surface];
    const size = (row: number): number => travel * Math.hypot(out[2 * row], out[2 * row + 1]);
    const angle = size(SIGNALS.indexOf(ANGLE[surface]));
    const upset = axis === "pitch" ? inputs.upset.pitch : inputs.upset.roll;
    return {
      ...{ condition: at.condition, mass: at.mass.name, state: of.state, surface, angle_deg: angle / DEGREE },
      load_kN: Math.hypot(size(FIRST_LOAD + 1), size(FIRST_LOAD + 2), size(FIRST_LOAD + 3)) / 1000,
      movesNothing: angle < LEAST_SHARE * upset,
    };
  });
}
