import type { BreakawaySettings, GoAroundRule } from "./settings.ts";
import { ABORT_REASONS, type AbortReason } from "./types.ts";

/** Codes of the reasons. */
export const REASON = Object.fromEntries(ABORT_REASONS.map((reason, code) => [reason, code])) as Readonly<
  Record<AbortReason, number>
>;

/** What a rule looks at, of the attempt in hand. */
export interface AttemptState {
  /** Probe head from the mouth along the line of approach, before it positive, and from the line [m]. */
  remaining: number;
  offLine: number;
  /** Along the line, towards the mouth positive [m/s]. */
  closure: number;
  /** Time without navigation, since the attempt began, in touch without a trip [s]. */
  dropout: number;
  elapsed: number;
  touching: number;
  closing: boolean;
  tripped: boolean;
}

/**
 * Why an attempt is to be given up now; 0 for going on. The first that holds of:
 *
 *     tripped: never;   time without navigation > limit;   elapsed > limit;   while closing: past the mouth > overrun;  touching > limit;
 *     while closing, 0 < remaining ≤ within and not touching: off the line > gate;  closure < least or > most         (README eq. 6)
 *
 * @returns index into `ABORT_REASONS`
 * @source common practice of go-arounds, no source; limits are the project's
 * @verified rules.test.ts (truth table)
 * @cost a few boxed numbers a step (README)
 */
export function goAroundReason(now: AttemptState, rule: GoAroundRule): number {
  if (now.tripped) return REASON.none;
  if (now.dropout > rule.longestDropout) return REASON["navigation lost"];
  if (now.elapsed > rule.timeLimit) return REASON["out of time"];
  if (!now.closing) return REASON.none;
  if (-now.remaining > rule.overrun) return REASON.overrun;
  if (now.touching > rule.touchTime) return REASON["not latched"];
  if (now.touching > 0 || now.remaining > rule.within || now.remaining <= 0) return REASON.none;
  if (now.offLine > rule.gate) return REASON["outside the gate"];
  if (now.closure < rule.leastClosure || now.closure > rule.mostClosure) return REASON["closure outside limits"];
  return REASON.none;
}

/**
 * Why to break away now; 0 for not. Never once tripped.
 *
 *     time ≥ commanded;   past the mouth > overrun;   closing faster than its limit in front of the mouth;   navigation lost too long   (README eq. 7)
 *
 * @param time of the sample [s]
 * @returns index into `ABORT_REASONS`
 * @source a breakaway may be called by anyone, for closure, overrun or lost sight (training practice, secondary source in README)
 * @verified rules.test.ts (truth table)
 */
export function breakawayReason(now: AttemptState, rule: BreakawaySettings, time: number): number {
  if (now.tripped) return REASON.none;
  if (rule.commandedAt !== null && time >= rule.commandedAt) return REASON["breakaway commanded"];
  if (!now.closing) return REASON.none;
  if (-now.remaining > rule.overrun) return REASON.overrun;
  if (now.closure > rule.closure && now.touching === 0) return REASON["closure outside limits"];
  if (now.dropout > rule.dropout) return REASON["navigation lost"];
  return REASON.none;
}
