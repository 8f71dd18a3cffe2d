/**
 * Fundamental of the force of a spring with free travel, for x = X·sin τ.
 *
 *     b₁ = (2/π)·2∫₀^{π/2} F(X·sin τ)·sin τ dτ,   F = k·(x − δ) beyond δ
 *        = k·X·[1 − (2/π)·(α + sin α·cos α)],   sin α = δ/X
 *
 * since ∫_α^{π/2} sin²τ dτ = ½(π/2 − α + sin α·cos α) and ∫_α^{π/2} sin τ dτ = cos α.
 *
 * @param amplitude X [m], ≥ δ
 * @param clearance δ [m], > 0
 * @returns b₁/(k·X) [1]
 */
export function fundamentalShare(amplitude: number, clearance: number): number {
  const alpha = Math.asin(clearance / amplitude);
  const force = 0.5 * (Math.PI / 2 - alpha + Math.sin(alpha) * Math.cos(alpha)) - Math.sin(alpha) * Math.cos(alpha);
  return (4 / Math.PI) * force;
}
