export { linear, locate, requireIncreasing } from "./linear.ts";
export { monotoneCubic, type ScalarFunction } from "./monotone-cubic.ts";
