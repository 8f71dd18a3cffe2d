/** Figures of the study `hold` as inline SVG. */
export { arrangementFigure } from "./arrangement.ts";
export { boundaryFigure } from "./boundary-map.ts";
export { clearanceStrokeFigure } from "./clearance-stroke.ts";
export { dampingSweepFigure } from "./damping-sweep.ts";
export { gearMapFigure, heldMapsFigure } from "./gear-map.ts";
export { groundFigure } from "./ground-line.ts";
export { isolines } from "./isolines.ts";
export { greatestLoad, jackFigure, loadName } from "./jack-stroke.ts";
export { loadingFigure } from "./loading-steps.ts";
export { modeEnergyFigure } from "./mode-energy.ts";
export { rootLocusFigure } from "./root-locus.ts";
export { snubberFigure } from "./snubber-curve.ts";
export { stabilityMapFigure } from "./stability-map.ts";
export { stiffnessFigure } from "./stiffness-need.ts";
export { slug } from "./text.ts";
export { toleranceFigure, worstPose } from "./tolerance-bars.ts";
export type { Figure, FigureDocument, FigureDom } from "./types.ts";
export { upsetFigure } from "./upset-history.ts";
