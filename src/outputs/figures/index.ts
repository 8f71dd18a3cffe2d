/** Figures of the study `hold` as inline SVG. */
export { dampingSweepFigure } from "./damping-sweep.ts";
export { isolines } from "./isolines.ts";
export { modeEnergyFigure } from "./mode-energy.ts";
export { rootLocusFigure } from "./root-locus.ts";
export { snubberFigure } from "./snubber-curve.ts";
export { stabilityMapFigure } from "./stability-map.ts";
export { stiffnessFigure } from "./stiffness-need.ts";
export { slug } from "./text.ts";
export type { Figure, FigureDocument, FigureDom } from "./types.ts";
export { upsetFigure } from "./upset-history.ts";
