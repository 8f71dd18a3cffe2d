import { breakawayGap, longestReaction } from "../../physics/approach/index.ts";
import type { BreakawayPlan } from "./inputs.ts";
import type { BreakawayCurve } from "./types.ts";

/** Longest reaction that is looked for [s]. */
const LONGEST = 10;

/**
 * Least vertical distance of the two aircraft against the time of reaction, the carrier flying on and climbing.
 *
 * @param plan     gap, closing and how each leaves
 * @param required distance that must remain [m]
 * @source `physics/approach`, README eq. 15–16
 * @verified breakaway.test.ts: falls with the reaction, the carrier's climb never takes away
 */
export function breakawayCurve(plan: BreakawayPlan, required: number): BreakawayCurve {
  const settings = (reaction: number, carrier: boolean) => ({
    ...{ gap: plan.gap, closing: plan.closing, closingAcceleration: plan.goesOn },
    carried: { ...plan.carried, reaction },
    carrier: carrier ? plan.carrier : null,
  });
  const least = (reaction: number, carrier: boolean): number | null => {
    const { leastGap } = breakawayGap(settings(reaction, carrier));
    return Number.isFinite(leastGap) ? leastGap : null;
  };
  return {
    gap_m: plan.gap,
    closing_m_s: plan.closing,
    points: plan.reactions.map((reaction) => ({
      reaction_s: reaction,
      alone_m: least(reaction, false),
      both_m: plan.carrier === null ? null : least(reaction, true),
    })),
    planned_m: least(plan.planned, false),
    longestReaction_s: longestReaction(settings(0, false), required, LONGEST),
  };
}
