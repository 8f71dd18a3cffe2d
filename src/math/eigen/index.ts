export { type EigenSystem, eigenSystem } from "./eigen-system.ts";
export { eigenvalues } from "./eigenvalues.ts";
export { eigenvectors, leftEigenvectors } from "./eigenvectors.ts";
export { reduceToHessenberg } from "./hessenberg.ts";
export { dampingRatioSlope, type EigenvalueSlope, eigenvalueSlope } from "./sensitivity.ts";
export { createEigenWorkspace, type EigenOutcome, type EigenWorkspace } from "./workspace.ts";
