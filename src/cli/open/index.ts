/** Opening a pair: all that `check` needs, so that it loads no study and no drawing. */
export { openPair, readOnce } from "./open-pair.ts";
