import { OUTPUTS } from "../../physics/gust-response/index.ts";
import type { QuantityKey } from "./types.ts";

const DEGREE = 180 / Math.PI;

/** What is watched, in the order of the outputs of `physics/gust-response`: words and printed unit. */
export const QUANTITIES: readonly {
  readonly key: QuantityKey;
  readonly title: string;
  readonly unit: string;
  /** Printed number = SI value × factor. */
  readonly factor: number;
}[] = [
  { key: "tension", title: "Socket tension", unit: "N", factor: 1 },
  { key: "shear", title: "Socket shear in the swing plane", unit: "N", factor: 1 },
  { key: "sideLoad", title: "Socket side load", unit: "N", factor: 1 },
  { key: "towLoad", title: "Latch load", unit: "N", factor: 1 },
  { key: "jackTravel", title: "Jack travel", unit: "m", factor: 1 },
  { key: "tipNormal", title: "Tip travel in the swing plane", unit: "m", factor: 1 },
  { key: "tipSide", title: "Tip travel sideways", unit: "m", factor: 1 },
  { key: "pitch", title: "Pitch", unit: "°", factor: DEGREE },
  { key: "bank", title: "Bank", unit: "°", factor: DEGREE },
  { key: "loadFactor", title: "Load factor", unit: "1", factor: 1 },
  { key: "sideLoadFactor", title: "Side load factor", unit: "1", factor: 1 },
  { key: "incidence", title: "Angle of attack", unit: "°", factor: DEGREE },
];

/** Place of a quantity in every vector of outputs. */
export function indexOf(key: QuantityKey): number {
  return OUTPUTS.findIndex((output) => output.key === key);
}

export function titleOf(key: QuantityKey): string {
  return QUANTITIES[indexOf(key)].title;
}
