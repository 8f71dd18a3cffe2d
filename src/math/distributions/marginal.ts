import { BugError } from "../errors.ts";
import { normalCdf, normalQuantile } from "./normal.ts";

/** How one value may lie about its centre. */
export type Marginal =
  | { readonly kind: "normal"; readonly centre: number; readonly sigma: number }
  | { readonly kind: "uniform" | "triangular"; readonly centre: number; readonly halfWidth: number }
  | { readonly kind: "lognormal"; readonly median: number; readonly logSigma: number };

/**
 * Value of a marginal at a standard normal score: the same share of values lies below both.
 *
 *     normal c + σz, lognormal m·e^(σz), else x = F⁻¹(Φ(z))                                (7)
 *     uniform c + h(2Φ − 1); triangular c − h + h√(2Φ) for Φ ≤ ½, else c + h − h√(2(1 − Φ))
 *
 * Score 0 is the centre (lognormal: the median); the map rises with z.
 *
 * @param z  standard normal score
 * @source inverse distribution functions, elementary
 * @verified distributions.test.ts: moments, round trip, bounds
 * @cost no allocation
 */
export function fromNormalScore(marginal: Marginal, z: number): number {
  switch (marginal.kind) {
    case "normal":
      return marginal.centre + marginal.sigma * z;
    case "lognormal":
      return marginal.median * Math.exp(marginal.logSigma * z);
    case "uniform":
      return marginal.centre + marginal.halfWidth * (normalCdf(z) - normalCdf(-z));
    case "triangular": {
      const tail = Math.sqrt(2 * normalCdf(-Math.abs(z)));
      return marginal.centre + Math.sign(z) * marginal.halfWidth * (1 - tail);
    }
  }
}

/**
 * Standard normal score of a value, the inverse of `fromNormalScore`.
 *
 * @throws {BugError} for a value outside a bounded or lognormal marginal
 * @source inverse of eq. 7
 * @verified distributions.test.ts: round trip
 */
export function toNormalScore(marginal: Marginal, value: number): number {
  switch (marginal.kind) {
    case "normal":
      return (value - marginal.centre) / marginal.sigma;
    case "lognormal":
      if (!(value > 0)) throw new BugError(`a lognormal value of ${value}`);
      return Math.log(value / marginal.median) / marginal.logSigma;
    default: {
      const t = (value - marginal.centre) / marginal.halfWidth;
      if (!(Math.abs(t) < 1)) throw new BugError(`the value ${value} is not inside its bounds`);
      const tail = marginal.kind === "uniform" ? (1 - Math.abs(t)) / 2 : 0.5 * (1 - Math.abs(t)) ** 2;
      return tail === 0.5 ? 0 : Math.sign(t) * -normalQuantile(tail);
    }
  }
}
