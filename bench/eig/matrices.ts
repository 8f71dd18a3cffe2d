/** Matrices for the comparison: from a JSON file, or generated like those of stiff mechanical systems. */

import { readFileSync } from "node:fs";
import { InputError } from "../../src/math/errors.ts";

export interface SquareMatrix {
  readonly n: number;
  /** Shape (n, n) row-major. */
  readonly elements: Float64Array;
}

/**
 * Reads `[[[…], …], …]`: an array of matrices, each an array of rows of finite numbers.
 * @throws {InputError} naming every matrix that is not square and finite
 */
export function readMatrices(file: string): SquareMatrix[] {
  const data: unknown = JSON.parse(readFileSync(file, "utf8"));
  if (!Array.isArray(data) || data.length === 0) {
    throw new InputError([{ path: "", file, message: "not a list of matrices", allowed: "[[[…], …], …]" }]);
  }
  return data.map((rows: unknown, index) => {
    const n = Array.isArray(rows) ? rows.length : 0;
    const elements = Float64Array.from(Array.isArray(rows) ? rows.flat() : []);
    if (n === 0 || elements.length !== n * n || !elements.every(Number.isFinite)) {
      throw new InputError([{ path: `[${index}]`, file, message: "not a square matrix of finite numbers" }]);
    }
    return { n, elements };
  });
}

/** Evenly spread numbers in 0 … 1 without pattern: squares times the golden ratio, without whole part. */
function createSpread(start: number): () => number {
  let count = start;
  return () => {
    count++;
    return (count * count * 0.6180339887498949) % 1;
  };
}

/**
 * First-order form of a damped mechanical system with lags,
 *
 *     ẋ = v,  v̇ = −M⁻¹K x − M⁻¹C v + M⁻¹B s,  ṡ = (G x − s)/T
 *
 * with natural frequencies from below one to hundreds of rad/s, a nonsymmetric K (as airloads make it) and light damping.
 *
 * @param degrees  number of coordinates x
 * @param lags     number of first-order states s
 * @param variant  which member of the family
 */
export function mechanicalMatrix(degrees: number, lags: number, variant: number): SquareMatrix {
  const n = 2 * degrees + lags;
  const elements = new Float64Array(n * n);
  const spread = createSpread(1000 * variant);
  const set = (i: number, j: number, value: number) => {
    elements[i * n + j] = value;
  };
  for (let i = 0; i < degrees; i++) {
    set(i, degrees + i, 1);
    const mass = 50 * 10 ** (2 * spread());
    const stiffness = mass * 10 ** (-0.5 + 5 * spread());
    for (let j = 0; j < degrees; j++) {
      const share = i === j ? 1 : 0.3 * (spread() - 0.5);
      set(degrees + i, j, (-stiffness * share) / mass);
      set(degrees + i, degrees + j, (-0.1 * Math.sqrt(stiffness * mass) * (i === j ? 1 : spread() - 0.5)) / mass);
    }
    for (let k = 0; k < lags; k++) set(degrees + i, 2 * degrees + k, (1000 * (spread() - 0.5)) / mass);
  }
  for (let k = 0; k < lags; k++) {
    const rate = 5 + 45 * spread();
    for (let j = 0; j < degrees; j++) set(2 * degrees + k, j, rate * (spread() - 0.5));
    set(2 * degrees + k, 2 * degrees + k, -rate);
  }
  return { n, elements };
}

/** Sixteen matrices of 13 states and sixteen of 22. */
export function defaultMatrices(): SquareMatrix[] {
  const variants = Array.from({ length: 16 }, (_, variant) => variant);
  return [
    ...variants.map((variant) => mechanicalMatrix(6, 1, variant)),
    ...variants.map((variant) => mechanicalMatrix(10, 2, variant)),
  ];
}
