export { incompleteBeta, logGamma } from "./beta.ts";
export { betaQuantile, clopperPearson, type ShareInterval, wilson } from "./intervals.ts";
export { fromNormalScore, type Marginal, toNormalScore } from "./marginal.ts";
export { normalCdf, normalDensity, normalQuantile, normalUpper } from "./normal.ts";
