import {
  type Curve,
  followLoop,
  type LinearSystem,
  padeDelay,
  select,
  series,
  TransferFunction,
} from "../../math/linear-system/index.ts";
import { goldenMaximum } from "../../math/roots/index.ts";
import {
  actuatorLag,
  type Channels,
  type ControlFunction,
  closedSystem,
  damperOf,
  EFFECTORS,
  pilotFunction,
  SIGNALS,
  type TunedPilot,
  tunePilot,
} from "../../physics/pilot/index.ts";
import type { StatePlant } from "./attachments.ts";
import { judgeLoop, LOOP_RANGE, openLoop, unwrapped } from "./loops.ts";
import { type ControlSettings, channelsOf } from "./settings.ts";
import type { GainSet } from "./types.ts";

export type PilotAxis = "pitch" | "bank";
/** A phase that falls through −180° above it matters to no pilot [rad/s]. */
const FASTEST_180 = 30;
/** Angle per deflection below which a surface moves nothing. */
const SILENT = 1e-9;
export const SURFACE = { pitch: "elevator", bank: "aileron" } as const;

/** What goes on working while a pilot flies an axis: everything on other surfaces, and of the hold on this one its damping. */
export function besidePilot(functions: readonly ControlFunction[], axis: PilotAxis): ControlFunction[] {
  return functions.flatMap((each) => {
    if (each.effector !== SURFACE[axis]) return [each];
    return each.name === "pitch hold" || each.name === "roll hold" ? [damperOf(each)] : [];
  });
}

/** Aircraft and actuator from the pilot's deflection to everything sensed; the delay of the actuator stands apart. */
function controlled(of: StatePlant, settings: ControlSettings, set: GainSet, axis: PilotAxis) {
  const beside = channelsOf(settings, besidePilot(settings.gains[set], axis));
  const closed = closedSystem(of.plant, beside, settings.padeOrder);
  const signals = SIGNALS.map((_, i) => i);
  return series(
    actuatorLag(settings.actuators[SURFACE[axis]]),
    select(closed, [EFFECTORS.indexOf(SURFACE[axis])], signals),
  );
}

/** The same as a transfer function to the angle that the pilot watches. */
const towards = (system: LinearSystem, axis: PilotAxis): TransferFunction =>
  new TransferFunction(select(system, [0], [SIGNALS.indexOf(axis)]));

/** A pilot who has learnt to fly an axis in one state; `null` when the surface moves nothing there that could be learnt. */
export function learnt(of: StatePlant, settings: ControlSettings, set: GainSet, axis: PilotAxis): TunedPilot | null {
  const transfer = towards(controlled(of, settings, set, axis), axis);
  const out = new Float64Array(2);
  transfer.evaluate(0, settings.pilot.crossover[axis], out);
  if (!(Math.hypot(out[0], out[1]) > SILENT)) return null;
  return tunePilot((omega, to) => transfer.evaluate(0, omega, to), {
    crossover: settings.pilot.crossover[axis],
    neuromuscularLag: settings.pilot.neuromuscularLag,
    largestLead: settings.pilot.largestLead,
    largestLag: settings.pilot.largestLag,
  });
}

/** Channels for time: the pilot, delay by Padé, adds to what goes on working on the same surface. */
export function pilotChannels(
  settings: ControlSettings,
  functions: readonly ControlFunction[],
  axis: PilotAxis,
  pilot: TunedPilot,
): Channels {
  const own = pilotFunction(axis, pilot);
  const late = { ...own, system: series(own.system, padeDelay(settings.pilot.delay, settings.padeOrder)) };
  return channelsOf(settings, [...besidePilot(functions, axis), late]);
}

/** Peak of |L/(1 + L)| along a loop's curve, refined. */
function resonance(loop: (omega: number, out: Float64Array) => void, { omega, re, im }: Curve) {
  const out = new Float64Array(2);
  const peak = (logOmega: number): number => {
    loop(Math.exp(logOmega), out);
    return Math.hypot(out[0], out[1]) / Math.hypot(1 + out[0], out[1]);
  };
  let best = 0;
  const size = (i: number): number => Math.hypot(re[i], im[i]) / Math.hypot(1 + re[i], im[i]);
  for (let i = 1; i < omega.length; i++) if (size(i) > size(best)) best = i;
  const from = Math.log(omega[Math.max(0, best - 1)]);
  const to = Math.log(omega[Math.min(omega.length - 1, best + 1)]);
  const found = goldenMaximum(peak, from, to, 1e-8);
  return { value: found.value, omega: Math.exp(found.x) };
}

/**
 * Phase delay of the aircraft as the pilot meets it, actuator and its delay included.
 *
 *     τ_p = −(φ(2ω₁₈₀) + π)/(2ω₁₈₀),  φ(ω₁₈₀) = −π, the first above the crossover                      (README eq. 3)
 *
 * `null` when the phase does not fall through −180° there below 30 rad/s.
 */
function phaseDelay(transfer: TransferFunction, sign: number, delay: number, crossover: number) {
  const at = (omega: number, out: Float64Array): void => {
    transfer.evaluate(0, omega, out);
    const c = sign * Math.cos(delay * omega);
    const s = -sign * Math.sin(delay * omega);
    const re = out[0];
    out[0] = re * c - out[1] * s;
    out[1] = re * s + out[1] * c;
  };
  const curve = followLoop(at, { from: crossover, to: LOOP_RANGE.to, perDecade: 120 });
  const phase = unwrapped(curve);
  // a lead of up to a quarter turn at the crossover is a lead, not most of a turn of lag
  if (phase[0] < -1.5 * Math.PI) for (let i = 0; i < phase.length; i++) phase[i] += 2 * Math.PI;
  let omega180: number | null = null;
  for (let i = 1; i < phase.length && omega180 === null; i++) {
    if (phase[i - 1] > -Math.PI && phase[i] <= -Math.PI) {
      const share = (phase[i - 1] + Math.PI) / (phase[i - 1] - phase[i]);
      omega180 = curve.omega[i - 1] * (curve.omega[i] / curve.omega[i - 1]) ** share;
    }
  }
  if (omega180 === null || omega180 > FASTEST_180) return { value: null, omega180: null };
  const after = curve.omega.findIndex((omega) => omega >= 2 * (omega180 as number));
  return { value: Math.max(0, -(phase[after] + Math.PI) / (2 * omega180)), omega180 };
}

/** A pilot who learnt in one state, flying in another: loop, margins, resonance, phase delay of the aircraft. */
export function pilotLoop(
  of: StatePlant,
  settings: ControlSettings,
  set: GainSet,
  axis: PilotAxis,
  pilot: TunedPilot,
  shift: number,
) {
  const aircraft = controlled(of, settings, set, axis);
  const { delay } = settings.actuators[SURFACE[axis]];
  const open = series(aircraft, pilotFunction(axis, pilot).system);
  const loop = openLoop({ open, delay: delay + settings.pilot.delay }, settings.padeOrder);
  const judged = judgeLoop(loop, shift);
  const peak = judged.growing > 0 ? null : resonance((omega, out) => loop.at(0, omega, out), judged.margins.curve);
  // elevator down turns the nose down, aileron to the right rolls right: the sign of what the pilot wants
  const sign = axis === "pitch" ? -1 : 1;
  const late = phaseDelay(towards(aircraft, axis), sign, delay, settings.pilot.crossover[axis]);
  return { judged, peak, delay: late };
}
