import { eigenSystem } from "../../math/eigen/index.ts";
import { integrate } from "../../math/ode/index.ts";
import { eulerFromQuaternion, rotationMatrix } from "../../math/rotation/index.ts";
import { type HookedPair, hookedPair, linearise, perturb } from "../../physics/bodies/index.ts";
import type { NonlinearSnubber, TangentialRates } from "../../physics/snubber/index.ts";
import { type HoldInputs, type PointModel, settingsAt } from "../hold/index.ts";
import type { Cycle } from "./nodding.ts";

/** How a simulated oscillation ends. */
export interface Settled {
  readonly outcome: "settles" | "dies out" | "grows" | "does not settle";
  /** Amplitudes over the last cycles: tip travel [m] and pitch [rad]; frequency [rad/s]. */
  readonly tip: number;
  readonly pitch: number;
  readonly omega: number;
  /** Simulated time [s]. */
  readonly time: number;
}

/** Cycles integrated between two looks, least and most of them. */
const CYCLES = 6;
const MOST_CHUNKS = 60;
/** Change of the amplitude from one look to the next, as a share, below which it has settled. */
const SETTLED = 1e-4;

/** Nonlinear pair with a force law of the snubber in place of its rate. */
export function nonlinearPair(
  inputs: HoldInputs,
  model: PointModel,
  rates: TangentialRates,
  snubber: NonlinearSnubber,
): HookedPair {
  const settings = settingsAt(inputs, model.at);
  const { bending, accumulator } = rates;
  // the law of the hardware acts across a jack travel without inertia: bending motions of the boom are left out here
  const { motions: _motions, ...rigid } = settings.boom;
  return hookedPair({ ...settings, boom: { ...rigid, bending, accumulator, snubber: 0, nonlinear: snubber } });
}

/**
 * Oscillation of the nonlinear pair from a share of a cycle's amplitude to where it settles.
 *
 * It starts in the shape of the linear oscillation at the cycle's rate, and ends when the amplitude of the tip no longer
 * changes by 1e-4 in six cycles, when it has died out or when it leaves the range that is looked for.
 *
 * @param cycle   where to start
 * @param share   of the cycle's amplitude [1]
 * @param largest amplitude at the tip at which it counts as growing [m]
 */
export function settle(
  inputs: HoldInputs,
  model: PointModel,
  rates: TangentialRates,
  snubber: NonlinearSnubber,
  cycle: Cycle,
  share: number,
  largest: number,
): Settled {
  const pair = nonlinearPair(inputs, model, rates, snubber);
  const length = inputs.boom.length;
  const { tip } = pair.motion.layout;
  const angleDown = model.at.boomAngleDown;
  const travel = (y: Float64Array): number => length * (Math.atan2(y[tip + 2], -y[tip]) - angleDown);
  const swinging = (_t: number, y: Float64Array): number => y[tip + 2] * y[tip + 3] - y[tip] * y[tip + 5];
  const pitching = (_t: number, y: Float64Array): number => y[11];
  const euler = new Float64Array(3);
  let y = startIn(pair, model, { ...rates, snubber: cycle.rate }, cycle, share * cycle.travel);
  let t = 0;
  let before = 0;
  let found = { tip: 0, pitch: 0, omega: cycle.omega };
  let outcome: Settled["outcome"] = "does not settle";
  for (let chunk = 0; chunk < MOST_CHUNKS; chunk++) {
    const run = integrate({
      derivative: pair.motion.derivative,
      y0: y,
      from: t,
      to: t + (CYCLES * 2 * Math.PI) / cycle.omega,
      relativeTolerance: 1e-6,
      absoluteTolerance: 1e-8,
      maxSteps: 20_000,
      events: [{ value: swinging }, { value: pitching }],
    });
    if (run.outcome !== "reached") {
      outcome = "grows";
      break;
    }
    ({ y, t } = run);
    const swings = run.events.filter((hit) => hit.event === 0);
    const pitches = run.events
      .filter((hit) => hit.event === 1)
      .map((hit) => {
        eulerFromQuaternion(hit.y, 3, euler);
        return euler[1];
      });
    if (swings.length < 5) break;
    found = {
      tip: halfRange(swings.map((hit) => travel(hit.y))),
      pitch: halfRange(pitches),
      omega: (Math.PI * (swings.length - 1)) / (swings[swings.length - 1].t - swings[0].t),
    };
    if (found.tip > largest) outcome = "grows";
    else if (found.tip < 1e-3 * share * cycle.tip) outcome = "dies out";
    else if (chunk > 0 && Math.abs(found.tip - before) < SETTLED * found.tip) outcome = "settles";
    if (outcome !== "does not settle") break;
    before = found.tip;
  }
  return { outcome, ...found, time: t };
}

/** Half the distance of successive extremes, over the last four of them. */
function halfRange(extremes: readonly number[]): number {
  const last = extremes.slice(-5);
  let sum = 0;
  for (let i = 1; i < last.length; i++) sum += Math.abs(last[i] - last[i - 1]);
  return last.length < 2 ? 0 : sum / (2 * (last.length - 1));
}

/** State in the shape of the oscillation at a cycle's rate, with a travel across the snubber [m]. */
function startIn(
  pair: HookedPair,
  model: PointModel,
  path: TangentialRates,
  cycle: Cycle,
  travel: number,
): Float64Array {
  const { matrix, size, names } = model.matrix(path);
  const { re, im, vectors } = eigenSystem(matrix, size);
  let mode = -1;
  for (let i = 0; i < size; i++) {
    if (im[i] <= 0) continue;
    const off = Math.hypot(re[i], im[i] - cycle.omega);
    if (mode < 0 || off < Math.hypot(re[mode], im[mode] - cycle.omega)) mode = i;
  }
  const at = names.indexOf("snubber travel");
  const [a, b] = [vectors[at * size + mode], vectors[at * size + mode + 1]];
  // turned so that the travel across the snubber is real
  const scale = travel / (a * a + b * b);
  const real = (i: number): number => scale * (vectors[i * size + mode] * a + vectors[i * size + mode + 1] * b);
  const { basis, coordinates } = linearise(model.pair.motion, model.pair.state);
  const full = basis.length / coordinates;
  const x = new Float64Array(2 * full + pair.motion.stateCount - pair.motion.layout.snubber);
  for (let i = 0; i < full; i++) {
    for (let k = 0; k < coordinates; k++) {
      x[i] += basis[i * coordinates + k] * real(k);
      x[full + i] += basis[i * coordinates + k] * real(coordinates + k);
    }
  }
  for (let e = 2 * coordinates; e < size; e++) x[2 * full + e - 2 * coordinates] = real(e);
  const state = new Float64Array(pair.motion.stateCount);
  perturb(pair.state, x, full, pair.motion.layout, state);
  joinTip(pair, state);
  return state;
}

/** Puts the boom tip on the probe, in place and speed: the shape is linear, the motion need not be small. */
function joinTip({ motion, settings }: HookedPair, state: Float64Array): void {
  const R = new Float64Array(9);
  rotationMatrix(state, 3, R);
  const [px, py, pz] = settings.probe;
  const [p, q, r] = [state[10], state[11], state[12]];
  const arm = [px, py, pz];
  const turning = [q * pz - r * py, r * px - p * pz, p * py - q * px];
  const { tip } = motion.layout;
  for (let i = 0; i < 3; i++) {
    state[tip + i] = state[i];
    state[tip + 3 + i] = state[7 + i];
    for (let k = 0; k < 3; k++) {
      state[tip + i] += R[3 * i + k] * arm[k];
      state[tip + 3 + i] += R[3 * i + k] * turning[k];
    }
  }
}
