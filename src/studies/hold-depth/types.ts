import type { HoldResult } from "../hold/types.ts";

/** Results of the parts of `hold`, each present where the pair gives what it needs. One line a part. */
// biome-ignore lint/suspicious/noEmptyInterface: parts join it one by one
export interface HoldParts {}

/** The study `hold` with its parts; their findings and limits stand among the study's own. */
export interface HoldDepthResult extends HoldResult {
  readonly parts?: HoldParts;
}
