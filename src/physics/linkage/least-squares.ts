/**
 * Rank-revealing factors of a matrix J of shape (rows, columns), for shortest least-squares solutions.
 *
 *     P J = L Q₁ᵀ,   L = U S                                                     (README eq. 6)
 *
 * Householder reflections with row pivoting give L (lower trapezoid, independent rows first) and the orthonormal basis Q₁ of
 * the row space; a second set of reflections turns L into the triangle S when rows are dependent. All arrays are made once.
 *
 * @source Businger and Golub, Numer. Math. 7 (1965) 269–276; Golub and Van Loan, Matrix Computations, 4th ed. (2013),
 *         section 5.5 (complete orthogonal decomposition); inverse iteration for the smallest singular value, section 8.2
 * @verified least-squares.test.ts: normal equations, shortest solution, rank, null space, singular values
 */
export class LeastSquares {
  readonly rows: number;
  readonly columns: number;
  rank = 0;
  /** `order[k]` is the row that stands at place k. */
  readonly order: Int32Array;
  /** Row k: L up to the diagonal, then the tail of reflector k. */
  readonly #work: Float64Array;
  readonly #weights: Float64Array;
  /** Reflectors of the second step below, S on and above the diagonal: shape (rows, rank) in rows of `columns`. */
  readonly #second: Float64Array;
  readonly #secondWeights: Float64Array;
  readonly #inRows: Float64Array;
  readonly #inColumns: Float64Array;

  constructor(rows: number, columns: number) {
    this.rows = rows;
    this.columns = columns;
    this.order = new Int32Array(rows);
    this.#work = new Float64Array(rows * columns);
    this.#weights = new Float64Array(columns);
    this.#second = new Float64Array(rows * columns);
    this.#secondWeights = new Float64Array(columns);
    this.#inRows = new Float64Array(rows);
    this.#inColumns = new Float64Array(columns);
  }

  /**
   * Factors J.
   * @param matrix     J, shape (rows, columns) row-major
   * @param tolerance  a remaining row below this share of the largest counts as dependent
   * @param most       never count more than this many independent rows
   */
  factor(matrix: Float64Array, tolerance: number, most = Number.POSITIVE_INFINITY): void {
    const { rows, columns } = this;
    const work = this.#work;
    for (let at = 0; at < work.length; at++) work[at] = matrix[at];
    for (let r = 0; r < rows; r++) this.order[r] = r;
    const steps = Math.min(rows, columns, most);
    let largest = 0;
    this.rank = 0;
    for (let k = 0; k < steps; k++) {
      const size = this.#bringLongest(k);
      if (k === 0) largest = size;
      if (!(size > tolerance * largest)) break;
      const at = k * columns;
      const first = work[at + k];
      const head = first > 0 ? first + size : first - size;
      for (let j = k + 1; j < columns; j++) work[at + j] /= head;
      this.#weights[k] = Math.abs(head) / size;
      for (let r = k + 1; r < rows; r++) {
        const to = r * columns;
        let product = work[to + k];
        for (let j = k + 1; j < columns; j++) product += work[to + j] * work[at + j];
        product *= this.#weights[k];
        work[to + k] -= product;
        for (let j = k + 1; j < columns; j++) work[to + j] -= product * work[at + j];
      }
      work[at + k] = first > 0 ? -size : size;
      this.rank = k + 1;
    }
    this.#factorTrapezoid();
  }

  #bringLongest(k: number): number {
    const { rows, columns, order } = this;
    const work = this.#work;
    let best = -1;
    let from = k;
    for (let r = k; r < rows; r++) {
      let sum = 0;
      for (let j = k; j < columns; j++) sum += work[r * columns + j] * work[r * columns + j];
      if (sum > best) {
        best = sum;
        from = r;
      }
    }
    if (from !== k) {
      for (let j = 0; j < columns; j++) {
        const kept = work[k * columns + j];
        work[k * columns + j] = work[from * columns + j];
        work[from * columns + j] = kept;
      }
      const kept = order[k];
      order[k] = order[from];
      order[from] = kept;
    }
    return Math.sqrt(best);
  }

  /** L = U S. */
  #factorTrapezoid(): void {
    const { rows, columns, rank } = this;
    const s = this.#second;
    for (let r = 0; r < rows; r++) {
      for (let j = 0; j < rank; j++) s[r * columns + j] = j <= r ? this.#work[r * columns + j] : 0;
    }
    for (let k = 0; k < rank; k++) {
      let sum = 0;
      for (let r = k; r < rows; r++) sum += s[r * columns + k] * s[r * columns + k];
      const size = Math.sqrt(sum);
      const first = s[k * columns + k];
      const head = first > 0 ? first + size : first - size;
      this.#secondWeights[k] = Math.abs(head) / size;
      for (let r = k + 1; r < rows; r++) s[r * columns + k] /= head;
      s[k * columns + k] = first > 0 ? -size : size;
      for (let j = k + 1; j < rank; j++) {
        let product = s[k * columns + j];
        for (let r = k + 1; r < rows; r++) product += s[r * columns + k] * s[r * columns + j];
        product *= this.#secondWeights[k];
        s[k * columns + j] -= product;
        for (let r = k + 1; r < rows; r++) s[r * columns + j] -= product * s[r * columns + k];
      }
    }
  }

  /**
   * Shortest x that makes |J x − b| least.
   * @param b  shape (rows)
   * @param x  shape (columns), written; may not be `b`
   * @returns |J x − b|
   */
  solve(b: Float64Array, x: Float64Array): number {
    const { rows, columns, rank, order } = this;
    const c = this.#inRows;
    const s = this.#second;
    for (let r = 0; r < rows; r++) c[r] = b[order[r]];
    for (let k = 0; k < rank; k++) {
      let product = c[k];
      for (let r = k + 1; r < rows; r++) product += s[r * columns + k] * c[r];
      product *= this.#secondWeights[k];
      c[k] -= product;
      for (let r = k + 1; r < rows; r++) c[r] -= product * s[r * columns + k];
    }
    let rest = 0;
    for (let r = rank; r < rows; r++) rest += c[r] * c[r];
    x.fill(0, 0, columns);
    for (let i = rank - 1; i >= 0; i--) {
      let sum = c[i];
      for (let j = i + 1; j < rank; j++) sum -= s[i * columns + j] * x[j];
      x[i] = sum / s[i * columns + i];
    }
    this.#applyFirst(x, false);
    return Math.sqrt(rest);
  }

  /**
   * Shortest λ that makes |Jᵀ λ − f| least.
   * @param f       shape (columns)
   * @param lambda  shape (rows), written
   * @returns |Jᵀ λ − f|
   */
  solveTransposed(f: Float64Array, lambda: Float64Array): number {
    const { rows, columns, rank, order } = this;
    const s = this.#second;
    const y = this.#inColumns;
    for (let j = 0; j < columns; j++) y[j] = f[j];
    this.#applyFirst(y, true);
    let rest = 0;
    for (let j = rank; j < columns; j++) rest += y[j] * y[j];
    const c = this.#inRows;
    c.fill(0);
    for (let i = 0; i < rank; i++) {
      let sum = y[i];
      for (let j = 0; j < i; j++) sum -= s[j * columns + i] * c[j];
      c[i] = sum / s[i * columns + i];
    }
    for (let k = rank - 1; k >= 0; k--) {
      let product = c[k];
      for (let r = k + 1; r < rows; r++) product += s[r * columns + k] * c[r];
      product *= this.#secondWeights[k];
      c[k] -= product;
      for (let r = k + 1; r < rows; r++) c[r] -= product * s[r * columns + k];
    }
    for (let r = 0; r < rows; r++) lambda[order[r]] = c[r];
    return Math.sqrt(rest);
  }

  /**
   * Part of a vector that J sends to zero, in place.
   * @param x  shape (columns) from `offset`
   * @returns its length
   */
  projectToNullSpace(x: Float64Array, offset = 0): number {
    const { columns, rank } = this;
    const y = this.#inColumns;
    for (let j = 0; j < columns; j++) y[j] = x[offset + j];
    this.#applyFirst(y, true);
    for (let j = 0; j < rank; j++) y[j] = 0;
    let sum = 0;
    for (let j = rank; j < columns; j++) sum += y[j] * y[j];
    this.#applyFirst(y, false);
    for (let j = 0; j < columns; j++) x[offset + j] = y[j];
    return Math.sqrt(sum);
  }

  /** Column c of an orthonormal basis of the null space, 0 ≤ c < columns − rank, written from `offset`. */
  nullVector(c: number, out: Float64Array, offset: number): void {
    const y = this.#inColumns;
    y.fill(0);
    y[this.rank + c] = 1;
    this.#applyFirst(y, false);
    out.set(y, offset);
  }

  /** x ← Q x, or Qᵀ x. */
  #applyFirst(x: Float64Array, transposed: boolean): void {
    const { columns, rank } = this;
    const work = this.#work;
    for (let step = 0; step < rank; step++) {
      const k = transposed ? step : rank - 1 - step;
      const at = k * columns;
      let product = x[k];
      for (let j = k + 1; j < columns; j++) product += work[at + j] * x[j];
      product *= this.#weights[k];
      x[k] -= product;
      for (let j = k + 1; j < columns; j++) x[j] -= product * work[at + j];
    }
  }

  /**
   * Smallest singular value of the part of J that counts, by inverse iteration on SᵀS.
   * @returns σ of the same unit as J; 0 if J has no row that counts
   */
  smallestSingularValue(): number {
    const { columns, rank } = this;
    if (rank === 0) return 0;
    const s = this.#second;
    const y = this.#inRows;
    // A start with some of every direction.
    for (let j = 0; j < rank; j++) y[j] = 1 + 0.5 * Math.sin(1 + 3 * j);
    let sigma = 0;
    for (let pass = 0; pass < 30; pass++) {
      const before = sigma;
      for (let i = 0; i < rank; i++) {
        let sum = y[i];
        for (let j = 0; j < i; j++) sum -= s[j * columns + i] * y[j];
        y[i] = sum / s[i * columns + i];
      }
      for (let i = rank - 1; i >= 0; i--) {
        let sum = y[i];
        for (let j = i + 1; j < rank; j++) sum -= s[i * columns + j] * y[j];
        y[i] = sum / s[i * columns + i];
      }
      let square = 0;
      for (let j = 0; j < rank; j++) square += y[j] * y[j];
      const size = Math.sqrt(square);
      if (!(size > 0 && size < Number.POSITIVE_INFINITY)) return 0;
      for (let j = 0; j < rank; j++) y[j] /= size;
      sigma = 1 / Math.sqrt(size);
      if (Math.abs(sigma - before) <= 1e-6 * sigma) break;
    }
    return sigma;
  }
}
