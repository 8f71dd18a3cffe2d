/**
 * Constants of the earth for long or rotating-earth trajectories.
 *
 * @source published/nasa-tm-2015-218675, Table 73
 */

/** Gravitational parameter μ [m³/s²]. */
export const gravitationalParameter = 3.986004418e14;
/** Equatorial radius of the ellipsoid [m]. */
export const equatorialRadius = 6378137;
/** Flattening f [1]. */
export const flattening = 1 / 298.257223563;
/** Second zonal harmonic J₂ [1], unnormalised. */
export const zonalHarmonic = 0.00108262982;
/** Angular rate relative to the stars [rad/s], towards east. */
export const rotationRate = 7.292115e-5;
/** Radius of the round earth [m]. */
export const meanRadius = 6371007.1809;
