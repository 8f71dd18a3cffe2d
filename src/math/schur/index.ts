export { blockEigenvalues, type RealSchur, realSchur } from "./schur.ts";
