/** Figures of the study `hold` as inline SVG. */
export { arrangementFigure } from "./arrangement.ts";
export { attachmentStrokeFigure } from "./attachment-stroke.ts";
export { clearanceStrokeFigure } from "./clearance-stroke.ts";
export { dampingSweepFigure } from "./damping-sweep.ts";
export { failureFigure } from "./failure-history.ts";
export { gearMapFigure, heldMapsFigure } from "./gear-map.ts";
export { groundFigure } from "./ground-line.ts";
export { isolines } from "./isolines.ts";
export { greatestLoad, jackFigure, loadName } from "./jack-stroke.ts";
export { loadingFigure } from "./loading-steps.ts";
export { loopFigure } from "./loop-bode.ts";
export { modeEnergyFigure } from "./mode-energy.ts";
export { poseMapFigure } from "./pose-map.ts";
export { rootLocusFigure } from "./root-locus.ts";
export {
  exceedanceFigure,
  governingAir,
  gustLengthFigure,
  motionSpectraFigure,
  roughAirFigure,
} from "./rough-air.ts";
export { snubberFigure } from "./snubber-curve.ts";
export { stabilityMapFigure } from "./stability-map.ts";
export { stiffnessFigure } from "./stiffness-need.ts";
export { slug } from "./text.ts";
export { toleranceFigure, worstPose } from "./tolerance-bars.ts";
export type { Figure, FigureDocument, FigureDom } from "./types.ts";
export { upsetFigure } from "./upset-history.ts";
export { variantDampingFigure } from "./variant-damping.ts";
