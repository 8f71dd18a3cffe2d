import { BugError, DomainError } from "../errors.ts";

/** Lanczos coefficients for g = 7, nine terms. */
const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
] as const;

/**
 * Logarithm of the gamma function.
 *
 *     Γ(x + 1) = √2π·(x + 7.5)^(x + ½)·e^(−x − 7.5)·A(x)                                  (3)
 *
 * @param x  above 0
 * @throws {DomainError} for another x
 * @source Lanczos, SIAM J. Numer. Anal. 1 (1964) 86; coefficients of Godfrey for g = 7
 * @verified distributions.test.ts: factorials, duplication formula
 */
export function logGamma(x: number): number {
  if (!(x > 0)) throw new DomainError("argument of the gamma function", x, "above 0");
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
  const y = x - 1;
  let sum: number = LANCZOS[0];
  for (let k = 1; k < LANCZOS.length; k++) sum += LANCZOS[k]! / (y + k);
  const t = y + 7.5;
  return 0.5 * Math.log(2 * Math.PI) + (y + 0.5) * Math.log(t) - t + Math.log(sum);
}

/**
 * Regularised incomplete beta function: probability that a beta value is at most x.
 *
 *     I_x(a, b) = x^a(1−x)^b/(a·B(a, b))·1/(1 + d₁/(1 + d₂/(1 + …))),   I_x(a, b) = 1 − I_{1−x}(b, a)      (4)
 *
 * @param x  0 … 1
 * @param a  above 0
 * @param b  above 0
 * @throws {DomainError} for arguments out of range
 * @source Abramowitz and Stegun 26.5.8; evaluation by Lentz, Appl. Opt. 15 (1976) 668
 * @verified distributions.test.ts: generated/distributions-scipy, binomial sums, symmetry
 */
export function incompleteBeta(x: number, a: number, b: number): number {
  if (!(x >= 0 && x <= 1)) throw new DomainError("argument of the beta function", x, "0 to 1");
  if (!(a > 0 && b > 0)) throw new DomainError("parameters of the beta function", [a, b], "above 0");
  if (x === 0 || x === 1) return x;
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a);
  const front = Math.exp(
    logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x) - Math.log(a),
  );
  return front * betaFraction(x, a, b);
}

const TINY = 1e-300;
const MOST_TERMS = 10_000;

function betaFraction(x: number, a: number, b: number): number {
  const away = (value: number): number => (Math.abs(value) < TINY ? TINY : value);
  let c = 1;
  let d = 1 / away(1 - ((a + b) * x) / (a + 1));
  let result = d;
  for (let m = 1; m <= MOST_TERMS; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / away(1 + even * d);
    c = away(1 + even / c);
    result *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / away(1 + odd * d);
    c = away(1 + odd / c);
    const change = d * c;
    result *= change;
    if (Math.abs(change - 1) < 1e-15) return result;
  }
  throw new BugError(`the fraction of the beta function did not converge at x ${x}, a ${a}, b ${b}`);
}
