export { matrixExponential } from "./exponential.ts";
