/**
 * Solutions of (H − λ 1) x = b for a Hessenberg matrix and a complex shift that is nearly an eigenvalue.
 *
 * @source Wilkinson, The Algebraic Eigenvalue Problem (1965), chapter 9, sections 47–61; Peters and Wilkinson (1971)
 */
import { type EigenWorkspace, LAMBDA_IM, LAMBDA_RE, NORM, RESIDUAL } from "./workspace.ts";

/** A component above this makes the whole vector smaller, so that several tiny pivots in a row cannot overflow. */
const LARGEST_COMPONENT = 2 ** 300;

/**
 * Factors H − λ 1 by elimination with exchanges of neighbouring rows.
 *
 * A pivot below ε‖H‖ is replaced by that: a change of H within rounding, which keeps an exact eigenvalue solvable.
 *
 * @param workspace  `hessenberg` H and λ, ‖H‖ in `scalars` are read; `shiftedRe`, `shiftedIm` receive the upper triangle,
 *                   `multiplierRe`, `multiplierIm`, `exchanged` the elimination
 * @param n          order
 * @source see top of file
 * @verified reduction.test.ts: solves a shifted system to rounding
 */
export function factorShifted(workspace: EigenWorkspace, n: number): void {
  const { hessenberg, scalars, shiftedRe: ur, shiftedIm: ui } = workspace;
  for (let i = 0; i < n; i++) {
    const row = i * n;
    for (let j = Math.max(0, i - 1); j < n; j++) {
      ur[row + j] = hessenberg[row + j]!;
      ui[row + j] = 0;
    }
    ur[row + i] = ur[row + i]! - scalars[LAMBDA_RE]!;
    ui[row + i] = -scalars[LAMBDA_IM]!;
  }
  for (let i = 0; i < n - 1; i++) eliminateNext(workspace, n, i);
  liftPivot(workspace, n * n - 1);
}

/** Removes the subdiagonal term of row i + 1. */
function eliminateNext(workspace: EigenWorkspace, n: number, i: number): void {
  const { shiftedRe: ur, shiftedIm: ui, multiplierRe, multiplierIm, exchanged } = workspace;
  const row = i * n;
  const next = row + n;
  const isExchanged = Math.abs(ur[next + i]!) > Math.abs(ur[row + i]!) + Math.abs(ui[row + i]!);
  exchanged[i] = isExchanged ? 1 : 0;
  if (isExchanged) {
    for (let j = i; j < n; j++) {
      const keptRe = ur[row + j]!;
      const keptIm = ui[row + j]!;
      ur[row + j] = ur[next + j]!;
      ui[row + j] = ui[next + j]!;
      ur[next + j] = keptRe;
      ui[next + j] = keptIm;
    }
  }
  liftPivot(workspace, row + i);
  const pivotRe = ur[row + i]!;
  const pivotIm = ui[row + i]!;
  const square = pivotRe * pivotRe + pivotIm * pivotIm;
  const topRe = ur[next + i]!;
  const topIm = ui[next + i]!;
  const factorRe = (topRe * pivotRe + topIm * pivotIm) / square;
  const factorIm = (topIm * pivotRe - topRe * pivotIm) / square;
  multiplierRe[i] = factorRe;
  multiplierIm[i] = factorIm;
  for (let j = i + 1; j < n; j++) {
    const re = ur[row + j]!;
    const im = ui[row + j]!;
    ur[next + j] = ur[next + j]! - (factorRe * re - factorIm * im);
    ui[next + j] = ui[next + j]! - (factorRe * im + factorIm * re);
  }
}

function liftPivot(workspace: EigenWorkspace, at: number): void {
  const { shiftedRe: ur, shiftedIm: ui, scalars } = workspace;
  const norm = scalars[NORM]!;
  const smallest = Number.EPSILON * (norm > 0 ? norm : 1);
  if (Math.abs(ur[at]!) + Math.abs(ui[at]!) >= smallest) return;
  ur[at] = smallest;
  ui[at] = 0;
}

/**
 * Solves with the factors, in place in `vectorRe`, `vectorIm`, and scales the result to length one.
 *
 * @param workspace   from `factorShifted`; the vector holds b and receives x / ‖x‖
 * @param n           order
 * @param withLower   false leaves out the elimination: b then stands for the eliminated right-hand side (Wilkinson's start)
 * @source see top of file
 * @verified reduction.test.ts
 */
export function solveShifted(workspace: EigenWorkspace, n: number, withLower: boolean): void {
  const { shiftedRe: ur, shiftedIm: ui, vectorRe: xr, vectorIm: xi } = workspace;
  if (withLower) eliminateVector(workspace, n);
  for (let i = n - 1; i >= 0; i--) {
    const row = i * n;
    let re = xr[i]!;
    let im = xi[i]!;
    for (let j = i + 1; j < n; j++) {
      re -= ur[row + j]! * xr[j]! - ui[row + j]! * xi[j]!;
      im -= ur[row + j]! * xi[j]! + ui[row + j]! * xr[j]!;
    }
    const pivotRe = ur[row + i]!;
    const pivotIm = ui[row + i]!;
    const square = pivotRe * pivotRe + pivotIm * pivotIm;
    xr[i] = (re * pivotRe + im * pivotIm) / square;
    xi[i] = (im * pivotRe - re * pivotIm) / square;
    if (Math.abs(xr[i]!) + Math.abs(xi[i]!) > LARGEST_COMPONENT) {
      for (let j = 0; j < n; j++) {
        xr[j] = xr[j]! / LARGEST_COMPONENT;
        xi[j] = xi[j]! / LARGEST_COMPONENT;
      }
    }
  }
  let squares = 0;
  for (let i = 0; i < n; i++) squares += xr[i]! * xr[i]! + xi[i]! * xi[i]!;
  const factor = 1 / Math.sqrt(squares);
  for (let i = 0; i < n; i++) {
    xr[i] = xr[i]! * factor;
    xi[i] = xi[i]! * factor;
  }
}

function eliminateVector(workspace: EigenWorkspace, n: number): void {
  const { multiplierRe, multiplierIm, exchanged, vectorRe: xr, vectorIm: xi } = workspace;
  for (let i = 0; i < n - 1; i++) {
    const top = exchanged[i] === 1 ? i + 1 : i;
    const bottom = exchanged[i] === 1 ? i : i + 1;
    const re = xr[top]!;
    const im = xi[top]!;
    const belowRe = xr[bottom]! - (multiplierRe[i]! * re - multiplierIm[i]! * im);
    const belowIm = xi[bottom]! - (multiplierRe[i]! * im + multiplierIm[i]! * re);
    xr[i] = re;
    xi[i] = im;
    xr[i + 1] = belowRe;
    xi[i + 1] = belowIm;
  }
}

/**
 * Writes ‖(H − λ 1) x‖ of the vector of length one in `vectorRe`, `vectorIm` to `scalars`.
 *
 * @param workspace  `hessenberg`, λ and the vector are read
 * @param n          order
 * @source definition
 * @verified reduction.test.ts
 */
export function measureResidual(workspace: EigenWorkspace, n: number): void {
  const { hessenberg, scalars, vectorRe: xr, vectorIm: xi } = workspace;
  const lambdaRe = scalars[LAMBDA_RE]!;
  const lambdaIm = scalars[LAMBDA_IM]!;
  let squares = 0;
  for (let i = 0; i < n; i++) {
    let re = lambdaIm * xi[i]! - lambdaRe * xr[i]!;
    let im = -lambdaIm * xr[i]! - lambdaRe * xi[i]!;
    for (let j = Math.max(0, i - 1); j < n; j++) {
      re += hessenberg[i * n + j]! * xr[j]!;
      im += hessenberg[i * n + j]! * xi[j]!;
    }
    squares += re * re + im * im;
  }
  scalars[RESIDUAL] = Math.sqrt(squares);
}

/**
 * Start vector number k of an orthonormal set, all real: the columns of the reflection that takes the first axis to
 * (1, …, 1)/√n.
 *
 * @param vectorRe  shape (n), written
 * @param vectorIm  shape (n), written with zeros
 * @param n         order
 * @param k         0 … n − 1
 * @source own derivation: R = 1 − 2uuᵀ/(uᵀu), u = e₀ − (1, …, 1)/√n
 * @verified reduction.test.ts: orthonormal
 */
export function setStart(vectorRe: Float64Array, vectorIm: Float64Array, n: number, k: number): void {
  const root = Math.sqrt(n);
  for (let i = 0; i < n; i++) {
    vectorRe[i] = k === 0 || i === 0 ? 1 / root : -1 / (root * (root - 1));
    vectorIm[i] = 0;
  }
  if (k > 0) vectorRe[k] = vectorRe[k]! + 1;
}
