/** The clearance report, and variants compared. */
export { renderComparison } from "./compare-page.ts";
export { renderReport } from "./report.ts";
export type { ReportMeta } from "./types.ts";
