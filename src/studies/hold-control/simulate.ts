import { integrate } from "../../math/ode/index.ts";
import { eulerFromQuaternion, quaternionFromEuler, rotationMatrix } from "../../math/rotation/index.ts";
import type { AircraftMotion } from "../../physics/pilot/index.ts";
import type { Held } from "./attachments.ts";
import type { LimitName } from "./types.ts";

/** Limits that end a case: change of pitch, of bank [rad], of the force by the tip and of the load of each pin [N]. */
export interface ExcursionLimits {
  readonly pitch: number;
  readonly bank: number;
  readonly load: number;
}

export interface Track {
  readonly time: number[];
  readonly pitch: number[];
  readonly bank: number[];
  readonly load: number[];
  readonly surface: number[];
}

export interface Run {
  readonly outcome: "stayed inside" | "limit reached" | "diverged";
  /** Time of the limit or of the end. */
  readonly time: number;
  readonly limit: LimitName | null;
  readonly state: Float64Array;
  readonly largestShare: number;
  /** The same over the last quarter of the time asked for. */
  readonly lateShare: number;
}

const SAMPLE = 0.05;

/** Where an aircraft is against its limits. */
export class Excursion {
  private readonly held: Held;
  private readonly reference: Pick<AircraftMotion, "pitch" | "bank">;
  private readonly limits: ExcursionLimits;
  private readonly scratch: Float64Array;
  private readonly euler = new Float64Array(3);
  pitch = 0;
  bank = 0;
  load = 0;
  pinLoad = 0;

  constructor(held: Held, reference: Pick<AircraftMotion, "pitch" | "bank">, limits: ExcursionLimits) {
    this.held = held;
    this.reference = reference;
    this.limits = limits;
    this.scratch = new Float64Array(held.motion.stateCount);
  }

  /** Largest share of a limit at a state; leaves pitch, bank [rad] and loads [N] behind. */
  at(state: Float64Array): number {
    const { motion, tipForce, pins } = this.held;
    eulerFromQuaternion(state, 3, this.euler);
    this.pitch = this.euler[1] - this.reference.pitch;
    this.bank = this.euler[2] - this.reference.bank;
    this.load = 0;
    this.pinLoad = 0;
    if (motion.settings.attachment !== "free") {
      motion.derivative(0, state, this.scratch);
      const f = motion.jointForce;
      this.load = Math.hypot(f[0] - tipForce[0], f[1] - tipForce[1], f[2] - tipForce[2]);
      for (const { link, tension, lateral } of pins) {
        const change = Math.hypot(link.tension - tension, link.lateralLoad - lateral);
        if (change > this.pinLoad) this.pinLoad = change;
      }
    }
    return Math.max(...this.shares());
  }

  shares(): [number, number, number] {
    const { pitch, bank, load } = this.limits;
    return [Math.abs(this.pitch) / pitch, Math.abs(this.bank) / bank, Math.max(this.load, this.pinLoad) / load];
  }

  name(): LimitName {
    const [pitch, bank, load] = this.shares();
    if (load >= pitch && load >= bank) return this.pinLoad > this.load ? "pin load" : "socket load";
    return pitch >= bank ? "pitch" : "bank";
  }
}

/**
 * Follows the nonlinear equations until a limit is reached or the time is over, and notes what happens on the way.
 *
 * @param surface reads the deflection to be noted [rad] from a state
 * @param track   is written on
 */
export function follow(
  held: Held,
  excursion: Excursion,
  from: { readonly time: number; readonly state: Float64Array },
  to: number,
  surface: (state: Float64Array) => number,
  track: Track,
): Run {
  let largestShare = 0;
  let lateShare = 0;
  let next = from.time;
  const sample = new Float64Array(from.state.length);
  const note = (time: number, state: Float64Array): void => {
    const share = excursion.at(state);
    largestShare = Math.max(largestShare, share);
    if (time >= to - 0.25 * (to - from.time)) lateShare = Math.max(lateShare, share);
    track.time.push(time);
    track.pitch.push(excursion.pitch);
    track.bank.push(excursion.bank);
    track.load.push(Math.max(excursion.load, excursion.pinLoad));
    track.surface.push(surface(state));
  };
  note(from.time, from.state);
  if (largestShare >= 1) {
    return {
      outcome: "limit reached",
      time: from.time,
      limit: excursion.name(),
      state: from.state,
      largestShare,
      lateShare,
    };
  }
  if (to <= from.time)
    return { outcome: "stayed inside", time: from.time, limit: null, state: from.state, largestShare, lateShare };
  next += SAMPLE;
  const run = integrate({
    derivative: held.motion.derivative,
    y0: from.state,
    from: from.time,
    to,
    relativeTolerance: held.pins.length > 0 ? 1e-5 : 1e-6,
    absoluteTolerance: held.pins.length > 0 ? 1e-7 : 1e-8,
    maxSteps: 40_000,
    maximumStep: 0.1,
    onStep: ({ t, interpolate }) => {
      for (; next <= t; next += SAMPLE) {
        interpolate(next, sample);
        note(next, sample);
      }
    },
    events: [{ value: (_t, y) => excursion.at(y) - 1, direction: "rising", terminal: true }],
  });
  note(run.t, run.y);
  if (run.outcome === "event") {
    return { outcome: "limit reached", time: run.t, limit: excursion.name(), state: run.y, largestShare: 1, lateShare };
  }
  const outcome = run.outcome === "reached" ? "stayed inside" : "diverged";
  return { outcome, time: run.t, limit: null, state: run.y, largestShare, lateShare };
}

const EULER = new Float64Array(3);

/** State at rest turned about the probe (hooked) or the c.g. (free) by pitch and bank [rad]. */
export function upset(
  held: Held,
  reference: Pick<AircraftMotion, "pitch" | "bank">,
  pitch: number,
  bank: number,
): Float64Array {
  const state = held.state.slice();
  eulerFromQuaternion(state, 3, EULER);
  quaternionFromEuler(EULER[0], reference.pitch + pitch, reference.bank + bank, state, 3);
  const { attachment, probe } = held.motion.settings;
  if (attachment === "free" || probe === undefined) return state;
  const R = new Float64Array(9);
  rotationMatrix(state, 3, R);
  const tip = held.motion.layout.tip;
  for (let i = 0; i < 3; i++) {
    state[i] = state[tip + i] - (R[3 * i] * probe[0] + R[3 * i + 1] * probe[1] + R[3 * i + 2] * probe[2]);
  }
  return state;
}

/** Share of a limit up to which an upset may strain the pins. */
const UPSET_SHARE = 0.5;

/**
 * The declared upset, or with latched pins as much of it as leaves every limit half unused: a mechanism that holds the attitude lets no
 * gust turn it as far as one point does.
 *
 * @returns the state, and the share of the upset
 */
export function boundedUpset(
  held: Held,
  excursion: Excursion,
  reference: Pick<AircraftMotion, "pitch" | "bank">,
  pitch: number,
  bank: number,
): { state: Float64Array; share: number } {
  const at = (share: number): Float64Array => upset(held, reference, share * pitch, share * bank);
  if (held.pins.length === 0 || excursion.at(at(1)) <= UPSET_SHARE) return { state: at(1), share: 1 };
  let [low, high] = [0, 1];
  for (let i = 0; i < 40; i++) {
    const middle = 0.5 * (low + high);
    if (excursion.at(at(middle)) <= UPSET_SHARE) low = middle;
    else high = middle;
  }
  return { state: at(low), share: low };
}
