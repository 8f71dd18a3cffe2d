import { integrate } from "../../math/ode/index.ts";
import { eulerFromQuaternion } from "../../math/rotation/index.ts";
import { type HookedPair, hookedPair } from "../../physics/bodies/index.ts";
import type { NonlinearSnubber, TangentialRates } from "../../physics/snubber/index.ts";
import { type HoldInputs, type PointModel, settingsAt } from "../hold/index.ts";

/** How a simulated oscillation ends. */
export interface Settled {
  readonly outcome: "settles" | "dies out" | "grows" | "does not settle";
  /** Amplitudes over the last cycles: tip travel [m] and pitch [rad]; frequency [rad/s]. */
  readonly tip: number;
  readonly pitch: number;
  readonly omega: number;
  /** Simulated time [s]. */
  readonly time: number;
  /** Amplitude of the tip from extreme to extreme. */
  readonly looks: readonly Look[];
}

/** Cycles integrated between two looks, least and most of them. */
const CYCLES = 6;
const MOST_CHUNKS = 60;
/** Change of the amplitude from one look to the next, as a share, below which it has settled. */
const SETTLED = 1e-4;
/** Share of the amplitude at the start below which it has died out. */
const DIED = 1e-3;

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

/** Amplitude of the tip at a time, between two of its extremes. */
export interface Look {
  readonly t: number;
  readonly tip: number;
}

/**
 * Oscillation of the nonlinear pair from a state to where it settles, in all its coordinates.
 *
 * It ends when the amplitude of the tip no longer changes by 1e-4 in six cycles, when it has died out or when it leaves the range that
 * is looked for.
 *
 * @param start   full state of the pair, the frequency to expect [rad/s] and the amplitude of the tip there [m]
 * @param largest travel of the tip at which it counts as growing, and ends [m]
 */
export function settle(
  pair: HookedPair,
  start: { readonly state: Float64Array; readonly omega: number; readonly tip: number },
  largest: number,
): Settled {
  const { length, angleDown } = pair.settings.boom;
  const { tip } = pair.motion.layout;
  const travel = (y: Float64Array): number => length * (Math.atan2(y[tip + 2], -y[tip]) - angleDown);
  const swinging = (_t: number, y: Float64Array): number => y[tip + 2] * y[tip + 3] - y[tip] * y[tip + 5];
  const pitching = (_t: number, y: Float64Array): number => y[11];
  const leaving = (_t: number, y: Float64Array): number => Math.abs(travel(y)) - largest;
  const euler = new Float64Array(3);
  let y: Float64Array = start.state;
  let t = 0;
  let before = 0;
  let found = { tip: 0, pitch: 0, omega: start.omega };
  const extremes: Look[] = [];
  let outcome: Settled["outcome"] = "does not settle";
  for (let chunk = 0; chunk < MOST_CHUNKS; chunk++) {
    const run = integrate({
      derivative: pair.motion.derivative,
      y0: y,
      from: t,
      to: t + (CYCLES * 2 * Math.PI) / start.omega,
      relativeTolerance: 1e-6,
      // a share of the motion, which may be a small one
      absoluteTolerance: Math.min(1e-8, 1e-6 * start.tip),
      maxSteps: 20_000,
      events: [{ value: swinging }, { value: pitching }, { value: leaving, direction: "rising", terminal: true }],
    });
    const swings = run.events.filter((hit) => hit.event === 0);
    for (const hit of swings) extremes.push({ t: hit.t, tip: travel(hit.y) });
    ({ y, t } = run);
    const pitches = run.events
      .filter((hit) => hit.event === 1)
      .map((hit) => {
        eulerFromQuaternion(hit.y, 3, euler);
        return euler[1];
      });
    if (swings.length > 2) {
      found = {
        tip: halfRange(swings.map((hit) => travel(hit.y))),
        pitch: halfRange(pitches),
        omega: (Math.PI * (swings.length - 1)) / (swings[swings.length - 1].t - swings[0].t),
      };
    }
    if (run.outcome !== "reached") {
      outcome = "grows";
      break;
    }
    // what no longer swings has come to rest
    if (swings.length < 5) {
      if (extremes.length > 0 && Math.abs(travel(y)) < start.tip) outcome = "dies out";
      break;
    }
    if (found.tip < DIED * start.tip) outcome = "dies out";
    else if (chunk > 0 && Math.abs(found.tip - before) < SETTLED * found.tip) outcome = "settles";
    if (outcome !== "does not settle") break;
    before = found.tip;
  }
  const looks = extremes.slice(1).map((each, i) => ({
    t: 0.5 * (each.t + extremes[i].t),
    tip: 0.5 * Math.abs(each.tip - extremes[i].tip),
  }));
  return { outcome, ...found, time: t, looks };
}

/** Half the distance of successive extremes, over the last four of them. */
function halfRange(extremes: readonly number[]): number {
  const last = extremes.slice(-5);
  let sum = 0;
  for (let i = 1; i < last.length; i++) sum += Math.abs(last[i] - last[i - 1]);
  return last.length < 2 ? 0 : sum / (2 * (last.length - 1));
}
