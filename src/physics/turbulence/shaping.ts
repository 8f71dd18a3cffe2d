import { DomainError } from "../../math/errors.ts";
import { liftLag } from "./lift-lag.ts";
import { spanLags, transverseScales } from "./spectra.ts";
import type { GustFlight } from "./types.ts";

/** Linear filter that makes gusts of white noise: ẋ = A·x + B·n, gust = C·x, n four noises of intensity 1. */
export interface GustFilter {
  readonly size: number;
  /** Row-major, shape (size, size). */
  readonly A: Float64Array;
  /** Row-major, shape (size, 4): noises of u, v, w and p. */
  readonly B: Float64Array;
  /** Row-major, shape (6, size): u, v, w, p, q, r. */
  readonly C: Float64Array;
}

export const NOISES = 4;

/**
 * Dryden turbulence as a linear filter of white noise, both documents.
 *
 *     u = σu·√(2T)/(1 + Ts),  T = Lu/V;   v, w = σ·√T·(1 + √3·Ts)/(1 + Ts)²,  T = L′/V              (10)
 *     p = √(π·Φp(0))/(1 + (4b/πV)s);   q = −(s/V)·w/(1 + (4b/πV)s);   r = (s/V)·v/(1 + (3b/πV)s)     (11)
 *
 * The noises have intensity 1, so that a one-sided spectrum is |filter|²/π. With `chord`, each component passes the lags of
 * the lift (eq. 9) and is then the gust that the lift follows; without, it is the air itself.
 *
 * q and r are rotations of the air: air that goes down ahead of the aircraft more than behind it rolls nose down, q = −∂w/∂x.
 *
 * @param flight  scales of the form "Dryden"
 * @param chord   c̄ [m] for the lags of the lift, or nothing
 * @throws {DomainError} for another spectrum
 * @source MIL-F-8785C 3.7.1 and MIL-HDBK-1797 appendix A 4.9.1 (spectra); filters: own derivation, README eq. 10–11
 * @verified shaping.test.ts: |filter|²/π against every spectrum, variances by Lyapunov
 */
export function drydenFilter(flight: GustFlight, chord?: number): GustFilter {
  const { scales, sigma, speed } = flight;
  if (scales.form !== "Dryden") throw new DomainError("spectrum of a linear filter", scales.form, "Dryden");
  const builder = new FilterBuilder();
  const lag = chord === undefined ? undefined : liftLag(speed, chord);
  const L = transverseScales(scales);
  const followed = (terms: Terms): Terms => {
    if (lag === undefined) return terms;
    const states = lag.rates.map((rate) => builder.lag(rate, terms));
    return new Map(states.map((state) => [state, lag.share]));
  };
  const along = builder.noise(speed / scales.Lu, 0);
  const u = followed(new Map([[along, sigma * scales.uOverW * Math.sqrt((2 * scales.Lu) / speed)]]));
  const across = (length: number, intensity: number, noise: number): Terms => {
    const time = length / speed;
    const first = builder.noise(1 / time, noise);
    const second = builder.lag(1 / time, new Map([[first, 1]]));
    const gain = intensity * Math.sqrt(time);
    return followed(
      new Map([
        [first, gain * Math.sqrt(3)],
        [second, gain * (1 - Math.sqrt(3))],
      ]),
    );
  };
  const v = across(L.v, sigma * scales.vOverW, 1);
  const w = across(L.w, sigma, 2);
  const lags = spanLags(flight);
  const rollHead = ((sigma * sigma) / (speed * L.w)) * 0.8 * ((Math.PI * L.w) / (4 * flight.span)) ** (1 / 3);
  const p = followed(new Map([[builder.noise(1 / lags.pitch, 3), Math.sqrt(Math.PI * rollHead)]]));
  // (s·g/V)/(1 + τs) = (g − ξ)/(τV) with ξ = g/(1 + τs)
  const slope = (g: Terms, time: number, sign: number): Terms => {
    const state = builder.lag(1 / time, g);
    const gain = sign / (time * speed);
    const terms = new Map([...g].map(([at, factor]) => [at, factor * gain]));
    terms.set(state, -gain);
    return terms;
  };
  const q = slope(w, lags.pitch, -1);
  const r = slope(v, lags.yaw, 1);
  return builder.build([u, v, w, p, q, r]);
}

/** A sum of states with factors. */
type Terms = ReadonlyMap<number, number>;

/** Collects first-order lags ẋ = rate·(input − x). */
class FilterBuilder {
  private readonly states: { readonly rate: number; readonly input: Terms | number }[] = [];

  /** A lag of white noise; returns its number. */
  noise(rate: number, which: number): number {
    return this.states.push({ rate, input: which }) - 1;
  }

  /** A lag of a sum of states; returns its number. */
  lag(rate: number, input: Terms): number {
    return this.states.push({ rate, input }) - 1;
  }

  build(outputs: readonly Terms[]): GustFilter {
    const n = this.states.length;
    const A = new Float64Array(n * n);
    const B = new Float64Array(n * NOISES);
    this.states.forEach(({ rate, input }, i) => {
      A[i * n + i] -= rate;
      if (typeof input === "number") B[i * NOISES + input] = rate;
      else for (const [j, factor] of input) A[i * n + j] += rate * factor;
    });
    const C = new Float64Array(outputs.length * n);
    outputs.forEach((terms, i) => {
      for (const [j, factor] of terms) C[i * n + j] += factor;
    });
    return { size: n, A, B, C };
  }
}
