/** Exponents of length, mass, time, electric current, temperature, amount, light, plane angle. */
export type Dimension = readonly [number, number, number, number, number, number, number, number];

const SYMBOLS = ["m", "kg", "s", "A", "K", "mol", "cd", "rad"];

export const NONE: Dimension = [0, 0, 0, 0, 0, 0, 0, 0];

/** Dimension from the exponents that are not zero, e.g. `dimension({ m: 1, s: -1 })`. */
export function dimension(exponents: Readonly<Record<string, number>>): Dimension {
  return SYMBOLS.map((symbol) => exponents[symbol] ?? 0) as unknown as Dimension;
}

/** Dimension of `a · b^power`. */
export function combine(a: Dimension, b: Dimension, power: number): Dimension {
  return a.map((exponent, i) => exponent + power * b[i]!) as unknown as Dimension;
}

export function sameDimension(a: Dimension, b: Dimension): boolean {
  return a.every((exponent, i) => exponent === b[i]);
}

/** The dimension spelt in base units, e.g. `kg m^2 s^-2`; `1` when it has none. */
export function spellDimension(of: Dimension): string {
  const order = [1, 0, 2, 3, 4, 5, 6, 7];
  const parts = order.filter((i) => of[i] !== 0).map((i) => (of[i] === 1 ? SYMBOLS[i]! : `${SYMBOLS[i]!}^${of[i]!}`));
  return parts.length === 0 ? "1" : parts.join(" ");
}
