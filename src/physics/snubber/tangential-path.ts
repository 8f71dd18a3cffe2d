import { DomainError } from "../../math/errors.ts";

/**
 * What lies between the boom tip and the carrier in the swing plane, referred to the tip.
 *
 * Infinity is a valid stiffness or rate and means rigid or locked.
 */
export interface TangentialRates {
  /** k_b, bending stiffness of the boom [N/m]. */
  readonly bending: number;
  /** c_b, structural damping in parallel with the bending stiffness [N·s/m]. */
  readonly bendingDamping: number;
  /** k_a, stiffness of the accumulator [N/m]. */
  readonly accumulator: number;
  /** c, rate of the snubber, parallel to the accumulator [N·s/m]. */
  readonly snubber: number;
}

/**
 * The path as the equations of motion use it. `x` is the tip travel from trim and `s` the travel across
 * snubber and accumulator, both positive in the same sense; the force opposes positive travel.
 *
 *     relaxing:  ṡ = (k_b·(x − s) + c_b·ẋ − k_a·s)/(c + c_b),   F = k_a·s + c·ṡ      (README eq. 5)
 *     elastic:   F = stiffness·x + damping·ẋ,  no state of its own                    (README eq. 6)
 */
export type TangentialPath =
  | { readonly kind: "relaxing"; readonly rates: TangentialRates }
  | { readonly kind: "elastic"; readonly stiffness: number; readonly damping: number };

/**
 * Chooses the form of the tangential path, so that every limit (rigid boom, locked or absent snubber) is exact.
 *
 * @param rates rates at the tip, each ≥ 0 or Infinity
 * @returns "relaxing" when the travel across the snubber is a state of its own, else "elastic"
 * @throws {DomainError} for a negative rate, or when nothing in the path yields at all
 * @source own derivation, README eq. 4–6
 * @verified tangential-path.test.ts (every limit; the path in time against `dynamicStiffness`, rtol 1e-8)
 */
export function createTangentialPath(rates: TangentialRates): TangentialPath {
  const { bending, bendingDamping, accumulator, snubber } = rates;
  for (const [quantity, value] of Object.entries(rates) as [string, number][]) {
    if (!(value >= 0)) throw new DomainError(`tangential path, ${quantity}`, value, "at least 0");
  }
  const jackRigid = accumulator === Infinity || snubber === Infinity;
  const boomRigid = bending === Infinity || bendingDamping === Infinity;
  if (jackRigid && boomRigid) {
    throw new DomainError("tangential path", "rigid boom on a rigid jack", "at least one finite stiffness");
  }
  if (jackRigid) return { kind: "elastic", stiffness: bending, damping: bendingDamping };
  if (boomRigid) return { kind: "elastic", stiffness: accumulator, damping: snubber };
  if (snubber + bendingDamping > 0) return { kind: "relaxing", rates };
  const sum = bending + accumulator;
  return { kind: "elastic", stiffness: sum > 0 ? (bending * accumulator) / sum : 0, damping: 0 };
}

/**
 * Complex stiffness of the path at a frequency: force at the tip per tip travel.
 *
 *     k*(ω) = 1/(1/(k_b + iω·c_b) + 1/(k_a + iω·c))            (README eq. 4)
 *
 * @param rates tangential rates, Infinity where rigid or locked
 * @param omega ω [rad/s]
 * @returns [real, imaginary] part [N/m]; for ω > 0 both are ≥ 0: the path stores and takes energy, it never gives any
 * @throws {DomainError} as `createTangentialPath`, or if ω is not finite
 * @source own derivation, README eq. 4
 * @verified analytic/maxwell (rtol 1e-12)
 */
export function dynamicStiffness(rates: TangentialRates, omega: number): readonly [number, number] {
  if (!Number.isFinite(omega)) throw new DomainError("frequency of the tip motion", omega, "a finite number");
  const path = createTangentialPath(rates);
  if (path.kind === "elastic") return [path.stiffness, omega * path.damping];
  const br = rates.bending;
  const bi = omega * rates.bendingDamping;
  const jr = rates.accumulator;
  const ji = omega * rates.snubber;
  // b and j in series: b·j/(b + j) = (|b|²·j + |j|²·b)/|b + j|², sums of positive terms only
  const b2 = br * br + bi * bi;
  const j2 = jr * jr + ji * ji;
  const square = (br + jr) ** 2 + (bi + ji) ** 2;
  if (square === 0) return [0, 0];
  return [(b2 * jr + j2 * br) / square, (b2 * ji + j2 * bi) / square];
}
