export { rigidFor } from "./models.ts";
export { type CarrierBody, readCarrierBody, readFlow } from "./read-carrier.ts";
export { runCarrier } from "./run.ts";
export type * from "./types.ts";
