export { liesOnCurve, traceCurve } from "./trace.ts";
export type { CurveEnd, CurveProblem, TracedCurve, TraceOptions } from "./types.ts";
