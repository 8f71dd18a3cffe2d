export { type ComplexSystem, createComplexSystem, factorComplex, solveComplex } from "./complex-lu.ts";
export { luFactor, luSolve } from "./lu.ts";
export { multiply } from "./multiply.ts";
export { nullSpace } from "./null-space.ts";
