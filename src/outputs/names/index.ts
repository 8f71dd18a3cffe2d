/** Names of parts as printed. */
export { mirroredPairName, pairName, partName, sidelessName, wordsOf } from "./names.ts";
