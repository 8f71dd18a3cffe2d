import { type HookedPair, STANDARD_GRAVITY } from "../../physics/bodies/index.ts";
import type { HoldInputs } from "../hold/index.ts";

/** Half of the step of the slope of the lift [rad]. */
const STEP = 1e-3;

/**
 * Incidence left to the stall at trim.
 *
 *     (CLmax − CL*)/CLα,  CLα by differences on the airloads at trim                    (README eq. 1)
 *
 * @param pair  at trim
 * @returns [rad]; negative when stalled at trim; infinite when the lift does not rise with incidence
 * @source own derivation, README eq. 1
 * @verified rough-air.test.ts against the derivatives of the demo pair
 */
export function incidenceToStall(inputs: HoldInputs, { settings, trim }: HookedPair): number {
  const { density, soundSpeed, trueAirspeed: V } = settings.air;
  const pressureArea = 0.5 * density * V * V * inputs.carried.derivatives.area;
  const out = { load: new Float64Array(6), perAcceleration: new Float64Array(36) };
  const lift = (alpha: number): number => {
    const [cos, sin] = [Math.cos(alpha), Math.sin(alpha)];
    const air = { u: V * cos, v: 0, w: V * sin, p: 0, q: 0, r: 0, density, soundSpeed };
    settings.airloads.evaluate(air, { ...trim.controls, thrust: 0 }, out);
    return (out.load[0] * sin - out.load[2] * cos) / pressureArea;
  };
  const slope = (lift(trim.alpha + STEP) - lift(trim.alpha - STEP)) / (2 * STEP);
  const carriedByAir = settings.mass.mass * STANDARD_GRAVITY + trim.f_onV_byTip_H[2];
  const room = inputs.carried.maximumLift - carriedByAir / pressureArea;
  return slope > 0 ? room / slope : Infinity;
}
