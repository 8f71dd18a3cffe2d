export { choleskyFactor, choleskySolve, lowerSolve, lowerTransposeSolve } from "./cholesky.ts";
export { type GeneralisedOutcome, generalisedSymmetricEigen } from "./generalised.ts";
export { type SymmetricOutcome, symmetricEigen } from "./symmetric.ts";
