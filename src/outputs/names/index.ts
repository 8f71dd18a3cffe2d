/** Names of parts as printed. */
export { mirroredPairName, pairName, partName, shortPath, sidelessName, wordsOf } from "./names.ts";
