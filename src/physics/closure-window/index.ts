/** Closed forms of the closure window. */
export {
  type ClosedFormWindow,
  type ClosureWindowSettings,
  closureWindow,
  type UpperReason,
} from "./closure-window.ts";
