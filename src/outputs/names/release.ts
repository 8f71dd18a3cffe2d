/** Words and signs of the study `release`. */
import type { ReleaseOutcome } from "../../studies/release/types.ts";

/** One sign for each outcome, told apart without colour. */
export const OUTCOME_LETTERS: Readonly<Record<ReleaseOutcome, string>> = {
  clean: "#",
  "hang-up": "H",
  touches: "X",
  "too near": "n",
  "still held": "s",
  "not analysed": "?",
  "no balance": "-",
};
