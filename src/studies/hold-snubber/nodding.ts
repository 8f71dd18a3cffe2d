import { eigenSystem } from "../../math/eigen/index.ts";
import {
  balanceHarmonics,
  describingRate,
  type SnubberForceLaw,
  speedsWithRate,
  type TangentialRates,
} from "../../physics/snubber/index.ts";
import type { PointModel } from "../hold/index.ts";
import { impedanceOf } from "./impedance.ts";

/** A lasting oscillation of the linear pair with the real law, that harmonic balance finds. */
export interface Cycle {
  /** Rate of the snubber at which the linear pair neither grows nor decays [N·s/m]. */
  readonly rate: number;
  readonly omega: number;
  /** Amplitudes: speed [m/s] and travel [m] across the snubber, travel of the tip [m], pitch [rad]. */
  readonly speed: number;
  readonly travel: number;
  readonly tip: number;
  readonly pitch: number;
  /** Motion near it ends in it; else motion beyond it grows and motion below it dies out, or the other way round. */
  readonly attracts: boolean;
}

/** A rate at which the least damped longitudinal oscillation changes sign. */
export interface NeutralRate {
  readonly rate: number;
  readonly omega: number;
  /** The pair decays with a larger rate and grows with a smaller one. */
  readonly stableAbove: boolean;
}

const RATES = 61;
const LEAST_RATE = 1;
const LARGEST_RATE = 1e7;
const HALVINGS = 50;

/** Growth [1/s] and frequency [rad/s] of the least damped longitudinal oscillation for a path. */
export function growthOf(model: PointModel, rates: TangentialRates): { growth: number; omega: number } {
  let growth = Number.NEGATIVE_INFINITY;
  let omega = 0;
  for (const mode of model.modes(rates, "longitudinal")) {
    if (mode.imag === 0 || mode.real <= growth) continue;
    growth = mode.real;
    omega = mode.imag;
  }
  return { growth, omega };
}

/**
 * Rates between 1 N·s/m and 10 MN·s/m at which the least damped longitudinal oscillation is neutral, rising; to 1e-12.
 */
export function neutralRates(model: PointModel, rates: TangentialRates): NeutralRate[] {
  const at = (i: number): number => LEAST_RATE * (LARGEST_RATE / LEAST_RATE) ** (i / (RATES - 1));
  const growth = (rate: number): number => growthOf(model, { ...rates, snubber: rate }).growth;
  const found: NeutralRate[] = [];
  let before = growth(at(0));
  for (let i = 1; i < RATES; i++) {
    const after = growth(at(i));
    if (before > 0 !== after > 0) {
      let [low, high] = [at(i - 1), at(i)];
      for (let k = 0; k < HALVINGS && high - low > 1e-12 * high; k++) {
        const middle = Math.sqrt(low * high);
        if (growth(middle) > 0 === before > 0) low = middle;
        else high = middle;
      }
      const rate = Math.sqrt(low * high);
      found.push({ rate, omega: growthOf(model, { ...rates, snubber: rate }).omega, stableAbove: before > 0 });
    }
    before = after;
  }
  return found;
}

/**
 * Lasting oscillations of the pair with a force law, by harmonic balance.
 *
 *     Re λ(N(V)) = 0,  X = V/ω                                                             (README eq. 2)
 *
 * @param law      at the tip
 * @param neutral  of `neutralRates`
 * @param largest  largest amplitude at the tip that is looked for [m]
 * @returns cycles by rising amplitude at the tip
 */
export function cyclesOf(
  model: PointModel,
  rates: TangentialRates,
  law: SnubberForceLaw,
  neutral: readonly NeutralRate[],
  largest: number,
): Cycle[] {
  const cycles = neutral.flatMap(({ rate, omega, stableAbove }) => {
    const path = { ...rates, snubber: rate };
    const tipPerTravel = tipShare(path, omega);
    const most = (largest * omega) / tipPerTravel;
    return speedsWithRate(law, rate, 1e-7 * most, most).map(({ speed, rises }): Cycle => {
      const travel = speed / omega;
      return {
        ...{ rate, omega, speed, travel },
        tip: travel * tipPerTravel,
        pitch: travel * pitchShare(model, path, omega),
        attracts: rises === stableAbove,
      };
    });
  });
  return cycles.sort((a, b) => a.tip - b.tip);
}

/** A lasting oscillation with its odd harmonics. */
export interface RefinedCycle {
  readonly omega: number;
  /** Largest travel of the tip over a cycle [m]. */
  readonly tip: number;
}

/** Odd harmonics that are balanced: 1, 3, 5, 7. */
const HARMONICS = 4;
const SAMPLES = 720;

/**
 * A cycle with its harmonics 1, 3, 5 and 7; `null` where the balance does not close.
 *
 *     Z(inω)·W_n + F_n = 0,  X_n = S_n + (k_a·S_n + F_n)/(k_b + inω·c_b),  S_n = W_n/(inω)      (README eq. 3)
 */
export function refine(
  model: PointModel,
  rates: TangentialRates,
  law: SnubberForceLaw,
  cycle: Cycle,
): RefinedCycle | null {
  const found = balanceHarmonics(law, impedanceOf(model, rates, cycle.rate), cycle, HARMONICS);
  if (found.outcome !== "balanced") return null;
  const { omega, speed, force } = found;
  const { bending, bendingDamping, accumulator } = rates;
  const [re, im] = [new Float64Array(HARMONICS), new Float64Array(HARMONICS)];
  for (let k = 0; k < HARMONICS; k++) {
    const w = (2 * k + 1) * omega;
    const [sr, si] = [speed[2 * k + 1] / w, -speed[2 * k] / w];
    const [fr, fi] = [accumulator * sr + force[2 * k], accumulator * si + force[2 * k + 1]];
    const square = bending ** 2 + (w * bendingDamping) ** 2;
    re[k] = sr + (fr * bending + fi * w * bendingDamping) / square;
    im[k] = si + (fi * bending - fr * w * bendingDamping) / square;
  }
  let tip = 0;
  for (let j = 0; j < SAMPLES; j++) {
    let x = 0;
    for (let k = 0; k < HARMONICS; k++) {
      const angle = ((2 * k + 1) * Math.PI * j) / SAMPLES;
      x += re[k] * Math.cos(angle) - im[k] * Math.sin(angle);
    }
    tip = Math.max(tip, Math.abs(x));
  }
  return { omega, tip };
}

/** Tip travel per travel across the snubber at a frequency: |1 + (k_a + iωc)/(k_b + iωc_b)|. */
export function tipShare(path: TangentialRates, omega: number): number {
  const { bending, bendingDamping, accumulator, snubber } = path;
  return (
    Math.hypot(bending + accumulator, omega * (bendingDamping + snubber)) / Math.hypot(bending, omega * bendingDamping)
  );
}

/** Pitch per travel across the snubber in the oscillation of a frequency [rad/m]. */
function pitchShare(model: PointModel, path: TangentialRates, omega: number): number {
  const { matrix, size, names } = model.matrix(path);
  const { re, im, vectors } = eigenSystem(matrix, size);
  let best = -1;
  for (let i = 0; i < size; i++) {
    if (im[i] <= 0) continue;
    if (best < 0 || Math.hypot(re[i], im[i] - omega) < Math.hypot(re[best], im[best] - omega)) best = i;
  }
  // the columns of a pair hold real and imaginary part, as `eigenvectors` says
  const sizeOf = (name: string): number => {
    const row = names.indexOf(name);
    return Math.hypot(vectors[row * size + best], vectors[row * size + best + 1]);
  };
  return sizeOf("pitch") / sizeOf("snubber travel");
}

/** What becomes of motion that starts small, and of motion that starts larger. */
export type NoddingOutcome = "dies out" | "nods" | "nods after an upset" | "grows" | "grows after an upset";

/**
 * Outcome from the growth of the smallest motion, the cycles by rising amplitude and the growth of the largest motion that the model
 * reaches: the largest cycle decides, since an upset may start the motion anywhere.
 */
export function outcomeOf(
  smallGrowth: number,
  cycles: readonly { readonly attracts: boolean }[],
  largeGrowth: number,
): NoddingOutcome {
  const last = cycles.at(-1);
  if (last === undefined) {
    if (largeGrowth > 0) return smallGrowth > 0 ? "grows" : "grows after an upset";
    return "dies out";
  }
  if (!last.attracts) return "grows after an upset";
  return smallGrowth > 0 && cycles.length === 1 ? "nods" : "nods after an upset";
}

/** Growth of the smallest motion: with the bleed alone, or with the snubber held fast by friction. */
export function smallestGrowth(model: PointModel, rates: TangentialRates, law: SnubberForceLaw): number {
  const snubber = law.friction > 0 ? Number.POSITIVE_INFINITY : law.linear;
  return growthOf(model, { ...rates, snubber }).growth;
}

/** Rate of the law in a motion of an amplitude and frequency across the snubber, friction included. */
export function rateIn(law: SnubberForceLaw, amplitude: number, omega: number): number {
  return describingRate(law, amplitude * omega);
}
