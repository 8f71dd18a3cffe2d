import type { Dimension } from "../units/index.ts";
import { dimension, NONE, sameDimension, spellDimension } from "../units/index.ts";

/** A kind of quantity: what it is called, which dimensions it takes, which units to suggest. */
export interface Kind {
  readonly name: string;
  readonly article: "a" | "an";
  readonly dimensions: readonly Dimension[];
  readonly units: readonly string[];
  /** A plain number is one of the choices. */
  readonly plain: boolean;
  /** Temperatures as a difference or on a scale. */
  readonly scale?: "difference" | "absolute";
}

const kind = (name: string, of: Dimension, units: string): Kind => ({
  name,
  article: /^[aeiou]/.test(name) ? "an" : "a",
  dimensions: [of],
  units: units.split(", "),
  plain: false,
});

const PER_ANGLE = dimension({ rad: -1 });

/** Every kind that the pair file uses. */
export const KINDS = {
  length: kind("length", dimension({ m: 1 }), "m, mm, ft, in"),
  area: kind("area", dimension({ m: 2 }), "m^2, ft^2"),
  mass: kind("mass", dimension({ kg: 1 }), "kg, t, lb, slug"),
  inertia: kind("moment of inertia", dimension({ kg: 1, m: 2 }), "kg m^2, slug ft^2, lb ft^2"),
  force: kind("force", dimension({ kg: 1, m: 1, s: -2 }), "N, kN, lbf"),
  flexuralRigidity: kind("bending or torsional rigidity", dimension({ kg: 1, m: 3, s: -2 }), "N m^2, kN m^2"),
  massPerLength: kind("mass per length", dimension({ kg: 1, m: -1 }), "kg/m, lb/ft"),
  stiffness: kind("stiffness", dimension({ kg: 1, s: -2 }), "N/m, kN/m, MN/m, lbf/ft, lbf/in"),
  dampingRate: kind("damping rate", dimension({ kg: 1, s: -1 }), "N*s/m, kN*s/m, lbf*s/ft"),
  quadraticRate: kind("quadratic damping rate", dimension({ kg: 1, m: -1 }), "N*s^2/m^2, kN*s^2/m^2, lbf*s^2/ft^2"),
  moment: kind("moment", dimension({ kg: 1, m: 2, s: -2 }), "N m, kN m, lbf ft"),
  turningStiffness: kind("turning stiffness", dimension({ kg: 1, m: 2, s: -2, rad: -1 }), "N m/rad, kN m/rad, N m/deg"),
  turningRate: kind("turning damping", dimension({ kg: 1, m: 2, s: -1, rad: -1 }), "N m s/rad, N m s/deg"),
  energy: kind("energy", dimension({ kg: 1, m: 2, s: -2 }), "J, kJ, ft lbf"),
  time: kind("time", dimension({ s: 1 }), "s, ms, min"),
  frequency: kind("frequency", dimension({ s: -1 }), "Hz"),
  angle: kind("angle", dimension({ rad: 1 }), "deg, rad"),
  angularRate: kind("angular rate", dimension({ rad: 1, s: -1 }), "deg/s, rad/s"),
  anglePerLength: kind("angle per length", dimension({ rad: 1, m: -1 }), "deg/m, rad/m"),
  anglePerSpeed: kind("angle per speed", dimension({ rad: 1, m: -1, s: 1 }), "deg*s/m, rad*s/m"),
  perTime: kind("gain per time", dimension({ s: -1 }), "1/s"),
  perAngularRate: kind("density over angular frequency", dimension({ s: 1, rad: -1 }), "s/rad"),
  acceleration: kind("acceleration", dimension({ m: 1, s: -2 }), "m/s^2, ft/s^2"),
  perAngle: { ...kind("derivative with angle", PER_ANGLE, "1/rad, 1/deg"), article: "a" },
  rateDerivative: {
    name: "derivative with reduced rate",
    article: "a",
    dimensions: [NONE, PER_ANGLE],
    units: ["1/rad"],
    plain: true,
  },
  number: { name: "plain number", article: "a", dimensions: [NONE], units: ["%"], plain: true },
  temperatureDifference: {
    ...kind("temperature difference", dimension({ K: 1 }), "K, degC, degF"),
    scale: "difference",
  },
  temperature: { ...kind("temperature", dimension({ K: 1 }), "degC, K, degF"), scale: "absolute" },
  speed: kind("speed", dimension({ m: 1, s: -1 }), "m/s, kt, ft/s"),
  volume: kind("volume", dimension({ m: 3 }), "L, m^3, cm^3, gal"),
  density: kind("density", dimension({ kg: 1, m: -3 }), "kg/m^3"),
  kinematicViscosity: kind("kinematic viscosity", dimension({ m: 2, s: -1 }), "mm^2/s, cSt, m^2/s"),
  perTemperature: kind("expansion with temperature", dimension({ K: -1 }), "1/K"),
  pressure: kind("pressure", dimension({ kg: 1, m: -1, s: -2 }), "Pa, kPa, MPa, psi, psf"),
} satisfies Record<string, Kind>;

export type KindName = keyof typeof KINDS;

/** The choices of a kind for a message: `a stiffness in N/m, kN/m, …`. */
export function allowedUnits(of: Kind): string {
  const units = of.units.join(", ");
  if (!of.plain) return `${of.article} ${of.name} in ${units}`;
  return `a plain number, or in ${units}`;
}

const NAMED: readonly Kind[] = [
  KINDS.length,
  KINDS.area,
  KINDS.mass,
  KINDS.inertia,
  KINDS.force,
  KINDS.stiffness,
  KINDS.dampingRate,
  KINDS.quadraticRate,
  KINDS.time,
  KINDS.frequency,
  KINDS.angle,
  KINDS.perAngle,
  KINDS.number,
  KINDS.temperature,
  KINDS.speed,
  KINDS.pressure,
  KINDS.volume,
  KINDS.density,
  KINDS.kinematicViscosity,
  KINDS.perTemperature,
  KINDS.flexuralRigidity,
  KINDS.massPerLength,
  KINDS.moment,
  KINDS.turningStiffness,
  KINDS.turningRate,
  KINDS.angularRate,
  KINDS.anglePerLength,
  KINDS.anglePerSpeed,
  KINDS.perAngularRate,
  KINDS.acceleration,
];

/** Name of a dimension in trade words, else its base units. */
export function nameDimension(of: Dimension): string {
  const found = NAMED.find((each) => sameDimension(each.dimensions[0]!, of));
  return found === undefined ? `a quantity in ${spellDimension(of)}` : `${found.article} ${found.name}`;
}
