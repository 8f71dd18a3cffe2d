export { hashInputs } from "./hash.ts";
export type { RecordedReads } from "./record.ts";
export { recordReads } from "./record.ts";
