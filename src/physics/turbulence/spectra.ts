import type { GustFlight, TurbulenceScales } from "./types.ts";

/**
 * Spectra of the gust components, one-sided in ω: ∫₀^∞ Φ dω = σ².
 *
 * v and w of both documents are one function of L′, the scale of MIL-F-8785C, which is twice that of MIL-HDBK-1797.
 */

/** Scale of the transverse components in the form of MIL-F-8785C [m]. */
export function transverseScales(scales: TurbulenceScales): { readonly v: number; readonly w: number } {
  const factor = scales.document === "MIL-HDBK-1797" ? 2 : 1;
  return { v: factor * scales.Lv, w: factor * scales.Lw };
}

/**
 * Spectrum of the velocity along the flight path.
 *
 *     Dryden: σu²·(2Lu/πV)/(1 + (Luω/V)²);   von Kármán: σu²·(2Lu/πV)/(1 + (1.339Luω/V)²)^(5/6)          (4)
 *
 * @param omega ω [rad/s], ≥ 0
 * @returns Φu [(m/s)²/(rad/s)]
 * @source MIL-F-8785C 3.7.1 and MIL-HDBK-1797 appendix A 4.9.1 (identical), read second-hand
 * @verified spectra.test.ts: integral, limits
 */
export function alongSpectrum({ scales, sigma, speed }: GustFlight, omega: number): number {
  const time = scales.Lu / speed;
  const variance = (sigma * scales.uOverW) ** 2;
  const head = (variance * 2 * time) / Math.PI;
  if (scales.form === "Dryden") return head / (1 + (time * omega) ** 2);
  return head / (1 + (1.339 * time * omega) ** 2) ** (5 / 6);
}

/**
 * Spectrum of a velocity across the flight path.
 *
 *     Dryden:     σ²·(L′/πV)·(1 + 3(L′ω/V)²)/(1 + (L′ω/V)²)²                                             (5)
 *     von Kármán: σ²·(L′/πV)·(1 + (8/3)(1.339L′ω/V)²)/(1 + (1.339L′ω/V)²)^(11/6)                         (6)
 *
 * MIL-HDBK-1797 prints them with L = L′/2: σ²·(2L/πV)·(1 + 12(Lω/V)²)/(1 + 4(Lω/V)²)² and so on.
 *
 * @param across "v" right or "w" down
 * @source MIL-F-8785C 3.7.1, MIL-HDBK-1797 appendix A 4.9.1, read second-hand
 * @verified spectra.test.ts: integral, both printed forms, the scales of one document in the spectra of the other refused by value
 */
export function acrossSpectrum({ scales, sigma, speed }: GustFlight, across: "v" | "w", omega: number): number {
  const time = transverseScales(scales)[across] / speed;
  const variance = (across === "v" ? sigma * scales.vOverW : sigma) ** 2;
  const head = (variance * time) / Math.PI;
  if (scales.form === "Dryden") {
    const x = (time * omega) ** 2;
    return (head * (1 + 3 * x)) / (1 + x) ** 2;
  }
  const x = (1.339 * time * omega) ** 2;
  return (head * (1 + (8 / 3) * x)) / (1 + x) ** (11 / 6);
}

/** Time constants of the averaging over the span [s]: 4b/πV for roll and pitch, 3b/πV for yaw. */
export function spanLags({ span, speed }: GustFlight): { readonly pitch: number; readonly yaw: number } {
  return { pitch: (4 * span) / (Math.PI * speed), yaw: (3 * span) / (Math.PI * speed) };
}

/**
 * Spectrum of the rolling of the air.
 *
 *     Φp = (σw²/(V·Lw′))·0.8·(πLw′/4b)^(1/3)/(1 + (4bω/πV)²)                                             (7)
 *
 * @source MIL-F-8785C 3.7.1, MIL-HDBK-1797 appendix A 4.9.1 with 2Lw = Lw′, read second-hand
 * @verified spectra.test.ts: variance 0.8·σw²·π²·(πLw/4b)^(1/3)/(8b·Lw)
 */
export function rollSpectrum(flight: GustFlight, omega: number): number {
  const { sigma, speed, span, scales } = flight;
  const L = transverseScales(scales).w;
  const head = ((sigma * sigma) / (speed * L)) * 0.8 * ((Math.PI * L) / (4 * span)) ** (1 / 3);
  return head / (1 + (spanLags(flight).pitch * omega) ** 2);
}

/**
 * Spectra of the pitching and yawing of the air, which follow from w and v.
 *
 *     Φq = (ω/V)²·Φw/(1 + (4bω/πV)²),   Φr = (ω/V)²·Φv/(1 + (3bω/πV)²)                                   (8)
 *
 * @source MIL-F-8785C 3.7.1, MIL-HDBK-1797 appendix A 4.9.1, read second-hand
 * @verified spectra.test.ts; shaping.test.ts (the filters give these spectra)
 */
export function pitchSpectrum(flight: GustFlight, omega: number): number {
  const lag = spanLags(flight).pitch;
  return ((omega / flight.speed) ** 2 * acrossSpectrum(flight, "w", omega)) / (1 + (lag * omega) ** 2);
}

/** See `pitchSpectrum`. */
export function yawSpectrum(flight: GustFlight, omega: number): number {
  const lag = spanLags(flight).yaw;
  return ((omega / flight.speed) ** 2 * acrossSpectrum(flight, "v", omega)) / (1 + (lag * omega) ** 2);
}
