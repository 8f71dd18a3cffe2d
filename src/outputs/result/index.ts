/** The result document: form, canonical text, reading, comparison. */
export { canonicalJson } from "./canonical.ts";
export {
  type ChangeKind,
  compareResults,
  type FileChange,
  type FindingChange,
  type InputChange,
  type LimitChange,
  type ResultComparison,
  type ResultSide,
} from "./compare.ts";
export { readResult, writeResult } from "./read.ts";
export { type FileRecord, type InputRecord, RESULT_SCHEMA, type ResultDocument, type StudyResults } from "./types.ts";
