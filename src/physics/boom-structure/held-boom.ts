import { nullSpace } from "../../math/dense/index.ts";
import { DomainError } from "../../math/errors.ts";
import { choleskyFactor, choleskySolve } from "../../math/symmetric-eigen/index.ts";
import { type Link, linksOf } from "./links.ts";
import { type BoomMesh, meshBoom, nodeAt } from "./mesh.ts";
import { freeRigidMotions } from "./rigid-motions.ts";
import { type BoomAttachment, type BoomStructureSettings, FREEDOMS } from "./types.ts";

/** Loss of a pivot from which on rounding would drown the softest support: then it counts as none. */
const TOO_SOFT = 1e-10;

/** One motion that the rigid links leave free: a unit vector over the six freedoms of a node. */
export interface Freedom {
  readonly node: number;
  readonly shape: Float64Array;
}

/** A boom with what holds it. */
export interface HeldBoom {
  readonly mesh: BoomMesh;
  readonly attachments: readonly BoomAttachment[];
  readonly links: readonly Link[];
  /** u = Z q + u₀: the columns of Z, and u₀ from prescribed travels, shape (order). */
  readonly freedoms: readonly Freedom[];
  readonly prescribed: Float64Array;
  /** K with the springs, shape (order, order), and Zᵀ K Z, Zᵀ M Z. */
  readonly stiffness: Float64Array;
  readonly reducedStiffness: Float64Array;
  readonly reducedMass: Float64Array;
  /** Cholesky factor of Zᵀ K Z; `undefined` when something of the boom can move without force. */
  readonly factor: Float64Array | undefined;
}

/**
 * A boom from its section table and what holds it, ready for loads and modes.
 *
 * Rigid supports are exact: the motions they forbid are taken out, whatever their direction (README eq. 8).
 *
 * @throws {DomainError} for bad sections, stations off the boom, stiffnesses below zero, or two rigid supports that hold the
 *   same motion of one station
 * @source own derivation, README eq. 6, 8
 * @verified structure.test.ts, vibration.test.ts, statics.test.ts
 */
export function holdBoom(settings: BoomStructureSettings): HeldBoom {
  return holdMesh(meshBoom(settings), settings.attachments);
}

/** The same boom held otherwise; every attachment must be at a node. */
export function holdMesh(mesh: BoomMesh, attachments: readonly BoomAttachment[]): HeldBoom {
  const links = linksOf(attachments);
  const { order } = mesh;
  const stiffness = mesh.stiffness.slice();
  for (const link of links) {
    if (Number.isFinite(link.stiffness)) addSpring(stiffness, order, FREEDOMS * nodeAt(mesh, link.station), link);
  }
  const prescribed = new Float64Array(order);
  const freedoms: Freedom[] = [];
  const rigid = links.filter(({ stiffness: k }) => k === Number.POSITIVE_INFINITY);
  for (let node = 0; node < mesh.nodes.length; node++) {
    const here = rigid.filter((link) => nodeAt(mesh, link.station) === node);
    for (const shape of freeShapes(here, prescribed.subarray(FREEDOMS * node, FREEDOMS * (node + 1)))) {
      freedoms.push({ node, shape });
    }
  }
  const reducedStiffness = reduce(stiffness, order, freedoms);
  const factor = reducedStiffness.slice();
  const held = freeRigidMotions(mesh, links).length === 0 && choleskyFactor(factor, freedoms.length, TOO_SOFT);
  return {
    ...{ mesh, attachments, links, freedoms, prescribed, stiffness, reducedStiffness },
    reducedMass: reduce(mesh.mass, order, freedoms),
    factor: held ? factor : undefined,
  };
}

function addSpring(k: Float64Array, order: number, first: number, { row, stiffness }: Link): void {
  for (let i = 0; i < FREEDOMS; i++) {
    for (let j = 0; j < FREEDOMS; j++) k[(first + i) * order + first + j] += stiffness * row[i] * row[j];
  }
}

/**
 * What the rigid links of a node leave free, and the least motion that meets their travels: u₀ = Cᵀ(C Cᵀ)⁻¹ t.
 *
 * @param prescribed u₀ of the node, written
 */
function freeShapes(rigid: readonly Link[], prescribed: Float64Array): Float64Array[] {
  const rows = rigid.length;
  const constraint = new Float64Array(rows * FREEDOMS);
  rigid.forEach(({ row }, i) => void constraint.set(row, i * FREEDOMS));
  const basis = nullSpace(constraint, rows, FREEDOMS);
  const width = basis.length / FREEDOMS;
  if (width !== FREEDOMS - rows) {
    throw new DomainError("rigid supports of the boom at one station", rows, `${FREEDOMS - width} that differ`);
  }
  if (rigid.some(({ travel }) => travel !== 0)) {
    const share = linkShares(rigid);
    const travels = Float64Array.from(rigid, ({ travel }) => travel);
    share(travels);
    rigid.forEach(({ row }, i) => {
      for (let j = 0; j < FREEDOMS; j++) prescribed[j] += row[j] * travels[i];
    });
  }
  return Array.from({ length: width }, (_, c) =>
    Float64Array.from({ length: FREEDOMS }, (__, i) => {
      const value = basis[i * width + c];
      return Math.abs(value) < 1e-14 ? 0 : value;
    }),
  );
}

/** Solver of (C Cᵀ) x = t for independent rows of one node, in place. */
export function linkShares(links: readonly Link[]): (t: Float64Array) => void {
  const n = links.length;
  const gram = Float64Array.from({ length: n * n }, (_, at) => {
    const [a, b] = [links[Math.floor(at / n)].row, links[at % n].row];
    return a.reduce((sum, value, i) => sum + value * b[i], 0);
  });
  choleskyFactor(gram, n, 0);
  return (t) => choleskySolve(gram, n, t);
}

/** Zᵀ A Z for the freedoms; neighbours alone are coupled. */
function reduce(a: Float64Array, order: number, freedoms: readonly Freedom[]): Float64Array {
  const n = freedoms.length;
  const out = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      const [p, q] = [freedoms[i], freedoms[j]];
      if (p.node - q.node > 1) continue;
      let sum = 0;
      for (let r = 0; r < FREEDOMS; r++) {
        if (p.shape[r] === 0) continue;
        for (let s = 0; s < FREEDOMS; s++) {
          if (q.shape[s] === 0) continue;
          sum += p.shape[r] * a[(FREEDOMS * p.node + r) * order + FREEDOMS * q.node + s] * q.shape[s];
        }
      }
      out[i * n + j] = sum;
      out[j * n + i] = sum;
    }
  }
  return out;
}

/** u = Z q, shape (order). */
export function expand(boom: HeldBoom, q: ArrayLike<number>, first = 0, step = 1): Float64Array {
  const u = new Float64Array(boom.mesh.order);
  boom.freedoms.forEach(({ node, shape }, i) => {
    for (let r = 0; r < FREEDOMS; r++) u[FREEDOMS * node + r] += shape[r] * q[first + i * step];
  });
  return u;
}

/** Zᵀ f, shape (freedoms). */
export function project(boom: HeldBoom, f: Float64Array): Float64Array {
  return Float64Array.from(boom.freedoms, ({ node, shape }) =>
    shape.reduce((sum, value, r) => sum + value * f[FREEDOMS * node + r], 0),
  );
}
