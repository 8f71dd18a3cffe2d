/** Two motions that drive each other: a tip on a spring k and a damper c, and a second motion with its own. */
export interface TwoModes {
  /** Mass of the tip, mass, damping and stiffness of the second motion. */
  readonly m1: number;
  readonly m2: number;
  readonly d2: number;
  readonly k2: number;
  /** Force on the first per second, and on the second per first: m1·q̈1 + c·q̇1 + k·q1 + a·q2 = 0, m2·q̈2 + d2·q̇2 + k2·q2 + b·q1 = 0. */
  readonly a: number;
  readonly b: number;
}

/** Coefficients of the characteristic polynomial (m1·s² + c·s + k)(m2·s² + d2·s + k2) − a·b, lowest first. */
export function characteristic(
  { m1, m2, d2, k2, a, b }: TwoModes,
  k: number,
  c: number,
): readonly [number, number, number, number, number] {
  return [k * k2 - a * b, c * k2 + k * d2, m1 * k2 + c * d2 + k * m2, m1 * d2 + c * m2, m1 * m2];
}

/**
 * Hurwitz determinant of third order: zero where a pair of roots lies on the imaginary axis.
 *
 *     Δ3 = a1·(a2·a3 − a1·a4) − a0·a3²
 *
 * The system is stable when all coefficients and Δ3 are positive (Routh 1877, Hurwitz 1895).
 */
export function hurwitz(modes: TwoModes, k: number, c: number): number {
  const [a0, a1, a2, a3, a4] = characteristic(modes, k, c);
  return a1 * (a2 * a3 - a1 * a4) - a0 * a3 * a3;
}

/**
 * Stiffnesses k at which Δ3 = 0 for a damper c, rising: Δ3 is quadratic in k.
 *
 *     A = m2·a3 − d2·a4,  B = (m1·k2 + c·d2)·a3 − c·k2·a4
 *     Δ3 = d2·A·k² + (c·k2·A + d2·B − k2·a3²)·k + c·k2·B + a·b·a3²
 */
export function stiffnessOnBoundary({ m1, m2, d2, k2, a, b }: TwoModes, c: number): number[] {
  const a3 = m1 * d2 + c * m2;
  const a4 = m1 * m2;
  const A = m2 * a3 - d2 * a4;
  const B = (m1 * k2 + c * d2) * a3 - c * k2 * a4;
  const second = d2 * A;
  const first = c * k2 * A + d2 * B - k2 * a3 * a3;
  const last = c * k2 * B + a * b * a3 * a3;
  const root = first * first - 4 * second * last;
  if (root < 0) return [];
  const s = -0.5 * (first + Math.sign(first || 1) * Math.sqrt(root));
  return [s / second, last / s].sort((x, y) => x - y);
}

/** Frequency [rad/s] of the pair of roots on the imaginary axis: ω² = a1/a3. */
export function frequencyOnBoundary(modes: TwoModes, k: number, c: number): number {
  const [, a1, , a3] = characteristic(modes, k, c);
  return Math.sqrt(a1 / a3);
}

/** Stiffness at which a root is zero: a0 = 0. */
export function divergenceStiffness({ a, b, k2 }: TwoModes): number {
  return (a * b) / k2;
}
