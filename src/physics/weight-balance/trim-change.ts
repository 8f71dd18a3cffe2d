import { requirePositive } from "../../math/require.ts";

/** Linear airloads of the aircraft about its trim; per radian. */
export interface TrimAirloads {
  readonly area: number;
  readonly chord: number;
  /** [Pa] */
  readonly dynamicPressure: number;
  /** Station about which the pitching moment is given [m]. */
  readonly referenceFS: number;
  readonly CLalpha: number;
  readonly Cmalpha: number;
  /** Control power; `null` when it is not known. */
  readonly elevator: { readonly CL: number; readonly Cm: number } | null;
}

/** What changes when the load goes. Angles [rad], nose up and trailing edge down positive. */
export interface TrimChange {
  /** Load factor right after, minus 1, nothing else moved. */
  readonly loadFactorStep: number;
  /** Pitching moment about the c.g. afterwards that nothing balances right after [N m], nose up. */
  readonly momentStep: number;
  /** Level again at the same speed: angle of attack and elevator; `null` without control power, or where it gives none. */
  readonly trimmed: { readonly alpha: number; readonly elevator: number } | null;
  /** Elevator left alone: where the angle of attack settles and the load factor there; `null` without static stability. */
  readonly handsOff: { readonly alpha: number; readonly loadFactor: number } | null;
}

interface Weighed {
  readonly mass: number;
  readonly FS: number;
}

/**
 * Change of trim of an aircraft in level flight when its mass and c.g. change at once.
 *
 *     CL = M·g/(q·S),   ξ = (FS − FS_ref)/c̄
 *     Δn = M_b/M_a − 1,   ΔM = q·S·c̄·CL_b·(ξ_a − ξ_b)                          (README eq. 6, 7)
 *     CL_α·Δα + CL_δ·Δδ = CL_a − CL_b
 *     Cm_α·Δα + Cm_δ·Δδ + CL_a·ξ_a − CL_b·ξ_b = 0                               (README eq. 8)
 *     hands off: Δα = CL_b·(ξ_b − ξ_a)/(Cm_α + CL_α·ξ_a),  n = (CL_b + CL_α·Δα)/CL_a   (README eq. 9)
 *
 * @param before  mass that the aircraft's lift carries [kg] and the station of its centre [m]
 * @param after   the same after the change
 * @param air     airloads and dynamic pressure
 * @param gravity [m/s²]
 * @throws {DomainError} when a mass, the area, the chord or the dynamic pressure is not above zero
 * @source own derivation, README eq. 6–9; small angles, moment derivatives about a fixed reference
 * @verified weight-balance.test.ts: residuals of lift and moment, limit of no change, sign of a load aft
 */
export function trimChange(before: Weighed, after: Weighed, air: TrimAirloads, gravity: number): TrimChange {
  for (const [name, value] of [
    ["mass before", before.mass],
    ["mass after", after.mass],
    ["reference area", air.area],
    ["reference chord", air.chord],
    ["dynamic pressure", air.dynamicPressure],
  ] as const) {
    requirePositive(name, value);
  }
  const qS = air.dynamicPressure * air.area;
  const [liftBefore, liftAfter] = [before, after].map(({ mass }) => (mass * gravity) / qS) as [number, number];
  const [armBefore, armAfter] = [before, after].map(({ FS }) => (FS - air.referenceFS) / air.chord) as [number, number];
  return {
    loadFactorStep: before.mass / after.mass - 1,
    momentStep: qS * air.chord * liftBefore * (armAfter - armBefore),
    trimmed: trimmed(air, liftAfter - liftBefore, liftAfter * armAfter - liftBefore * armBefore),
    handsOff: handsOff(air, liftBefore, liftAfter, armBefore, armAfter),
  };
}

/** Both equations of (8) by Cramer's rule. */
function trimmed(air: TrimAirloads, lift: number, moment: number): TrimChange["trimmed"] {
  if (air.elevator === null) return null;
  const { CL, Cm } = air.elevator;
  const determinant = air.CLalpha * Cm - air.Cmalpha * CL;
  if (!(Math.abs(determinant) > 1e-9 * (Math.abs(air.CLalpha * Cm) + Math.abs(air.Cmalpha * CL)))) return null;
  return {
    alpha: (lift * Cm + moment * CL) / determinant,
    elevator: (-air.CLalpha * moment - air.Cmalpha * lift) / determinant,
  };
}

function handsOff(
  air: TrimAirloads,
  liftBefore: number,
  liftAfter: number,
  armBefore: number,
  armAfter: number,
): TrimChange["handsOff"] {
  const stability = air.Cmalpha + air.CLalpha * armAfter;
  if (!(stability < 0)) return null;
  const alpha = (liftBefore * (armBefore - armAfter)) / stability;
  return { alpha, loadFactor: (liftBefore + air.CLalpha * alpha) / liftAfter };
}
