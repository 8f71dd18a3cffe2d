import type { Controls } from "../airloads/types.ts";
import { APPROACH_PHASES, type ApproachGuide } from "../approach/types.ts";
import type { HookonStart } from "./types.ts";

/**
 * Guide that holds the controls where they are: an approach without control, for the capture map and for tests.
 *
 * @param controls surfaces [rad] and thrust [N]
 * @param tick     [s]
 */
export function straightGuide(controls: Controls, tick = 0.01): ApproachGuide {
  const phase = APPROACH_PHASES.indexOf("closing");
  return {
    tick,
    restart() {},
    step(_truth, out) {
      out.elevator = controls.elevator;
      out.aileron = controls.aileron;
      out.rudder = controls.rudder;
      out.thrust = controls.thrust;
      out.boomRate = 0;
      out.phase = phase;
    },
  };
}

/**
 * Start of an approach straight along the socket's axis.
 *
 * @param axes     k1, k2, k3 in H, shape (9), from `socketAxes`
 * @param approach distance of the head from the mouth [m], closure [m/s], offset along k2 and k3 [m], angles against trim [rad]
 */
export function straightStart(
  axes: Float64Array,
  approach: {
    readonly distance: number;
    readonly closure: number;
    readonly right: number;
    readonly up: number;
    readonly yaw?: number;
    readonly pitch?: number;
    readonly bank?: number;
  },
): HookonStart {
  const { distance, closure, right, up } = approach;
  const place = [0, 1, 2].map((i) => distance * axes[i] + right * axes[3 + i] + up * axes[6 + i]);
  const velocity = [0, 1, 2].map((i) => -closure * axes[i]);
  return {
    p_RestPh_H: place as unknown as readonly [number, number, number],
    v_HVcm_H: velocity as unknown as readonly [number, number, number],
    yaw: approach.yaw ?? 0,
    pitch: approach.pitch ?? 0,
    bank: approach.bank ?? 0,
  };
}
