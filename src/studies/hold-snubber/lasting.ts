import type { FourierBalance, FourierMotion, Orbit } from "../../math/periodic/index.ts";
import { describingRate, type NonlinearSnubber, type TangentialRates } from "../../physics/snubber/index.ts";
import type { PointModel } from "../hold/index.ts";
import { type Cycle, growthOf, type RefinedCycle, tipShare } from "./nodding.ts";
import type { MotionSize, NoddingMotion } from "./nodding-motion.ts";

/** Growth of the motion of an amplitude, on the full equations. */
export interface GrowthPoint {
  readonly motion: FourierBalance;
  readonly size: MotionSize;
}

/** A lasting oscillation on the full equations. */
export interface LastingCycle {
  readonly motion: FourierMotion;
  readonly size: MotionSize;
  /** Motion near it ends in it: by the multipliers of the closed orbit, else by the growth on both sides. */
  readonly attracts: boolean;
  /** By shooting; `null` where it was not asked for or did not close. */
  readonly orbit: (Pick<Orbit, "period" | "multipliers"> & { readonly tip: number }) | null;
}

export interface Lasting {
  /** By rising amplitude, up to `reach`. */
  readonly cycles: readonly LastingCycle[];
  readonly curve: readonly GrowthPoint[];
  /** Largest amplitude of the tip that the model reaches [m], and what ends it. */
  readonly reach: number;
  readonly reachEnds: "largest amplitude" | "lift" | "balance";
}

/** A cycle of the linear pair, with its harmonics where they balance. */
export interface LinearCycle {
  readonly cycle: Cycle;
  readonly refined: RefinedCycle | null;
}

/** Amplitudes of the curve over the whole range. */
const POINTS = 9;
/** Least amplitude over the largest, or over the smallest cycle of the linear pair. */
const LEAST = 1 / 400;
const BELOW_FIRST = 0.5;
/** Amplitudes of the curve nearer than this share are one. */
const SAME = 0.02;
/** Cycles of the linear pair within this factor of each other need points of their own. */
const CLOSE = 3;
/** Points put between two of the grid where the balance does not close from one to the next. */
const MOST_STOPS = 3;
/** Points added at most at each place where the growth comes nearest to zero. */
const EXTREMES = 4;
/** Halvings between growth and decay; from where on they are near enough for Newton's method. */
const HALVINGS = 12;
const NARROW = 1.03;
/** Travel at which the first guess of the snubber's rate stands. */
const ROUNDS = 20;

/**
 * Lasting oscillations of the pair with the real law on the full equations of motion, by harmonic balance, and the growth of every
 * other amplitude.
 *
 * The growth μ(A) is followed from small motion up; cycles lie where it changes sign. The search ends
 * where the lift of the motion would exceed its maximum: the airloads say nothing beyond.     (README eq. 8–9)
 *
 * @param linear   cycles of the linear pair
 * @param largest  amplitude that is looked for [m]
 * @param orbits   whether each cycle is closed by shooting too
 */
export function lastingOf(
  motion: NoddingMotion,
  pair: { readonly model: PointModel; readonly rates: TangentialRates; readonly snubber: NonlinearSnubber },
  linear: readonly LinearCycle[],
  { largest, orbits }: { readonly largest: number; readonly orbits: boolean },
): Lasting {
  const smallest = Math.min(largest, ...linear.map(({ cycle }) => BELOW_FIRST * cycle.tip), LEAST * largest);
  const curve = withExtremes(motion, growthCurve(motion, pair, amplitudesOf(linear, smallest, largest)));
  const { reach, reachEnds } = reachOf(curve, largest);
  const found: FourierBalance[] = [];
  for (let i = 1; i < curve.length; i++) {
    const [a, b] = [curve[i - 1].motion, curve[i].motion];
    if (a.parameter > 0 !== b.parameter > 0) found.push(lastingBetween(motion, a, b));
  }
  const cycles = found
    .map((each) => cycleOf(motion, each, orbits))
    .filter(({ size }) => size.tip <= reach)
    .sort((a, b) => a.size.tip - b.size.tip);
  return { cycles, curve, reach, reachEnds };
}

/** The lasting oscillation between two motions, of rising amplitude, of which one grows and one decays. */
export function lastingBetween(motion: NoddingMotion, a: FourierBalance, b: FourierBalance): FourierBalance {
  let [low, high] = [a, b];
  for (let k = 0; k < HALVINGS; k++) {
    const [from, to] = [motion.amplitudeOf(low), motion.amplitudeOf(high)];
    if (to < NARROW * from) {
      const nearer = Math.abs(low.parameter) < Math.abs(high.parameter) ? low : high;
      const found = motion.lasting(nearer);
      const amplitude = motion.amplitudeOf(found);
      if (found.outcome === "balanced" && amplitude > from / NARROW && amplitude < to * NARROW) return found;
    }
    const middle = motion.ofAmplitude(high, Math.sqrt(from * to));
    if (middle.outcome !== "balanced") break;
    if (middle.parameter > 0 === low.parameter > 0) low = middle;
    else high = middle;
  }
  // kinks of friction may keep Newton's method from it: the end of the halving is as good as its width
  return { ...(Math.abs(low.parameter) < Math.abs(high.parameter) ? low : high), parameter: 0 };
}

function cycleOf(motion: NoddingMotion, found: FourierBalance, orbits: boolean): LastingCycle {
  const size = motion.sizeOf(found);
  const orbit = orbits ? motion.orbit(found) : null;
  if (orbit?.outcome === "closed") {
    const tip = motion.tipOver(orbit.y0, orbit.period);
    return { motion: found, size, attracts: orbit.multipliers.largest < 1, orbit: { ...orbit, tip } };
  }
  return { motion: found, size, attracts: motion.attracts(found), orbit: null };
}

/** A logarithmic grid, with points at and between cycles of the linear pair that lie close: of two such a grid would see neither. */
function amplitudesOf(linear: readonly LinearCycle[], smallest: number, largest: number): number[] {
  const grid = Array.from({ length: POINTS }, (_, i) => smallest * (largest / smallest) ** (i / (POINTS - 1)));
  const close = linear.filter(({ cycle }) =>
    linear.some((other) => other.cycle !== cycle && Math.abs(Math.log(other.cycle.tip / cycle.tip)) < Math.log(CLOSE)),
  );
  const near = close.map(({ cycle, refined }) => refined?.tip ?? cycle.tip);
  near.sort((a, b) => a - b);
  const between = near.slice(1).map((tip, i) => Math.sqrt(tip * near[i]));
  const all = [...grid, ...near, ...between].filter((tip) => tip <= largest * (1 + 1e-9)).sort((a, b) => a - b);
  return all.filter((tip, i) => i === 0 || tip > (1 + SAME) * all[i - 1]);
}

function growthCurve(
  motion: NoddingMotion,
  { model, rates, snubber }: Parameters<typeof lastingOf>[1],
  amplitudes: readonly number[],
): GrowthPoint[] {
  const curve: GrowthPoint[] = [];
  const left = amplitudes.toReversed();
  let stops = 0;
  while (left.length > 0) {
    const amplitude = left.pop()!;
    const before = curve.at(-1);
    let found = before === undefined ? null : motion.ofAmplitude(before.motion, amplitude, 0);
    if (found?.outcome !== "balanced" && before !== undefined && stops < MOST_STOPS) {
      // first one on the way
      left.push(amplitude, Math.sqrt(amplitude * motion.amplitudeOf(before.motion)));
      stops++;
      continue;
    }
    if (found?.outcome !== "balanced") {
      const rate = rateOfTip(model, rates, snubber, amplitude);
      found = motion.ofAmplitude(motion.linearMotion(rate, amplitude), amplitude);
    }
    if (found.outcome !== "balanced") continue;
    stops = 0;
    const size = motion.sizeOf(found);
    curve.push({ motion: found, size });
    if (size.liftShare > 1) break;
  }
  return curve;
}

/** Adds points where the growth comes nearest to zero between others: two cycles may lie there that no point of the grid sees. */
function withExtremes(motion: NoddingMotion, curve: readonly GrowthPoint[]): GrowthPoint[] {
  const found = [...curve];
  const at = (i: number): number => Math.log(motion.amplitudeOf(found[i].motion));
  const off = (i: number): number => found[i].motion.parameter;
  for (let i = 1; i < found.length - 1; i++) {
    for (let k = 0; k < EXTREMES; k++) {
      const sense = Math.sign(off(i));
      const isNearest = [i - 1, i + 1].every((j) => Math.sign(off(j)) === sense && sense * off(j) > sense * off(i));
      if (!isNearest) break;
      // vertex of the parabola through three points
      const [a, b] = [at(i) - at(i - 1), at(i + 1) - at(i)];
      const [low, high] = [(off(i) - off(i - 1)) / a, (off(i + 1) - off(i)) / b];
      const vertex = at(i) - (0.5 * (low * b + high * a)) / (high - low);
      const next = motion.ofAmplitude(found[i].motion, Math.exp(vertex));
      if (next.outcome !== "balanced" || sense * next.parameter > sense * off(i)) break;
      if (Math.abs(vertex - at(i)) < SAME) break;
      const point = { motion: next, size: motion.sizeOf(next) };
      // the lowest point becomes the middle one
      if (vertex > at(i)) found.splice(++i, 0, point);
      else found.splice(i, 0, point);
    }
  }
  return found;
}

/** Rate of the law in a motion of an amplitude of the tip of the linear pair. */
function rateOfTip(model: PointModel, rates: TangentialRates, { law }: NonlinearSnubber, amplitude: number): number {
  let { omega } = growthOf(model, { ...rates, snubber: law.linear });
  let rate = law.linear;
  for (let k = 0; k < ROUNDS; k++) {
    const path = { ...rates, snubber: rate };
    // halfway on, since the tip moves more the more the snubber resists
    const next = describingRate(law, (omega * amplitude) / tipShare(path, omega));
    rate = k === 0 ? next : Math.sqrt(rate * next);
    omega = growthOf(model, { ...rates, snubber: rate }).omega || omega;
  }
  return rate;
}

/** Where the model ends: at the amplitude whose lift is its maximum, or where the balance stops closing. */
function reachOf(curve: readonly GrowthPoint[], largest: number): Pick<Lasting, "reach" | "reachEnds"> {
  for (let i = 0; i < curve.length; i++) {
    const { tip, liftShare } = curve[i].size;
    if (liftShare <= 1) continue;
    if (i === 0) return { reach: tip, reachEnds: "lift" };
    const before = curve[i - 1].size;
    const share = (1 - before.liftShare) / (liftShare - before.liftShare);
    return { reach: before.tip + share * (tip - before.tip), reachEnds: "lift" };
  }
  const last = curve.at(-1)?.size.tip ?? 0;
  return last < 0.95 * largest
    ? { reach: last, reachEnds: "balance" }
    : { reach: last, reachEnds: "largest amplitude" };
}

/**
 * Time that the motion takes from one amplitude of the tip to another by its growth; `null` where the growth changes sign between, is
 * not slow beside the oscillation, or the curve does not cover both.
 *
 *     t = ∫dA/(A·μ(A))                                                                        (README eq. 10)
 */
export function timeBetween(curve: readonly GrowthPoint[], from: number, to: number): number | null {
  const growthAt = (tip: number): number | null => {
    const i = curve.findIndex(({ size }) => size.tip >= tip);
    if (i < 1) return null;
    const [a, b] = [curve[i - 1], curve[i]];
    const share = Math.log(tip / a.size.tip) / Math.log(b.size.tip / a.size.tip);
    const growth = a.motion.parameter + share * (b.motion.parameter - a.motion.parameter);
    return Math.abs(growth) < SLOW * a.motion.omega ? growth : null;
  };
  let time = 0;
  let sense = 0;
  for (let k = 0; k < STEPS; k++) {
    const growth = growthAt(from * (to / from) ** ((k + 0.5) / STEPS));
    if (growth === null || growth === 0 || (sense !== 0 && Math.sign(growth) !== sense)) return null;
    sense = Math.sign(growth);
    time += Math.log(to / from) / STEPS / growth;
  }
  return time > 0 ? time : null;
}
const STEPS = 200;
/** Growth over frequency below which the amplitude changes slowly. */
const SLOW = 0.1;
