/** The steps that commands share: run a study, assemble the result, hand it over. */
export { deliver, exitOf } from "./deliver.ts";
export { resultDocument } from "./document.ts";
export { during } from "./during.ts";
export { partsOf } from "./parts.ts";
export { writeReport } from "./report.ts";
export {
  balanceOf,
  findingsOf,
  fitOf,
  holdOf,
  hookonOf,
  releaseOf,
  runStudies,
  STUDIES,
  type Study,
  type StudyRun,
  studiesOf,
} from "./run-studies.ts";
