import { requireLength, requireSize } from "../require.ts";
import { undoBalance } from "./balance.ts";
import { applyReflectors } from "./hessenberg.ts";
import { factorShifted, measureResidual, setStart, solveShifted } from "./inverse-iteration.ts";
import { prepare } from "./prepare.ts";
import { type EigenOutcome, type EigenWorkspace, LAMBDA_IM, LAMBDA_RE, NORM, RESIDUAL, SIGMA } from "./workspace.ts";

/** A vector is accepted when its residual is below this many n·ε·‖H‖. */
const RESIDUAL_LIMIT = 100;
/** Eigenvalues closer than this many n·ε·‖H‖ count as repeated, and start from different vectors. */
const REPEATED_LIMIT = 100;
/** Squared components above this share of the largest count as equally large. */
const EQUAL_SQUARES = 1 - 2e-6;

/**
 * Right eigenvectors of a real square matrix for given eigenvalues.
 *
 *     A x = λ x                                                                (1)
 *
 * Vectors are columns: element i of vector j is `vectors[i * n + j]`. A real eigenvalue j has a real vector in column j.
 * A complex pair j, j+1 (positive imaginary part first) has Re x in column j and Im x in column j+1, for the eigenvalue
 * `re[j] + i·im[j]`; the vector of the other is the conjugate. Every vector has Euclidean length one (over both columns),
 * and its largest component is real and positive (the first of them, when several are equal to 1e-6).
 *
 * Repeated eigenvalues start from different vectors: a full set of eigenvectors gives independent (not orthogonal) ones,
 * a defective eigenvalue gives (nearly) parallel ones.
 *
 * @param a          A, shape (n, n) row-major; not changed
 * @param n          order
 * @param re         real parts from `eigenvalues`, shape (n)
 * @param im         imaginary parts from `eigenvalues`, shape (n)
 * @param workspace  from `createEigenWorkspace(m)` with m ≥ n; overwritten
 * @param vectors    shape (n, n), written
 * @returns "no convergence" if some vector's residual stays large, as with a number that is no eigenvalue; it leaves NaN
 * @throws {DomainError} if `n` is not a whole number above zero or an array is too short
 * @source Wilkinson's inverse iteration on the Hessenberg form: Peters and Wilkinson, The calculation of specified
 *         eigenvectors by inverse iteration, Handbook for Automatic Computation II (1971), contribution II/18
 * @verified eigenvectors.test.ts: residuals, repeated and defective roots, bad scaling, left and right biorthogonal
 * @cost about 12n³ in complex arithmetic, no allocation
 */
export function eigenvectors(
  a: Float64Array,
  n: number,
  re: Float64Array,
  im: Float64Array,
  workspace: EigenWorkspace,
  vectors: Float64Array,
): EigenOutcome {
  requireSize("matrix order", n, 1);
  requireLength("eigenvalue workspace", workspace.capacity, n);
  requireLength("matrix", a.length, n * n);
  requireLength("real parts", re.length, n);
  requireLength("imaginary parts", im.length, n);
  requireLength("eigenvectors", vectors.length, n * n);
  const isUsable = prepare(a, n, workspace, true) && measureNorm(workspace, n) && areFinite(re, n) && areFinite(im, n);
  let outcome: EigenOutcome = isUsable ? "converged" : "not finite";
  for (let j = 0; j < n && outcome === "converged"; j++) {
    const isPair = im[j] !== 0 && j + 1 < n;
    outcome = iterate(workspace, n, re, im, j);
    if (outcome === "converged") outcome = store(workspace, n, vectors, j, isPair);
    if (isPair) j++;
  }
  if (outcome !== "converged") vectors.fill(Number.NaN, 0, n * n);
  return outcome;
}

/**
 * Left eigenvectors of a real square matrix for given eigenvalues.
 *
 *     yᴴ A = λ yᴴ                                                              (2)
 *
 * Stored and scaled as the right ones. For simple eigenvalues yᵢᴴ xⱼ = 0 whenever λᵢ ≠ λⱼ.
 *
 * @param a          A, shape (n, n) row-major; not changed
 * @param n          order
 * @param re         real parts from `eigenvalues`, shape (n)
 * @param im         imaginary parts from `eigenvalues`, shape (n)
 * @param workspace  as for `eigenvectors`
 * @param vectors    shape (n, n), written
 * @returns as `eigenvectors`
 * @throws {DomainError} as `eigenvectors`
 * @source Aᵀ ȳ = λ ȳ: the conjugates of the right eigenvectors of the transposed matrix
 * @verified eigenvectors.test.ts
 */
export function leftEigenvectors(
  a: Float64Array,
  n: number,
  re: Float64Array,
  im: Float64Array,
  workspace: EigenWorkspace,
  vectors: Float64Array,
): EigenOutcome {
  requireSize("matrix order", n, 1);
  requireLength("eigenvalue workspace", workspace.capacity, n);
  requireLength("matrix", a.length, n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) workspace.matrix[j * n + i] = a[i * n + j]!;
  }
  const outcome = eigenvectors(workspace.matrix, n, re, im, workspace, vectors);
  for (let j = 0; j + 1 < n; j++) {
    if (im[j] === 0) continue;
    for (let i = 0; i < n; i++) vectors[i * n + j + 1] = -vectors[i * n + j + 1]!;
    j++;
  }
  return outcome;
}

function areFinite(values: Float64Array, n: number): boolean {
  for (let i = 0; i < n; i++) if (!Number.isFinite(values[i]!)) return false;
  return true;
}

/** Writes the largest sum of sizes of a row of H to `scalars`; says whether it is finite. */
function measureNorm(workspace: EigenWorkspace, n: number): boolean {
  const { hessenberg: h, scalars } = workspace;
  let largest = 0;
  for (let i = 0; i < n; i++) {
    let sum = 0;
    for (let j = Math.max(0, i - 1); j < n; j++) sum += Math.abs(h[i * n + j]!);
    if (!(sum <= largest)) largest = sum;
  }
  scalars[NORM] = largest;
  return Number.isFinite(largest);
}

/** Leaves the best vector of the Hessenberg form for eigenvalue j in `keptRe`, `keptIm`. */
function iterate(workspace: EigenWorkspace, n: number, re: Float64Array, im: Float64Array, j: number): EigenOutcome {
  const { vectorRe, vectorIm, keptRe, keptIm, scalars } = workspace;
  scalars[LAMBDA_RE] = re[j]! * scalars[SIGMA]!;
  scalars[LAMBDA_IM] = im[j]! * scalars[SIGMA]!;
  const limit = RESIDUAL_LIMIT * n * Number.EPSILON * scalars[NORM]!;
  const firstStart = countRepeated(workspace, n, re, im, j);
  factorShifted(workspace, n);
  let best = Number.POSITIVE_INFINITY;
  for (let trial = 0; trial < n && !(best <= limit); trial++) {
    // The starts are orthogonal, so one of them holds enough of the vector, even where others are nearly as good.
    setStart(vectorRe, vectorIm, n, (firstStart + trial) % n);
    // The second solution removes what the first left of other vectors; near a defective root it may be worse.
    for (let pass = 0; pass < 2; pass++) {
      solveShifted(workspace, n, pass > 0);
      measureResidual(workspace, n);
      const residual = scalars[RESIDUAL]!;
      if (!(residual < best) && !(pass > 0 && residual <= limit)) continue;
      best = residual;
      for (let i = 0; i < n; i++) {
        keptRe[i] = vectorRe[i]!;
        keptIm[i] = vectorIm[i]!;
      }
    }
  }
  return best <= limit ? "converged" : "no convergence";
}

/** How many eigenvalues before j count as equal to it. */
function countRepeated(workspace: EigenWorkspace, n: number, re: Float64Array, im: Float64Array, j: number): number {
  const { scalars } = workspace;
  const limit = (REPEATED_LIMIT * n * Number.EPSILON * scalars[NORM]!) / scalars[SIGMA]!;
  let count = 0;
  for (let i = 0; i < j; i++) {
    if (im[i]! < 0) continue;
    if (Math.abs(re[i]! - re[j]!) <= limit && Math.abs(im[i]! - im[j]!) <= limit) count++;
  }
  return count;
}

/** Takes the kept vector back to the original coordinates, scales it and writes its column or columns. */
function store(workspace: EigenWorkspace, n: number, vectors: Float64Array, j: number, isPair: boolean): EigenOutcome {
  const { keptRe, keptIm } = workspace;
  applyReflectors(workspace, n, keptRe);
  undoBalance(workspace, n, keptRe);
  if (isPair) {
    applyReflectors(workspace, n, keptIm);
    undoBalance(workspace, n, keptIm);
  }
  if (!normaliseVector(keptRe, keptIm, n)) return "not finite";
  for (let i = 0; i < n; i++) vectors[i * n + j] = keptRe[i]!;
  if (isPair) for (let i = 0; i < n; i++) vectors[i * n + j + 1] = keptIm[i]!;
  return "converged";
}

/** Length one, largest component real and positive; false if it cannot be scaled. */
function normaliseVector(vectorRe: Float64Array, vectorIm: Float64Array, n: number): boolean {
  let size = 0;
  for (let i = 0; i < n; i++) size = Math.max(size, Math.abs(vectorRe[i]!), Math.abs(vectorIm[i]!));
  if (!(size > 0 && size < Number.POSITIVE_INFINITY)) return false;
  let squares = 0;
  let largest = 0;
  for (let i = 0; i < n; i++) {
    vectorRe[i] = vectorRe[i]! / size;
    vectorIm[i] = vectorIm[i]! / size;
    const square = vectorRe[i]! * vectorRe[i]! + vectorIm[i]! * vectorIm[i]!;
    squares += square;
    largest = Math.max(largest, square);
  }
  let at = 0;
  while (vectorRe[at]! * vectorRe[at]! + vectorIm[at]! * vectorIm[at]! < EQUAL_SQUARES * largest) at++;
  const length = Math.sqrt((vectorRe[at]! * vectorRe[at]! + vectorIm[at]! * vectorIm[at]!) * squares);
  const cosine = vectorRe[at]! / length;
  const sine = vectorIm[at]! / length;
  for (let i = 0; i < n; i++) {
    const x = vectorRe[i]!;
    const y = vectorIm[i]!;
    vectorRe[i] = x * cosine + y * sine;
    vectorIm[i] = y * cosine - x * sine;
  }
  vectorIm[at] = 0;
  return true;
}
