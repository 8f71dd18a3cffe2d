import type { Finding, FindingContext, Limit } from "../finding/index.ts";
import type { HoldInputs } from "./inputs.ts";
import type { ReadGroups } from "./read-groups.ts";
import type { OpenReads } from "./read-pair.ts";
import type { HoldResult } from "./types.ts";

/** What the modes of the hooked pair alone leave open, by the part of `hold` that answers it. */
export const OPEN_QUESTIONS = {
  snubber: "Limit cycles and small-amplitude nodding of the real snubber law (orifice, relief, friction, free play).",
  roughAir: "Rough air: loads, motion and exceedance while hooked.",
  attachment: "Partly latched and three-point states.",
  carrier: "The carrier's own motion and its flow field at the carried aircraft.",
  control: "Pilot and autopilot in the loop other than the declared roll hold.",
  certainty: "Uncertainty of the inputs: the modes take every value at its nominal.",
} as const;
export type OpenQuestion = keyof typeof OPEN_QUESTIONS;

/** What every part of `hold` gets: the pair as physics arguments, the modes already found, and how to make findings. */
export interface HoldPartContext {
  readonly variant: string;
  readonly inputs: HoldInputs;
  /** Pair paths by what they feed. */
  readonly groups: ReadGroups;
  /** Modes, sweeps, maps and findings of the base. */
  readonly base: HoldResult;
  /** Opens a view of the pair that notes what is read through it, for the part's own settings. */
  readonly reads: OpenReads;
  /** For `findingMaker`; carries the seed. */
  readonly findings: FindingContext;
  /** Seed of every random stream of the study. */
  readonly seed: number;
  /** Called with what comes next, in a few words. */
  readonly step: (what: string) => void;
}

/** What a part adds to the study. */
export interface HoldPartOutcome<R> {
  readonly result: R;
  readonly findings: readonly Finding[];
  readonly limits: readonly Limit[];
  readonly assumptions: readonly string[];
  readonly notAnalysed: readonly string[];
  /** Questions of the base that this part answers. */
  readonly answers: readonly OpenQuestion[];
}
