/** g = Π (|4x_i − 2| + a_i)/(1 + a_i) for x uniform in 0 … 1. */
export function sobolG(x: ArrayLike<number>, a: readonly number[]): number {
  return a.reduce((product, each, i) => (product * (Math.abs(4 * x[i] - 2) + each)) / (1 + each), 1);
}

/** Variance, first-order and total shares: independent factors of mean 1 and variance v_i = 1/(3(1 + a_i)²). */
export function sobolGShares(a: readonly number[]) {
  const v = a.map((each) => 1 / (3 * (1 + each) ** 2));
  const without = (skip: number) => v.reduce((product, each, i) => (i === skip ? product : product * (1 + each)), 1);
  const variance = without(-1) - 1;
  return {
    variance,
    first: v.map((each) => each / variance),
    total: v.map((each, i) => (each * without(i)) / variance),
  };
}
