/** Sums of whole rows, four elements in a turn: a loop of one element a turn spends most of its time on the turning. */

/** Where `move` finds its factor. */
export const SHARE = 3;

/** out = X + clock[SHARE]·k. */
export function move(X: Float64Array, k: Float64Array, clock: Float64Array, out: Float64Array): void {
  const n = X.length;
  const h = clock[SHARE];
  let i = 0;
  for (; i < n - 3; i += 4) {
    out[i] = X[i] + h * k[i];
    out[i + 1] = X[i + 1] + h * k[i + 1];
    out[i + 2] = X[i + 2] + h * k[i + 2];
    out[i + 3] = X[i + 3] + h * k[i + 3];
  }
  for (; i < n; i++) out[i] = X[i] + h * k[i];
}

/** out = X + clock[SHARE]·(k1 + 2·(k2 + k3) + k4). */
export function combine(
  X: Float64Array,
  k1: Float64Array,
  k2: Float64Array,
  k3: Float64Array,
  k4: Float64Array,
  clock: Float64Array,
  out: Float64Array,
): void {
  const n = X.length;
  const h = clock[SHARE];
  let i = 0;
  for (; i < n - 3; i += 4) {
    out[i] = X[i] + h * (k1[i] + 2 * (k2[i] + k3[i]) + k4[i]);
    out[i + 1] = X[i + 1] + h * (k1[i + 1] + 2 * (k2[i + 1] + k3[i + 1]) + k4[i + 1]);
    out[i + 2] = X[i + 2] + h * (k1[i + 2] + 2 * (k2[i + 2] + k3[i + 2]) + k4[i + 2]);
    out[i + 3] = X[i + 3] + h * (k1[i + 3] + 2 * (k2[i + 3] + k3[i + 3]) + k4[i + 3]);
  }
  for (; i < n; i++) out[i] = X[i] + h * (k1[i] + 2 * (k2[i] + k3[i]) + k4[i]);
}
