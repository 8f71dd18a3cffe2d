/** From the pre-contact position to locked, missed, bounced, overloaded or broken away, and the ring-down. */
export { COLUMN, HOOKON_COLUMNS, type HookonColumn } from "./columns.ts";
export type { HookonHistory } from "./history.ts";
export { HookonMotion, type MotionWatcher, TIMER } from "./motion.ts";
export { type HookonParameters, hookonParameters } from "./parameters.ts";
export { hookonRates } from "./right-hand-side.ts";
export { HOOKON_STREAMS, HookonRun } from "./run.ts";
export { straightGuide, straightStart } from "./straight-guide.ts";
export type * from "./types.ts";
export { HOOKON_OUTCOMES } from "./types.ts";
