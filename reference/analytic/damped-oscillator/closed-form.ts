/**
 * Roots of ẍ + d·ẋ + k·x = 0, all in 1/s: one entry with imag > 0 for a pair, or two real roots, the slower first.
 *
 *     λ = −d/2 ± √(d²/4 − k)
 *
 * The slower real root is k over the faster one, so that it keeps its digits under heavy damping.
 *
 * @param damping   d [1/s]
 * @param stiffness k [1/s²], > 0
 */
export function oscillatorRoots(
  damping: number,
  stiffness: number,
): readonly { readonly real: number; readonly imag: number }[] {
  const inner = (damping * damping) / 4 - stiffness;
  if (inner < 0) return [{ real: -damping / 2, imag: Math.sqrt(-inner) }];
  const fast = -damping / 2 - Math.sign(damping) * Math.sqrt(inner);
  return [
    { real: stiffness / fast, imag: 0 },
    { real: fast, imag: 0 },
  ];
}
