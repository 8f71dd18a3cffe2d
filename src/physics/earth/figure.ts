import { DomainError } from "../../math/errors.ts";
import { equatorialRadius, flattening, meanRadius } from "./constants.table.ts";

/** Reference figure of the earth: an ellipsoid of revolution; a sphere when the flattening is 0. */
export interface EarthFigure {
  /** a [m]. */
  readonly equatorialRadius: number;
  /** f [1], 0 or more and below 1. */
  readonly flattening: number;
}

/** The WGS-84 ellipsoid. */
export const ellipsoid: EarthFigure = { equatorialRadius, flattening };
/** The sphere of the mean radius. */
export const sphere: EarthFigure = { equatorialRadius: meanRadius, flattening: 0 };

const ITERATIONS = 6;

/**
 * Geodetic latitude, longitude and altitude of a point.
 *
 *     tan φ = (z + e′²·b·sin³θ) / (p − e²·a·cos³θ),   tan θ = (1 − f)·tan φ,  p = √(x² + y²)          (1)
 *     h = p·cos φ + z·sin φ − a·√(1 − e²·sin²φ)                                                    (2)
 *
 * Eq. (1) is repeated until θ stands still; near the surface twice is enough for round-off.
 *
 * @param figure    reference figure
 * @param position  from the centre of the earth, x through latitude 0, longitude 0, z through the north pole [m]; shape (3)
 * @param out       latitude north positive, longitude east positive [rad], altitude above the figure [m]; shape (3)
 * @throws {DomainError} if the position is not finite or closer to the centre than 1 % of the equatorial radius
 * @source   Bowring's iteration on the reduced latitude, README eqs. 1, 2
 * @verified round trip with `cartesianFromGeodetic` (1e-9 m, −5 to 1000 km, all latitudes)
 * @cost     no allocation
 */
export function geodeticFromCartesian(figure: EarthFigure, position: Float64Array, out: Float64Array): void {
  const { equatorialRadius: a, flattening: f } = figure;
  const x = position[0];
  const y = position[1];
  const z = position[2];
  const p = Math.sqrt(x * x + y * y);
  const distance = Math.sqrt(p * p + z * z);
  if (!(distance > 0.01 * a && distance < Number.POSITIVE_INFINITY)) {
    throw new DomainError("distance from the centre of the earth [m]", distance, `finite, above ${0.01 * a}`);
  }
  const e2 = f * (2 - f);
  const b = a * (1 - f);
  const secondE2 = e2 / (1 - e2);
  let sinTheta = z / Math.hypot(z, (1 - f) * p);
  let cosTheta = ((1 - f) * p) / Math.hypot(z, (1 - f) * p);
  let sin = 0;
  let cos = 1;
  for (let i = 0; i < ITERATIONS; i++) {
    const up = z + secondE2 * b * sinTheta ** 3;
    const outward = p - e2 * a * cosTheta ** 3;
    const length = Math.hypot(up, outward);
    sin = up / length;
    cos = outward / length;
    const reduced = Math.hypot((1 - f) * sin, cos);
    const next = ((1 - f) * sin) / reduced;
    const settled = Math.abs(next - sinTheta) < 1e-16;
    sinTheta = next;
    cosTheta = cos / reduced;
    if (settled) break;
  }
  out[0] = Math.atan2(sin, cos);
  out[1] = Math.atan2(y, x);
  out[2] = p * cos + z * sin - a * Math.sqrt(1 - e2 * sin * sin);
}

/**
 * Point of a geodetic latitude, longitude and altitude.
 *
 *     N = a/√(1 − e²·sin²φ);  (x, y) = (N + h)·cos φ·(cos λ, sin λ);  z = (N·(1 − e²) + h)·sin φ       (3)
 *
 * @param figure     reference figure
 * @param latitude   φ, north positive [rad]
 * @param longitude  λ, east positive [rad]
 * @param altitude   h, above the figure [m]
 * @param out        position from the centre of the earth [m], shape (3)
 * @source   geometry of the ellipsoid, README eq. 3
 * @verified round trip with `geodeticFromCartesian`
 * @cost     no allocation
 */
export function cartesianFromGeodetic(
  figure: EarthFigure,
  latitude: number,
  longitude: number,
  altitude: number,
  out: Float64Array,
): void {
  const e2 = figure.flattening * (2 - figure.flattening);
  const sin = Math.sin(latitude);
  const cos = Math.cos(latitude);
  const normal = figure.equatorialRadius / Math.sqrt(1 - e2 * sin * sin);
  out[0] = (normal + altitude) * cos * Math.cos(longitude);
  out[1] = (normal + altitude) * cos * Math.sin(longitude);
  out[2] = (normal * (1 - e2) + altitude) * sin;
}

/**
 * Rotation from local axes (north, east, down) to the axes of the position, v = R·v_NED; row-major, shape (9).
 *
 * @param latitude   geodetic for axes normal to the figure [rad]
 * @param longitude  in the axes of the position [rad]
 * @param out9       R, written
 * @source   geometry, README eq. 4
 * @verified figure.test.ts (orthonormal, right-handed, down at the poles and the equator)
 * @cost     no allocation
 */
export function rotationFromLocal(latitude: number, longitude: number, out9: Float64Array): void {
  const sinLat = Math.sin(latitude);
  const cosLat = Math.cos(latitude);
  const sinLon = Math.sin(longitude);
  const cosLon = Math.cos(longitude);
  out9[0] = -sinLat * cosLon;
  out9[1] = -sinLon;
  out9[2] = -cosLat * cosLon;
  out9[3] = -sinLat * sinLon;
  out9[4] = cosLon;
  out9[5] = -cosLat * sinLon;
  out9[6] = cosLat;
  out9[7] = 0;
  out9[8] = -sinLat;
}
