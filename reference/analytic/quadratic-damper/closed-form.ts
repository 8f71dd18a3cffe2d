/**
 * Energy that a damper F = C1·v + C2·v·|v| takes in one cycle of the motion x = X·sin ωt.
 *
 *     W = ∮F·v dt = π·C1·ω·X² + (8/3)·C2·ω²·X³
 *
 * The second part: v = ωX·cos ωt gives ∮|v|³ dt = ω²X³·4∫₀^{π/2} cos³τ dτ = (8/3)·ω²X³.
 *
 * @param law       C1 [N·s/m], C2 [N·s²/m²]
 * @param amplitude X [m]
 * @param frequency ω [rad/s]
 * @returns W [J]
 */
export function energyPerCycle(
  law: { readonly linear: number; readonly quadratic: number },
  amplitude: number,
  frequency: number,
): number {
  return Math.PI * law.linear * frequency * amplitude ** 2 + (8 / 3) * law.quadratic * frequency ** 2 * amplitude ** 3;
}

/**
 * Quadratic coefficient of a piston that drives oil through a sharp orifice.
 *
 *     Δp = ½ρ(Q/(C_d·a))², Q = A·v, F = A·Δp   →   C2 = ρA³/(2·C_d²·a²)
 *
 * @param orifice density ρ [kg/m³], piston area A and orifice area a [m²], discharge coefficient C_d [1]
 * @returns C2 [N·s²/m²]
 */
export function orificeCoefficient(orifice: {
  readonly density: number;
  readonly pistonArea: number;
  readonly orificeArea: number;
  readonly dischargeCoefficient: number;
}): number {
  const { density, pistonArea, orificeArea, dischargeCoefficient } = orifice;
  return (density * pistonArea ** 3) / (2 * (dischargeCoefficient * orificeArea) ** 2);
}
