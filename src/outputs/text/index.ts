/** Results as terminal text. */
export { balanceText } from "./balance-text.ts";
export { changedText, otherPair } from "./changed-text.ts";
export { compareText } from "./compare-text.ts";
export { fitText } from "./fit-text.ts";
export { holdText } from "./hold-text.ts";
export { hookonText } from "./hookon-text.ts";
export { releaseText } from "./release-text.ts";
export { percent, type ShareCount, type ShareText, sharesText } from "./shares-text.ts";
export type { StudyTextMeta } from "./study-text.ts";
export type { TextOptions } from "./words.ts";
