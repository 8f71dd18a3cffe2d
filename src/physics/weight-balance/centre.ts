import { DomainError } from "../../math/errors.ts";

/** A mass at a place in the stations of one aircraft: FS aft, BL right, WL up [kg, m]. */
export interface PlacedMass {
  readonly mass: number;
  readonly FS: number;
  readonly BL: number;
  readonly WL: number;
}

/**
 * Total mass and centre of gravity of placed masses.
 *
 *     M = Σmᵢ,   FS = Σmᵢ·FSᵢ/M   and so on                                     (README eq. 1)
 *
 * @param masses any count [kg], places in one set of stations [m]; a negative mass takes away what another counts
 * @throws {DomainError} when the total mass is not above zero
 * @source README eq. 1; statics
 * @verified weight-balance.test.ts: published/weight-shift-examples (last printed digit), shift of the datum
 */
export function centreOf(masses: readonly PlacedMass[]): PlacedMass {
  let [mass, FS, BL, WL] = [0, 0, 0, 0];
  for (const one of masses) {
    mass += one.mass;
    FS += one.mass * one.FS;
    BL += one.mass * one.BL;
    WL += one.mass * one.WL;
  }
  if (!(mass > 0 && mass < Number.POSITIVE_INFINITY)) throw new DomainError("total mass", mass, "above zero");
  return { mass, FS: FS / mass, BL: BL / mass, WL: WL / mass };
}

/** Mean aerodynamic chord: station of its leading edge and its length [m]. */
export interface MeanChord {
  readonly leadingEdge: number;
  readonly length: number;
}

/**
 * Place along the mean aerodynamic chord as a share of it; times 100 it is the usual % MAC.
 *
 *     x = (FS − FS_LE)/c̄                                                       (README eq. 2)
 *
 * @param FS    station [m]
 * @param chord leading edge and length [m], length > 0
 * @source README eq. 2
 * @verified weight-balance.test.ts: analytic/weight-balance (rtol 1e-12)
 */
export function chordShare(FS: number, chord: MeanChord): number {
  return (FS - chord.leadingEdge) / chord.length;
}
