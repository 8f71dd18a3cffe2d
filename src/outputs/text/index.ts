/** Results as terminal text. */
export { changedText, otherPair } from "./changed-text.ts";
export { type HoldTextMeta, holdText } from "./hold-text.ts";
export type { TextOptions } from "./words.ts";
