export { type GroupShares, type VarianceDesign, type VarianceShares, varianceShares } from "./variance-shares.ts";
