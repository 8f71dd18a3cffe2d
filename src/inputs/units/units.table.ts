import type { Dimension } from "./dimension.ts";
import { dimension, NONE } from "./dimension.ts";

/** One unit: SI value = (written value + offset) · factor; the offset belongs to temperatures only. */
export interface UnitEntry {
  readonly factor: number;
  readonly dimension: Dimension;
  readonly offset?: number;
  /** SI prefixes that make sense with it. */
  readonly prefixes?: readonly string[];
}

/** Powers of ten of the SI prefixes that are used. */
export const PREFIXES: ReadonlyMap<string, number> = new Map([
  ["G", 1e9],
  ["M", 1e6],
  ["k", 1e3],
  ["h", 1e2],
  ["da", 1e1],
  ["d", 1e-1],
  ["c", 1e-2],
  ["m", 1e-3],
  ["µ", 1e-6],
  ["μ", 1e-6],
  ["u", 1e-6],
  ["n", 1e-9],
]);

const MICRO = ["µ", "μ", "u"];

// Exact by definition: international foot, avoirdupois pound, standard gravity (NIST SP 811, appendix B).
const FOOT = 0.3048;
const POUND = 0.45359237;
const GRAVITY = 9.80665;
const POUND_FORCE = POUND * GRAVITY;
const SLUG = POUND_FORCE / FOOT;

const LENGTH = dimension({ m: 1 });
const MASS = dimension({ kg: 1 });
const TIME = dimension({ s: 1 });
const ANGLE = dimension({ rad: 1 });
const SPEED = dimension({ m: 1, s: -1 });
const ACCELERATION = dimension({ m: 1, s: -2 });
const FORCE = dimension({ kg: 1, m: 1, s: -2 });
const PRESSURE = dimension({ kg: 1, m: -1, s: -2 });
const ENERGY = dimension({ kg: 1, m: 2, s: -2 });
const POWER = dimension({ kg: 1, m: 2, s: -3 });
const VOLUME = dimension({ m: 3 });
const TEMPERATURE = dimension({ K: 1 });
const RATE = dimension({ rad: 1, s: -1 });

const unit = (of: Dimension, factor: number, prefixes?: readonly string[]): UnitEntry =>
  prefixes === undefined ? { factor, dimension: of } : { factor, dimension: of, prefixes };

/** Every unit by the name it is written with. */
export const UNITS: ReadonlyMap<string, UnitEntry> = new Map<string, UnitEntry>([
  ["m", unit(LENGTH, 1, ["k", "d", "c", "m", "n", ...MICRO])],
  ["in", unit(LENGTH, FOOT / 12)],
  ["ft", unit(LENGTH, FOOT)],
  ["yd", unit(LENGTH, 3 * FOOT)],
  ["mi", unit(LENGTH, 5280 * FOOT)],
  ["nmi", unit(LENGTH, 1852)],
  ["kg", unit(MASS, 1)],
  ["mg", unit(MASS, 1e-6)],
  ["t", unit(MASS, 1000)],
  ["lb", unit(MASS, POUND)],
  ["slug", unit(MASS, SLUG)],
  ["s", unit(TIME, 1, ["m", ...MICRO])],
  ["min", unit(TIME, 60)],
  ["h", unit(TIME, 3600)],
  ["Hz", unit(dimension({ s: -1 }), 1, ["k", "M"])],
  ["rad", unit(ANGLE, 1, ["m", ...MICRO])],
  ["deg", unit(ANGLE, Math.PI / 180)],
  ["°", unit(ANGLE, Math.PI / 180)],
  ["rev", unit(ANGLE, 2 * Math.PI)],
  ["rpm", unit(RATE, (2 * Math.PI) / 60)],
  ["kt", unit(SPEED, 1852 / 3600)],
  ["mph", unit(SPEED, (5280 * FOOT) / 3600)],
  ["g0", unit(ACCELERATION, GRAVITY)],
  ["N", unit(FORCE, 1, ["m", "da", "k", "M"])],
  ["kgf", unit(FORCE, GRAVITY)],
  ["lbf", unit(FORCE, POUND_FORCE)],
  ["kip", unit(FORCE, 1000 * POUND_FORCE)],
  ["Pa", unit(PRESSURE, 1, ["h", "k", "M", "G"])],
  ["bar", unit(PRESSURE, 1e5, ["m"])],
  ["psi", unit(PRESSURE, POUND_FORCE / (FOOT / 12) ** 2)],
  ["ksi", unit(PRESSURE, (1000 * POUND_FORCE) / (FOOT / 12) ** 2)],
  ["psf", unit(PRESSURE, POUND_FORCE / FOOT ** 2)],
  // conventional inch of mercury: 13 595.1 kg/m³ at standard gravity
  ["inHg", unit(PRESSURE, 13595.1 * GRAVITY * (FOOT / 12))],
  ["J", unit(ENERGY, 1, ["k", "M"])],
  ["W", unit(POWER, 1, ["m", "k", "M"])],
  ["hp", unit(POWER, 550 * POUND_FORCE * FOOT)],
  ["L", unit(VOLUME, 1e-3, ["c", "m"])],
  ["gal", unit(VOLUME, 231 * (FOOT / 12) ** 3)],
  ["cSt", unit(dimension({ m: 2, s: -1 }), 1e-6)],
  ["K", unit(TEMPERATURE, 1)],
  ["degC", { factor: 1, dimension: TEMPERATURE, offset: 273.15 }],
  ["°C", { factor: 1, dimension: TEMPERATURE, offset: 273.15 }],
  ["degF", { factor: 5 / 9, dimension: TEMPERATURE, offset: 459.67 }],
  ["°F", { factor: 5 / 9, dimension: TEMPERATURE, offset: 459.67 }],
  ["degR", unit(TEMPERATURE, 5 / 9)],
  ["A", unit(dimension({ A: 1 }), 1, ["m", "k"])],
  ["V", unit(dimension({ kg: 1, m: 2, s: -3, A: -1 }), 1, ["m", "k"])],
  ["mol", unit(dimension({ mol: 1 }), 1, ["k", "m"])],
  ["cd", unit(dimension({ cd: 1 }), 1)],
  ["%", unit(NONE, 0.01)],
]);

/** Spellings that are refused because two readings are common, each with what to write instead. */
export const AMBIGUOUS: ReadonlyMap<string, string> = new Map([
  ["g", "g may mean gram or standard gravity: write kg, or g0 for 9.80665 m/s^2"],
  ["gs", "write g0 for standard gravity"],
  ["lbs", "write lb for mass or lbf for force"],
  ["ton", "ton may be metric, short or long: write t for 1000 kg"],
  ["T", "write t for 1000 kg"],
  ["C", "write degC for a temperature"],
  ["F", "write degF for a temperature"],
  ["mile", "write nmi or mi"],
  ["M", "write Mach for a Mach number"],
]);

/** Other spellings people use, each with the name used here. */
export const OTHER_NAMES: ReadonlyMap<string, string> = new Map([
  ["kts", "kt"],
  ["kn", "kt"],
  ["knot", "kt"],
  ["knots", "kt"],
  ["NM", "nmi"],
  ["lbm", "lb"],
  ["slugs", "slug"],
  ["feet", "ft"],
  ["foot", "ft"],
  ["inch", "in"],
  ["inches", "in"],
  ["sec", "s"],
  ["secs", "s"],
  ["second", "s"],
  ["seconds", "s"],
  ["hr", "h"],
  ["hour", "h"],
  ["degree", "deg"],
  ["degrees", "deg"],
  ["radian", "rad"],
  ["radians", "rad"],
  ["metre", "m"],
  ["meter", "m"],
  ["metres", "m"],
  ["meters", "m"],
  ["newton", "N"],
  ["percent", "%"],
  ["pct", "%"],
  ["fpm", "ft/min"],
  ["tonne", "t"],
  ["tonnes", "t"],
  ["l", "L"],
]);
