import { DomainError } from "../../math/errors.ts";
import { geopotentialFromGeometric, highestGeopotential, requireInside } from "./altitude.ts";
import {
  airGasConstant,
  heatRatio,
  layers,
  lowestGeopotential,
  seaLevelPressure,
  seaLevelTemperature,
  standardGravity,
  sutherlandFactor,
  sutherlandTemperature,
} from "./constants.table.ts";

/** Air at one point, to be written. */
export interface MutableAtmosphere {
  /** Static pressure [Pa]. */
  pressure: number;
  /** Temperature [K]; above 80 km the molecular-scale temperature. */
  temperature: number;
  /** Density [kg/m³]. */
  density: number;
  /** Speed of sound [m/s]. */
  soundSpeed: number;
  /** Dynamic viscosity [Pa·s]. */
  viscosity: number;
}
/** Air at one point. */
export type Atmosphere = Readonly<MutableAtmosphere>;

interface Layer {
  readonly base: number;
  readonly lapse: number;
  readonly temperature: number;
  readonly pressure: number;
}

/** g₀·M₀/R* [K/m]: the lapse of a hydrostatic column. */
const hydrostatic = standardGravity / airGasConstant;

function pressureInLayer(layer: Layer, geopotentialAltitude: number): number {
  const rise = geopotentialAltitude - layer.base;
  if (layer.lapse === 0) return layer.pressure * Math.exp((-hydrostatic * rise) / layer.temperature);
  const ratio = 1 + (layer.lapse * rise) / layer.temperature;
  return layer.pressure * ratio ** (-hydrostatic / layer.lapse);
}

function stackLayers(): readonly Layer[] {
  const stack: Layer[] = [];
  let below: Layer | undefined;
  for (const [base, lapse] of layers) {
    const temperature =
      below === undefined ? seaLevelTemperature : below.temperature + below.lapse * (base - below.base);
    const pressure = below === undefined ? seaLevelPressure : pressureInLayer(below, base);
    below = { base, lapse, temperature, pressure };
    stack.push(below);
  }
  return stack;
}

const stack = stackLayers();

function layerAt(geopotentialAltitude: number): Layer {
  let i = stack.length - 1;
  while (i > 0 && geopotentialAltitude < stack[i]!.base) i--;
  return stack[i]!;
}

/**
 * Air of the U.S. Standard Atmosphere 1976 at a pressure altitude, warmed or cooled by an offset.
 *
 *     T = T_b + L_b·(H − H_b) + ΔT                                          (3)
 *     p = p_b·[1 + L_b·(H − H_b)/T_b]^(−g₀M₀/(R*·L_b)),  or
 *     p = p_b·exp(−g₀M₀·(H − H_b)/(R*·T_b))  where L_b = 0                  (4)
 *     ρ = p·M₀/(R*·T)                                                       (5)
 *     a = √(γ·R*·T/M₀)                                                      (6)
 *     μ = β·T^(3/2)/(T + S)                                                 (7)
 *
 * The offset changes the temperature at *fixed pressure*: the pressure altitude, which an altimeter set to
 * 1013.25 hPa shows, keeps its pressure; the geometric altitude of that level changes and is not given here.
 * Above 80 km, T is the molecular-scale temperature, which eqs. (5) and (6) want.
 *
 * @param pressureAltitude  H, geopotential, up positive [m]; −5000 to 84 852
 * @param isaOffset         ΔT, positive is warmer than standard [K]
 * @throws {DomainError} outside the layers, or where the offset leaves no positive temperature
 * @source   published/ussa-1976, eqs. 23, 33, 42, 50, 51
 * @verified published/ussa-1976 (one unit of the last printed digit, through `standardAtmosphereAtGeometric`)
 */
export function standardAtmosphere(pressureAltitude: number, isaOffset = 0): Atmosphere {
  const out = { pressure: 0, temperature: 0, density: 0, soundSpeed: 0, viscosity: 0 };
  writeStandardAtmosphere(pressureAltitude, isaOffset, out);
  return out;
}

/**
 * Writes the air of `standardAtmosphere`, for hot loops.
 *
 * @param pressureAltitude  H, geopotential, up positive [m]; −5000 to 84 852
 * @param isaOffset         ΔT, positive is warmer than standard [K]
 * @param out               air, written
 * @throws {DomainError} see `standardAtmosphere`
 * @source   published/ussa-1976, eqs. (3) to (7) of `standardAtmosphere`
 * @verified see `standardAtmosphere`
 * @cost     no allocation
 */
export function writeStandardAtmosphere(pressureAltitude: number, isaOffset: number, out: MutableAtmosphere): void {
  requireInside("pressure altitude", pressureAltitude);
  const layer = layerAt(pressureAltitude);
  const temperature = layer.temperature + layer.lapse * (pressureAltitude - layer.base) + isaOffset;
  if (!(temperature > 0 && temperature < Number.POSITIVE_INFINITY)) {
    throw new DomainError("ISA temperature offset [K]", isaOffset, "finite, leaving a positive temperature");
  }
  const pressure = pressureInLayer(layer, pressureAltitude);
  out.pressure = pressure;
  out.temperature = temperature;
  out.density = pressure / (airGasConstant * temperature);
  out.soundSpeed = Math.sqrt(heatRatio * airGasConstant * temperature);
  out.viscosity = (sutherlandFactor * temperature ** 1.5) / (temperature + sutherlandTemperature);
}

/**
 * Air of the U.S. Standard Atmosphere 1976 at a geometric altitude on a standard day, eqs. (1) and (3) to (7).
 *
 * @param geometricAltitude  Z, above mean sea level, up positive [m]; −4996 to 86 000
 * @throws {DomainError} outside the layers
 * @source   published/ussa-1976, Tables I and III, pages in geometric altitude
 * @verified published/ussa-1976 (one unit of the last printed digit); published/handbook-ussa-table-6 (same)
 */
export function standardAtmosphereAtGeometric(geometricAltitude: number): Atmosphere {
  return standardAtmosphere(geopotentialFromGeometric(geometricAltitude), 0);
}

/**
 * Pressure altitude of a static pressure: the inverse of eq. (4).
 *
 * @param pressure  p, static [Pa]
 * @returns H, geopotential, up positive [m]
 * @throws {DomainError} if the pressure lies outside that of the layers
 * @source   published/ussa-1976, eq. 33 solved for H
 * @verified round trip with `standardAtmosphere` (atol 1e-6 m)
 */
export function pressureAltitude(pressure: number): number {
  const highest = pressureInLayer(stack[0]!, lowestGeopotential);
  const lowest = pressureInLayer(stack[stack.length - 1]!, highestGeopotential);
  if (!(pressure >= lowest && pressure <= highest)) {
    throw new DomainError("static pressure [Pa]", pressure, `${lowest} to ${highest}`);
  }
  let i = stack.length - 1;
  while (i > 0 && pressure > stack[i]!.pressure) i--;
  const layer = stack[i]!;
  const ratio = pressure / layer.pressure;
  if (layer.lapse === 0) return layer.base - (layer.temperature / hydrostatic) * Math.log(ratio);
  return layer.base + (layer.temperature / layer.lapse) * (ratio ** (-layer.lapse / hydrostatic) - 1);
}
