/** Curves of equal value on a grid whose two axes are logarithmic. */
import { contourLines } from "../../math/contour/index.ts";

export type Point = readonly [number, number];

/**
 * Polylines along which a gridded function has the value `level`, interpolated linearly in the logarithm of the coordinates.
 *
 * @param x      increasing and positive, shape (nx)
 * @param y      increasing and positive, shape (ny)
 * @param values row-major, `values[iy * nx + ix]`
 * @param level  unit of `values`
 * @throws {DomainError} if the grid is not increasing or a value is not finite
 * @verified a plane in the logarithms, isolines.test.ts
 */
export function isolines(
  x: readonly number[],
  y: readonly number[],
  values: readonly number[],
  level: number,
): Point[][] {
  const lines = contourLines(x.map(Math.log), y.map(Math.log), values, level);
  return lines.map((line) => Array.from(line.x, (u, i): Point => [Math.exp(u), Math.exp(line.y[i]!)]));
}
