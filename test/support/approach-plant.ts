/** The free aircraft of the demo pair with actuators, flown by an approach law: the plant of tests of the law. */
import { createRk4Workspace, rk4Step } from "../../src/math/ode/index.ts";
import { rotationMatrix } from "../../src/math/rotation/index.ts";
import {
  type ApproachCommands,
  type ApproachGuide,
  type ApproachTrim,
  type ApproachTruth,
  emptyCommands,
} from "../../src/physics/approach/index.ts";
import { freeAircraft } from "../../src/physics/bodies/index.ts";
import type { ControlLaw } from "../../src/physics/pilot/index.ts";
import { type LongshoreOptions, longshore } from "./longshore.ts";

const LAG = 0.06;
const RATE = (40 * Math.PI) / 180;
const THRUST_LAG = 0.6;
/** Angle of attack of no lift, below zero [rad]: CL0/CLα of the demo pair. */
const NO_LIFT = 0.18 / 5;

/** Commands held between ticks, each surface through its lag with a rate limit. */
function heldCommands(commands: ApproachCommands): ControlLaw {
  const limited = (rate: number) => Math.min(RATE, Math.max(-RATE, rate));
  return {
    stateCount: 4,
    command(state, offset, _motion, _trim, out) {
      out.elevator = state[offset];
      out.aileron = state[offset + 1];
      out.rudder = state[offset + 2];
      out.thrust = state[offset + 3];
    },
    derivative(state, offset, _motion, out) {
      out[offset] = limited((commands.elevator - state[offset]) / LAG);
      out[offset + 1] = limited((commands.aileron - state[offset + 1]) / LAG);
      out[offset + 2] = limited((commands.rudder - state[offset + 2]) / LAG);
      out[offset + 3] = (commands.thrust - state[offset + 3]) / THRUST_LAG;
    },
  };
}

export interface Plant {
  readonly trim: ApproachTrim;
  readonly truth: ApproachTruth;
  readonly commands: ApproachCommands;
  /** Puts the probe head at a place from the mouth, at rest at trim. */
  place(p: readonly [number, number, number]): void;
  /** Flies for a time, calling `each` after every tick. */
  fly(guide: ApproachGuide, time: number, each?: (truth: ApproachTruth, commands: ApproachCommands) => void): void;
}

export function emptyTruth(): ApproachTruth {
  const vectors = { p_MoPh_H: new Float64Array(3), v_MoPh_H: new Float64Array(3) };
  const rest = { p_RestPh_H: new Float64Array(3), v_RestPh_H: new Float64Array(3) };
  const angles = { yaw: 0, pitch: 0, bank: 0, rollRate: 0, pitchRate: 0, yawRate: 0 };
  return { time: 0, ...vectors, ...rest, ...angles, airspeed: 100, touching: false, tripped: false, locked: false };
}

export function approachPlant(options: LongshoreOptions = {}): Plant {
  const pair = longshore(options);
  const commands = emptyCommands();
  const { motion, state: rest, trim } = freeAircraft({ ...pair, thrust: "trim", law: heldCommands(commands) });
  const law = motion.layout.law;
  const state = rest.slice();
  const truth = emptyTruth();
  const R = new Float64Array(9);
  const rk4 = createRk4Workspace(motion.stateCount);
  const [px, py, pz] = pair.probe;
  const look = (time: number): void => {
    rotationMatrix(state, 3, R);
    const [p, q, r] = [state[10], state[11], state[12]];
    const turning = [q * pz - r * py, r * px - p * pz, p * py - q * px];
    for (let i = 0; i < 3; i++) {
      truth.p_MoPh_H[i] = state[i] + R[3 * i] * px + R[3 * i + 1] * py + R[3 * i + 2] * pz;
      truth.v_MoPh_H[i] = state[7 + i] + R[3 * i] * turning[0] + R[3 * i + 1] * turning[1] + R[3 * i + 2] * turning[2];
      truth.p_RestPh_H[i] = truth.p_MoPh_H[i];
      truth.v_RestPh_H[i] = truth.v_MoPh_H[i];
    }
    Object.assign(truth, { time, rollRate: p, pitchRate: q, yawRate: r });
    truth.yaw = Math.atan2(R[3], R[0]);
    truth.pitch = -Math.asin(R[6]);
    truth.bank = Math.atan2(R[7], R[8]);
  };
  return {
    trim: {
      alpha: trim.alpha,
      liftAlpha: trim.alpha + NO_LIFT,
      ...trim.controls,
      mass: pair.mass.mass,
      trueAirspeed: pair.air.trueAirspeed,
    },
    truth,
    commands,
    place(p) {
      state.set(rest);
      Object.assign(commands, trim.controls);
      state.set([trim.controls.elevator, trim.controls.aileron, trim.controls.rudder, trim.controls.thrust], law);
      look(0);
      for (let i = 0; i < 3; i++) state[i] += p[i] - truth.p_MoPh_H[i];
      look(0);
    },
    fly(guide, time, each) {
      const ticks = Math.round(time / guide.tick);
      for (let k = 0; k < ticks; k++) {
        guide.step(truth, commands);
        each?.(truth, commands);
        for (let half = 0; half < 2; half++) {
          rk4Step(motion.derivative, (k + 0.5 * half) * guide.tick, state, 0.5 * guide.tick, state, rk4);
        }
        look((k + 1) * guide.tick);
      }
    },
  };
}
