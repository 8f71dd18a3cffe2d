/** Steps of the Schur reduction, each applied to the whole matrix and to the vectors. */

/**
 * Reduces H to Hessenberg form by reflections P = 1 − β·v·vᵀ and gathers U ← U·P.
 *
 * @param h  shape (n, n) row-major, overwritten
 * @param u  shape (n, n) row-major, multiplied from the right
 */
export function hessenbergWithVectors(h: Float64Array, u: Float64Array, n: number): void {
  const v = new Float64Array(n);
  for (let k = 0; k < n - 2; k++) {
    let size = 0;
    for (let i = k + 1; i < n; i++) size = Math.max(size, Math.abs(h[i * n + k]!));
    if (size === 0) continue;
    let squares = 0;
    for (let i = k + 1; i < n; i++) {
      v[i] = h[i * n + k]! / size;
      squares += v[i]! * v[i]!;
    }
    const length = Math.sqrt(squares);
    const head = v[k + 1]!;
    v[k + 1] = head + (head >= 0 ? length : -length);
    // |v|² after the shift of its head
    reflect(h, u, n, v, k + 1, n - 1, 1 / (squares + length * Math.abs(head)));
    for (let i = k + 2; i < n; i++) h[i * n + k] = 0;
  }
}

/** H ← P·H·P and U ← U·P with P = 1 − β·v·vᵀ acting on rows from … to. */
function reflect(
  h: Float64Array,
  u: Float64Array,
  n: number,
  v: Float64Array,
  from: number,
  to: number,
  beta: number,
): void {
  for (let j = 0; j < n; j++) {
    let sum = 0;
    for (let i = from; i <= to; i++) sum += v[i]! * h[i * n + j]!;
    sum *= beta;
    for (let i = from; i <= to; i++) h[i * n + j] = h[i * n + j]! - sum * v[i]!;
  }
  for (const m of [h, u]) {
    for (let i = 0; i < n; i++) {
      let sum = 0;
      for (let j = from; j <= to; j++) sum += m[i * n + j]! * v[j]!;
      sum *= beta;
      for (let j = from; j <= to; j++) m[i * n + j] = m[i * n + j]! - sum * v[j]!;
    }
  }
}

const V = new Float64Array(3);

/**
 * One implicit double-shift sweep over rows first … last, applied to the whole of H and to U.
 *
 * @param sweeps  sweeps on this block so far, from 1; every tenth takes a shift off the rule
 */
export function francisSweep(
  h: Float64Array,
  u: Float64Array,
  n: number,
  first: number,
  last: number,
  sweeps: number,
): void {
  const at = last * n + last;
  let sum = h[at - n - 1]! + h[at]!;
  let product = h[at - n - 1]! * h[at]! - h[at - n]! * h[at - 1]!;
  if (sweeps % 10 === 0) {
    const size = Math.abs(h[at - 1]!) + Math.abs(h[at - n - 2]!);
    sum = 1.5 * size;
    product = size * size;
  }
  const top = first * n + first;
  let x = h[top]! * h[top]! + h[top + 1]! * h[top + n]! - sum * h[top]! + product;
  let y = h[top + n]! * (h[top]! + h[top + n + 1]! - sum);
  let z = h[top + n]! * h[top + 2 * n + 1]!;
  for (let k = first; k < last; k++) {
    const rows = Math.min(3, last - k + 1);
    if (k > first) {
      x = h[k * n + k - 1]!;
      y = h[(k + 1) * n + k - 1]!;
      z = rows === 3 ? h[(k + 2) * n + k - 1]! : 0;
    }
    if (rows === 2) z = 0;
    const size = Math.abs(x) + Math.abs(y) + Math.abs(z);
    if (size === 0) continue;
    V[0] = x / size;
    V[1] = y / size;
    V[2] = z / size;
    const length = Math.sqrt(V[0] ** 2 + V[1]! ** 2 + V[2]! ** 2);
    V[0] = V[0]! + (V[0]! >= 0 ? length : -length);
    const beta = 2 / (V[0]! ** 2 + V[1]! ** 2 + V[2]! ** 2);
    const from = k > first ? k - 1 : 0;
    applyLeft(h, n, k, rows, from, beta);
    applyRight(h, n, k, rows, Math.min(k + 4, last + 1), beta);
    applyRight(u, n, k, rows, n, beta);
    if (k > first) {
      h[(k + 1) * n + k - 1] = 0;
      if (rows === 3) h[(k + 2) * n + k - 1] = 0;
    }
  }
}

function applyLeft(m: Float64Array, n: number, k: number, rows: number, from: number, beta: number): void {
  for (let j = from; j < n; j++) {
    let sum = 0;
    for (let i = 0; i < rows; i++) sum += V[i]! * m[(k + i) * n + j]!;
    sum *= beta;
    for (let i = 0; i < rows; i++) m[(k + i) * n + j] = m[(k + i) * n + j]! - sum * V[i]!;
  }
}

/** Columns k … k + rows − 1 of the first `end` rows. */
function applyRight(m: Float64Array, n: number, k: number, rows: number, end: number, beta: number): void {
  for (let i = 0; i < end; i++) {
    let sum = 0;
    for (let j = 0; j < rows; j++) sum += m[i * n + k + j]! * V[j]!;
    sum *= beta;
    for (let j = 0; j < rows; j++) m[i * n + k + j] = m[i * n + k + j]! - sum * V[j]!;
  }
}
