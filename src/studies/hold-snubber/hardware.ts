import {
  type AccumulatorState,
  ATMOSPHERE,
  accumulatorState,
  bleedCoefficient,
  bulkModulusAt,
  densityAt,
  dynamicViscosity,
  kinematicViscosity,
  orificeCoefficient,
  pistonPressure,
  reynoldsNumber,
  trappedOilStiffness,
} from "../../physics/hydraulics/index.ts";
import { referToTip, type SnubberForceLaw } from "../../physics/snubber/index.ts";
import type { SnubberHardware } from "./settings.ts";

/** Snubber and accumulator at one oil temperature and jack load; forces, rates and lengths where `ratio` says. */
export interface SnubberAt {
  readonly law: SnubberForceLaw;
  readonly freePlay: number;
  /** Accumulator felt in the declared motion, in slow motion, and without gas [N/m]. */
  readonly accumulator: number;
  readonly slowAccumulator: number;
  readonly withoutGas: number;
  /** Oil shut in between piston and valve [N/m]. */
  readonly oil: number;
  /** Behind the piston: absolute pressure [Pa]; not above 0 when the load lifts the piston off the oil. */
  readonly pressure: number;
  readonly outcome: AccumulatorState["outcome"] | "no pressure";
  readonly gasVolume: number;
  readonly precharge: number;
}

/** Least absolute pressure with which the oil is reckoned [Pa]: below it is vapour, which the outcome says. */
const LEAST_PRESSURE = 0.1 * ATMOSPHERE;

/**
 * Force law of the hardware at the jack at an oil temperature.
 *
 * @returns C1 [N·s/m], C2 [N·s²/m²], relief [N], its rise [N·s/m], friction [N]
 */
export function lawAtJack(hardware: SnubberHardware, temperature: number): SnubberForceLaw {
  const { fluid, jack, orifice, bleed, relief, sealFriction } = hardware;
  return {
    linear: bleed === null ? 0 : bleedCoefficient(bleed, jack.area, dynamicViscosity(fluid, temperature)),
    quadratic: orificeCoefficient(orifice, jack.area, densityAt(fluid, temperature)),
    relief: relief === null ? Number.POSITIVE_INFINITY : relief.pressure * jack.area,
    reliefRate: relief === null ? 0 : (relief.rise * jack.area) / relief.atSpeed,
    friction: sealFriction,
  };
}

/** Reynolds number of the bleed at a jack speed [m/s]; 0 without a bleed. */
export function bleedReynolds(hardware: SnubberHardware, temperature: number, speed: number): number {
  const { fluid, jack, bleed } = hardware;
  if (bleed === null) return 0;
  return reynoldsNumber(bleed, jack.area * speed, kinematicViscosity(fluid.viscosity, temperature));
}

/** A law at the jack as it is felt at the tip, i = tip travel per jack travel: forces go with 1/i. */
export function lawToTip(law: SnubberForceLaw, ratio: number): SnubberForceLaw {
  return {
    linear: referToTip(law.linear, ratio),
    quadratic: referToTip(law.quadratic, ratio, 3),
    relief: law.relief / ratio,
    reliefRate: referToTip(law.reliefRate, ratio),
    friction: law.friction / ratio,
  };
}

/**
 * The hardware at the tip.
 *
 * @param temperature oil and gas [K]
 * @param jackLoad    on the jack, driving it towards a larger boom angle [N]
 * @param ratio       i, tip travel per jack travel [1]
 */
export function snubberAt(
  hardware: SnubberHardware,
  temperature: number,
  jackLoad: number,
  ratio: number,
  gasLoss = hardware.accumulator.gasLoss,
): SnubberAt {
  const { fluid, jack, accumulator } = hardware;
  const pressure = pistonPressure(jackLoad, jack.counterForce, jack.area);
  const held = Math.max(pressure, LEAST_PRESSURE);
  const { lineVolume, hose } = accumulator;
  const exponent = accumulator.motion >= accumulator.fastAbove ? accumulator.exponent : 1;
  const ofLine = lineVolume / bulkModulusAt(fluid, held, exponent);
  const lineCompliance = ofLine + (hose === null ? 0 : hose.volume / hose.modulus);
  const gas = { ...accumulator, gasLoss, lineCompliance };
  const fast = accumulatorState(gas, held, temperature, jack.area, exponent);
  const slow = accumulatorState(gas, held, temperature, jack.area, 1);
  const modulus = bulkModulusAt(fluid, held, exponent);
  return {
    law: lawToTip(lawAtJack(hardware, temperature), ratio),
    freePlay: hardware.freePlay * ratio,
    accumulator: referToTip(fast.stiffness, ratio),
    slowAccumulator: referToTip(slow.stiffness, ratio),
    withoutGas: referToTip(jack.area ** 2 / lineCompliance, ratio),
    oil: referToTip(trappedOilStiffness(modulus, jack.area, jack.shutInVolume), ratio),
    pressure,
    outcome: pressure > 0 ? fast.outcome : "no pressure",
    gasVolume: fast.gasVolume,
    precharge: fast.precharge,
  };
}
