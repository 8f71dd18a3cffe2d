import type { HoldResult } from "../hold/types.ts";
import type { AirloadsResult } from "../hold-airloads/types.ts";
import type { AttachmentResult } from "../hold-attachment/types.ts";
import type { BoundaryResult } from "../hold-boundary/types.ts";
import type { CarrierResult } from "../hold-carrier/types.ts";
import type { CertaintyResult } from "../hold-certainty/types.ts";
import type { HoldControl } from "../hold-control/types.ts";
import type { EquilibriumResult } from "../hold-equilibrium/types.ts";
import type { RoughAirResult } from "../hold-rough/types.ts";
import type { ScalingResult } from "../hold-scaling/types.ts";
import type { SnubberResult } from "../hold-snubber/types.ts";

/** Results of the parts of `hold`, each present where the pair gives what it needs. One line a part. */
export interface HoldParts {
  readonly attachment?: AttachmentResult;
  readonly boundary?: BoundaryResult;
  readonly equilibrium?: EquilibriumResult;
  readonly snubber?: SnubberResult;
  readonly airloads?: AirloadsResult;
  readonly control?: HoldControl;
  readonly carrier?: CarrierResult;
  readonly scaling?: ScalingResult;
  readonly roughAir?: RoughAirResult;
  readonly certainty?: CertaintyResult;
}

/** The study `hold` with its parts; their findings and limits stand among the study's own. */
export interface HoldDepthResult extends HoldResult {
  readonly parts?: HoldParts;
  /** Keys of the parts that were asked for, where not all were. */
  readonly partsAsked?: readonly string[];
}
