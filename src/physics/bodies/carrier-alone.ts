import { createJacobianWorkspace, jacobian } from "../../math/differentiate/index.ts";
import { BugError } from "../../math/errors.ts";
import type { CarrierPort } from "./ports.ts";
import { RIGID_CARRIER_STATES } from "./rigid-carrier.ts";

/** Steps of the differences: attitude [rad], velocity [m/s], angular velocity [rad/s]. */
const STEPS = [1e-3, 0.05, 1e-3] as const;

/**
 * Linear model of a rigid carrier by itself at trim, the hook load held as it is: what flies when the boom pulls steadily.
 *
 * States: roll, pitch, yaw; velocity in H; angular velocity. Its place is left out.              (README eq. 21)
 *
 * @param carrier port of `rigidCarrier`
 * @param load    load by the boom, in H, shape (6)
 * @returns matrix, row-major, shape (9, 9)
 * @throws {BugError} for another kind of carrier
 * @source own derivation, README eq. 21
 * @verified rigid-carrier.test.ts: published/etkin-reid-747, and the free aircraft of `PairMotion` with the same airloads
 */
export function carrierAlone(
  carrier: CarrierPort,
  load: Float64Array,
): { readonly matrix: Float64Array; readonly size: 9 } {
  const { count } = RIGID_CARRIER_STATES;
  if (carrier.stateCount !== count) throw new BugError("the carrier is no rigid body");
  const state = new Float64Array(count);
  const rate = new Float64Array(count);
  const evaluate = (x: Float64Array, out: Float64Array): void => {
    state.set(x, 3);
    carrier.evaluate(state, 0);
    carrier.derivative(state, 0, load, rate, 0);
    out.set(rate.subarray(3));
  };
  const matrix = new Float64Array(81);
  const steps = Float64Array.from({ length: 9 }, (_, i) => STEPS[Math.floor(i / 3)]);
  jacobian(evaluate, new Float64Array(9), steps, 9, matrix, createJacobianWorkspace(9, 9));
  carrier.evaluate(state.fill(0), 0);
  return { matrix, size: 9 };
}
