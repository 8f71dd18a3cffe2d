import { type HoldInputs, type Operating, PointModel } from "../hold/index.ts";
import { type Cycle, cyclesOf, neutralRates, refine } from "./nodding.ts";
import { pathWith } from "./points.ts";
import type { SnubberInputs } from "./settings.ts";
import { settle } from "./simulate.ts";
import type { AmplitudeCurve } from "./types.ts";

const POINTS = 13;
/** The curve reaches this factor to both sides of the hardware's orifice; it is simulated at these. */
const REACH = 5;
const SIMULATED = [1, 2.5];
const START = 0.9;

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
  const simulated = SIMULATED.flatMap((factor) => {
    const quadratic = factor * own;
    const cycle = cycleWith(chosen, quadratic);
    if (cycle === undefined) return [];
    const snubber = { law: { ...law, quadratic }, freePlay };
    const settled = settle(inputs, model, rates, snubber, cycle, START, most);
    return settled.outcome === "settles" ? [{ C2_N_s2_m2: quadratic, tipAmplitude_m: settled.tip }] : [];
  });
  return {
    condition: model.at.condition,
    mass: model.at.mass.name,
    bleed,
    bleed_N_s_m: law.linear,
    at_N_s2_m2: own,
    C2_N_s2_m2: values,
    balance_m: values.map((quadratic) => {
      const cycle = cycleWith(chosen, quadratic);
      if (cycle === undefined) return null;
      return refine(model, rates, { ...law, quadratic }, cycle)?.tip ?? null;
    }),
    simulated,
  };
}
