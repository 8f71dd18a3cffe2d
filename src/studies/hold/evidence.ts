import type { HoldCondition } from "./inputs.ts";
import type { JackSign } from "./jack-sign.ts";
import type { SpeedBands } from "./speed-limits.ts";
import type { HoldPoint, PilotTime, SnubberCurve, StiffnessNeed } from "./types.ts";

/** Everything that one condition's findings and limits are made of. */
export interface HoldEvidence {
  readonly condition: HoldCondition;
  readonly points: readonly HoldPoint[];
  readonly snubber: readonly SnubberCurve[];
  readonly stiffness: readonly StiffnessNeed[];
  readonly pilotTime: readonly PilotTime[];
  readonly bands: readonly SpeedBands[];
  /** Weight share at which the jack load changes sign, by mass. */
  readonly jackSignShare: readonly (JackSign & { readonly mass: string })[];
}
