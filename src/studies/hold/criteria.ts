import type { Criterion } from "../finding/index.ts";
import type { HoldInputs } from "./inputs.ts";
import type { Mode, ModePlane } from "./types.ts";

/** The analogy every reader asks for; shown, never used as the criterion. */
const NEAREST: Readonly<Record<ModePlane, string>> = {
  longitudinal: "MIL-F-8785C Table IV, short period, ζ at least 0.20 for Level 2 and 0.30 for Level 1 (Category B)",
  lateral: "MIL-F-8785C Table VI, Dutch roll, ζ at least 0.02 for Level 2 and 0.08 for Level 1 (Category B)",
};
export const noPublished = (plane: ModePlane): string =>
  `No published criterion is known for an aircraft hooked at one point on a compliant boom. Nearest published, for a free aircraft: ${NEAREST[plane]}.`;

export function dampingCriterion(inputs: HoldInputs, structural: boolean): Criterion {
  const { value, source } = structural ? inputs.criteria.structuralDamping : inputs.criteria.rigidBodyDamping;
  const kind = structural ? "structural" : "rigid-body-type";
  return {
    text: `damping ratio of every ${kind} oscillation at least ${value}`,
    sense: "at least",
    limit: value,
    source,
  };
}

export function doublingCriterion(inputs: HoldInputs): Criterion {
  const { value, source } = inputs.criteria.timeToDouble;
  return { text: `no real root doubles in less than ${value} s`, sense: "at least", limit: value, source };
}

/** True when a mode meets the criterion of its class, or of a real root. */
export function meetsCriteria(inputs: HoldInputs, mode: Mode): boolean {
  if (mode.imag_rad_s === 0) {
    return mode.timeToDouble_s === null || mode.timeToDouble_s >= inputs.criteria.timeToDouble.value;
  }
  const { structuralDamping, rigidBodyDamping } = inputs.criteria;
  return mode.dampingRatio >= (mode.class === "structural" ? structuralDamping : rigidBodyDamping).value;
}
