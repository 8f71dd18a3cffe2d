import * as z from "zod";
import { whole } from "./leaf.ts";
import {
  BULK_MODULUS,
  DISCHARGE,
  EXPANSION,
  EXPONENT,
  FLUID_DENSITY,
  FREQUENCY,
  FRICTION,
  GAS_CONTENT,
  GAS_LOSS,
  OIL_TEMPERATURE,
  PART_OFFSET,
  PART_SIZE,
  PISTON_AREA,
  PISTON_SPEED,
  PRESSURE,
  PRESSURE_FROM_ZERO,
  VISCOSITY,
  VOLUME,
} from "./ranges.ts";
import { quantity } from "./value.ts";

const viscosityPoint = (describe: string, at: string, value: string) =>
  z
    .strictObject({
      temperature: quantity("temperature", "Temperature of the oil.", [at], OIL_TEMPERATURE),
      value: quantity("kinematicViscosity", "Kinematic viscosity there.", [value], VISCOSITY),
    })
    .meta({ description: describe });

const fluid = z
  .strictObject({
    viscosity: z
      .strictObject({
        cold: viscosityPoint("The colder of the two.", "40 degC", "15 mm^2/s"),
        warm: viscosityPoint("The warmer of the two.", "100 degC", "5 mm^2/s"),
      })
      .meta({ description: "Two viscosities of the oil, from its supplier or measured." }),
    density: quantity("density", "Density of the oil.", ["850 kg/m^3"], FLUID_DENSITY),
    densityAt: quantity("temperature", "Temperature at which the density holds.", ["15 degC"], OIL_TEMPERATURE),
    expansion: quantity("perTemperature", "Volume expansion of the oil.", ["7e-4 1/K"], EXPANSION),
    bulkModulus: quantity("pressure", "Isothermal bulk modulus of the oil without gas.", ["1.4 GPa"], BULK_MODULUS),
    gasContent: quantity(
      "number",
      "Undissolved gas over oil, by volume at atmospheric pressure.",
      ["0.5 %"],
      GAS_CONTENT,
    ),
  })
  .meta({ description: "The oil." });

const jack = z
  .strictObject({
    area: quantity("area", "Piston area under the held pressure, all jacks together.", ["68.72 cm^2"], PISTON_AREA),
    counterArea: quantity("area", "Piston area under the counter pressure.", ["100.5 cm^2"], PISTON_AREA),
    counterPressure: quantity(
      "pressure",
      "Absolute pressure that drives the jack towards a larger boom angle.",
      ["2.6 MPa"],
      PRESSURE_FROM_ZERO,
    ),
    supplyPressure: quantity("pressure", "Absolute pressure of the supply.", ["20.7 MPa"], PRESSURE),
    shutInVolume: quantity("volume", "Oil between the pistons and the closed valve.", ["4 L"], VOLUME),
  })
  .meta({ description: "The retract jack as pistons." });

const bleed = z
  .discriminatedUnion("kind", [
    z
      .strictObject({
        kind: z.literal("tubes").meta({ description: "Equal round passages side by side." }),
        count: whole("How many.", [10], 1, 100_000),
        diameter: quantity("length", "Bore.", ["2.5 mm"], PART_SIZE),
        length: quantity("length", "Length.", ["300 mm"], PART_SIZE),
      })
      .meta({ description: "Round passages." }),
    z
      .strictObject({
        kind: z.literal("annular gap").meta({ description: "A concentric gap around a plunger." }),
        diameter: quantity("length", "Outer diameter of the gap.", ["40 mm"], PART_SIZE),
        width: quantity("length", "Radial width.", ["0.2 mm"], PART_SIZE),
        length: quantity("length", "Length.", ["50 mm"], PART_SIZE),
      })
      .meta({ description: "Annular gap." }),
  ])
  .meta({ description: "Laminar passage in line with the orifice." });

const snubber = z
  .strictObject({
    orifice: z
      .strictObject({
        area: quantity("area", "Area of all holes together.", ["19.4 mm^2"], PISTON_AREA),
        dischargeCoefficient: quantity("number", "Discharge coefficient.", [0.62], DISCHARGE),
      })
      .meta({ description: "Sharp orifice." }),
    bleed: bleed.optional(),
    relief: z
      .strictObject({
        pressure: quantity("pressure", "Pressure across the snubber at which it opens.", ["6.3 MPa"], PRESSURE),
        rise: quantity("pressure", "Further pressure when it passes the stated speed.", ["0.6 MPa"], PRESSURE),
        atSpeed: quantity("speed", "Jack speed that passes it with that rise.", ["0.3 m/s"], PISTON_SPEED),
      })
      .meta({ description: "Relief valve across the snubber." })
      .optional(),
    sealFriction: quantity("force", "Coulomb friction of all seals, at the jack.", ["150 N"], FRICTION).optional(),
    freePlay: quantity("length", "Play of the jack's pins from stop to stop.", ["0.1 mm"], PART_OFFSET).optional(),
  })
  .meta({ description: "The valve block of the snubber." });

const accumulator = z
  .strictObject({
    precharge: quantity("pressure", "Absolute gas pressure with no oil in it.", ["2.0 MPa"], PRESSURE),
    prechargeAt: quantity("temperature", "Gas temperature of the precharge.", ["15 degC"], OIL_TEMPERATURE),
    volume: quantity("volume", "Gas volume with no oil in it.", ["1.1 L"], VOLUME),
    gasLoss: quantity("number", "Share of the gas that has leaked away.", ["0 %"], GAS_LOSS).optional(),
    exponent: quantity("number", "Exponent of the gas in fast motion.", [1.4], EXPONENT),
    fastAbove: quantity("frequency", "Frequency above which that exponent holds; 1.0 below.", ["0.1 Hz"], FREQUENCY),
    lineVolume: quantity("volume", "Oil between valve and gas.", ["0.5 L"], VOLUME),
    hose: z
      .strictObject({
        volume: quantity("volume", "Oil in the hoses.", ["0.3 L"], VOLUME),
        modulus: quantity("pressure", "Bulk modulus of the hose with its oil.", ["400 MPa"], BULK_MODULUS),
      })
      .meta({ description: "Hoses between valve and gas." })
      .optional(),
  })
  .meta({ description: "The gas accumulator behind the snubber." });

/** What snubber and accumulator are made of; optional, and held against the declared values at the tip. */
export const hydraulics = z
  .strictObject({ fluid, jack, snubber, accumulator })
  .meta({ description: "Snubber and accumulator as hardware, at the jack." });
