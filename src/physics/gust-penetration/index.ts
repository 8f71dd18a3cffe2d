export { frozenGust, type GustInput } from "./frozen-gust.ts";
export {
  PENETRATION_OUTPUTS,
  PenetrationModel,
  type PenetrationOutput,
  type PenetrationSettings,
} from "./penetration-model.ts";
export { penetrationRms } from "./rms.ts";
