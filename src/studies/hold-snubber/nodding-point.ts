import type { SnubberForceLaw, TangentialRates } from "../../physics/snubber/index.ts";
import type { HoldInputs, PointModel } from "../hold/index.ts";
import { confirm } from "./confirm.ts";
import { describeCycle, describeGrowth, describeLinear, describeSimulation } from "./describe.ts";
import { lastingOf } from "./lasting.ts";
import { cyclesOf, type NeutralRate, neutralRates, outcomeOf, refine, smallestGrowth } from "./nodding.ts";
import { NoddingMotion } from "./nodding-motion.ts";
import type { Nodding } from "./types.ts";

/**
 * What the pair does by itself with the real law: lasting oscillations by harmonic balance of all equations of motion, closed by
 * shooting, and confirmed in time.
 *
 * @param closely whether orbits are closed and the motion is simulated too
 */
export function noddingOf(
  inputs: HoldInputs,
  model: PointModel,
  rates: TangentialRates,
  {
    law,
    freePlay,
    largest,
    closely,
  }: {
    readonly law: SnubberForceLaw;
    readonly freePlay: number;
    readonly largest: number;
    readonly closely: boolean;
  },
): Nodding {
  const snubber = { law, freePlay };
  const neutral = neutralRates(model, rates);
  const linear = cyclesOf(model, rates, law, neutral, largest).map((cycle) => ({
    cycle,
    refined: refine(model, rates, law, cycle),
  }));
  const motion = new NoddingMotion(inputs, model, rates, snubber);
  const lasting = lastingOf(motion, { model, rates, snubber }, linear, { largest, orbits: closely });
  const within = lasting.curve.filter(({ size }) => size.tip <= lasting.reach);
  const small = smallestGrowth(model, rates, law);
  const outcome = outcomeOf(small, lasting.cycles, within.at(-1)?.motion.parameter ?? small);
  return {
    outcome,
    cycles: lasting.cycles.map(describeCycle),
    linear: linear.map(({ cycle, refined }) => describeLinear(cycle, refined)),
    growth: describeGrowth({ ...lasting, curve: within }),
    reach_m: lasting.reach,
    reachEnds: lasting.reachEnds,
    leastRate_N_s_m: leastRate(neutral),
    simulations: closely ? confirm(motion, lasting, outcome).map(describeSimulation) : [],
  };
}

/** Smallest rate from which on the pair decays; 0 when it decays at every rate. */
function leastRate([first]: readonly NeutralRate[]): number | null {
  if (first === undefined) return null;
  return first.stableAbove ? first.rate : 0;
}
