import { BugError } from "../../math/errors.ts";
import { boundTravel } from "../boom/index.ts";
import { createTangentialPath, type TangentialRates } from "../snubber/index.ts";
import type { Linearisation } from "./linearise.ts";
import { VibratingPath } from "./vibrating-path.ts";

/**
 * Linear models that differ only in the tangential path, assembled without linearising again.
 *
 * The path acts on the pair only through the moment about the hinge and sees only the swing angle, and the trim
 * is given under load, so that it does not depend on the path's stiffness. With x = L·h·η,
 *
 *     η̈ += b·(−L·F_path(x, ẋ, s))                              (README eq. 11)
 *
 * is exact. The base must be linearised with a path of zero stiffness and no state.
 */
export class TangentialModel {
  readonly base: Linearisation;
  private readonly length: number;
  private readonly vibrating: VibratingPath | undefined;

  /**
   * @param base   linearisation with an empty tangential path
   * @param length L [m]
   */
  constructor(base: Linearisation, length: number) {
    if (base.swing === undefined) throw new BugError("a tangential model needs the swing port");
    this.base = base;
    this.length = length;
    this.vibrating = base.swing.motions === undefined ? undefined : new VibratingPath(base, length);
  }

  /** Order of the matrix for a path: one more when the path has a state; with bending motions two less when it has none. */
  sizeFor(rates: TangentialRates): number {
    if (this.vibrating !== undefined) return this.base.size - (boundTravel(rates) === undefined ? 0 : 2);
    return this.base.size + (createTangentialPath(rates).kind === "relaxing" ? 1 : 0);
  }

  /**
   * Writes the matrix for a path; the snubber travel, if any, stands right after the coordinate rates.
   *
   * @param rates path
   * @param out   shape (sizeFor(rates)²), row-major, written
   * @returns order of the matrix
   * @source own derivation, README eq. 11
   * @verified linearise.test.ts against `linearise` of the same pair, every kind of path (1e-8 of each row)
   */
  assemble(rates: TangentialRates, out: Float64Array): number {
    if (this.vibrating !== undefined) return this.vibrating.assemble(rates, out);
    const { base, length: L } = this;
    const { matrix, coordinates: nq, size } = base;
    const { perMoment, angle } = base.swing!;
    const path = createTangentialPath(rates);
    const relaxing = path.kind === "relaxing";
    const n = size + (relaxing ? 1 : 0);
    const snubber = 2 * nq;
    // states behind the snubber shift by one
    const place = (i: number): number => (relaxing && i >= snubber ? i + 1 : i);
    out.fill(0, 0, n * n);
    for (let i = 0; i < size; i++) {
      for (let j = 0; j < size; j++) out[place(i) * n + place(j)] = matrix[i * size + j];
    }
    let stiffness: number;
    let damping: number;
    let bySnubber = 0;
    if (path.kind === "elastic") {
      stiffness = path.stiffness;
      damping = path.damping;
    } else {
      const { bending, bendingDamping, accumulator, snubber: rate } = path.rates;
      const total = rate + bendingDamping;
      stiffness = (rate * bending) / total;
      damping = (rate * bendingDamping) / total;
      bySnubber = accumulator - (rate * (bending + accumulator)) / total;
      for (let k = 0; k < nq; k++) {
        out[snubber * n + k] = (bending * L * angle[k]) / total;
        out[snubber * n + nq + k] = (bendingDamping * L * angle[k]) / total;
      }
      out[snubber * n + snubber] = -(bending + accumulator) / total;
    }
    for (let k = 0; k < nq; k++) {
      const gain = -L * perMoment[k];
      const row = (nq + k) * n;
      for (let j = 0; j < nq; j++) {
        out[row + j] += gain * stiffness * L * angle[j];
        out[row + nq + j] += gain * damping * L * angle[j];
      }
      if (relaxing) out[row + snubber] += gain * bySnubber;
    }
    return n;
  }
}
