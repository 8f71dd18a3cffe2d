export { type BoxMinimum, boxMinimum } from "./box-minimum.ts";
export { type DesignPoint, type LimitOutcome, nearestFailure } from "./nearest-failure.ts";
