import { requirePositive } from "./require.ts";

/** A sharp orifice: the pressure goes with the square of the flow. */
export interface Orifice {
  /** a, all holes together [m²]. */
  readonly area: number;
  /** C_d [1]. */
  readonly dischargeCoefficient: number;
}

/** A laminar bleed: the pressure goes with the flow and with the viscosity. */
export type Bleed =
  | { readonly kind: "tubes"; readonly count: number; readonly diameter: number; readonly length: number }
  | {
      readonly kind: "annular gap";
      /** Outer diameter of the gap, its radial width and its length [m]. */
      readonly diameter: number;
      readonly width: number;
      readonly length: number;
    };

/**
 * Quadratic coefficient of a piston that drives oil through a sharp orifice.
 *
 *     Δp = ½ρ(Q/(C_d·a))², Q = A·v, F = A·Δp   →   C2 = ρA³/(2·C_d²·a²)      (README eq. 4)
 *
 * @param orifice a [m²], C_d [1]
 * @param pistonArea A [m²]
 * @param density ρ [kg/m³]
 * @returns C2 at the piston [N·s²/m²]
 * @throws {DomainError} for a value that is not positive
 * @source own derivation from the discharge equation, README eq. 4
 * @verified analytic/quadratic-damper (rtol 1e-12)
 */
export function orificeCoefficient(orifice: Orifice, pistonArea: number, density: number): number {
  requirePositive({ "orifice area": orifice.area, "discharge coefficient": orifice.dischargeCoefficient });
  requirePositive({ "piston area": pistonArea, "density of the oil": density });
  return (density * pistonArea ** 3) / (2 * (orifice.dischargeCoefficient * orifice.area) ** 2);
}

/**
 * Laminar resistance of a bleed passage per viscosity, Δp/(μ·Q).
 *
 *     tubes:        128·l/(π·d⁴·n)                                                          (README eq. 5)
 *     annular gap:  8·l/(π·[R⁴ − r⁴ − (R² − r²)²/ln(R/r)]),  concentric                     (README eq. 6)
 *
 * @returns G [1/m³]
 * @throws {DomainError} for sizes that are not positive or a gap wider than its radius
 * @source Hagen–Poiseuille; own derivation of the annulus, README eq. 6
 * @verified analytic/laminar-passage (velocity profiles integrated, rtol 1e-9)
 */
export function laminarResistance(bleed: Bleed): number {
  if (bleed.kind === "tubes") {
    const { count, diameter, length } = bleed;
    requirePositive({ "number of bleed tubes": count, "bleed diameter": diameter, "bleed length": length });
    return (128 * length) / (Math.PI * diameter ** 4 * count);
  }
  const { diameter, width, length } = bleed;
  requirePositive({ "bleed gap diameter": diameter, "bleed gap width": width, "bleed length": length });
  const outer = 0.5 * diameter;
  requirePositive({ "radius inside the bleed gap": outer - width });
  return (8 * length) / (Math.PI * outer ** 4 * annulus(width / outer));
}

/** 1 − κ⁴ + (1 − κ²)²/ln κ for κ = 1 − e: the terms cancel for a thin gap, so that a series takes over there. */
function annulus(e: number): number {
  if (e < 0.02) return (4 / 3) * e ** 3 * (1 - e / 2 + e ** 2 / 60 + e ** 3 / 120 + (2 / 315) * e ** 4);
  const kappa = 1 - e;
  return 1 - kappa ** 4 + (1 - kappa ** 2) ** 2 / Math.log(kappa);
}

/**
 * Linear coefficient of a piston with a bleed: C1 = A²·μ·G [N·s/m].               (README eq. 7)
 *
 * @param viscosity μ [Pa·s]
 * @source own derivation, README eq. 7
 * @verified hydraulics.test.ts (power of the piston is that of the flow)
 */
export function bleedCoefficient(bleed: Bleed, pistonArea: number, viscosity: number): number {
  requirePositive({ "piston area": pistonArea, "viscosity of the oil": viscosity });
  return pistonArea ** 2 * viscosity * laminarResistance(bleed);
}

/** Reynolds number above which a bleed is no longer surely laminar: common practice, no source. */
export const LAMINAR_REYNOLDS = 2000;

/**
 * Reynolds number in a bleed: Re = w·d_h/ν, d_h the hydraulic diameter (d, or twice the gap), w the mean velocity.
 *
 * @param flow Q through all passages [m³/s], @param viscosity ν [m²/s]
 * @returns Re [1]
 * @source definition
 * @verified hydraulics.test.ts
 */
export function reynoldsNumber(bleed: Bleed, flow: number, viscosity: number): number {
  if (bleed.kind === "tubes") return (4 * flow) / (Math.PI * bleed.diameter * bleed.count * viscosity);
  const area = Math.PI * (bleed.diameter - bleed.width) * bleed.width;
  return (flow * 2 * bleed.width) / (area * viscosity);
}
