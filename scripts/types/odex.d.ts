/** What our tests use of the integrator `odex`, whose own sources do not pass our compiler settings. */
export type Derivative = (x: number, y: number[]) => number[];

export declare class Solver {
  constructor(dimension: number);
  absoluteTolerance: number | number[];
  relativeTolerance: number | number[];
  maxSteps: number;
  denseOutput: boolean;
  solve(
    derivative: Derivative,
    from: number,
    start: number[],
    to: number,
  ): { readonly y: number[]; readonly outcome: number; readonly nEval: number };
}
