export { type FindingContext, type FindingDraft, findingMaker, verdictOf } from "./make-finding.ts";
export type { Criterion, Finding, Limit, LimitStatus, Verdict } from "./types.ts";
