export { type BracketedRoot, type BracketOutcome, bracketedRoot } from "./bracketed.ts";
export { type NewtonOptions, type NewtonOutcome, type NewtonResult, newtonSystem } from "./newton.ts";
export { brentMinimum, goldenMaximum, type Optimum } from "./optimum.ts";
