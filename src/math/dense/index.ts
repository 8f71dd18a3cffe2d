export { luFactor, luSolve } from "./lu.ts";
export { multiply } from "./multiply.ts";
export { nullSpace } from "./null-space.ts";
