import type { HoldPartContext, HoldPartOutcome } from "../hold/index.ts";
import { runAirloads } from "../hold-airloads/index.ts";
import { runAttachment } from "../hold-attachment/index.ts";
import { runBoundary } from "../hold-boundary/index.ts";
import { runCarrier } from "../hold-carrier/index.ts";
import { runCertainty } from "../hold-certainty/index.ts";
import { runControl } from "../hold-control/index.ts";
import { runEquilibrium } from "../hold-equilibrium/index.ts";
import { runRoughAir } from "../hold-rough/index.ts";
import { runScaling } from "../hold-scaling/index.ts";
import { runSnubber } from "../hold-snubber/index.ts";
import type { HoldParts } from "./types.ts";

/** A part of `hold`: runs on the base, or says `null` when the pair gives nothing for it. */
export interface PartEntry {
  readonly key: string;
  /** For the line of progress. */
  readonly title: string;
  readonly run: (context: HoldPartContext) => HoldPartOutcome<unknown> | null;
}

/** An entry whose result has the type that `HoldParts` declares for its key. */
export function part<K extends keyof HoldParts>(
  key: K,
  title: string,
  run: (context: HoldPartContext) => HoldPartOutcome<NonNullable<HoldParts[K]>> | null,
): PartEntry {
  return { key, title, run };
}

/** Every part, in the order of the report. One line a part. */
export const PARTS: readonly PartEntry[] = [
  part("attachment", "states of attachment", runAttachment),
  part("boundary", "exact boundaries", runBoundary),
  part("equilibrium", "balances and hook loads", runEquilibrium),
  part("snubber", "snubber", runSnubber),
  part("airloads", "airloads from tables", runAirloads),
  part("carrier", "the carrier in the motion", runCarrier),
  part("control", "pilot and autopilot", runControl),
  part("scaling", "similar models", runScaling),
  part("roughAir", "rough air", runRoughAir),
  part("certainty", "certainty", runCertainty),
];
