/**
 * Force of a gas behind a piston against its position: F(x) = A·p·(V/(V − A·x))ⁿ, x shortens the gas volume.
 *
 * @param pressure p at x = 0 [Pa, absolute], @param volume V at x = 0 [m³], @param area A [m²], @param exponent n
 */
export function gasForce(pressure: number, volume: number, area: number, exponent: number, x: number): number {
  return area * pressure * (volume / (volume - area * x)) ** exponent;
}
