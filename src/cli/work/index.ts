/** The steps that commands share: open a pair, run a study, assemble the result, hand it over. */
export { deliver, exitOf } from "./deliver.ts";
export { resultDocument } from "./document.ts";
export { openPair, readOnce } from "./open-pair.ts";
export { writeReport } from "./report.ts";
export { holdOf } from "./run-hold.ts";
