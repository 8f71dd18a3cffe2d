/** Figures of hook-on. */
export { captureMapFigure } from "./capture-map.ts";
export { breakawayFigure } from "./hookon-breakaway.ts";
export { attemptsFigure, claimsFigure } from "./hookon-claims.ts";
export { missFigure } from "./hookon-miss.ts";
export { designCase, outcomeFigure, successFigure } from "./hookon-outcomes.ts";
export { sequentialFigure } from "./hookon-plan.ts";
export { replayFigure } from "./hookon-replay.ts";
export { closureWindowFigure } from "./hookon-window.ts";
