export {
  allowedRate,
  exitRate,
  firstPassage,
  meanCrossings,
  type NormalProcess,
  peakDistance,
} from "./crossings.ts";
