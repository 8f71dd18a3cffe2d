/**
 * Coefficients of the Runge–Kutta pair 5(4) with seven stages, the last being the first of the next step.
 *
 * @source Dormand and Prince, A family of embedded Runge–Kutta formulae, J. Comput. Appl. Math. 6 (1980) 19–26, table 2
 *         (nodes, stages, both weights); continuous extension of order four: Hairer, Nørsett and Wanner, Solving Ordinary
 *         Differential Equations I, 2nd ed. (1993), section II.6 (code DOPRI5). From memory; dormand-prince.test.ts
 *         checks the row sums and every order condition.
 */

/** cᵢ */
export const NODES = [0, 1 / 5, 3 / 10, 4 / 5, 8 / 9, 1, 1] as const;

/** aᵢⱼ, row i of stage i; the last row is also the weights of order five. */
export const STAGES = [
  [],
  [1 / 5],
  [3 / 40, 9 / 40],
  [44 / 45, -56 / 15, 32 / 9],
  [19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729],
  [9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656],
  [35 / 384, 0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84],
] as const;

/** Weights of order five minus those of order four: the error estimate. */
export const ERROR_WEIGHTS = [71 / 57600, 0, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40] as const;

/** Weights of the last term of the continuous extension. */
export const DENSE_WEIGHTS = [
  -12715105075 / 11282082432,
  0,
  87487479700 / 32700410799,
  -10690763975 / 1880347072,
  701980252875 / 199316789632,
  -1453857185 / 822651844,
  69997945 / 29380423,
] as const;
