import { logGamma, normalCdf } from "../distributions/index.ts";
import { BugError, DomainError } from "../errors.ts";
import { integrate } from "../quadrature/index.ts";
import { requireFinite, requirePositive } from "../require.ts";

/**
 * Probability that a point with equal normal scatter about the centre of a circle falls inside it.
 *
 *     P = 1 − e^(−r²/2σ²)                                                                 (1)
 *
 * @param radius  r, 0 or more
 * @param sigma   σ in each of the two directions, unit of the radius, above 0
 * @throws {DomainError} for arguments out of range
 * @source Rayleigh distribution, elementary
 * @verified circle-share.test.ts: generated/claims-scipy (rtol 1e-13)
 */
export function rayleighShare(radius: number, sigma: number): number {
  requireRadius(radius);
  requirePositive("sigma", sigma);
  return -Math.expm1(-0.5 * (radius / sigma) ** 2);
}

function requireRadius(radius: number): void {
  if (!(radius >= 0 && radius < Number.POSITIVE_INFINITY)) throw new DomainError("radius", radius, "0 or more");
}

/** Arguments above it would need sums of more than a hundred thousand terms. */
const LARGEST = 500;

function poisson(k: number, mean: number): number {
  if (mean === 0) return k === 0 ? 1 : 0;
  return Math.exp(k * Math.log(mean) - mean - logGamma(k + 1));
}

/**
 * Marcum's function of first order: probability that a point with unit normal scatter about a centre at the distance a lies
 * outside a circle of radius b, and the rest.
 *
 *     Q₁(a, b) = P(J ≤ K),  1 − Q₁ = P(J > K),  K ~ Poisson(a²/2), J ~ Poisson(b²/2), independent             (2)
 *
 * Both are sums of positive terms, so that each is accurate where it is small.
 *
 * @param a  0 … 500
 * @param b  0 … 500
 * @throws {DomainError} for arguments out of range
 * @source series of the noncentral χ² distribution with 2 degrees of freedom, Abramowitz and Stegun 26.4.25; own derivation, README eq. 2
 * @verified circle-share.test.ts: generated/claims-scipy (rtol 1e-10), Q₁(0, b), symmetry of Q₁
 */
export function marcum(a: number, b: number): { readonly inside: number; readonly outside: number } {
  for (const x of [a, b])
    if (!(x >= 0 && x <= LARGEST)) throw new DomainError("argument of Marcum's function", x, `0 to ${LARGEST}`);
  const [centre, edge] = [0.5 * a * a, 0.5 * b * b];
  const [small, large] = [Math.min(centre, edge), Math.max(centre, edge)];
  const low = Math.max(0, Math.floor(small - 12 * Math.sqrt(small) - 50));
  const high = Math.ceil(large + 12 * Math.sqrt(large) + 50);
  let [inside, above] = [0, 0];
  for (let k = high; k >= low; k--) {
    inside += poisson(k, centre) * above;
    above += poisson(k, edge);
  }
  let [outside, upTo] = [0, 0];
  for (let k = low; k <= high; k++) {
    upTo += poisson(k, edge);
    outside += poisson(k, centre) * upTo;
  }
  return { inside: Math.min(1, inside), outside: Math.min(1, outside) };
}

/**
 * Probability that a point with equal normal scatter about an offset centre falls into a circle.
 *
 *     P = 1 − Q₁(d/σ, r/σ)                                                                (3)
 *
 * @param radius  r, 0 or more
 * @param sigma   σ in each direction, above 0
 * @param offset  d, distance of the mean from the centre of the circle, 0 or more; all in one unit
 * @throws {DomainError} for arguments out of range, or r or d beyond 500 σ
 * @source Rice distribution; eq. 2
 * @verified circle-share.test.ts: generated/claims-scipy (rtol 1e-10), eq. 1 at d = 0, eq. 4
 */
export function riceShare(radius: number, sigma: number, offset: number): number {
  requireRadius(radius);
  requirePositive("sigma", sigma);
  return marcum(offset / sigma, radius / sigma).inside;
}

/** A normal distribution in a plane; lengths in one unit. */
export interface PlaneScatter {
  readonly mean: readonly [number, number];
  /** Standard deviations, above 0. */
  readonly sigma: readonly [number, number];
  /** Correlation of the two directions, inside −1 … 1; 0 when left out. */
  readonly correlation?: number;
}

/** Standard deviations along the principal axes, and the mean in them. */
function principal({ mean, sigma, correlation = 0 }: PlaneScatter): {
  mean: [number, number];
  sigma: [number, number];
} {
  const [a, b] = [sigma[0] ** 2, sigma[1] ** 2];
  const c = correlation * sigma[0] * sigma[1];
  const turn = c === 0 ? 0 : 0.5 * Math.atan2(2 * c, a - b);
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const first = a * cos * cos + 2 * c * sin * cos + b * sin * sin;
  // by the determinant, which keeps its digits where one axis is short
  const second = (a * b * (1 - correlation * correlation)) / first;
  return {
    mean: [cos * mean[0] + sin * mean[1], cos * mean[1] - sin * mean[0]],
    sigma: [Math.sqrt(first), Math.sqrt(second)],
  };
}

/**
 * Probability that a normally distributed point falls into a circle about the origin: any offset, unequal and correlated scatter.
 *
 *     P = ∫ φ((y − m₁)/σ₁)/σ₁·[Φ((c − m₂)/σ₂) − Φ((−c − m₂)/σ₂)]·r·cos t dt,  y = r·sin t, c = r·cos t, t = −π/2 … π/2      (4)
 *
 * in the principal axes of the scatter; the circle does not change when they turn.
 *
 * @param radius   r, 0 or more
 * @param scatter  mean and standard deviations in the unit of the radius
 * @throws {DomainError} for arguments out of range
 * @source own derivation, README eq. 4
 * @verified circle-share.test.ts: eq. 1 and 3, generated/claims-scipy (rtol 1e-9), rotation
 */
export function circleShare(radius: number, scatter: PlaneScatter): number {
  requireRadius(radius);
  scatter.mean.forEach((m) => {
    requireFinite("mean", m);
  });
  scatter.sigma.forEach((s) => {
    requirePositive("sigma", s);
  });
  const { correlation = 0 } = scatter;
  if (!(correlation > -1 && correlation < 1)) throw new DomainError("correlation", correlation, "between -1 and 1");
  if (radius === 0) return 0;
  const { mean, sigma } = principal(scatter);
  const [m1, m2] = mean;
  const [s1, s2] = sigma;
  const strip = (c: number): number => {
    // both ends on the side of the small tail, where differences keep their digits
    const far = -Math.abs(m2);
    return normalCdf((far + c) / s2) - normalCdf((far - c) / s2);
  };
  const density = (t: number, out: Float64Array): void => {
    const z = (radius * Math.sin(t) - m1) / s1;
    const c = radius * Math.cos(t);
    out[0] = (Math.exp(-0.5 * z * z) / (Math.sqrt(2 * Math.PI) * s1)) * strip(c) * c;
  };
  const { outcome, values } = integrate(density, 1, breaksOf(radius, m1, s1, m2, s2), 1e-12);
  if (outcome !== "converged") throw new BugError(`the share in a circle is ${outcome}`);
  return Math.min(1, Math.max(0, values[0]!));
}

/** Bounds in t that no peak or edge of the integrand hides between. */
function breaksOf(radius: number, m1: number, s1: number, m2: number, s2: number): number[] {
  const marks = [-1, 1];
  for (const k of [-10, -4, -1, 0, 1, 4, 10]) {
    marks.push((m1 + k * s1) / radius);
    // where the edge of the circle crosses the scatter of the other direction
    const edge = 1 - ((Math.abs(m2) + k * s2) / radius) ** 2;
    if (edge > 0) marks.push(Math.sqrt(edge), -Math.sqrt(edge));
  }
  const sorted = marks
    .filter((y) => Math.abs(y) <= 1)
    .map(Math.asin)
    .sort((a, b) => a - b);
  return sorted.filter((t, i) => i === 0 || t - sorted[i - 1]! > 1e-9);
}
