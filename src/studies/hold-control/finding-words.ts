import type { AttachmentState } from "./types.ts";

/** Name of an attachment state in an id. */
export const key = (words: string): string => words.replaceAll(/[ ,]+/g, "-");

const STATE_WORDS: Readonly<Record<AttachmentState, string>> = {
  free: "free",
  "single point": "hooked at one point",
  "left aft pin": "held at probe and left aft pin",
  "three point": "held at three points",
  "left aft pin, stowed": "held at probe and left aft pin, stowed",
  "three point, stowed": "held at three points, stowed",
};
export const stateWords = (state: AttachmentState): string => STATE_WORDS[state];

/** The smallest value with where it is; `null` when no entry has one. */
export function worstOf<T>(all: readonly T[], value: (each: T) => number | null): { value: number; of: T } | null {
  let worst: { value: number; of: T } | null = null;
  for (const of of all) {
    const own = value(of);
    if (own !== null && (worst === null || own < worst.value)) worst = { value: own, of };
  }
  return worst;
}
