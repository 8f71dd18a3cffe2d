/** The steps that commands share: run a study, assemble the result, hand it over. */
export { deliver, exitOf } from "./deliver.ts";
export { resultDocument } from "./document.ts";
export { writeReport } from "./report.ts";
export { holdOf } from "./run-hold.ts";
