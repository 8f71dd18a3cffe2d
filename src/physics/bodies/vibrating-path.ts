import { BugError } from "../../math/errors.ts";
import { boundTravel } from "../boom/index.ts";
import { createTangentialPath, type TangentialRates } from "../snubber/index.ts";
import type { Linearisation } from "./linearise.ts";

/**
 * Tangential paths on a linear model whose boom has bending motions: the jack travel s is a coordinate with inertia.
 *
 *     ẋ += b_Γ·(−L·F_b) + b_s·(F_b − k_a·s − c·ṡ),  F_b = k_b·(x − s) + c_b·(ẋ − ṡ),  x = L·h·η     (README eq. 14)
 *
 * A rigid jack (s = 0) or boom (s = x) takes s out by the force that keeps it so:
 *
 *     A → A − b·(g·A)/(g·b),  g·ẋ = 0 the condition on the accelerations, b what its force changes      (README eq. 15)
 */
export class VibratingPath {
  private readonly base: Linearisation;
  private readonly length: number;
  /** L·h over the coordinates, shape (coordinates). */
  private readonly travel: Float64Array;
  private readonly whole: Float64Array;

  constructor(base: Linearisation, length: number) {
    this.base = base;
    this.length = length;
    this.travel = base.swing!.angle.map((angle) => length * angle);
    this.whole = new Float64Array(base.size * base.size);
  }

  /**
   * Writes the matrix for a path.
   *
   * @param out shape (n²), row-major, written; n = size of the base, less two when the jack travel is bound
   * @returns n
   * @throws {DomainError} as `createTangentialPath`
   * @source own derivation, README eq. 14–15
   * @verified test/validation/hooked-boom against `linearise` of the same pair, free, rigid jack and rigid boom (1e-6 of each row)
   */
  assemble(rates: TangentialRates, out: Float64Array): number {
    createTangentialPath(rates);
    const { base, length: L, whole: A, travel } = this;
    const { size: n, coordinates: nq, matrix } = base;
    const { byMoment, byTravelForce } = base.swing!.motions!;
    const bound = boundTravel(rates);
    const s = 2 * nq;
    const boomYields = bound !== 1;
    const jackYields = bound !== 0;
    A.set(matrix);
    for (let i = 0; i < n; i++) {
      const byBend = (bound === undefined ? byTravelForce[i] : 0) - L * byMoment[i];
      if (boomYields && byBend !== 0) {
        const { bending: k, bendingDamping: c } = rates;
        for (let j = 0; j < nq; j++) {
          A[i * n + j] += byBend * k * travel[j];
          A[i * n + nq + j] += byBend * c * travel[j];
        }
        A[i * n + s] -= byBend * k;
        A[i * n + s + 1] -= byBend * c;
      }
      if (jackYields && byTravelForce[i] !== 0) {
        A[i * n + s] -= byTravelForce[i] * rates.accumulator;
        A[i * n + s + 1] -= byTravelForce[i] * rates.snubber;
      }
    }
    if (bound === undefined) {
      out.set(A.subarray(0, n * n));
      return n;
    }
    this.bind(bound);
    const kept = (i: number): number => (i < s ? i : i + 2);
    const m = n - 2;
    for (let i = 0; i < m; i++) {
      for (let j = 0; j < m; j++) {
        let value = A[kept(i) * n + kept(j)];
        if (bound === 1 && j < nq) value += A[kept(i) * n + s] * travel[j];
        else if (bound === 1 && j < 2 * nq) value += A[kept(i) * n + s + 1] * travel[j - nq];
        out[i * m + j] = value;
      }
    }
    return m;
  }

  /** Eq. 15 on `whole`: the force between tip and jack travel (boom rigid) or on the jack travel (jack rigid). */
  private bind(share: 0 | 1): void {
    const { base, length: L, whole: A, travel } = this;
    const { size: n, coordinates: nq } = base;
    const { byMoment, byTravelForce } = base.swing!.motions!;
    const s = 2 * nq;
    const b = byTravelForce.map((value, i) => value - share * L * byMoment[i]);
    const condition = (column: (i: number) => number): number => {
      let value = column(s + 1);
      if (share === 1) for (let k = 0; k < nq; k++) value -= travel[k] * column(nq + k);
      return value;
    };
    const own = condition((i) => b[i]);
    if (!(own > 0)) throw new BugError("the boom's jack travel has no inertia");
    for (let j = 0; j < n; j++) {
      const by = condition((i) => A[i * n + j]) / own;
      if (by !== 0) for (let i = 0; i < n; i++) A[i * n + j] -= b[i] * by;
    }
  }
}
