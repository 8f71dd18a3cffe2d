export { type GainCrossing, type LoopMargins, loopMargins, type PhaseCrossing } from "./margins.ts";
export { padeCoefficients, padeDelay } from "./pade.ts";
export { TransferFunction } from "./response.ts";
export { type LoopAt, type RootCount, rootsRightOf } from "./roots-right.ts";
export { type ComplexOf, type Curve, type CurveRange, followLoop } from "./samples.ts";
export { append, closeLoops, connectedPart, type LinearSystem, linearSystem, select, series } from "./system.ts";
