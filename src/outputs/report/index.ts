/** The clearance report. */
export { renderReport } from "./report.ts";
export type { ReportMeta } from "./types.ts";
