/** The clearance report, and variants compared. */
export { renderComparison } from "./compare-page.ts";
export { type HoldHereCard, holdHereCards } from "./hold-here.ts";
export { renderHoldHere } from "./hold-here-page.ts";
export { renderLoadingSheet } from "./loading-sheet.ts";
export { renderReport } from "./report.ts";
export type { ReportMeta } from "./types.ts";
