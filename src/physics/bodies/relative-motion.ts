import { BugError } from "../../math/errors.ts";
import type { Linearisation } from "./linearise.ts";
import type { PairMotion } from "./pair-motion.ts";

/** Columns that the place of the whole pair may leave behind, relative to the largest entry of a row. */
const PLACE_MATTERS = 1e-6;

/**
 * Linear model with the aircraft's place counted from the carrier's, which leaves out where in the air the pair as a whole is.
 *
 *     η_rel = η − p_c for x, y, z;   states [η_rel, η̇, extra without p_c]                        (README eq. 25)
 *
 * In uniform air nothing depends on that place: three roots at zero leave, and with them the sideways drift that would
 * make a double root of the heading.
 *
 * @param linear of a pair whose carrier begins its states with its place in H [m] (free mass, rigid)
 * @returns the smaller model, and where the carrier's states without place begin in it
 * @throws {BugError} for a carrier without states, or air that is not uniform
 * @source own derivation, README eq. 25
 * @verified rigid-carrier.test.ts (roots of both models but for those at zero)
 */
export function relativeToCarrier(
  linear: Linearisation,
  motion: PairMotion,
): { readonly linear: Linearisation; readonly carrier: number } {
  const { layout, settings } = motion;
  const { size: n, matrix, coordinates: nq, names, basis } = linear;
  if ((settings.carrier?.stateCount ?? 0) < 6) throw new BugError("the carrier has no place of its own");
  const place = 2 * nq + layout.carrier - layout.snubber;
  const dropped = (i: number): boolean => i >= place && i < place + 3;
  const kept = Array.from({ length: n }, (_, i) => i).filter((i) => !dropped(i));
  const m = kept.length;
  const A = new Float64Array(m * m);
  kept.forEach((row, a) => {
    const axis = row < nq ? ["x", "y", "z"].indexOf(names[row]) : -1;
    let largest = 0;
    kept.forEach((column, b) => {
      A[a * m + b] = matrix[row * n + column] - (axis < 0 ? 0 : matrix[(place + axis) * n + column]);
      largest = Math.max(largest, Math.abs(A[a * m + b]));
    });
    for (let i = 0; i < 3; i++) {
      const moved = matrix[row * n + place + i] + matrix[row * n + names.indexOf(["x", "y", "z"][i])];
      if (Math.abs(moved) > PLACE_MATTERS * Math.max(1, largest))
        throw new BugError("the air depends on the pair's place");
    }
  });
  const left = kept.map((i) => names[i]);
  return { linear: { size: m, matrix: A, coordinates: nq, basis, names: left }, carrier: place };
}
