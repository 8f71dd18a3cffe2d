import { BugError } from "../../math/errors.ts";
import { geopotentialFromGeometric, type MutableAtmosphere, writeStandardAtmosphere } from "../atmosphere/index.ts";
import type { Environment } from "../bodies/index.ts";
import { type EarthFigure, geodeticFromCartesian, rotationFromLocal } from "./figure.ts";
import { type GravitationLaw, gravitation } from "./gravitation.ts";

/** What the world is made of. */
export interface EarthSettings {
  readonly figure: EarthFigure;
  readonly gravitation: GravitationLaw;
  /** Angular rate of the earth and its air [rad/s], towards east; 0 for a fixed earth. */
  readonly rotationRate: number;
  /** Warmer than standard positive [K]. */
  readonly isaOffset: number;
  /**
   * Wind over the ground in local axes, writes (north, east, down) [m/s] at a geometric altitude [m]: the velocity of
   * the air, so a wind *from* the west is positive east.
   */
  readonly wind?: (altitude: number, out: Float64Array) => void;
}

/**
 * The turning earth as surroundings of the equations of motion.
 *
 * H is non-rotating, origin at the centre of the earth, z through the north pole. Everything is the same all around a
 * parallel, so nothing depends on time: H's x axis may be taken to pass through any meridian at time 0. Air is that
 * of the U.S. Standard Atmosphere 1976 at the geometric altitude; it turns with the earth:
 *
 *     v_air = Ω×r + R_local·wind,   ω_air = Ω                                                      (6)
 *
 * The turning that a wind gradient gives the air is not part of ω_air.
 *
 * @param settings  figure, gravitation, rotation, temperature offset, wind
 * @returns an environment; it throws a DomainError above 86 km or below −5 km
 * @source   own derivation, README eq. 6
 * @verified published/nasa-tm-2015-218675 (cases 1–10 but 5's attitude)
 * @cost     no allocation per evaluation
 */
export function turningEarth(settings: EarthSettings): Environment {
  const { figure, rotationRate, isaOffset, wind } = settings;
  const position = new Float64Array(3);
  const geodetic = new Float64Array(3);
  const local = new Float64Array(9);
  const breeze = new Float64Array(3);
  const air: MutableAtmosphere = { pressure: 0, temperature: 0, density: 0, soundSpeed: 0, viscosity: 0 };
  return {
    evaluate(state, out) {
      if (state.length < 3) throw new BugError("the state holds no position");
      for (let i = 0; i < 3; i++) position[i] = state[i];
      gravitation(settings.gravitation, position, out.gravity);
      geodeticFromCartesian(figure, position, geodetic);
      writeStandardAtmosphere(geopotentialFromGeometric(geodetic[2]), isaOffset, air);
      out.density = air.density;
      out.soundSpeed = air.soundSpeed;
      out.airRotation[0] = 0;
      out.airRotation[1] = 0;
      out.airRotation[2] = rotationRate;
      out.airVelocity[0] = -rotationRate * position[1];
      out.airVelocity[1] = rotationRate * position[0];
      out.airVelocity[2] = 0;
      if (wind === undefined) return;
      wind(geodetic[2], breeze);
      rotationFromLocal(geodetic[0], geodetic[1], local);
      for (let i = 0; i < 3; i++) {
        out.airVelocity[i] += local[3 * i] * breeze[0] + local[3 * i + 1] * breeze[1] + local[3 * i + 2] * breeze[2];
      }
    },
  };
}
