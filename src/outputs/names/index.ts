/** Names of parts as printed. */

export { caseWords } from "./hookon.ts";
export { mirroredPairName, pairName, partName, shortPath, sidelessName, wordsOf } from "./names.ts";
