/** Names of parts as printed. */

export { missionTime } from "./balance.ts";
export { caseWords } from "./hookon.ts";
export { mirroredPairName, pairName, partName, shortPath, sidelessName, wordsOf } from "./names.ts";
export { OUTCOME_LETTERS } from "./release.ts";
