/** Figures of release. */
export { carrierAnswerFigure } from "./release-carrier.ts";
export { caseFigure, distanceFigure } from "./release-distance.ts";
export { footprintFigure, releaseEnvelopeFigure } from "./release-envelope.ts";
export { stripFigure } from "./release-strip.ts";
