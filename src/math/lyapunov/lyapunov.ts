import { luFactor, luSolve, multiply } from "../dense/index.ts";
import { requireLength } from "../require.ts";
import { blockEigenvalues, realSchur } from "../schur/index.ts";

/** Answer of `lyapunov`. */
export interface LyapunovSolution {
  /** "unstable" when an eigenvalue of A has a real part that is not below zero: then there is no stationary answer. */
  readonly outcome: "solved" | "unstable" | "no convergence";
  /** P, symmetric, row-major, shape (n, n); zero unless solved. */
  readonly matrix: Float64Array;
  /** Largest element of A·P + P·Aᵀ + Q over the largest of A·P and Q [1]. */
  readonly residual: number;
  /** Largest real part of the eigenvalues of A [1/unit of time]. */
  readonly largestReal: number;
}

/**
 * Stationary covariance P of ẋ = A·x + n, where n is white noise of intensity Q.
 *
 *     A·P + P·Aᵀ + Q = 0                                                       (1)
 *
 * With A = U·T·Uᵀ the equation is solved from the last block of T to the first, then refined once on its residual.
 *
 * @param a  A, shape (n, n) row-major
 * @param q  Q, symmetric, shape (n, n) row-major
 * @param n  order
 * @returns "unstable" is an outcome, not an error: nature has no stationary answer there
 * @throws {DomainError} if an array is too short or an element is not finite
 * @source Bartels and Stewart, Comm. ACM 15 (1972) 820–826; refinement: README eq. 3
 * @verified lyapunov.test.ts: scalar and oscillator in closed form, residual on random matrices; generated/lyapunov-scipy (rtol 1e-10)
 * @cost about 60n³; allocates
 */
export function lyapunov(a: Float64Array, q: Float64Array, n: number): LyapunovSolution {
  requireLength("right-hand side", q.length, n * n);
  const schur = realSchur(a, n);
  const matrix = new Float64Array(n * n);
  if (schur.outcome !== "converged") return { outcome: "no convergence", matrix, residual: Infinity, largestReal: NaN };
  const largestReal = Math.max(...blockEigenvalues(schur, n).map(([real]) => real));
  if (!(largestReal < 0)) return { outcome: "unstable", matrix, residual: Infinity, largestReal };
  const { form, vectors, blocks } = schur;
  const rest = q.slice(0, n * n);
  let residual = 0;
  for (let pass = 0; pass < 2; pass++) {
    const turned = congruent(vectors, rest, n, true);
    solveInSchurForm(form, turned, n, blocks);
    const step = congruent(vectors, turned, n, false);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) matrix[i * n + j] = matrix[i * n + j]! + 0.5 * (step[i * n + j]! + step[j * n + i]!);
    }
    residual = writeResidual(a, matrix, q, n, rest);
  }
  return { outcome: "solved", matrix, residual, largestReal };
}

/** Uᵀ·M·U, or U·M·Uᵀ. */
function congruent(u: Float64Array, m: Float64Array, n: number, transposed: boolean): Float64Array {
  const ut = new Float64Array(n * n);
  for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) ut[i * n + j] = u[j * n + i]!;
  const half = new Float64Array(n * n);
  const out = new Float64Array(n * n);
  multiply(transposed ? ut : u, m, half, n, n, n);
  multiply(half, transposed ? u : ut, out, n, n, n);
  return out;
}

/** Overwrites F by Y with T·Y + Y·Tᵀ + F = 0, block by block from the lower right corner. */
function solveInSchurForm(t: Float64Array, f: Float64Array, n: number, blocks: readonly number[]): void {
  const count = blocks.length - 1;
  const system = new Float64Array(16);
  const right = new Float64Array(4);
  const pivots = new Int32Array(4);
  for (let c = count - 1; c >= 0; c--) {
    for (let r = count - 1; r >= 0; r--) {
      const [i0, i1, j0, j1] = [blocks[r]!, blocks[r + 1]!, blocks[c]!, blocks[c + 1]!];
      const height = i1 - i0;
      const width = j1 - j0;
      const size = height * width;
      system.fill(0);
      for (let i = 0; i < height; i++) {
        for (let j = 0; j < width; j++) {
          let sum = f[(i0 + i) * n + j0 + j]!;
          for (let k = i1; k < n; k++) sum += t[(i0 + i) * n + k]! * f[k * n + j0 + j]!;
          for (let k = j1; k < n; k++) sum += f[(i0 + i) * n + k]! * t[(j0 + j) * n + k]!;
          const row = i * width + j;
          right[row] = -sum;
          for (let k = 0; k < height; k++) {
            const at = row * size + k * width + j;
            system[at] = system[at]! + t[(i0 + i) * n + i0 + k]!;
          }
          for (let k = 0; k < width; k++) {
            const at = row * size + i * width + k;
            system[at] = system[at]! + t[(j0 + j) * n + j0 + k]!;
          }
        }
      }
      luFactor(system, size, pivots);
      luSolve(system, size, pivots, right);
      for (let i = 0; i < height; i++) {
        for (let j = 0; j < width; j++) f[(i0 + i) * n + j0 + j] = right[i * width + j]!;
      }
    }
  }
}

/** Writes A·P + P·Aᵀ + Q and returns its largest element beside what it is made of. */
function writeResidual(a: Float64Array, p: Float64Array, q: Float64Array, n: number, out: Float64Array): number {
  const product = new Float64Array(n * n);
  multiply(a, p, product, n, n, n);
  let rest = 0;
  let size = 0;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      const value = product[i * n + j]! + product[j * n + i]! + q[i * n + j]!;
      out[i * n + j] = value;
      rest = Math.max(rest, Math.abs(value));
      size = Math.max(size, Math.abs(product[i * n + j]!), Math.abs(q[i * n + j]!));
    }
  }
  return size > 0 ? rest / size : 0;
}
