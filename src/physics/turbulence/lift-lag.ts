import { requirePositive } from "../../math/require.ts";

/** Growth of the lift of a wing that flies into a sharp-edged gust, per semichord travelled: two lags of equal share. */
const SHARE = 0.5;
const RATES = [0.13, 1] as const;

/**
 * Rates of the two lags of the lift behind a gust.
 *
 *     lift/final = 1 − ½e^(−0.13s) − ½e^(−s),  s = 2Vt/c̄;   rates 0.13·2V/c̄ and 2V/c̄                    (9)
 *
 * @param speed  true airspeed V [m/s], > 0
 * @param chord  c̄ [m], > 0
 * @returns share of each lag [1] and rates [1/s]
 * @throws {DomainError} if an argument is not above zero
 * @source usual two-term fit of Küssner's function, Bisplinghoff, Ashley and Halfman, Aeroelasticity (1955), from memory
 * @verified lift-lag.test.ts against generated/kussner (exact function by quadrature): within 0.03 of the final lift
 */
export function liftLag(
  speed: number,
  chord: number,
): { readonly share: number; readonly rates: readonly [number, number] } {
  requirePositive("true airspeed", speed);
  requirePositive("chord", chord);
  const perSecond = (2 * speed) / chord;
  return { share: SHARE, rates: [RATES[0] * perSecond, RATES[1] * perSecond] };
}

/** Response of the lift to a gust of frequency ω [rad/s]: [real, imaginary] of Σ ½/(1 + iω/rate). */
export function liftLagResponse(lag: ReturnType<typeof liftLag>, omega: number): [number, number] {
  let re = 0;
  let im = 0;
  for (const rate of lag.rates) {
    const x = omega / rate;
    re += lag.share / (1 + x * x);
    im -= (lag.share * x) / (1 + x * x);
  }
  return [re, im];
}
