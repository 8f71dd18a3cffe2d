/**
 * Intensity σ [ft/s] of medium and high altitude by probability that it is exceeded.
 *
 * @source published/mil-turbulence-exceedance
 */
export const EXCEEDANCE = {
  /** Altitude [ft]. */
  altitudes: [500, 1750, 3750, 7500, 15000, 25000, 35000, 45000, 55000, 65000, 75000, 80000],
  /** Probability [1], falling. */
  probabilities: [0.2, 1e-1, 1e-2, 1e-3, 1e-4, 1e-5, 1e-6],
  /** One row by altitude, one column by probability. */
  sigma: [
    [3.2, 4.2, 6.6, 8.6, 11.8, 15.6, 18.7],
    [2.2, 3.6, 6.9, 9.6, 13, 17.6, 21.5],
    [1.5, 3.3, 7.4, 10.6, 16, 23, 28.4],
    [0, 1.6, 6.7, 10.1, 15.1, 23.6, 30.2],
    [0, 0, 4.6, 8, 11.6, 22.1, 30.7],
    [0, 0, 2.7, 6.6, 9.7, 20, 31],
    [0, 0, 0.4, 5, 8.1, 16, 25.2],
    [0, 0, 0, 4.2, 8.2, 15.1, 23.1],
    [0, 0, 0, 2.7, 7.9, 12.1, 17.5],
    [0, 0, 0, 0, 4.9, 7.9, 10.7],
    [0, 0, 0, 0, 3.2, 6.2, 8.4],
    [0, 0, 0, 0, 2.1, 5.1, 7.2],
  ],
} as const;

/** Probability of exceedance that each severity name stands for [1]. */
export const SEVERITY = { light: 1e-2, moderate: 1e-3, severe: 1e-5 } as const;
