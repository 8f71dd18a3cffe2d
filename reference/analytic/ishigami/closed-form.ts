/** f = sin x₁ + a·sin² x₂ + b·x₃⁴·sin x₁ for x uniform in ±π. */
export function ishigami(x: ArrayLike<number>, a = 7, b = 0.1): number {
  return Math.sin(x[0]) + a * Math.sin(x[1]) ** 2 + b * x[2] ** 4 * Math.sin(x[0]);
}

/** Mean, variance, first-order and total shares, from ∫sin² = ½, ∫sin⁴ = 3/8, ∫x⁴ = π⁴/5, ∫x⁸ = π⁸/9 (means over ±π). */
export function ishigamiShares(a = 7, b = 0.1) {
  const p4 = Math.PI ** 4;
  const v1 = 0.5 * (1 + (b * p4) / 5) ** 2;
  const v2 = a ** 2 / 8;
  const v13 = 0.5 * b ** 2 * p4 ** 2 * (1 / 9 - 1 / 25);
  const variance = v1 + v2 + v13;
  const share = (...parts: number[]) => parts.reduce((sum, part) => sum + part, 0) / variance;
  return {
    mean: a / 2,
    variance,
    first: [share(v1), share(v2), 0],
    total: [share(v1, v13), share(v2), share(v13)],
  };
}
