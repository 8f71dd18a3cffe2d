import { type ComplexSystem, createComplexSystem, factorComplex, solveComplex } from "../../math/dense/index.ts";
import { BugError, DomainError } from "../../math/errors.ts";
import type { Linearisation } from "../bodies/index.ts";

/** The pair without its tangential path, as far as the swing moves it and shows it: ẋ = A·x + b·F, travel = c·x. */
export interface SwingSystem {
  readonly size: number;
  /** A, shape (size²), row-major. */
  readonly matrix: Float64Array;
  /** b, state rates per tangential force on the tip towards a larger angle, shape (size). */
  readonly input: Float64Array;
  /** c, tip travel towards a larger angle per state [m], shape (size). */
  readonly output: Float64Array;
  /** Places of the kept states among those of the linearisation. */
  readonly kept: readonly number[];
}

/** Entries below this share of the largest of their row do not couple. */
const APART = 1e-9;

/**
 * Keeps of a linearised pair the states that the swing both moves and feels, and scales its port to the tip.
 *
 *     b = L·perMoment on the coordinate rates,  c = L·angle on the coordinates            (README eq. 1)
 *
 * What is left out has the same roots for every path. For a pair that is symmetric about its middle plane these are the
 * lateral motions.
 *
 * @param base   linearisation with an empty tangential path and a steady carrier
 * @param length L [m]
 * @param kept   states to keep, when they are to be those of another system
 * @throws {BugError} without the swing port
 * @source own derivation, README eq. 1
 * @verified stability-boundary.test.ts against eigenvalues of the assembled matrix
 */
export function swingSystem(base: Linearisation, length: number, kept?: readonly number[]): SwingSystem {
  if (base.swing === undefined) throw new BugError("a swing response needs the swing port");
  const { size: n, matrix, coordinates: nq } = base;
  const { perMoment, angle } = base.swing;
  const input = new Float64Array(n);
  const output = new Float64Array(n);
  for (let k = 0; k < nq; k++) {
    input[nq + k] = length * perMoment[k];
    output[k] = length * angle[k];
  }
  const states = kept ?? reached(matrix, n, input, output);
  const m = states.length;
  const small = new Float64Array(m * m);
  states.forEach((i, r) => {
    states.forEach((j, c) => {
      small[r * m + c] = matrix[i * n + j];
    });
  });
  const of = (v: Float64Array): Float64Array => Float64Array.from(states, (i) => v[i]);
  return { size: m, matrix: small, input: of(input), output: of(output), kept: states };
}

/** States that the input moves and that move the output, through entries that are not round-off. */
function reached(A: Float64Array, n: number, input: Float64Array, output: Float64Array): number[] {
  const linked = (i: number, j: number): boolean => {
    let largest = 0;
    for (let k = 0; k < n; k++) largest = Math.max(largest, Math.abs(A[i * n + k]));
    return Math.abs(A[i * n + j]) > APART * largest;
  };
  const closure = (start: Float64Array, next: (i: number, j: number) => boolean): boolean[] => {
    const largest = Math.max(...start.map(Math.abs));
    const seen = Array.from(start, (x) => Math.abs(x) > APART * largest);
    for (let grew = true; grew; ) {
      grew = false;
      for (let i = 0; i < n; i++) {
        if (!seen[i]) continue;
        for (let j = 0; j < n; j++) {
          if (!seen[j] && next(i, j)) {
            seen[j] = true;
            grew = true;
          }
        }
      }
    }
    return seen;
  };
  const moved = closure(input, (i, j) => linked(j, i));
  const felt = closure(output, (i, j) => linked(i, j));
  return Array.from({ length: n }, (_, i) => i).filter((i) => moved[i] && felt[i]);
}

/**
 * Receptance of the tip without tangential path: tip travel per tangential force at a complex rate s.
 *
 *     H(s) = c·(s·1 − A)⁻¹·b,   H′(s) = −c·(s·1 − A)⁻²·b                              (README eq. 2)
 */
export class SwingResponse {
  readonly size: number;
  /** H [m/N] and H′ [m·s/N], written by `evaluate`. */
  re = 0;
  im = 0;
  slopeRe = 0;
  slopeIm = 0;
  private readonly system: ComplexSystem;
  private readonly xr: Float64Array;
  private readonly xi: Float64Array;

  constructor(size: number) {
    this.size = size;
    this.system = createComplexSystem(size);
    this.xr = new Float64Array(size);
    this.xi = new Float64Array(size);
  }

  /**
   * Evaluates H and H′ at s = sRe + i·sIm [1/s].
   *
   * @param swing system of this size
   * @returns false at a pole of H
   * @throws {DomainError} for a system of another size
   * @source own derivation, README eq. 2
   * @verified stability-boundary.test.ts: closed form of a mass on a spring, slope against differences
   * @cost 8n³/3 + 16n², no allocation
   */
  evaluate(swing: SwingSystem, sRe: number, sIm: number): boolean {
    const { size: n, system, xr, xi } = this;
    if (swing.size !== n) throw new DomainError("size of the swing system", swing.size, `${n}`);
    const { matrix, input, output } = swing;
    const { re, im } = system;
    for (let i = 0; i < n * n; i++) re[i] = -matrix[i];
    im.fill(0);
    for (let i = 0; i < n; i++) {
      re[i * n + i] += sRe;
      im[i * n + i] = sIm;
    }
    if (!factorComplex(system)) return false;
    xr.set(input);
    xi.fill(0);
    solveComplex(system, xr, xi);
    this.re = 0;
    this.im = 0;
    for (let i = 0; i < n; i++) {
      this.re += output[i] * xr[i];
      this.im += output[i] * xi[i];
    }
    solveComplex(system, xr, xi);
    this.slopeRe = 0;
    this.slopeIm = 0;
    for (let i = 0; i < n; i++) {
      this.slopeRe -= output[i] * xr[i];
      this.slopeIm -= output[i] * xi[i];
    }
    return Number.isFinite(this.re) && Number.isFinite(this.im);
  }
}
