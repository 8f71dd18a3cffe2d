/**
 * Four-bar in space with two hinges and a rod between two balls. The crank turns about the z axis through the origin and its
 * ball stands at a·(cos α, sin α, 0); the rocker turns about the y axis through (x, y, z) = `hinge` and its ball stands at
 * hinge + c·(cos β, 0, −sin β).
 */
export interface SpatialFourBar {
  readonly crank: number;
  readonly rocker: number;
  readonly rod: number;
  readonly hinge: readonly [number, number, number];
}

/**
 * Rocker angle β [rad] for a crank angle α.
 *
 *     |hinge + c(cos β, 0, −sin β) − a(cos α, sin α, 0)|² = ℓ²  ⇒  A cos β + B sin β = C,
 *     β = atan2(B, A) ± arccos(C/√(A² + B²))
 *
 * @param branch the sign
 * @returns NaN where the loop does not close
 */
export function spatialRocker({ crank, rocker, rod, hinge }: SpatialFourBar, alpha: number, branch: 1 | -1): number {
  const x = hinge[0] - crank * Math.cos(alpha);
  const y = hinge[1] - crank * Math.sin(alpha);
  const z = hinge[2];
  const a = 2 * rocker * x;
  const b = -2 * rocker * z;
  const c = rod ** 2 - rocker ** 2 - x ** 2 - y ** 2 - z ** 2;
  return Math.atan2(b, a) + branch * Math.acos(c / Math.hypot(a, b));
}
