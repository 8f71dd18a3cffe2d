import { bracketedRoot, goldenMaximum } from "../roots/index.ts";
import { type ComplexOf, type Curve, type CurveRange, followLoop } from "./samples.ts";

/** A frequency at which |L| = 1. */
export interface GainCrossing {
  /** [rad/s] */
  readonly omega: number;
  /** arg L + π, in (−π, π]: lag that brings L to −1 when positive, lead when negative [rad]. */
  readonly phaseMargin: number;
  /** Delay that brings L to −1, from 0 up to one turn [s]. */
  readonly delayMargin: number;
}

/** A frequency at which L is real and negative. */
export interface PhaseCrossing {
  /** [rad/s] */
  readonly omega: number;
  /** Factor on the gain that brings L to −1 [1]; above 1 the gain may rise by it, below 1 it may fall to it. */
  readonly gainFactor: number;
}

/** Distances of a loop transfer L from −1, for negative feedback 1 + L. They are margins only if the closed loop is stable. */
export interface LoopMargins {
  readonly gainCrossings: readonly GainCrossing[];
  readonly phaseCrossings: readonly PhaseCrossing[];
  /** Smallest factor above 1, and largest below 1, that brings L to −1; `null` when no factor in reach does. */
  readonly gainIncrease: number | null;
  readonly gainDecrease: number | null;
  /** Smallest size of a phase margin over all gain crossings [rad]; `null` without a crossing. */
  readonly phaseMargin: number | null;
  /** Smallest delay margin over all gain crossings [s]; `null` without a crossing. */
  readonly delayMargin: number | null;
  /** Smallest |1 + L| and where: 1 over it is the peak of the sensitivity. */
  readonly closest: { readonly omega: number; readonly distance: number };
  readonly curve: Curve;
}

const TWO_PI = 2 * Math.PI;

/** Angle brought into (−π, π]. */
function wrapped(angle: number): number {
  const turned = angle - TWO_PI * Math.round(angle / TWO_PI);
  return turned <= -Math.PI ? turned + TWO_PI : turned;
}

/**
 * Gain, phase and delay margins of a loop, at every crossing.
 *
 *     |L(jω_c)| = 1:  φ_m = arg L + π,  τ_m = (φ_m mod 2π)/ω_c;   L(jω_u) < 0:  g = −1/L(jω_u)           (5)
 *
 * Says nothing about stability: judge that by closed-loop roots or by `rootsRightOf`.
 *
 * @param loop   L(jω), with the exact delay if it has one
 * @param range  frequencies that are searched
 * @throws {DomainError} for a range that is not positive and rising
 * @source definitions, README eq. 5
 * @verified margins.test.ts: analytic/delayed-integrator, K/(s(s+1)(s+2)), conditionally stable loop, delay margin against roots;
 * generated/loop-margins
 */
export function loopMargins(loop: ComplexOf, range: CurveRange): LoopMargins {
  const curve = followLoop(loop, range);
  const value = new Float64Array(2);
  const sizeAt = (logOmega: number): number => {
    loop(Math.exp(logOmega), value);
    return Math.log(Math.hypot(value[0]!, value[1]!));
  };
  const imagAt = (logOmega: number): number => {
    loop(Math.exp(logOmega), value);
    return value[1]!;
  };
  const gainCrossings: GainCrossing[] = [];
  const phaseCrossings: PhaseCrossing[] = [];
  const { omega, re, im } = curve;
  for (let i = 1; i < omega.length; i++) {
    const before = Math.hypot(re[i - 1]!, im[i - 1]!);
    const after = Math.hypot(re[i]!, im[i]!);
    const [from, to] = [Math.log(omega[i - 1]!), Math.log(omega[i]!)];
    if (before > 1 !== after > 1) {
      const at = Math.exp(bracketedRoot(sizeAt, from, to, 1e-12).x);
      loop(at, value);
      const lag = Math.atan2(value[1]!, value[0]!) + Math.PI;
      const turned = lag - TWO_PI * Math.floor(lag / TWO_PI);
      gainCrossings.push({ omega: at, phaseMargin: wrapped(lag), delayMargin: turned / at });
    }
    if (im[i - 1]! > 0 !== im[i]! > 0 && Math.min(re[i - 1]!, re[i]!) < 0) {
      const at = Math.exp(bracketedRoot(imagAt, from, to, 1e-12).x);
      loop(at, value);
      if (value[0]! < 0) phaseCrossings.push({ omega: at, gainFactor: -1 / value[0]! });
    }
  }
  const factors = phaseCrossings.map((crossing) => crossing.gainFactor);
  const least = (values: readonly number[]): number | null => (values.length > 0 ? Math.min(...values) : null);
  const below = factors.filter((factor) => factor < 1);
  return {
    ...{ gainCrossings, phaseCrossings, curve },
    gainIncrease: least(factors.filter((factor) => factor >= 1)),
    gainDecrease: below.length > 0 ? Math.max(...below) : null,
    phaseMargin: least(gainCrossings.map((crossing) => Math.abs(crossing.phaseMargin))),
    delayMargin: least(gainCrossings.map((crossing) => crossing.delayMargin)),
    closest: closestTo(loop, curve),
  };
}

function closestTo(loop: ComplexOf, { omega, re, im }: Curve): LoopMargins["closest"] {
  let best = 0;
  for (let i = 1; i < omega.length; i++) {
    if (Math.hypot(1 + re[i]!, im[i]!) < Math.hypot(1 + re[best]!, im[best]!)) best = i;
  }
  const value = new Float64Array(2);
  const nearness = (logOmega: number): number => {
    loop(Math.exp(logOmega), value);
    return -Math.hypot(1 + value[0]!, value[1]!);
  };
  const from = Math.log(omega[Math.max(0, best - 1)]!);
  const to = Math.log(omega[Math.min(omega.length - 1, best + 1)]!);
  const found = goldenMaximum(nearness, from, to, 1e-8);
  return { omega: Math.exp(found.x), distance: -found.value };
}
