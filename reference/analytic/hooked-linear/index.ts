import { ALL_TERMS, boomDashpots, type GeometricTerms, lateralModel, longitudinalModel } from "./hooked-linear.ts";
import { solve } from "./small-matrix.ts";
import { type HookedNumbers, hookedBalance } from "./trim.ts";

export {
  ALL_TERMS,
  boomDashpots,
  boomStatics,
  type GeometricTerms,
  lateralModel,
  longitudinalModel,
  type PlaneModel,
} from "./hooked-linear.ts";
export { type HookedBalance, type HookedNumbers, hookedBalance } from "./trim.ts";

/** A square matrix by rows. */
export type Rows = readonly (readonly number[])[];

/**
 * First-order matrix of the longitudinal model, states [q, q̇, travel across the snubber].
 *
 *     ṡ = (k_b·(t − s) + c_b·ṫ − k_a·s)/(c + c_b),   F_t = k_b·(t − s) + c_b·(ṫ − ṡ)         (14)
 */
export function longitudinalMatrix(n: HookedNumbers, terms: GeometricTerms = ALL_TERMS): Rows {
  const { M, C, K } = longitudinalModel(n, terms);
  const { bending: kb, accumulator: ka, snubber } = n.boom;
  const cb = boomDashpots(n, hookedBalance(n)).tangential;
  const total = snubber + cb;
  const travel = [0, kb / total, 0, 0, cb / total, 0, -(kb + ka) / total];
  const force = travel.map((x, i) => (i === 1 ? kb : i === 4 ? cb : i === 6 ? -kb : 0) - cb * x);
  const right = [0, 1, 2].map((i) => [...[...K[i], ...C[i], 0].map((x, j) => -x - (i === 1 ? force[j] : 0))]);
  const accelerations = solve(M, right);
  const rates = [0, 1, 2].map((i) => [0, 1, 2, 3, 4, 5, 6].map((j) => (j === 3 + i ? 1 : 0)));
  return [...rates, ...accelerations, travel];
}

/** First-order matrix of the lateral model, states [q, q̇]. */
export function lateralMatrix(n: HookedNumbers, terms: GeometricTerms = ALL_TERMS): Rows {
  const { M, C, K } = lateralModel(n, terms);
  const accelerations = solve(
    M,
    [0, 1, 2].map((i) => [...K[i], ...C[i]].map((x) => -x)),
  );
  return [...[0, 1, 2].map((i) => [0, 1, 2, 3, 4, 5].map((j) => (j === 3 + i ? 1 : 0))), ...accelerations];
}
