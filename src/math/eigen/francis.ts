/**
 * Eigenvalues of a Hessenberg matrix by the implicit double-shift QR iteration of Francis.
 *
 * @source Francis, The QR transformation, Computer J. 4 (1961/62); Martin, Peters and Wilkinson, The QR algorithm for
 *         real Hessenberg matrices, Numer. Math. 14 (1970) 219–231; deflation test: Ahues and Tisseur, A new deflation
 *         criterion for the QR algorithm, LAPACK Working Note 122 (1997); one real shift taken twice when the corner's
 *         eigenvalues are real, as in LAPACK's xLAHQR.
 */

const ROUNDING = Number.EPSILON;
/** The matrix is scaled to a norm of at least 2^-100: a subdiagonal term below this changes nothing. */
const NEGLIGIBLE = 2 ** -450;
/** A sum of squares below this may have lost digits to underflow. */
const SMALLEST_SQUARES = 2 ** -900;
/** Sweeps without deflation after which a shift off the usual rule breaks a cycle. */
const SWEEPS_TO_EXCEPTION = 10;
const SWEEPS_PER_EIGENVALUE = 30;

/**
 * Finds the eigenvalues of the window of a Hessenberg matrix, which is destroyed.
 *
 * @param h        shape (n, n) row-major, upper Hessenberg, norm between 2^-100 and 2^100
 * @param n        order and row stride
 * @param low      first row of the window
 * @param high     last row of the window
 * @param scratch  shape (8), room for shifts
 * @param re       real parts, elements low … high written
 * @param im       imaginary parts; pairs are neighbours, positive first
 * @returns false when the limit of 30 sweeps per eigenvalue was reached
 * @source see top of file
 * @verified eigenvalues.test.ts
 * @cost about 10n³, no allocation
 */
export function francis(
  h: Float64Array,
  n: number,
  low: number,
  high: number,
  scratch: Float64Array,
  re: Float64Array,
  im: Float64Array,
): boolean {
  let last = high;
  let sweepsLeft = SWEEPS_PER_EIGENVALUE * Math.max(10, high - low + 1);
  while (last >= low) {
    let first = low;
    let sweeps = 0;
    for (;;) {
      first = findSplit(h, n, first, last, low, high);
      if (first >= last - 1) break;
      if (sweepsLeft-- === 0) return false;
      sweeps++;
      chooseShifts(h, n, first, last, sweeps, scratch);
      const start = findStart(h, n, first, last, scratch);
      chaseBulge(h, n, first, last, start, scratch);
    }
    if (first === last) {
      re[last] = h[last * n + last]!;
      im[last] = 0;
    } else {
      solveCorner(h, n, first, re, im);
    }
    last = first - 1;
  }
  return true;
}

/** First row of the block that ends at `last`: the subdiagonal term to its left is zero beside its neighbours. */
function findSplit(h: Float64Array, n: number, first: number, last: number, low: number, high: number): number {
  let k = last;
  for (; k > first; k--) {
    const at = k * n + k;
    const sub = Math.abs(h[at - 1]!);
    if (sub <= NEGLIGIBLE) break;
    const above = h[at - n - 1]!;
    const here = h[at]!;
    let size = Math.abs(above) + Math.abs(here);
    if (size === 0) {
      if (k - 2 >= low) size += Math.abs(h[at - n - 2]!);
      if (k + 1 <= high) size += Math.abs(h[at + n]!);
    }
    if (sub > ROUNDING * size) continue;
    const superTerm = Math.abs(h[at - n]!);
    const gap = Math.abs(above - here);
    const corner = Math.abs(here);
    const larger = Math.max(corner, gap);
    const smaller = Math.min(corner, gap);
    const sum = larger + Math.max(sub, superTerm);
    if (sub * (superTerm / sum) <= Math.max(NEGLIGIBLE, ROUNDING * smaller * (larger / sum))) break;
  }
  if (k > first) h[k * n + k - 1] = 0;
  return k;
}

/** Both shifts into scratch 0…3 as (re₁, im₁, re₂, im₂). */
function chooseShifts(
  h: Float64Array,
  n: number,
  first: number,
  last: number,
  sweeps: number,
  scratch: Float64Array,
): void {
  const at = last * n + last;
  let h11 = h[at - n - 1]!;
  let h21 = h[at - 1]!;
  let h12 = h[at - n]!;
  let h22 = h[at]!;
  if (sweeps % SWEEPS_TO_EXCEPTION === 0) {
    const atBottom = sweeps % (2 * SWEEPS_TO_EXCEPTION) === 0;
    const top = first * n + first;
    const size = atBottom
      ? Math.abs(h21) + Math.abs(h[at - n - 2]!)
      : Math.abs(h[top + n]!) + Math.abs(h[top + 2 * n + 1]!);
    h11 = 0.75 * size + (atBottom ? h22 : h[top]!);
    h12 = -0.4375 * size;
    h21 = size;
    h22 = h11;
  }
  const mean = 0.5 * (h11 + h22);
  const half = 0.5 * (h11 - h22);
  const square = half * half + h12 * h21;
  if (square < 0) {
    const root = Math.sqrt(-square);
    scratch[0] = mean;
    scratch[1] = root;
    scratch[2] = mean;
    scratch[3] = -root;
    return;
  }
  const root = Math.sqrt(square);
  const shift = half >= 0 ? mean - root : mean + root;
  scratch[0] = shift;
  scratch[1] = 0;
  scratch[2] = shift;
  scratch[3] = 0;
}

/**
 * Row where the bulge starts: the lowest one above which two consecutive small subdiagonal terms let it.
 * The first column of the shifted square goes into scratch 4…6.
 */
function findStart(h: Float64Array, n: number, first: number, last: number, scratch: Float64Array): number {
  const re1 = scratch[0]!;
  const re2 = scratch[2]!;
  const product = scratch[1]! * scratch[3]!;
  let m = last - 2;
  for (; ; m--) {
    const at = m * n + m;
    const h11 = h[at]!;
    const h21 = h[at + n]!;
    const h22 = h[at + n + 1]!;
    const v1 = (h11 - re1) * (h11 - re2) - product + h[at + 1]! * h21;
    const v2 = h21 * (h11 + h22 - re1 - re2);
    const v3 = h21 * h[at + 2 * n + 1]!;
    if (m > first) {
      const left = Math.abs(h[at - 1]!) * (Math.abs(v2) + Math.abs(v3));
      const size = Math.abs(h[at - n - 1]!) + Math.abs(h11) + Math.abs(h22);
      if (left > ROUNDING * Math.abs(v1) * size) continue;
      if (left === 0) continue;
    }
    scratch[4] = v1;
    scratch[5] = v2;
    scratch[6] = v3;
    return m;
  }
}

/** One double-shift sweep over rows and columns first … last with the bulge started at row m. */
function chaseBulge(h: Float64Array, n: number, first: number, last: number, m: number, scratch: Float64Array): void {
  let x = scratch[4]!;
  let y = scratch[5]!;
  let z = scratch[6]!;
  for (let k = m; k < last; k++) {
    const row0 = k * n;
    const row1 = row0 + n;
    const three = k < last - 1;
    const row2 = three ? row1 + n : row1;
    if (k > m) {
      x = h[row0 + k - 1]!;
      y = h[row1 + k - 1]!;
      z = three ? h[row2 + k - 1]! : 0;
    }
    let squares = x * x + y * y + z * z;
    let unit = 1;
    if (squares < SMALLEST_SQUARES) {
      const size = Math.abs(x) + Math.abs(y) + Math.abs(z);
      if (size === 0) continue;
      x /= size;
      y /= size;
      z /= size;
      squares = x * x + y * y + z * z;
      unit = size;
    }
    const length = Math.sqrt(squares);
    const reflected = x > 0 ? -length : length;
    const inverse = 1 / (x - reflected);
    const v1 = y * inverse;
    const v2 = z * inverse;
    const t0 = (reflected - x) / reflected;
    const t1 = t0 * v1;
    const t2 = t0 * v2;
    if (k > m) {
      h[row0 + k - 1] = unit * reflected;
      h[row1 + k - 1] = 0;
      if (three) h[row2 + k - 1] = 0;
    } else if (k > first) {
      h[row0 + k - 1] = h[row0 + k - 1]! * (1 - t0);
    }
    if (!three) {
      for (let j = k; j <= last; j++) {
        const sum = h[row0 + j]! + v1 * h[row1 + j]!;
        h[row0 + j] = h[row0 + j]! - sum * t0;
        h[row1 + j] = h[row1 + j]! - sum * t1;
      }
      for (let i = first, at = first * n + k; i <= last; i++, at += n) {
        const sum = h[at]! + v1 * h[at + 1]!;
        h[at] = h[at]! - sum * t0;
        h[at + 1] = h[at + 1]! - sum * t1;
      }
      continue;
    }
    for (let j = k; j <= last; j++) {
      const a0 = h[row0 + j]!;
      const a1 = h[row1 + j]!;
      const a2 = h[row2 + j]!;
      const sum = a0 + v1 * a1 + v2 * a2;
      h[row0 + j] = a0 - sum * t0;
      h[row1 + j] = a1 - sum * t1;
      h[row2 + j] = a2 - sum * t2;
    }
    const end = Math.min(k + 3, last);
    for (let i = first, at = first * n + k; i <= end; i++, at += n) {
      const a0 = h[at]!;
      const a1 = h[at + 1]!;
      const a2 = h[at + 2]!;
      const sum = a0 + v1 * a1 + v2 * a2;
      h[at] = a0 - sum * t0;
      h[at + 1] = a1 - sum * t1;
      h[at + 2] = a2 - sum * t2;
    }
  }
}

/** Eigenvalues of the two-row block that starts at `first`. */
function solveCorner(h: Float64Array, n: number, first: number, re: Float64Array, im: Float64Array): void {
  const at = first * n + first;
  const h22 = h[at + n + 1]!;
  const product = h[at + 1]! * h[at + n]!;
  const half = 0.5 * (h[at]! - h22);
  const square = half * half + product;
  if (square < 0) {
    const root = Math.sqrt(-square);
    re[first] = h22 + half;
    re[first + 1] = h22 + half;
    im[first] = root;
    im[first + 1] = -root;
    return;
  }
  const root = Math.sqrt(square);
  const far = half >= 0 ? half + root : half - root;
  re[first] = h22 + far;
  re[first + 1] = far === 0 ? h22 : h22 - product / far;
  im[first] = 0;
  im[first + 1] = 0;
}
