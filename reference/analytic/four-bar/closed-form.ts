/**
 * Planar four-bar with its fixed hinges at (0, 0) and (d, 0): crank a, coupler b, rocker c.
 *
 *     k₁ cos β − k₂ cos α + k₃ = cos(α − β),  k₁ = d/a, k₂ = d/c, k₃ = (a² − b² + c² + d²)/(2ac)      (Freudenstein)
 *
 * α is the crank's angle from the line of the fixed hinges, β the rocker's.
 */
export interface FourBar {
  readonly ground: number;
  readonly crank: number;
  readonly coupler: number;
  readonly rocker: number;
}

/** Residual of Freudenstein's equation [1]; zero where crank and rocker angle [rad] fit. */
export function freudenstein({ ground, crank, coupler, rocker }: FourBar, alpha: number, beta: number): number {
  const k3 = (crank ** 2 - coupler ** 2 + rocker ** 2 + ground ** 2) / (2 * crank * rocker);
  return (ground / crank) * Math.cos(beta) - (ground / rocker) * Math.cos(alpha) + k3 - Math.cos(alpha - beta);
}

/**
 * Rocker angle β [rad] for a crank angle α, by the triangle of the diagonal from the crank pin to the rocker's hinge.
 * @param open +1: the coupler pin to the left of the diagonal seen from the crank pin, −1: to its right
 * @returns NaN where the loop does not close
 */
export function rockerAngle({ ground, crank, coupler, rocker }: FourBar, alpha: number, open: 1 | -1): number {
  const x = ground - crank * Math.cos(alpha);
  const y = -crank * Math.sin(alpha);
  const diagonal = Math.hypot(x, y);
  const corner = Math.acos((diagonal ** 2 + coupler ** 2 - rocker ** 2) / (2 * diagonal * coupler));
  const direction = Math.atan2(y, x) + open * corner;
  const px = crank * Math.cos(alpha) + coupler * Math.cos(direction);
  const py = crank * Math.sin(alpha) + coupler * Math.sin(direction);
  return Math.atan2(py, px - ground);
}

/** dβ/dα [1] from the derivative of Freudenstein's equation. */
export function rockerRate({ ground, crank, rocker }: FourBar, alpha: number, beta: number): number {
  const byAlpha = (ground / rocker) * Math.sin(alpha) + Math.sin(alpha - beta);
  const byBeta = -(ground / crank) * Math.sin(beta) - Math.sin(alpha - beta);
  return -byAlpha / byBeta;
}

/** Crank angle [rad] at which coupler and rocker lie in line and the crank turns back; NaN for a crank that goes round. */
export function crankLimit({ ground, crank, coupler, rocker }: FourBar): number {
  return Math.acos((ground ** 2 + crank ** 2 - (coupler + rocker) ** 2) / (2 * ground * crank));
}
