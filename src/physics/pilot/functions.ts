import { DomainError } from "../../math/errors.ts";
import { type LinearSystem, linearSystem, series } from "../../math/linear-system/index.ts";
import { SIGNALS, type Signal } from "./control-law.ts";

/** Control surfaces that a function may move. */
export const EFFECTORS = ["elevator", "aileron", "rudder"] as const;
export type Effector = (typeof EFFECTORS)[number];

/**
 * One function of a pilot or an autopilot: a linear system from what is sensed, as deviations from trim and in the order of
 * `SIGNALS`, to the deflection that it demands from one surface [rad]. Functions of one surface add up.
 */
export interface ControlFunction {
  readonly name: string;
  readonly effector: Effector;
  /** Inputs: `SIGNALS`; output: demanded deflection from trim [rad]. */
  readonly system: LinearSystem;
}

type Gains = Readonly<Partial<Record<Signal, number>>>;

/** Constant gains on sensed signals. */
function gains(of: Gains): LinearSystem {
  const D = SIGNALS.map((signal) => of[signal] ?? 0);
  if (!D.every(Number.isFinite)) throw new DomainError("gain of a control function", JSON.stringify(of), "finite");
  return linearSystem({ states: 0, inputs: SIGNALS.length, outputs: 1 }, { D });
}

function requireLag(what: string, value: number): void {
  if (!(value > 0 && value < Number.POSITIVE_INFINITY)) throw new DomainError(what, value, "greater than 0, finite");
}

/**
 * Pitch hold: elevator down against nose up.
 *
 *     δe = k_θ·Δθ + k_q·q                                                      (README eq. 2)
 *
 * @param pitchGain elevator per pitch angle [rad/rad], @param rateGain elevator per pitch rate [s]; with `pitchGain` 0 a pitch damper
 * @throws {DomainError} for a gain that is not finite
 * @source own derivation, README eq. 2
 * @verified functions.test.ts (signs)
 */
export function pitchHold(pitchGain: number, rateGain: number): ControlFunction {
  return { name: "pitch hold", effector: "elevator", system: gains({ pitch: pitchGain, pitchRate: rateGain }) };
}

/**
 * Roll hold: left aileron against a bank to the right, as `rollHold` without its actuator.
 *
 *     δa = −k_φ·Δφ − k_p·p                                                     (README eq. 3)
 *
 * @param rollGain aileron per bank angle [rad/rad], @param rateGain aileron per roll rate [s]
 * @throws {DomainError} for a gain that is not finite
 * @source own derivation, README eq. 3
 * @verified functions.test.ts (signs, the same as `rollHold` inside its limit)
 */
export function bankHold(rollGain: number, rateGain: number): ControlFunction {
  return { name: "roll hold", effector: "aileron", system: gains({ bank: -rollGain, rollRate: -rateGain }) };
}

/**
 * Yaw damper: rudder left against a yaw rate to the right that lasts less than the washout.
 *
 *     δr = k_r·T_w·s/(T_w·s + 1)·r                                             (README eq. 4)
 *
 * @param rateGain rudder per yaw rate [s], @param washout T_w [s]
 * @throws {DomainError} for a gain that is not finite or a washout that is not positive
 * @source own derivation, README eq. 4
 * @verified functions.test.ts (sign, steady turn left alone)
 */
export function yawDamper(rateGain: number, washout: number): ControlFunction {
  requireLag("yaw damper, washout", washout);
  // k·T_w·s/(T_w·s + 1) = k − k/(T_w·s + 1)
  const filter = linearSystem(
    { states: 1, inputs: 1, outputs: 1 },
    { A: [-1 / washout], B: [1 / washout], C: [-1], D: [1] },
  );
  return { name: "yaw damper", effector: "rudder", system: series(gains({ yawRate: rateGain }), filter) };
}

/**
 * Height hold through the pitch hold: a pitch demand against height and climb.
 *
 *     θ_c = −k_h·Δh − k_ḣ·ḣ,   δe = −k_θ·θ_c                                   (README eq. 5)
 *
 * @param pitchGain elevator per pitch angle of the pitch hold that it commands [rad/rad]
 * @param heightGain pitch demand per height [rad/m], @param climbGain pitch demand per vertical speed [rad·s/m]
 * @throws {DomainError} for a gain that is not finite
 * @source own derivation, README eq. 5
 * @verified functions.test.ts (signs)
 */
export function heightHold(pitchGain: number, heightGain: number, climbGain: number): ControlFunction {
  const system = gains({ height: pitchGain * heightGain, verticalSpeed: pitchGain * climbGain });
  return { name: "height hold", effector: "elevator", system };
}

/**
 * What is left of a hold when a pilot takes its angle: its rate gain, as a damper.
 *
 * @param hold a pitch or roll hold
 * @returns the same function without its gain on the angle
 * @source definition
 * @verified functions.test.ts
 */
export function damperOf(hold: ControlFunction): ControlFunction {
  const D = hold.system.D.slice();
  for (const angle of ["pitch", "bank"] as const) D[SIGNALS.indexOf(angle)] = 0;
  return { ...hold, name: hold.name.replace("hold", "damper"), system: { ...hold.system, D } };
}

/** A pilot's equaliser and muscles: gain, lead, lag and neuromuscular lag; the delay stands apart. */
export interface PilotDynamics {
  /** Deflection per angle that is tracked [rad/rad], > 0 opposes. */
  readonly gain: number;
  /** T_L, T_I ≥ 0 and T_N > 0 [s]. */
  readonly lead: number;
  readonly lag: number;
  readonly neuromuscularLag: number;
}

/**
 * A pilot who holds the pitch or bank of trim, without the delay.
 *
 *     Y_p = K·(T_L·s + 1)/((T_I·s + 1)·(T_N·s + 1))                            (README eq. 6)
 *
 * @param axis  "pitch" with the elevator, "bank" with the aileron; the sign that opposes is the function's own
 * @throws {DomainError} for a lead or lag below 0 or a neuromuscular lag that is not positive
 * @source McRuer and Jex (1967), form of the crossover model; realisation own
 * @verified functions.test.ts (transfer function at several frequencies), pilot-model.test.ts
 */
export function pilotFunction(axis: "pitch" | "bank", pilot: PilotDynamics): ControlFunction {
  const { gain, lead, lag, neuromuscularLag } = pilot;
  requireLag("pilot, neuromuscular lag", neuromuscularLag);
  for (const [what, value] of [
    ["pilot, lead", lead],
    ["pilot, lag", lag],
  ] as const) {
    if (!(value >= 0 && value < Number.POSITIVE_INFINITY)) throw new DomainError(what, value, "0 or more, finite");
  }
  const one = { states: 1, inputs: 1, outputs: 1 };
  const share = lead / neuromuscularLag;
  const muscles = linearSystem(one, {
    A: [-1 / neuromuscularLag],
    B: [1 / neuromuscularLag],
    C: [1 - share],
    D: [share],
  });
  const dynamics = lag > 0 ? series(muscles, linearSystem(one, { A: [-1 / lag], B: [1 / lag], C: [1] })) : muscles;
  const sensed = axis === "pitch" ? gains({ pitch: gain }) : gains({ bank: -gain });
  return {
    name: axis === "pitch" ? "pilot in pitch" : "pilot in bank",
    effector: axis === "pitch" ? "elevator" : "aileron",
    system: series(sensed, dynamics),
  };
}
