import { DomainError } from "../../math/errors.ts";
import type { SpectrumForm, TurbulenceDocument, TurbulenceScales } from "./types.ts";

const FOOT = 0.3048;
const LOWEST = 10;
const LOW_TOP = 1000;
const MEDIUM_FLOOR = 2000;
/** Scale of the medium and high altitudes [ft]. */
const HIGH_SCALE: Readonly<Record<SpectrumForm, number>> = { Dryden: 1750, "von Karman": 2500 };

/**
 * Scale lengths and intensity ratios at a height.
 *
 *     10 … 1000 ft:  Lw′ = h, Lu = Lv′ = h/(0.177 + 0.000823h)^1.2, σu/σw = σv/σw = 1/(0.177 + 0.000823h)^0.4   (1)
 *     above 2000 ft: Lu = Lv′ = Lw′ = 1750 ft (Dryden), 2500 ft (von Kármán), σu = σv = σw                      (2)
 *     between: straight lines in height                                                                        (3)
 *
 * with Lv′ = Lv, Lw′ = Lw in MIL-F-8785C and Lv′ = 2Lv, Lw′ = 2Lw in MIL-HDBK-1797. h in feet.
 *
 * @param height  above ground [m], at least 10 ft
 * @throws {DomainError} for a lower height
 * @source MIL-F-8785C 3.7.2–3.7.3, MIL-HDBK-1797 appendix A 4.9; both read second-hand; 2500 ft from memory
 * @verified scales.test.ts: values at 50 … 1000 ft, continuity, the two documents as one model
 */
export function turbulenceScales(document: TurbulenceDocument, form: SpectrumForm, height: number): TurbulenceScales {
  const h = height / FOOT;
  if (!(h >= LOWEST && Number.isFinite(h))) {
    throw new DomainError("height above ground", height, `at least ${(LOWEST * FOOT).toFixed(2)} m`);
  }
  const low = Math.min(h, LOW_TOP);
  const shape = 0.177 + 0.000823 * low;
  const share = Math.min(1, Math.max(0, (h - LOW_TOP) / (MEDIUM_FLOOR - LOW_TOP)));
  const between = (below: number, above: number): number => (1 - share) * below + share * above;
  const along = between(low / shape ** 1.2, HIGH_SCALE[form]) * FOOT;
  const vertical = between(low, HIGH_SCALE[form]) * FOOT;
  const ratio = between(1 / shape ** 0.4, 1);
  const half = document === "MIL-HDBK-1797" ? 0.5 : 1;
  return { document, form, Lu: along, Lv: half * along, Lw: half * vertical, uOverW: ratio, vOverW: ratio };
}

/**
 * Intensity at low altitude from the wind at 20 ft.
 *
 *     σw = 0.1·W20
 *
 * @param windAt20Feet  W20 [m/s], ≥ 0
 * @returns σ_w [m/s]
 * @throws {DomainError} for a negative wind
 * @source MIL-F-8785C 3.7.3, read second-hand
 * @verified scales.test.ts
 */
export function lowAltitudeIntensity(windAt20Feet: number): number {
  if (!(windAt20Feet >= 0)) throw new DomainError("wind at 20 ft", windAt20Feet, "at least 0");
  return 0.1 * windAt20Feet;
}
