import { requireFinite } from "../../math/require.ts";
import { choleskySolve } from "../../math/symmetric-eigen/index.ts";
import { expand, type HeldBoom, linkShares, project } from "./held-boom.ts";
import { apply, dot } from "./matrix.ts";
import { nodeAt } from "./mesh.ts";
import { type BoomLoad, type BoomVector, FREEDOMS } from "./types.ts";

/** The boom at rest under its loads. */
export interface BoomEquilibrium {
  readonly outcome: "solved";
  readonly loads: readonly BoomLoad[];
  readonly acceleration: BoomVector;
  /** Displacements [m] and rotations [rad] of the nodes, shape (6 a node). */
  readonly displacement: Float64Array;
  /** Forces [N] and moments [N·m] on the boom by all that holds it, at the nodes, shape (6 a node). */
  readonly support: Float64Array;
  /** For each attachment, the forces of its links on the boom along their directions [N, N·m], in the order of `links`. */
  readonly linkForces: Float64Array;
  /** Work stored in boom and springs [J]. */
  readonly strainEnergy: number;
}

/** Something of the boom can move without force: no deflection exists. */
export interface NotHeld {
  readonly outcome: "not held";
}

/** What the boom carries. */
export interface BoomLoading {
  readonly loads?: readonly BoomLoad[];
  /** Field that pulls on every mass [m/s²], boom axes: gravity less the acceleration of the carrier. Default none. */
  readonly acceleration?: BoomVector;
}

/**
 * Deflection of the boom under loads at nodes, its own weight and prescribed travels.
 *
 *     Zᵀ K Z q = Zᵀ (f − K u₀),  u = Z q + u₀,  f = loads + M·a                          (README eq. 8–9)
 *
 * @param boom    from `holdBoom`
 * @param loading loads at nodes and a field of acceleration
 * @returns the equilibrium, exact for the given table; or "not held"
 * @throws {DomainError} for a load that is not at a node or not finite
 * @source own derivation, README eq. 9
 * @verified statics.test.ts: analytic/beam-statics (1e-9), work and energy, balance of forces and moments
 */
export function solveBoom(boom: HeldBoom, loading: BoomLoading): BoomEquilibrium | NotHeld {
  if (boom.factor === undefined) return { outcome: "not held" };
  const { mesh } = boom;
  const { loads = [], acceleration = [0, 0, 0] } = loading;
  const f = loadVector(boom, loads, acceleration);
  const right = f.slice();
  if (boom.prescribed.some((travel) => travel !== 0)) {
    apply(boom.stiffness, boom.prescribed).forEach((force, i) => {
      right[i] -= force;
    });
  }
  const q = project(boom, right);
  choleskySolve(boom.factor, boom.freedoms.length, q);
  const displacement = expand(boom, q);
  for (let i = 0; i < mesh.order; i++) displacement[i] += boom.prescribed[i];
  const inner = apply(mesh.stiffness, displacement);
  const support = inner.map((force, i) => force - f[i]);
  const whole = apply(boom.stiffness, displacement);
  const strainEnergy = 0.5 * dot(displacement, whole);
  const linkForces = forcesOfLinks(boom, displacement, support);
  return { outcome: "solved", loads, acceleration, displacement, support, linkForces, strainEnergy };
}

function loadVector(boom: HeldBoom, loads: readonly BoomLoad[], acceleration: BoomVector): Float64Array {
  const { mesh } = boom;
  const field = new Float64Array(mesh.order);
  for (let i = 0; i < 3; i++) {
    requireFinite("acceleration of the boom", acceleration[i]);
    for (let at = i; at < mesh.order; at += FREEDOMS) field[at] = acceleration[i];
  }
  const f = apply(mesh.mass, field);
  for (const { station, force = [0, 0, 0], moment = [0, 0, 0] } of loads) {
    const first = FREEDOMS * nodeAt(mesh, station);
    [...force, ...moment].forEach((value, i) => {
      requireFinite("load on the boom", value);
      f[first + i] += value;
    });
  }
  return f;
}

/** Springs from their travel; rigid links from what the springs leave of the support at their node. */
function forcesOfLinks(boom: HeldBoom, displacement: Float64Array, support: Float64Array): Float64Array {
  const forces = new Float64Array(boom.links.length);
  const rest = support.slice();
  boom.links.forEach(({ station, row, stiffness }, i) => {
    if (!Number.isFinite(stiffness)) return;
    const first = FREEDOMS * nodeAt(boom.mesh, station);
    for (let r = 0; r < FREEDOMS; r++) forces[i] -= stiffness * row[r] * displacement[first + r];
    for (let r = 0; r < FREEDOMS; r++) rest[first + r] -= forces[i] * row[r];
  });
  const rigid = boom.links.map((link, index) => ({ link, index, node: nodeAt(boom.mesh, link.station) }));
  for (let node = 0; node < boom.mesh.nodes.length; node++) {
    const here = rigid.filter((one) => one.node === node && one.link.stiffness === Number.POSITIVE_INFINITY);
    if (here.length === 0) continue;
    const along = Float64Array.from(here, ({ link }) =>
      link.row.reduce((sum, value, r) => sum + value * rest[FREEDOMS * node + r], 0),
    );
    linkShares(here.map(({ link }) => link))(along);
    here.forEach(({ index }, i) => {
      forces[index] = along[i];
    });
  }
  return forces;
}
