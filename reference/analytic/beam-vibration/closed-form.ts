/**
 * Roots βL of uniform Euler–Bernoulli beams, ω = (βL)²·√(EI/(m·L⁴)). Lengths over L, masses over mL, springs times L³/EI.
 */

/** The first `count` roots above zero of a function that changes its sign at each. */
function rootsOf(value: (beta: number) => number, count: number): number[] {
  const step = 1 / 64;
  const roots: number[] = [];
  let low = 0.3;
  let before = value(low);
  while (roots.length < count) {
    const high = low + step;
    const after = value(high);
    if (before === 0 || before * after < 0) roots.push(bisected(value, low, high));
    low = high;
    before = after;
    if (high > 60) throw new Error("no further root below 60");
  }
  return roots;
}

function bisected(value: (beta: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  const sign = Math.sign(value(low));
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (Math.sign(value(middle)) === sign) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

const { cos, sin, cosh, sinh, tanh } = Math;

/** cos β · cosh β = −1. */
export const clampedFreeRoots = (count: number): number[] => rootsOf((b) => cos(b) + 1 / cosh(b), count);
/** tan β = tanh β. */
export const clampedPinnedRoots = (count: number): number[] => rootsOf((b) => sin(b) - cos(b) * tanh(b), count);
/** cos β · cosh β = 1, free–free and clamped–clamped. */
export const freeFreeRoots = (count: number): number[] => rootsOf((b) => cos(b) - 1 / cosh(b), count);

/** Cantilever with the mass μ on its tip: 1 + cos β·cosh β + μ·β·(cos β·sinh β − sin β·cosh β) = 0. */
export function tipMassRoots(mu: number, count: number): number[] {
  return rootsOf((b) => 1 / cosh(b) + cos(b) + mu * b * (cos(b) * tanh(b) - sin(b)), count);
}

/** Cantilever with the spring K on its tip: β³·(1 + cos β·cosh β) + K·(cosh β·sin β − sinh β·cos β) = 0. */
export function tipSpringRoots(k: number, count: number): number[] {
  return rootsOf((b) => b ** 3 * (1 / cosh(b) + cos(b)) + k * (sin(b) - tanh(b) * cos(b)), count);
}

/** A beam from its root at 0 over a support at `at` to a free tip at 1; the support is a spring K or, Infinity, rigid. */
export interface OverhangBeam {
  readonly root: "clamped" | "pinned";
  readonly at: number;
  readonly support: number;
}

/**
 * Roots of a beam with an overhang, by carrying (w, w′/β, w″/β², w‴/β³) from the root to the tip.
 *
 * The support changes w‴/β³ by −K·w/β³, or by a reaction that keeps w zero; at the tip w″ = w‴ = 0.
 */
export function overhangRoots({ root, at, support }: OverhangBeam, count: number): number[] {
  const starts = root === "clamped" ? [unit(2), unit(3)] : [unit(1), unit(3)];
  const determinant = (beta: number): number => {
    const [first, second] = starts.map((start) => carried(start, beta * at));
    const rest = beta * (1 - at);
    if (support === Number.POSITIVE_INFINITY) {
      const columns = [first, second, unit(3)];
      const tips = columns.map((column) => carried(column, rest));
      return determinant3([[first[0], second[0], 0], tips.map((tip) => tip[2]), tips.map((tip) => tip[3])]);
    }
    const tips = [first, second].map((state) => {
      const after = [...state];
      after[3] -= (support / beta ** 3) * state[0];
      return carried(after, rest);
    });
    return tips[0][2] * tips[1][3] - tips[1][2] * tips[0][3];
  };
  return rootsOf(determinant, count);
}

const unit = (place: number): number[] => [0, 1, 2, 3].map((i) => (i === place ? 1 : 0));

/** State after the distance z/β, by Krylov's functions. */
function carried(state: readonly number[], z: number): number[] {
  const s = [(cosh(z) + cos(z)) / 2, (sinh(z) + sin(z)) / 2, (cosh(z) - cos(z)) / 2, (sinh(z) - sin(z)) / 2];
  return [0, 1, 2, 3].map((i) => state.reduce((sum, value, j) => sum + s[(j - i + 4) % 4] * value, 0));
}

function determinant3(m: readonly (readonly number[])[]): number {
  const minor = (a: number, b: number): number => m[1][a] * m[2][b] - m[1][b] * m[2][a];
  return m[0][0] * minor(1, 2) - m[0][1] * minor(0, 2) + m[0][2] * minor(0, 1);
}
