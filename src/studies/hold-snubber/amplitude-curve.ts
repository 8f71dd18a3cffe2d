import type { FourierMotion } from "../../math/periodic/index.ts";
import { type HoldInputs, type Operating, PointModel } from "../hold/index.ts";
import { lastingBetween } from "./lasting.ts";
import { type Cycle, cyclesOf, neutralRates } from "./nodding.ts";
import { NoddingMotion } from "./nodding-motion.ts";
import { pathWith } from "./points.ts";
import type { SnubberInputs } from "./settings.ts";
import { settle } from "./simulate.ts";
import type { AmplitudeCurve } from "./types.ts";

const POINTS = 13;
/** The curve reaches this factor to both sides of the hardware's orifice; it is simulated at these. */
const REACH = 5;
const SIMULATED = [1, 2.5];
const START = 0.9;
/** The search for the next one: from below the one before, by this factor, so often. */
const BELOW = 0.95;
const STEP = 1.2;
const MOST_STEPS = 12;

/**
 * Amplitude of lasting nodding at the tip against the orifice coefficient, oil at its normal temperature, for the mass whose
 * nodding needs the largest rate; `null` when no mass has a rate at which it is neutral.
 *
 * Without bleed, friction and relief the amplitude goes exactly with 1/C2.                       (README eq. 3)
 */
export function amplitudeCurve(
  inputs: HoldInputs,
  { hardware, settings }: SnubberInputs,
  points: readonly Operating[],
  bleed: AmplitudeCurve["bleed"],
): AmplitudeCurve | null {
  const candidates = points
    .map((point) => new PointModel(inputs, point))
    .filter((model) => model.trimmed)
    .map((model) => {
      const { at, rates } = pathWith(inputs, model, hardware, settings.temperatures.normal);
      const law = bleed === "as built" ? at.law : { ...at.law, linear: 0, friction: 0 };
      return {
        model,
        rates,
        law,
        freePlay: bleed === "as built" ? at.freePlay : 0,
        neutral: neutralRates(model, rates),
      };
    })
    .filter(({ neutral }) => neutral.length > 0 && neutral[0].stableAbove);
  if (candidates.length === 0) return null;
  const most = settings.largestAmplitude;
  const cycleWith = (candidate: (typeof candidates)[number], quadratic: number): Cycle | undefined =>
    cyclesOf(candidate.model, candidate.rates, { ...candidate.law, quadratic }, candidate.neutral, most).findLast(
      ({ attracts }) => attracts,
    );
  // the mass with the largest bounded amplitude; where none is bounded, the one that needs the largest rate
  const size = (candidate: (typeof candidates)[number]): number =>
    cycleWith(candidate, candidate.law.quadratic)?.tip ?? 0;
  const chosen = candidates.reduce((a, b) => (size(b) > size(a) ? b : a));
  const { model, rates, law, freePlay } = chosen;
  const own = law.quadratic;
  const values = Array.from({ length: POINTS }, (_, i) => (own / REACH) * REACH ** ((2 * i) / (POINTS - 1)));
  const motionWith = (quadratic: number): NoddingMotion =>
    new NoddingMotion(inputs, model, rates, { law: { ...law, quadratic }, freePlay });
  const follow = follower(motionWith, (quadratic) => cycleWith(chosen, quadratic));
  // from the largest orifice coefficient on, where the motion is smallest and nearest to the linear pair
  const balance = values
    .toReversed()
    .map((quadratic) => follow(quadratic))
    .toReversed();
  const simulated = SIMULATED.flatMap((factor) => {
    const quadratic = factor * own;
    const near = balance[values.findIndex((value) => value >= quadratic * (1 - 1e-9))];
    if (near == null) return [];
    const motion = motionWith(quadratic);
    const found = attractingFrom(motion, near);
    if (found === null) return [];
    const { tip } = motion.sizeOf(found);
    const start = { state: motion.stateIn(found, START), omega: found.omega, tip: START * tip };
    const settled = settle(motion.independent.pair, start, most);
    return settled.outcome === "settles" ? [{ C2_N_s2_m2: quadratic, tipAmplitude_m: settled.tip }] : [];
  });
  return {
    condition: model.at.condition,
    mass: model.at.mass.name,
    bleed,
    bleed_N_s_m: law.linear,
    at_N_s2_m2: own,
    C2_N_s2_m2: values,
    balance_m: balance.map((found, i) => {
      if (found === null) return null;
      const { tip } = motionWith(values[i]).sizeOf(found);
      return tip <= most ? tip : null;
    }),
    simulated,
  };
}

/** Follows the lasting oscillation that attracts from one orifice coefficient to the next, to where it ends. */
function follower(
  motionWith: (quadratic: number) => NoddingMotion,
  cycleWith: (quadratic: number) => Cycle | undefined,
): (quadratic: number) => FourierMotion | null {
  let before: FourierMotion | null = null;
  let hasEnded = false;
  return (quadratic) => {
    if (hasEnded) return null;
    const motion = motionWith(quadratic);
    let start: FourierMotion | null = before;
    if (start === null) {
      const cycle = cycleWith(quadratic);
      if (cycle === undefined) return null;
      start = motion.linearMotion(cycle.rate, cycle.tip);
    }
    const found = attractingFrom(motion, start);
    if (found !== null) {
      before = found;
      return found;
    }
    hasEnded = before !== null;
    return null;
  };
}

/** The lasting oscillation that attracts, from a smaller motion up to the end of the lift; `null` where the motion grows until there. */
function attractingFrom(motion: NoddingMotion, start: FourierMotion): FourierMotion | null {
  let amplitude = BELOW * motion.amplitudeOf(start);
  let below = motion.ofAmplitude(start, amplitude);
  for (let k = 0; k < MOST_STEPS && below.outcome === "balanced"; k++) {
    amplitude *= STEP;
    const beyond = motion.ofAmplitude(below, amplitude);
    if (beyond.outcome !== "balanced" || motion.sizeOf(beyond).liftShare > 1) return null;
    if (below.parameter > 0 && beyond.parameter <= 0) return lastingBetween(motion, below, beyond);
    below = beyond;
  }
  return null;
}
