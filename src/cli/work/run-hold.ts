import type { Effects } from "../../host/index.ts";
import { hashInputs, type LoadedPair, recordReads } from "../../inputs/index.ts";
import { type HoldResult, runHold } from "../../studies/hold/index.ts";
import { VERSION } from "../version.ts";
import { during } from "./during.ts";

/** Runs the study `hold` on a loaded pair, with a line of progress where there is a terminal. */
export function holdOf(loaded: LoadedPair, effects: Effects): HoldResult {
  let at = `hold, ${loaded.variant}`;
  return during(
    () => at,
    () =>
      runHold({
        variant: loaded.variant,
        reads: () => recordReads(loaded),
        hash: (paths) => hashInputs(loaded, paths),
        version: VERSION,
        progress: (part, done, of) => {
          at = `hold, ${loaded.variant}, ${part}`;
          effects.progress(`hold, ${loaded.variant}: ${part} (${done + 1} of ${of})`);
        },
      }),
  );
}
