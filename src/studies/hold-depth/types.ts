import type { HoldResult } from "../hold/types.ts";
import type { AirloadsResult } from "../hold-airloads/types.ts";
import type { CarrierResult } from "../hold-carrier/types.ts";
import type { ScalingResult } from "../hold-scaling/types.ts";

/** Results of the parts of `hold`, each present where the pair gives what it needs. One line a part. */
export interface HoldParts {
  readonly airloads?: AirloadsResult;
  readonly carrier?: CarrierResult;
  readonly scaling?: ScalingResult;
}

/** The study `hold` with its parts; their findings and limits stand among the study's own. */
export interface HoldDepthResult extends HoldResult {
  readonly parts?: HoldParts;
}
