import { DomainError } from "../../math/errors.ts";
import {
  append,
  closeLoops,
  type LinearSystem,
  linearSystem,
  padeDelay,
  select,
  series,
} from "../../math/linear-system/index.ts";
import { type AircraftMotion, type ControlLaw, controlsFixed, SIGNALS } from "./control-law.ts";
import { type ControlFunction, EFFECTORS, type Effector } from "./functions.ts";

/** An actuator with what lies between sensor and surface. */
export interface ActuatorSettings {
  /** Time constant [s], > 0. */
  readonly lag: number;
  /** Largest rate [rad/s], > 0. */
  readonly rate: number;
  /** Largest deflection from trim either way [rad], > 0. */
  readonly travel: number;
  /** Delay from sensor to actuator [s], ≥ 0: computing for an autopilot, reaction for a pilot. */
  readonly delay: number;
}

/** What a surface does instead of what its functions demand. */
export type Fault =
  | { readonly kind: "hard-over"; readonly direction: 1 | -1 }
  /** Amplitude [rad] and frequency [rad/s] of a sine that starts at zero. */
  | { readonly kind: "oscillatory"; readonly amplitude: number; readonly omega: number };

export interface Channel {
  readonly functions: readonly ControlFunction[];
  readonly actuator: ActuatorSettings;
  readonly fault?: Fault;
}

export type Channels = Readonly<Partial<Record<Effector, Channel>>>;

/** Sum of functions: from `SIGNALS` to one demand; zero without any. */
export function sumOf(functions: readonly ControlFunction[]): LinearSystem {
  const width = SIGNALS.length;
  if (functions.length === 0) return linearSystem({ states: 0, inputs: width, outputs: 1 }, {});
  const apart = append(functions.map(({ system }) => system));
  const split = new Float64Array(apart.inputs * width);
  for (let i = 0; i < apart.inputs; i++) split[i * width + (i % width)] = 1;
  const spread = linearSystem({ states: 0, inputs: width, outputs: apart.inputs }, { D: split });
  const ones = new Float64Array(functions.length).fill(1);
  const sum = linearSystem({ states: 0, inputs: functions.length, outputs: 1 }, { D: ones });
  return series(series(spread, apart), sum);
}

/** The actuator's lag as a linear system, inside its limits. */
export function actuatorLag({ lag }: ActuatorSettings): LinearSystem {
  return linearSystem({ states: 1, inputs: 1, outputs: 1 }, { A: [-1 / lag], B: [1 / lag], C: [1] });
}

/** A control law made of functions, with where its actuators stand among its states. */
export interface ControlSystem extends ControlLaw {
  readonly actuatorState: Readonly<Partial<Record<Effector, number>>>;
}

function checkActuator(effector: Effector, { lag, rate, travel, delay }: ActuatorSettings): void {
  for (const [what, value] of Object.entries({ lag, rate, travel })) {
    if (!(value > 0)) throw new DomainError(`actuator of the ${effector}, ${what}`, value, "greater than 0");
  }
  if (!(delay >= 0)) throw new DomainError(`actuator of the ${effector}, delay`, delay, "0 or more");
}

/**
 * Functions, delays and actuators as a control law for the equations of motion.
 *
 *     u = Σ functions, delayed;   δ̇ = limit_rate((limit_travel(u) − δ)/T),   surface = trim + δ            (README eq. 8)
 *
 * The delay is a Padé approximation with states of its own. A fault takes the place of u: the stop for a hard-over, a sine for an
 * oscillation. States by surface: functions, delay, δ, phase of the sine.
 *
 * @param channels   functions and actuator by surface; surfaces left out stay at trim
 * @param reference  what is sensed at trim; functions see deviations from it
 * @param padeOrder  order of the delays
 * @throws {DomainError} for an actuator without lag, rate or travel, or a negative delay
 * @source own derivation, README eq. 8
 * @verified control-system.test.ts: limits, rate, step through the lag, delay, the same as `rollHold`; linear part against append and closeLoops
 * @cost no allocation in `command` and `derivative`
 */
export function controlSystem(channels: Channels, reference: AircraftMotion, padeOrder: number): ControlSystem {
  const parts = EFFECTORS.flatMap((effector) => {
    const channel = channels[effector];
    if (channel === undefined) return [];
    checkActuator(effector, channel.actuator);
    return [
      { effector, channel, demand: series(sumOf(channel.functions), padeDelay(channel.actuator.delay, padeOrder)) },
    ];
  });
  const actuatorState: Partial<Record<Effector, number>> = {};
  let stateCount = 0;
  const placed = parts.map((part) => {
    const start = stateCount;
    actuatorState[part.effector] = start + part.demand.states;
    stateCount += part.demand.states + 2;
    const { inputs: m, states: n, B, D } = part.demand;
    const used = SIGNALS.map((_, j) => j).filter(
      (j) => D[j] !== 0 || Array.from({ length: n }, (_, i) => B[i * m + j]).some((value) => value !== 0),
    );
    return { ...part, start, used };
  });
  const deviation = new Float64Array(SIGNALS.length);
  const rest = new Float64Array(SIGNALS.length);
  writeSignals(reference, rest);
  return {
    stateCount,
    actuatorState,
    command(state, offset, motion, trim, out) {
      controlsFixed.command(state, offset, motion, trim, out);
      for (const { effector, start, demand } of placed)
        out[effector] = trim[effector] + state[offset + start + demand.states];
    },
    derivative(state, offset, motion, out) {
      writeSignals(motion, deviation);
      for (let i = 0; i < rest.length; i++) deviation[i] -= rest[i];
      for (let k = 0; k < placed.length; k++) {
        const { start, demand, channel, used } = placed[k];
        const from = offset + start;
        const n = demand.states;
        const phase = state[from + n + 1];
        const wanted = advance(demand, used, deviation, state, from, out);
        const { fault, actuator } = channel;
        let u = wanted;
        if (fault?.kind === "hard-over") u = fault.direction * actuator.travel;
        if (fault?.kind === "oscillatory") u = fault.amplitude * Math.sin(phase);
        const limited = Math.min(actuator.travel, Math.max(-actuator.travel, u));
        const rate = (limited - state[from + n]) / actuator.lag;
        out[from + n] = Math.min(actuator.rate, Math.max(-actuator.rate, rate));
        out[from + n + 1] = fault?.kind === "oscillatory" ? fault.omega : 0;
      }
    },
  };
}

/** What is sensed, in the order of `SIGNALS`; by name, because a loop over names would be slow where this is called. */
function writeSignals(motion: AircraftMotion, out: Float64Array): void {
  out[0] = motion.bank;
  out[1] = motion.pitch;
  out[2] = motion.yaw;
  out[3] = motion.rollRate;
  out[4] = motion.pitchRate;
  out[5] = motion.yawRate;
  out[6] = motion.angleOfAttack;
  out[7] = motion.sideslip;
  out[8] = motion.airspeed;
  out[9] = motion.height;
  out[10] = motion.verticalSpeed;
}

/** Writes ẋ of a linear system with one output, of which some inputs count, and returns the output. */
function advance(
  system: LinearSystem,
  used: readonly number[],
  u: Float64Array,
  state: Float64Array,
  from: number,
  out: Float64Array,
): number {
  const { states: n, inputs: m, A, B, C, D } = system;
  let y = 0;
  for (let k = 0; k < used.length; k++) y += D[used[k]] * u[used[k]];
  for (let i = 0; i < n; i++) {
    let rate = 0;
    for (let j = 0; j < n; j++) rate += A[i * n + j] * state[from + j];
    for (let k = 0; k < used.length; k++) rate += B[i * m + used[k]] * u[used[k]];
    out[from + i] = rate;
    y += C[i] * state[from + i];
  }
  return y;
}

/**
 * State of a law that takes over from another: surfaces stay where they are, functions and delays start at rest.
 *
 * @param from    the law before, its states in `state` from `offset`
 * @param to      the law after
 * @returns the whole state with the new law's part
 */
export function handOver(from: ControlSystem, state: Float64Array, offset: number, to: ControlSystem): Float64Array {
  const out = new Float64Array(offset + to.stateCount);
  out.set(state.subarray(0, offset));
  for (const effector of EFFECTORS) {
    const [old, own] = [from.actuatorState[effector], to.actuatorState[effector]];
    if (old !== undefined && own !== undefined) out[offset + own] = state[offset + old];
  }
  return out;
}

/** A plant with its loops: inputs are surfaces in the order of `EFFECTORS`, the first outputs are `SIGNALS`. */
export interface Loops {
  /** From the demand at the cut to what the functions demand there, before the delay: −L without its delay. */
  readonly open: LinearSystem;
  /** Delay of the cut channel [s]. */
  readonly delay: number;
}

/**
 * Cuts the loop of one surface at the input of its actuator, every other surface closed with its delay as Padé.
 *
 *     1 + L(s) = 0 for the closed loop,   L = −open(s)·e^(−τs)                 (README eq. 9)
 *
 * @param plant     surfaces → sensed signals, see `Loops`
 * @param channels  functions and actuators
 * @param cut       surface
 * @throws {DomainError} if the surface has no channel
 * @source own derivation, README eq. 9
 * @verified control-system.test.ts: the closed loop from `open` has the roots of `closedSystem`
 */
export function cutLoop(plant: LinearSystem, channels: Channels, cut: Effector, padeOrder: number): Loops {
  const channel = channels[cut];
  if (channel === undefined) throw new DomainError("surface at which the loop is cut", cut, "one with a function");
  const others = Object.fromEntries(Object.entries(channels).filter(([effector]) => effector !== cut)) as Channels;
  const closed = closedSystem(plant, others, padeOrder);
  const input = select(
    closed,
    [EFFECTORS.indexOf(cut)],
    SIGNALS.map((_, i) => i),
  );
  const open = series(series(actuatorLag(channel.actuator), input), sumOf(channel.functions));
  return { open, delay: channel.actuator.delay };
}

/**
 * The plant with every channel closed, inside all limits; inputs and outputs stay those of the plant.
 *
 * @param plant inputs: surfaces in the order of `EFFECTORS`; outputs: `SIGNALS`, then any others
 * @source README eq. 8 linear
 * @verified control-system.test.ts; test of the study: the same roots as linearising the equations with the law inside
 */
export function closedSystem(plant: LinearSystem, channels: Channels, padeOrder: number): LinearSystem {
  const parts = EFFECTORS.flatMap((effector) => {
    const channel = channels[effector];
    if (channel === undefined) return [];
    const demand = series(sumOf(channel.functions), padeDelay(channel.actuator.delay, padeOrder));
    return [{ effector, system: series(demand, actuatorLag(channel.actuator)) }];
  });
  if (parts.length === 0) return plant;
  const all = append([plant, ...parts.map(({ system }) => system)]);
  const K = new Float64Array(all.inputs * all.outputs);
  parts.forEach(({ effector }, i) => {
    // surface ← channel output; channel inputs ← signals
    K[EFFECTORS.indexOf(effector) * all.outputs + plant.outputs + i] = 1;
    for (let k = 0; k < SIGNALS.length; k++) K[(plant.inputs + i * SIGNALS.length + k) * all.outputs + k] = 1;
  });
  const range = (length: number) => Array.from({ length }, (_, i) => i);
  return select(closeLoops(all, K), range(plant.inputs), range(plant.outputs));
}
