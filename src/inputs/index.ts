/** From a pair file to checked SI values; every problem is reported at once with its place. */
export type { Value } from "./checks/index.ts";
export { STEP_UNREADABLE } from "./meshes/index.ts";
export { type ImportStep, type LoadedPair, type LoadOptions, loadPair } from "./pair/index.ts";
export type {
  Airspeed,
  AirspeedKind,
  Distribution,
  Maturity,
  Provenance,
  Quantity,
  Uncertainty,
} from "./quantity/index.ts";
export type { RecordedReads } from "./reads/index.ts";
export { hashInputs, recordReads } from "./reads/index.ts";
export type {
  AttemptLog,
  FitSettings,
  Ground,
  Joint,
  Linkage,
  MeshValue,
  MovingPart,
  NamedPoint,
  Pair,
  Shape,
  Table,
} from "./schema/index.ts";
export { attemptClass, attemptWord, mirroredName, pairJsonSchema } from "./schema/index.ts";
export type { FileUsed, ReadFile } from "./yaml/index.ts";
