import { requireSize } from "../require.ts";

/** What a set of variance shares is computed from. */
export interface VarianceDesign {
  /** Inputs. */
  readonly dimensions: number;
  readonly outputs: number;
  /** Indices of the inputs of each group; every group independent of the others. */
  readonly groups: readonly (readonly number[])[];
  /** Number N of pairs of points. */
  readonly count: number;
  /** Writes pair i of independent points of the inputs, each shape (dimensions). */
  readonly pair: (index: number, a: Float64Array, b: Float64Array) => void;
  /**
   * The model: writes its values at x, shape (outputs); false where it has none.
   *
   * @param group  the group whose inputs alone differ from the point evaluated last with `null`; `null` for any point
   */
  readonly evaluate: (x: Float64Array, out: Float64Array, group: number | null) => boolean;
}

/** Shares of one group in the variance of one output. */
export interface GroupShares {
  /** Alone: variance that vanishes on average when the group becomes known. */
  readonly first: number;
  /** With everything it acts together with: variance that is left on average when all others are known. */
  readonly total: number;
  /** One standard deviation of the two estimates. */
  readonly firstError: number;
  readonly totalError: number;
}

/** Shares by output, then by group. */
export interface VarianceShares {
  readonly mean: Float64Array;
  readonly variance: Float64Array;
  readonly shares: readonly (readonly GroupShares[])[];
  /** Pairs that entered; the others had a point without value. */
  readonly used: number;
}

/**
 * First-order and total shares of groups of inputs in the variance of a model's outputs.
 *
 *     S_g  = Σ f(B)·(f(A_B^g) − f(A))/(N·V)                                       (1)
 *     S_Tg = Σ (f(A) − f(A_B^g))²/(2·N·V)                                         (2)
 *
 * A and B are independent points, A_B^g is A with the inputs of group g from B; V is the variance over all A and B. f(B) is taken
 * about the mean, which shifts nothing and steadies the sum. Groups must be independent of each other; inside
 * a group inputs may depend on each other.
 *
 * @param design  see `VarianceDesign`
 * @throws {DomainError} for sizes that are not whole numbers above zero
 * @source Saltelli et al., Comput. Phys. Commun. 181 (2010) 259, Table 2 (b) and (f); (f) is Jansen's, ibid. 117 (1999) 35
 * @verified variance-shares.test.ts: analytic/ishigami, analytic/sobol-g, groups of correlated inputs
 * @cost N·(2 + groups) evaluations
 */
export function varianceShares(design: VarianceDesign): VarianceShares {
  const { dimensions, outputs, groups, count } = design;
  requireSize("dimensions", dimensions, 1);
  requireSize("number of pairs", count, 1);
  const [a, b, mixed] = [0, 0, 0].map(() => new Float64Array(dimensions)) as [Float64Array, Float64Array, Float64Array];
  const rows = 2 + groups.length;
  const values = new Float64Array(count * rows * outputs);
  const out = new Float64Array(outputs);
  let used = 0;
  for (let i = 0; i < count; i++) {
    design.pair(i, a, b);
    let complete = true;
    const keep = (row: number): void => values.set(out, (used * rows + row) * outputs);
    for (const [row, point] of [
      [1, b],
      [0, a],
    ] as const) {
      complete = complete && design.evaluate(point, out, null);
      if (complete) keep(row);
    }
    for (let g = 0; g < groups.length && complete; g++) {
      mixed.set(a);
      for (const j of groups[g]!) mixed[j] = b[j]!;
      complete = design.evaluate(mixed, out, g);
      if (complete) keep(2 + g);
    }
    if (complete) used++;
  }
  return summarise(values, used, groups.length, outputs);
}

function summarise(values: Float64Array, used: number, groups: number, outputs: number): VarianceShares {
  const rows = 2 + groups;
  const mean = new Float64Array(outputs);
  const variance = new Float64Array(outputs);
  const at = (i: number, row: number, k: number): number => values[(i * rows + row) * outputs + k]!;
  const shares = Array.from({ length: outputs }, (_, k) => {
    for (let i = 0; i < used; i++) mean[k]! += (at(i, 0, k) + at(i, 1, k)) / (2 * used);
    for (let i = 0; i < used; i++) {
      variance[k]! += ((at(i, 0, k) - mean[k]!) ** 2 + (at(i, 1, k) - mean[k]!) ** 2) / Math.max(1, 2 * used - 1);
    }
    const V = variance[k]!;
    return Array.from({ length: groups }, (_, g): GroupShares => {
      if (!(V > 0)) return { first: 0, total: 0, firstError: 0, totalError: 0 };
      const first = momentsOf(used, (i) => ((at(i, 1, k) - mean[k]!) * (at(i, 2 + g, k) - at(i, 0, k))) / V);
      const total = momentsOf(used, (i) => (at(i, 0, k) - at(i, 2 + g, k)) ** 2 / (2 * V));
      return { first: first.mean, total: total.mean, firstError: first.error, totalError: total.error };
    });
  });
  return { mean, variance, shares, used };
}

/** Mean of `used` terms and the standard deviation of that mean for independent terms. */
function momentsOf(used: number, term: (i: number) => number): { mean: number; error: number } {
  let sum = 0;
  let squares = 0;
  for (let i = 0; i < used; i++) {
    const value = term(i);
    sum += value;
    squares += value * value;
  }
  const mean = used > 0 ? sum / used : 0;
  const spread = used > 1 ? Math.max(0, (squares - used * mean * mean) / (used - 1)) : 0;
  return { mean, error: Math.sqrt(spread / Math.max(1, used)) };
}
