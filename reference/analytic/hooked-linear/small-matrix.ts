/** 3×3 by rows. */
export type Matrix = readonly (readonly number[])[];

/** A linear function of three coordinates, their rates and their accelerations. */
export interface Motion3 {
  readonly place?: readonly number[];
  readonly velocity?: readonly number[];
  readonly acceleration?: readonly number[];
}
type Part = keyof Motion3;
const PARTS: readonly Part[] = ["place", "velocity", "acceleration"];

export const zeros = (): Matrix => diagonal(0, 0, 0);
export const diagonal = (a: number, b: number, c: number): Matrix => [
  [a, 0, 0],
  [0, b, 0],
  [0, 0, c],
];

/** Σ factor·motion. */
export function sumOf(...steps: readonly (readonly [number, Motion3])[]): Required<Motion3> {
  const sum = (part: Part): number[] =>
    [0, 1, 2].map((i) => steps.reduce((total, [factor, motion]) => total + factor * (motion[part]?.[i] ?? 0), 0));
  const [place, velocity, acceleration] = PARTS.map(sum);
  return { place, velocity, acceleration };
}
export const times = (factor: number, motion: Motion3): Required<Motion3> => sumOf([factor, motion]);
export const plus = (...motions: readonly Motion3[]): Required<Motion3> =>
  sumOf(...motions.map((motion): [number, Motion3] => [1, motion]));

/** Nᵀ·(own − load)·N: the left-hand matrix of one part, in the coordinates of N. */
export function congruent(N: Matrix, own: Matrix, load: readonly Required<Motion3>[], part: Part): Matrix {
  const at = (i: number, j: number): number => {
    let sum = 0;
    for (let k = 0; k < 3; k++) for (let l = 0; l < 3; l++) sum += N[k][i] * (own[k][l] - load[k][part][l]) * N[l][j];
    return sum;
  };
  return N.map((_, i) => N.map((_, j) => at(i, j)));
}

/** A + factor·g·gᵀ. */
export function addOuter(A: Matrix, g: readonly number[], factor: number): Matrix {
  return A.map((row, i) => row.map((x, j) => x + factor * g[i] * g[j]));
}

/** Solution of A·x = each column of B, Gauss with row exchange; shape of B. */
export function solve(A: Matrix, B: Matrix): Matrix {
  const n = A.length;
  const work = A.map((row, i) => [...row, ...B[i]]);
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(work[i][k]) > Math.abs(work[pivot][k])) pivot = i;
    [work[k], work[pivot]] = [work[pivot], work[k]];
    for (let i = 0; i < n; i++) {
      if (i === k) continue;
      const factor = work[i][k] / work[k][k];
      for (let j = k; j < work[i].length; j++) work[i][j] -= factor * work[k][j];
    }
  }
  return work.map((row, i) => row.slice(n).map((x) => x / row[i]));
}
