/** Figures of the parts of `hold`. */
export { attachmentStrokeFigure } from "./attachment-stroke.ts";
export { balanceFigure } from "./balance-branches.ts";
export { certaintyFigures } from "./certainty.ts";
export { failureFigure } from "./failure-history.ts";
export { hookLoadFigure } from "./hook-loads.ts";
export { loopFigure } from "./loop-bode.ts";
export { poseMapFigure } from "./pose-map.ts";
export {
  exceedanceFigure,
  governingAir,
  gustLengthFigure,
  motionSpectraFigure,
  roughAirFigure,
} from "./rough-air.ts";
