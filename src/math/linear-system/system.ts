import { luFactor, luSolve } from "../dense/index.ts";
import { DomainError } from "../errors.ts";
import { requireLength, requireSize } from "../require.ts";

/** Linear system ẋ = A·x + B·u, y = C·x + D·u; every matrix row-major. */
export interface LinearSystem {
  readonly states: number;
  readonly inputs: number;
  readonly outputs: number;
  /** Shape (states, states). */
  readonly A: Float64Array;
  /** Shape (states, inputs). */
  readonly B: Float64Array;
  /** Shape (outputs, states). */
  readonly C: Float64Array;
  /** Shape (outputs, inputs). */
  readonly D: Float64Array;
}

/**
 * Makes a linear system from its matrices.
 *
 *     ẋ = A·x + B·u,  y = C·x + D·u                                            (1)
 *
 * @param sizes     number of states, inputs and outputs
 * @param matrices  row-major; what is left out is zero
 * @throws {DomainError} if a matrix is too short or a size is no whole number
 * @source definition, README eq. 1
 * @verified system.test.ts
 */
export function linearSystem(
  sizes: Readonly<Record<"states" | "inputs" | "outputs", number>>,
  matrices: Readonly<Partial<Record<"A" | "B" | "C" | "D", ArrayLike<number>>>>,
): LinearSystem {
  const { states, inputs, outputs } = sizes;
  requireSize("number of states", states);
  requireSize("number of inputs", inputs, 1);
  requireSize("number of outputs", outputs, 1);
  const matrix = (name: "A" | "B" | "C" | "D", size: number): Float64Array => {
    const given = matrices[name];
    if (given === undefined) return new Float64Array(size);
    requireLength(`matrix ${name}`, given.length, size);
    return Float64Array.from({ length: size }, (_, i) => given[i]!);
  };
  return {
    ...{ states, inputs, outputs },
    A: matrix("A", states * states),
    B: matrix("B", states * inputs),
    C: matrix("C", outputs * states),
    D: matrix("D", outputs * inputs),
  };
}

/** Copies `part` (rows, columns) into `out`, which has `width` columns, at (row, column). */
function place(part: Float64Array, columns: number, out: Float64Array, width: number, row: number, column: number) {
  for (let at = 0; at < part.length; at++) {
    out[(row + Math.floor(at / columns)) * width + column + (at % columns)] = part[at]!;
  }
}

/**
 * Puts systems side by side: states, inputs and outputs one after the other, nothing connected.
 *
 * @param parts  at least one system
 * @source definition
 * @verified system.test.ts
 */
export function append(parts: readonly LinearSystem[]): LinearSystem {
  const total = (key: "states" | "inputs" | "outputs"): number => parts.reduce((sum, part) => sum + part[key], 0);
  const sizes = { states: total("states"), inputs: total("inputs"), outputs: total("outputs") };
  const out = linearSystem(sizes, {});
  let [state, input, output] = [0, 0, 0];
  for (const part of parts) {
    if (part.states > 0) {
      place(part.A, part.states, out.A, out.states, state, state);
      place(part.B, part.inputs, out.B, out.inputs, state, input);
      place(part.C, part.states, out.C, out.states, output, state);
    }
    place(part.D, part.inputs, out.D, out.inputs, output, input);
    state += part.states;
    input += part.inputs;
    output += part.outputs;
  }
  return out;
}

/**
 * Closes a system on itself through constant gains.
 *
 *     u = v + K·y:   E = (1 − D·K)⁻¹
 *     ẋ = (A + B·K·E·C)·x + (B + B·K·E·D)·v,   y = E·C·x + E·D·v               (2)
 *
 * @param system  inputs u, outputs y
 * @param K       shape (inputs, outputs) row-major
 * @returns the system from v to y, with the same states
 * @throws {DomainError} if `1 − D·K` is singular: an algebraic loop without solution
 * @source own derivation, README eq. 2
 * @verified system.test.ts (poles of textbook loops, loop closed twice with K and −K)
 */
export function closeLoops(system: LinearSystem, K: Float64Array): LinearSystem {
  const { states: n, inputs: m, outputs: p } = system;
  requireLength("gains", K.length, m * p);
  const loop = new Float64Array(p * p);
  for (let i = 0; i < p; i++) {
    loop[i * p + i] = 1;
    for (let j = 0; j < p; j++) for (let k = 0; k < m; k++) loop[i * p + j] -= system.D[i * m + k]! * K[k * p + j]!;
  }
  const pivots = new Int32Array(p);
  if (!luFactor(loop, p, pivots)) throw new DomainError("algebraic loop 1 − D·K", "singular", "a loop with a solution");
  const C = system.C.slice();
  const D = system.D.slice();
  if (n > 0) luSolve(loop, p, pivots, C, n);
  luSolve(loop, p, pivots, D, m);
  const back = product(K, C, m, p, n);
  const through = product(K, D, m, p, m);
  const A = system.A.slice();
  const B = system.B.slice();
  add(A, product(system.B, back, n, m, n));
  add(B, product(system.B, through, n, m, m));
  return { states: n, inputs: m, outputs: p, A, B, C, D };
}

function product(a: Float64Array, b: Float64Array, rows: number, inner: number, columns: number): Float64Array {
  const out = new Float64Array(rows * columns);
  for (let i = 0; i < rows; i++) {
    for (let k = 0; k < inner; k++) {
      const factor = a[i * inner + k]!;
      if (factor !== 0) for (let j = 0; j < columns; j++) out[i * columns + j] += factor * b[k * columns + j]!;
    }
  }
  return out;
}

function add(to: Float64Array, what: Float64Array): void {
  for (let i = 0; i < to.length; i++) to[i] += what[i]!;
}

/**
 * One system after the other: the outputs of `first` are the inputs of `second`.
 *
 * @throws {DomainError} if their numbers differ
 * @source definition
 * @verified system.test.ts (product of the transfer functions)
 */
export function series(first: LinearSystem, second: LinearSystem): LinearSystem {
  if (first.outputs !== second.inputs) {
    throw new DomainError("number of inputs", second.inputs, `${first.outputs}, the outputs before it`);
  }
  const states = first.states + second.states;
  const out = linearSystem({ states, inputs: first.inputs, outputs: second.outputs }, {});
  const BC = product(second.B, first.C, second.states, second.inputs, first.states);
  const BD = product(second.B, first.D, second.states, second.inputs, first.inputs);
  const DC = product(second.D, first.C, second.outputs, second.inputs, first.states);
  out.D.set(product(second.D, first.D, second.outputs, second.inputs, first.inputs));
  if (first.states > 0) {
    place(first.A, first.states, out.A, states, 0, 0);
    place(first.B, first.inputs, out.B, first.inputs, 0, 0);
    place(BC, first.states, out.A, states, first.states, 0);
    place(DC, first.states, out.C, states, 0, 0);
  }
  if (second.states > 0) {
    place(second.A, second.states, out.A, states, first.states, first.states);
    place(BD, first.inputs, out.B, first.inputs, first.states, 0);
    place(second.C, second.states, out.C, states, 0, first.states);
  }
  return out;
}

/**
 * Keeps some inputs and outputs of a system.
 *
 * @param inputs   numbers of the inputs that stay, in their new order
 * @param outputs  numbers of the outputs that stay
 * @source definition
 * @verified system.test.ts
 */
export function select(system: LinearSystem, inputs: readonly number[], outputs: readonly number[]): LinearSystem {
  const { states: n, inputs: m } = system;
  const out = linearSystem({ states: n, inputs: inputs.length, outputs: outputs.length }, {});
  out.A.set(system.A);
  for (let i = 0; i < n; i++) {
    inputs.forEach((from, to) => {
      out.B[i * inputs.length + to] = system.B[i * m + from]!;
    });
  }
  outputs.forEach((from, to) => {
    for (let j = 0; j < n; j++) out.C[to * n + j] = system.C[from * n + j]!;
    inputs.forEach((input, j) => {
      out.D[to * inputs.length + j] = system.D[from * m + input]!;
    });
  });
  return out;
}

/** Entries below this share of the largest of their row (of B: of the whole matrix) are round-off and connect nothing. */
const APART = 1e-9;

/**
 * The part of a system that its inputs move and its outputs see, as far as zeros in the matrices show it: the transfer functions
 * stay the same, and roots of another plane, which no gain on this loop changes, are gone.
 *
 * @param system with entries below 1e-9 of the largest of their row taken as zero
 * @returns the system without the states that are not reached from an input or do not reach an output
 * @source reachability in the graph of the matrices
 * @verified system.test.ts (two planes side by side, chain cut at either end)
 */
export function connectedPart(system: LinearSystem): LinearSystem {
  const { states: n, inputs: m, outputs: p, A, B, C, D } = system;
  const links = (matrix: Float64Array, row: number, width: number): boolean[] => {
    const own = matrix.subarray(row * width, (row + 1) * width);
    const limit = APART * own.reduce((largest, value) => Math.max(largest, Math.abs(value)), 0);
    return Array.from(own, (value) => Math.abs(value) > limit);
  };
  const range = (length: number): number[] => Array.from({ length }, (_, i) => i);
  const from = range(n).map((i) => links(A, i, n));
  const largestB = B.reduce((largest, value) => Math.max(largest, Math.abs(value)), 0);
  const moved = range(n).map((i) => range(m).some((j) => Math.abs(B[i * m + j]!) > APART * largestB));
  const seen = range(n).map(() => false);
  for (let row = 0; row < p; row++) {
    links(C, row, n).forEach((linked, j) => {
      if (linked) seen[j] = true;
    });
  }
  // state j moves state i where A_ij is not zero
  const spread = (marked: boolean[], reaches: (to: number, by: number) => boolean): void => {
    for (let grown = true; grown; ) {
      grown = false;
      for (let to = 0; to < n; to++) {
        if (marked[to] || !marked.some((on, by) => on && reaches(to, by))) continue;
        marked[to] = true;
        grown = true;
      }
    }
  };
  spread(moved, (to, by) => from[to]![by]!);
  spread(seen, (to, by) => from[by]![to]!);
  const kept = range(n).filter((i) => moved[i] && seen[i]);
  const out = linearSystem({ states: kept.length, inputs: m, outputs: p }, { D });
  kept.forEach((i, row) => {
    kept.forEach((j, column) => {
      out.A[row * kept.length + column] = A[i * n + j]!;
    });
    for (let j = 0; j < m; j++) out.B[row * m + j] = B[i * m + j]!;
    for (let k = 0; k < p; k++) out.C[k * kept.length + row] = C[k * n + i]!;
  });
  return out;
}
