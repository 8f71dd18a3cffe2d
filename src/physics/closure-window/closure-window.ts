import { requirePositive } from "../../math/require.ts";
import { type LatchSettings, tripEnergy } from "../latch/index.ts";
import { type BufferSettings, bufferEnergy } from "../socket/index.ts";

/** What the window rests on; SI, all along the axis of the socket unless it says otherwise. */
export interface ClosureWindowSettings {
  readonly latch: LatchSettings;
  readonly buffer: BufferSettings;
  /** Aircraft as it moves at the probe's head, along the axis and along the boom [kg]. */
  readonly aircraft: { readonly along: number; readonly boom: number };
  /** Boom tip: mass [kg] and static stiffness [N/m] along the axis. */
  readonly tip: { readonly mass: number; readonly stiffness: number };
  /** Bore's side stiffness in series with the boom's axial stiffness [N/m]; share of the speed that points along the boom [1]. */
  readonly arc: { readonly stiffness: number; readonly share: number };
  /** Limit loads along and across the probe [N]. */
  readonly limits: { readonly axial: number; readonly side: number };
}

export type UpperReason =
  | "buffer comes to its stop"
  | "push along the probe"
  | "rebound against the hooks"
  | "load across the probe";

export interface ClosedFormWindow {
  /** [m/s]; `lower` may exceed `upper`: then there is no window. */
  readonly lower: number;
  readonly upper: number;
  readonly upperBecause: UpperReason;
  /** Speed of each upper end [m/s]; infinite where it is never reached. */
  readonly ends: Readonly<Record<UpperReason, number>>;
}

/**
 * Closure window by energy.
 *
 * @param settings masses, springs and limits, all above 0; the share of the speed along the boom 0 … 1
 * @returns speeds along the axis [m/s]
 * @throws {DomainError} for a mass, stiffness or limit that is not positive
 * @source own derivation, README eq. 1–5
 * @verified closure-window.test.ts: limits and energies put back; studies/hookon/window.test.ts against the motion
 */
export function closureWindow(settings: ClosureWindowSettings): ClosedFormWindow {
  const { latch, buffer, aircraft, tip, arc, limits } = settings;
  requirePositive("aircraft's mass along the axis", aircraft.along);
  requirePositive("aircraft's mass along the boom", aircraft.boom);
  requirePositive("mass of the tip", tip.mass);
  requirePositive("stiffness of the tip", tip.stiffness);
  requirePositive("limit load along the probe", limits.axial);
  requirePositive("limit load across the probe", limits.side);
  const m = aircraft.along;
  const speed = (energy: number): number => Math.sqrt((2 * energy) / m);
  const inTip = (force: number): number => (force * force) / (2 * tip.stiffness);
  const { preload: P, stiffness: k, stroke: X } = buffer;
  const push = latch.force.reduce((a, b) => Math.max(a, b), 0);
  const inBuffer = push > P ? (push * push - P * P) / (2 * k) : 0;
  const stop = P + k * X;
  const reduced = (m * tip.mass) / (m + tip.mass);
  const across = arc.share * Math.sqrt(arc.stiffness * aircraft.boom);
  const ends = {
    "buffer comes to its stop": speed(bufferEnergy(buffer) + inTip(stop)),
    "push along the probe": pushEnd(limits.axial),
    "rebound against the hooks": limits.axial / Math.sqrt(latch.stiffness * reduced),
    "load across the probe": across > 0 ? limits.side / across : Number.POSITIVE_INFINITY,
  } as const satisfies Record<UpperReason, number>;
  function pushEnd(force: number): number {
    if (force > stop) return Number.POSITIVE_INFINITY;
    const x = Math.max(0, (force - P) / k);
    return speed(P * x + 0.5 * k * x * x + inTip(force));
  }
  const reasons = Object.keys(ends) as UpperReason[];
  const upperBecause = reasons.reduce((a, b) => (ends[b] < ends[a] ? b : a));
  return { lower: speed(tripEnergy(latch) + inBuffer + inTip(push)), upper: ends[upperBecause], upperBecause, ends };
}
