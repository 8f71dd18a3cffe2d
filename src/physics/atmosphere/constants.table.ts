/**
 * Constants of the U.S. Standard Atmosphere, 1976. The standard fixes them; later values of the gas constant differ.
 *
 * @source published/ussa-1976
 */

/** Gas constant of air R* / M₀ = 8314.32 / 28.9644 [J/(kg·K)]. */
export const airGasConstant = 8314.32 / 28.9644;
/** Ratio of specific heats γ [1]. */
export const heatRatio = 1.4;
/** Standard acceleration of gravity g₀ [m/s²], also the unit of geopotential, 9.80665 m²/s² per metre. */
export const standardGravity = 9.80665;
/** Radius of the earth in the relation between geometric and geopotential altitude [m]. */
export const earthRadius = 6356766;
/** Sutherland's β [kg/(s·m·K^½)]. */
export const sutherlandFactor = 1.458e-6;
/** Sutherland's S [K]; the standard prints 110 K in one table and 110.4 K in the equation: the equation holds. */
export const sutherlandTemperature = 110.4;
/** Pressure at zero altitude [Pa]. */
export const seaLevelPressure = 101325;
/** Temperature at zero altitude [K]. */
export const seaLevelTemperature = 288.15;
/** Lowest geopotential altitude [m]: the lowest row of the standard's tables. */
export const lowestGeopotential = -5000;
/** Highest geometric altitude of the linear layers [m]. */
export const highestGeometric = 86000;

/** Base geopotential altitude [m] of each layer and its lapse of temperature with geopotential altitude [K/m]. */
export const layers: readonly (readonly [base: number, lapse: number])[] = [
  [0, -0.0065],
  [11000, 0],
  [20000, 0.001],
  [32000, 0.0028],
  [47000, 0],
  [51000, -0.0028],
  [71000, -0.002],
];
