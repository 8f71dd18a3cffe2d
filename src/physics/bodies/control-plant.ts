import { createJacobianWorkspace, jacobian } from "../../math/differentiate/index.ts";
import { BugError } from "../../math/errors.ts";
import { type LinearSystem, linearSystem } from "../../math/linear-system/index.ts";
import { rotationMatrix } from "../../math/rotation/index.ts";
import { type ControlLaw, controlsFixed, EFFECTORS, SIGNALS } from "../pilot/index.ts";
import { linearise, perturb } from "./linearise.ts";
import type { PairMotion } from "./pair-motion.ts";
import { STANDARD_GRAVITY } from "./ports.ts";

/**
 * Surfaces as constant states from trim: a law through which a plant is seen from its surfaces. States in the order of `EFFECTORS`.
 */
export const surfaceInputs: ControlLaw = {
  stateCount: EFFECTORS.length,
  command(state, offset, motion, trim, out) {
    controlsFixed.command(state, offset, motion, trim, out);
    for (let i = 0; i < EFFECTORS.length; i++) out[EFFECTORS[i]] = trim[EFFECTORS[i]] + state[offset + i];
  },
  derivative(_state, offset, _motion, out) {
    out.fill(0, offset, offset + EFFECTORS.length);
  },
};

/** Outputs of a plant after `SIGNALS`: normal load factor and the force on the aircraft by the tip, forward, right and down in H. */
export const LOAD_OUTPUTS = ["loadFactor", "tipForward", "tipRight", "tipDown"] as const;
/** Number of the first load output. */
export const FIRST_LOAD = SIGNALS.length;

/** States that nothing depends on in uniform air: places of a free aircraft along and across the flight. */
const IDLE = new Set(["x", "y"]);

/** Normal load factor, 1 in level flight: −(a − g) along body z over g [1]. */
export function loadFactor(motion: PairMotion, state: Float64Array, rotation: Float64Array): number {
  rotationMatrix(state, 3, rotation);
  const a = motion.acceleration;
  const down = rotation[2] * a[0] + rotation[5] * a[1] + rotation[8] * (a[2] - STANDARD_GRAVITY);
  return -down / STANDARD_GRAVITY;
}

/**
 * Linear plant of the pair as a pilot or controller meets it: from the surfaces to what is sensed and loaded.
 *
 *     ẋ = A·x + B·δ,  y = C·x + D·δ                                            (README eq. 19)
 *
 * A and B are the columns of `linearise` with the surfaces as states; C and D are differences of the sensed motion and the loads. The
 * place of a free aircraft along and across its flight, on which nothing depends, is left out.
 *
 * @param motion  equations with the law `surfaceInputs`, any attachment
 * @param state   trim state, at rest
 * @returns inputs: `EFFECTORS` [rad]; outputs: `SIGNALS`, then `LOAD_OUTPUTS`, as changes from trim; with the names of the states
 * @throws {BugError} for another law
 * @source own derivation, README eq. 19
 * @verified control-plant.test.ts: response to a small step in time, same roots closed as linearised with the law inside
 */
export function controlPlant(
  motion: PairMotion,
  state: Float64Array,
): { plant: LinearSystem; names: readonly string[] } {
  if (motion.settings.law !== surfaceInputs) throw new BugError("a control plant needs the surfaces as inputs");
  const model = linearise(motion, state);
  const width = EFFECTORS.length;
  const laws = model.size - width;
  const hasTip = motion.settings.boom !== undefined;
  const full = hasTip ? 9 : 6;
  const nq = model.coordinates;
  const isFree = motion.settings.attachment === "free";
  const kept = Array.from({ length: laws }, (_, i) => i).filter((i) => !(isFree && IDLE.has(model.names[i])));
  const outputs = SIGNALS.length + LOAD_OUTPUTS.length;

  const x = new Float64Array(2 * full + motion.stateCount - motion.layout.snubber);
  const perturbed = new Float64Array(motion.stateCount);
  const rate = new Float64Array(motion.stateCount);
  const rotation = new Float64Array(9);
  const observe = (reduced: Float64Array, out: Float64Array): void => {
    x.fill(0);
    for (let i = 0; i < full; i++) {
      for (let k = 0; k < nq; k++) {
        x[i] += model.basis[i * nq + k] * reduced[k];
        x[full + i] += model.basis[i * nq + k] * reduced[nq + k];
      }
    }
    for (let e = 2 * nq; e < model.size; e++) x[2 * full + e - 2 * nq] = reduced[e];
    perturb(state, x, full, motion.layout, perturbed);
    motion.derivative(0, perturbed, rate);
    for (let i = 0; i < SIGNALS.length; i++) out[i] = motion.sensed[SIGNALS[i]];
    out[FIRST_LOAD] = loadFactor(motion, perturbed, rotation);
    for (let i = 0; i < 3; i++) out[FIRST_LOAD + 1 + i] = motion.jointForce[i];
  };
  const J = new Float64Array(outputs * model.size);
  const steps = new Float64Array(model.size).fill(1e-3);
  const workspace = createJacobianWorkspace(model.size, outputs);
  jacobian(observe, new Float64Array(model.size), steps, outputs, J, workspace);

  const n = kept.length;
  const matrices = {
    A: new Float64Array(n * n),
    B: new Float64Array(n * width),
    C: new Float64Array(outputs * n),
    D: new Float64Array(outputs * width),
  };
  kept.forEach((from, i) => {
    kept.forEach((column, j) => {
      matrices.A[i * n + j] = model.matrix[from * model.size + column];
    });
    for (let j = 0; j < width; j++) matrices.B[i * width + j] = model.matrix[from * model.size + laws + j];
  });
  for (let row = 0; row < outputs; row++) {
    kept.forEach((column, j) => {
      matrices.C[row * n + j] = J[row * model.size + column];
    });
    for (let j = 0; j < width; j++) matrices.D[row * width + j] = J[row * model.size + laws + j];
  }
  return {
    plant: linearSystem({ states: n, inputs: width, outputs }, matrices),
    names: kept.map((i) => model.names[i]),
  };
}
