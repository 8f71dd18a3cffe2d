/** One motion of the two oscillators: root (imaginary part ≥ 0) and amplitudes of both as [re, im]. */
export interface CoupledMode {
  readonly real: number;
  readonly imag: number;
  readonly first: readonly [number, number];
  readonly second: readonly [number, number];
}

/** ẍ₁ + (s − δ)·x₁ + a·x₂ = 0,  ẍ₂ + (s + δ)·x₂ + b·x₁ = 0; all in 1/s². */
export interface CoupledOscillators {
  /** s, mean of the two squared frequencies. */
  readonly mean: number;
  /** δ, half of their difference. */
  readonly half: number;
  /** a, pull of the second on the first. */
  readonly onFirst: number;
  /** b, pull of the first on the second. */
  readonly onSecond: number;
}

/**
 * Roots and amplitudes of two undamped oscillators that pull on each other.
 *
 *     λ² = −s ∓ √(δ² + a·b),    x₁ : x₂ = a : −(λ² + s − δ)
 *
 * Without coupling they cross. With a·b > 0 (a spring between them) they veer apart, closest at δ = 0. With a·b < 0 (a
 * coupling that gives energy) the frequencies coalesce while δ² < −a·b, one motion growing and one dying at the same
 * frequency. Oscillatory motions only: s > √|δ² + a·b| where the square root is real.
 *
 * @returns two modes: lower frequency first, or growing first where they have coalesced
 */
export function coupledModes(system: CoupledOscillators): readonly [CoupledMode, CoupledMode] {
  const { mean, half, onFirst, onSecond } = system;
  const inner = half * half + onFirst * onSecond;
  const amplitudes = (re: number, im: number): Pick<CoupledMode, "first" | "second"> => {
    // λ² + s = re + i·im; the row with the larger entries, so that neither vanishes without coupling
    const byFirst = Math.hypot(re - half, im) + Math.abs(onFirst);
    const bySecond = Math.hypot(re + half, im) + Math.abs(onSecond);
    if (byFirst >= bySecond) return { first: [onFirst, 0], second: [-(re - half), -im] };
    return { first: [-(re + half), -im], second: [onSecond, 0] };
  };
  if (inner >= 0) {
    const mode = (part: number): CoupledMode => ({
      real: 0,
      imag: Math.sqrt(mean - part),
      ...amplitudes(part, 0),
    });
    return [mode(Math.sqrt(inner)), mode(-Math.sqrt(inner))];
  }
  const part = Math.sqrt(-inner);
  // λ = ±√(−s + i·part): growing root with λ² = −s + i·part, dying root with its conjugate's square
  const imag = Math.sqrt((Math.hypot(mean, part) + mean) / 2);
  const growth = part / (2 * imag);
  return [
    { real: growth, imag, ...amplitudes(0, part) },
    { real: -growth, imag, ...amplitudes(0, -part) },
  ];
}
