import type { TurbulenceScales } from "../../physics/turbulence/index.ts";
import type { HoldInputs, Operating } from "../hold/index.ts";
import type { RoughAirInputs } from "./settings.ts";
import type { ChartedAir } from "./severity.ts";

/** What one point is computed from. */
export interface PointTask {
  readonly inputs: HoldInputs;
  readonly settings: RoughAirInputs;
  readonly at: Operating;
  readonly id: string;
  /** Above ground [m]. */
  readonly height: number;
  readonly scales: TurbulenceScales;
  readonly chart: ChartedAir;
  readonly seed: number;
  /** Whether this point is simulated too. */
  readonly check: boolean;
}
