import { BugError } from "../../math/errors.ts";
import { requireSize } from "../../math/require.ts";
import { generalisedSymmetricEigen } from "../../math/symmetric-eigen/index.ts";
import { expand, type HeldBoom } from "./held-boom.ts";
import { apply } from "./matrix.ts";
import { movesWithoutMass } from "./rigid-motions.ts";
import { type BoomVector, FREEDOMS } from "./types.ts";

/** Freedoms of a node by kind of motion. */
const KINDS = { along: [0], swing: [1, 5], lateral: [2, 4], torsion: [3] } as const;
export type MotionKind = keyof typeof KINDS;

/** One natural motion of the boom. */
export interface BoomMode {
  /** ω [rad/s]; 0 for a motion that nothing holds back. */
  readonly frequency: number;
  /** Displacements and rotations of the nodes, scaled to a generalised mass of 1 kg, shape (6 a node). */
  readonly shape: Float64Array;
  /** Share of the kinetic energy in each kind of motion; they add to 1. */
  readonly shares: Readonly<Record<MotionKind, number>>;
  /** The kind with the largest share. */
  readonly kind: MotionKind;
  /** Displacement of the tip in this scale [m]; 1/part² is the mass that moves as at the tip, in that direction [kg]. */
  readonly tip: BoomVector;
}

export type Vibration =
  | { readonly outcome: "found"; readonly modes: readonly BoomMode[] }
  /** A motion has neither stiffness nor mass (such as twist without polar inertia on a support that lets it turn). */
  | { readonly outcome: "undetermined" };

/**
 * Natural frequencies and shapes of the held boom, rising frequency.
 *
 *     K φ = ω² M φ,  solved as  M φ = μ·(K + σM) φ,  ω² = 1/μ − σ                         (README eq. 12)
 *
 * σ > 0 makes free motions regular; the lowest frequencies are the largest μ and so the most accurate. Motions that do not
 * touch one another (planes of bending, torsion) are solved apart, so that equal frequencies do not mix them. The shapes are
 * conforming, so every ω is at or above that of the continuous beam of the table. With elements of length h the error of a bending
 * frequency falls as h⁴ without shear strain and as h² with it; of stretching and torsion as h².
 *
 * @param boom  from `holdBoom`
 * @param count how many modes, from the lowest; fewer come back when the mesh has no more
 * @throws {DomainError} if `count` is not a whole number of at least 1
 * @source own derivation, README eq. 12
 * @verified vibration.test.ts: analytic/beam-vibration (roots, tip mass, tip spring, overhangs), analytic/timoshenko-beam,
 *   published/sdll09-tapered-cantilever, published/nafems-fv5, published/nafems-fv4; order of convergence
 */
export function boomModes(boom: HeldBoom, count: number): Vibration {
  requireSize("number of modes of the boom", count, 1);
  const { mesh, freedoms, reducedStiffness, reducedMass } = boom;
  if (movesWithoutMass(mesh, boom.links)) return { outcome: "undetermined" };
  const shift = frequencyScale(boom);
  const n = freedoms.length;
  const found: { square: number; shape: Float64Array }[] = [];
  for (const group of motionsApart(reducedStiffness, reducedMass, n)) {
    const size = group.length;
    const m = new Float64Array(size * size);
    const k = new Float64Array(size * size);
    group.forEach((i, a) => {
      group.forEach((j, b) => {
        m[a * size + b] = reducedMass[i * n + j];
        k[a * size + b] = reducedStiffness[i * n + j] + shift * reducedMass[i * n + j];
      });
    });
    if (m.every((value) => value === 0)) continue;
    const values = new Float64Array(size);
    const vectors = new Float64Array(size * size);
    const outcome = generalisedSymmetricEigen(m, k, size, values, vectors);
    if (outcome !== "found") throw new BugError(`modes of the boom: ${outcome}`);
    const smallest = 100 * size * Number.EPSILON * values[size - 1];
    for (let c = size - 1; c >= 0 && values[c] > smallest; c--) {
      const q = new Float64Array(n);
      // vectors have φᵀ(K + σM)φ = 1, so φᵀMφ = μ
      group.forEach((i, a) => {
        q[i] = vectors[a * size + c] / Math.sqrt(values[c]);
      });
      const square = 1 / values[c] - shift;
      found.push({ square: square < 1e-7 * shift ? 0 : square, shape: expand(boom, q) });
    }
  }
  found.sort((a, b) => a.square - b.square);
  const modes = found.slice(0, count).map(({ square, shape }) => describe(mesh.mass, Math.sqrt(square), shape));
  return { outcome: "found", modes };
}

/** EI/(m·L³): square of the frequency scale of the boom as a whole [1/s²]. */
function frequencyScale({ mesh }: HeldBoom): number {
  const { table, mass, order } = mesh;
  let stiffest = 0;
  for (const row of table.rows) stiffest = Math.max(stiffest, row.bendingSwing, row.bendingLateral);
  let total = 0;
  for (let i = 0; i < order; i += FREEDOMS) {
    for (let j = 0; j < order; j += FREEDOMS) total += mass[i * order + j];
  }
  const scale = stiffest / (total * (table.last - table.first) ** 3);
  return Number.isFinite(scale) ? scale : 1;
}

/** Groups of freedoms that neither stiffness nor mass couples with one another. */
function motionsApart(k: Float64Array, m: Float64Array, n: number): number[][] {
  const group = Int32Array.from({ length: n }, (_, i) => i);
  const rootOf = (i: number): number => {
    let at = i;
    while (group[at] !== at) at = group[at];
    return at;
  };
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < i; j++) {
      if (k[i * n + j] !== 0 || m[i * n + j] !== 0) group[rootOf(i)] = rootOf(j);
    }
  }
  const groups = new Map<number, number[]>();
  for (let i = 0; i < n; i++) {
    const root = rootOf(i);
    groups.set(root, [...(groups.get(root) ?? []), i]);
  }
  return [...groups.values()];
}

function describe(mass: Float64Array, frequency: number, shape: Float64Array): BoomMode {
  const momentum = apply(mass, shape);
  const share = (kind: MotionKind): number => {
    let sum = 0;
    for (let first = 0; first < shape.length; first += FREEDOMS) {
      for (const r of KINDS[kind]) sum += shape[first + r] * momentum[first + r];
    }
    return sum;
  };
  const shares = { along: share("along"), swing: share("swing"), lateral: share("lateral"), torsion: share("torsion") };
  const kinds = Object.keys(KINDS) as MotionKind[];
  const kind = kinds.reduce((best, one) => (shares[one] > shares[best] ? one : best));
  const last = shape.length - FREEDOMS;
  return { frequency, shape, shares, kind, tip: [shape[last], shape[last + 1], shape[last + 2]] };
}
