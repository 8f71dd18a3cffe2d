import { STANDARD_GRAVITY } from "../../physics/bodies/index.ts";
import type { PairMode } from "../../physics/modes/index.ts";
import { atBoomAngle, describeModes, type HoldInputs, type ModePlane, type Operating } from "../hold/index.ts";
import type { AttachmentInputs } from "./read-settings.ts";
import { type StateInputs, type StateModel, stateModel } from "./states.ts";
import type { AttachmentLoads, AttachmentState, StatePoint, StrokeDamping } from "./types.ts";

const DEGREE = Math.PI / 180;
/** Step between points along the stroke [rad]. */
const STEP = 2 * DEGREE;

/** Full result of one state at an operating point. */
export function statePoint(inputs: HoldInputs, own: StateInputs, at: Operating, state: AttachmentState): StatePoint {
  const model = stateModel(inputs, own, at, state);
  const { trimmed, attitude, elevator } = model;
  return {
    ...{ condition: at.condition, mass: at.mass.name, boomAngle_deg: at.boomAngleDown / DEGREE, state },
    outcome: trimmed ? "trimmed" : "no trim",
    pitch_deg: trimmed ? attitude[1] / DEGREE : null,
    bank_deg: trimmed ? attitude[2] / DEGREE : null,
    elevator_deg: trimmed ? elevator / DEGREE : null,
    loads: trimmed ? loadsOf(model, at) : null,
    modes: describeModes(model.modes),
  };
}

function loadsOf({ attached }: StateModel, at: Operating): AttachmentLoads | null {
  if (attached === null) return null;
  const [forward, , down] = attached.f_onV_bySocket_H;
  const pins = attached.pins.map(({ name, tension, lateral, f_onV_H }) => ({
    ...{ name, tension_N: tension, lateral_N: lateral },
    up_N: 0 - f_onV_H[2],
  }));
  const up = pins.reduce((sum, pin) => sum + pin.up_N, 0 - down);
  return {
    socketForward_N: forward,
    socketUp_N: 0 - down,
    pins,
    weightShare_1: up / (at.mass.properties.mass * STANDARD_GRAVITY),
  };
}

/** Least damping ratio of each state along the stroke; a free aircraft has none. */
export function strokeDamping(
  inputs: HoldInputs,
  own: AttachmentInputs,
  at: Operating,
  states: readonly AttachmentState[],
): StrokeDamping {
  const { from, to } = own.stroke;
  const count = Math.max(1, Math.ceil((to - from) / STEP - 1e-9));
  const angles = Array.from({ length: count + 1 }, (_, i) => from + ((to - from) * i) / count);
  const held = states.filter((state) => state !== "free");
  return {
    ...{ condition: at.condition, mass: at.mass.name },
    boomAngle_deg: angles.map((angle) => angle / DEGREE),
    states: held.map((state) => {
      const models = angles.map((boomAngleDown) =>
        stateModel(inputs, own, atBoomAngle(inputs, { ...at, boomAngleDown }), state),
      );
      const along = (plane: ModePlane) =>
        models.map(({ trimmed, modes }) => (trimmed ? leastDamped(modes, plane) : null));
      return { state, longitudinal: along("longitudinal"), lateral: along("lateral") };
    }),
  };
}

/** Least damping ratio of the oscillations of a plane; `null` without one. */
function leastDamped(modes: readonly PairMode[], plane: ModePlane): number | null {
  let least: number | null = null;
  for (const mode of modes) {
    if (mode.plane !== plane || mode.imag === 0) continue;
    const zeta = -mode.real / Math.hypot(mode.real, mode.imag);
    if (least === null || zeta < least) least = zeta;
  }
  return least;
}
