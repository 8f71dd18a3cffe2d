import { referToTip } from "../../physics/snubber/index.ts";
import type { HoldInputs } from "../hold/index.ts";
import { lawAtJack } from "./hardware.ts";
import type { SnubberInputs } from "./settings.ts";
import type { Agreement, SnubberPoint } from "./types.ts";

/**
 * Declared coefficients and stiffness against the hardware at the normal oil temperature, where the declared ones hold; the
 * accumulator under the trim load of the first condition and mass.
 */
export function agreementOf(
  inputs: HoldInputs,
  { hardware, declared, settings }: SnubberInputs,
  points: readonly SnubberPoint[],
): Agreement[] {
  const law = lawAtJack(hardware, settings.temperatures.normal);
  const at = (value: number, angle: number | null, power: 2 | 3): number =>
    angle === null ? value : referToTip(value, inputs.tipPerJack(angle), power);
  const found = [
    compare("C1", "N·s/m", declared.linear, at(law.linear, declared.snubberAngle, 2)),
    compare("C2", "N·s²/m²", declared.quadratic, at(law.quadratic, declared.snubberAngle, 3)),
  ];
  const point = points.find(({ temperature }) => temperature === "normal");
  const condition = inputs.conditions.find(({ name }) => name === point?.condition);
  if (point === undefined || condition === undefined) return found;
  const ratio = inputs.tipPerJack(condition.boomAngleDown);
  const atJack = referToTip(point.accumulatorStiffness_N_m, 1 / ratio);
  return [...found, compare("accumulator", "N/m", declared.accumulator, at(atJack, declared.accumulatorAngle, 2))];
}

function compare(quantity: Agreement["quantity"], unit: string, declared: number, hardware: number): Agreement {
  const larger = Math.max(declared, hardware);
  return { quantity, declared, hardware, unit, difference_1: larger > 0 ? Math.abs(hardware - declared) / larger : 0 };
}
