export { type Beyond, MonotoneGrid } from "./grid.ts";
export { linear, locate, requireIncreasing } from "./linear.ts";
export { monotoneCubic, type ScalarFunction } from "./monotone-cubic.ts";
export { MultilinearGrid } from "./multilinear.ts";
export { gridFromRows, type RowGrid } from "./rows.ts";
