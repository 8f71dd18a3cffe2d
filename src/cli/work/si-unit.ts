import { parseUnit, sameDimension, spellDimension } from "../../inputs/units/index.ts";

/** SI units with a name that an engineer writes; any other dimension is spelt in base units. */
const NAMED = [
  ["m", "m^2", "kg", "kg*m^2", "s", "Hz", "rad", "1/rad", "K", "m/s", "rad/s"],
  ["N", "N*m", "Pa", "N/m", "N*s/m", "N*s^2/m^2", "W"],
].flat();

/** The SI unit of a value that was written with `unit`; "1" for a plain number. */
export function siUnit(unit: string | undefined): string {
  if (unit === undefined) return "1";
  const parsed = parseUnit(unit);
  if (!parsed.ok) return "1";
  const { dimension } = parsed.unit;
  const named = NAMED.find((name) => {
    const candidate = parseUnit(name);
    return candidate.ok && sameDimension(candidate.unit.dimension, dimension);
  });
  return named ?? spellDimension(dimension);
}
