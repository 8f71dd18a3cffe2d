import { DomainError } from "../../../math/errors.ts";
import { requireSize } from "../../../math/require.ts";
import { createMesh } from "../mesh.ts";
import type { Mesh } from "../types.ts";

/** One elliptical section across an axis. */
export interface Ring {
  /** Place along the axis [m]. */
  readonly at: number;
  /** Half axes of the ellipse [m] along the two cross directions; both zero for a tip. */
  readonly halfAcross: number;
  readonly halfDown: number;
  /** Offset of its centre along the second cross direction [m]. */
  readonly drop: number;
}

/** Right-handed axes as columns: along, across, down, each of length one; shape (3) each. */
export interface Axes {
  readonly along: readonly [number, number, number];
  readonly across: readonly [number, number, number];
  readonly down: readonly [number, number, number];
}

/** Body axes: along x (forward), across y (right), down z. */
export const BODY_AXES: Axes = { along: [1, 0, 0], across: [0, 1, 0], down: [0, 0, 1] };

/** Along y (right), for wheels: across z, down x. */
export const SIDE_AXES: Axes = { along: [0, 1, 0], across: [0, 0, 1], down: [1, 0, 0] };

/** Refuses what is not a finite length of at least zero. */
export function requireLengths(lengths: Readonly<Record<string, number>>, least: "zero" | "above zero"): void {
  for (const [quantity, value] of Object.entries(lengths)) {
    if (!Number.isFinite(value) || value < 0 || (least === "above zero" && value === 0)) {
      throw new DomainError(quantity, value, `a finite length ${least === "zero" ? "of at least 0" : "above 0"}`);
    }
  }
}

/**
 * Closed surface through elliptical rings, corners on the ellipses at equal steps of the eccentric angle.
 *
 * Rings run with rising place along the axis; a ring without size is a tip, a last or first ring with size gets a flat end.
 *
 * @param rings     at least two, strictly rising along the axis
 * @param segments  corners of a ring, ≥ 3
 * @param axes      right-handed
 * @param origin    where place 0 of the axis lies [m], shape (3)
 * @throws {DomainError} for rings that do not rise, negative sizes, a tip inside, or fewer than 3 segments
 * @source own derivation
 * @verified stand-ins.test.ts: closed, outward, volume against closed forms at second order
 */
export function ringSurface(
  rings: readonly Ring[],
  segments: number,
  axes: Axes,
  origin: readonly [number, number, number],
): Mesh {
  checkRings(rings, segments);
  const vertices: number[] = [];
  const triangles: number[] = [];
  const first: number[] = [];
  const put = (at: number, across: number, down: number): void => {
    for (let k = 0; k < 3; k++) {
      vertices.push(origin[k]! + at * axes.along[k]! + across * axes.across[k]! + down * axes.down[k]!);
    }
  };
  const isTip = (ring: Ring): boolean => ring.halfAcross === 0;
  for (const ring of rings) {
    first.push(vertices.length / 3);
    if (isTip(ring)) put(ring.at, 0, ring.drop);
    else {
      for (let j = 0; j < segments; j++) {
        const angle = (2 * Math.PI * j) / segments;
        put(ring.at, ring.halfAcross * Math.cos(angle), ring.drop + ring.halfDown * Math.sin(angle));
      }
    }
  }
  for (let i = 0; i + 1 < rings.length; i++) {
    const [low, high] = [first[i]!, first[i + 1]!];
    const [lowTip, highTip] = [isTip(rings[i]!), isTip(rings[i + 1]!)];
    for (let j = 0; j < segments; j++) {
      const next = (j + 1) % segments;
      if (!lowTip) triangles.push(low + j, low + next, highTip ? high : high + next);
      if (!highTip) triangles.push(lowTip ? low : low + j, high + next, high + j);
    }
  }
  for (const [index, ring] of [rings[0]!, rings.at(-1)!].entries()) {
    if (isTip(ring)) continue;
    const start = index === 0 ? first[0]! : first.at(-1)!;
    const centre = vertices.length / 3;
    put(ring.at, 0, ring.drop);
    for (let j = 0; j < segments; j++) {
      const next = (j + 1) % segments;
      if (index === 0) triangles.push(centre, start + next, start + j);
      else triangles.push(centre, start + j, start + next);
    }
  }
  return createMesh(Float64Array.from(vertices), Uint32Array.from(triangles));
}

function checkRings(rings: readonly Ring[], segments: number): void {
  requireSize("segments of a ring", segments, 3);
  if (rings.length < 2) throw new DomainError("number of sections", rings.length, "at least 2");
  rings.forEach((ring, index) => {
    requireLengths({ "half width of a section": ring.halfAcross, "half height of a section": ring.halfDown }, "zero");
    if (!Number.isFinite(ring.drop)) throw new DomainError("drop of a section", ring.drop, "a finite number");
    const before = index === 0 ? -Infinity : rings[index - 1]!.at;
    if (!(Number.isFinite(ring.at) && ring.at > before)) {
      throw new DomainError("place of a section", ring.at, `a finite number above the one before, ${before}`);
    }
    const tip = ring.halfAcross === 0 || ring.halfDown === 0;
    if (tip && (ring.halfAcross !== ring.halfDown || (index > 0 && index + 1 < rings.length))) {
      throw new DomainError("section without size", index + 1, "only the first or last, both half axes zero");
    }
  });
}

/**
 * Bound of the distance between a ring surface and the smooth surface whose half axes and drop run straight from ring to ring.
 *
 *     e = max r·(1 − cos(π/n)) + ¼ max |p₀₀ − p₁₀ − p₀₁ + p₁₁| where the ellipses change shape      (README eq. 3)
 *
 * @param rings     as in `ringSurface`
 * @param segments  corners of a ring
 * @returns e [m]
 * @source own derivation, README eq. 3
 * @verified stand-ins.test.ts: sampled points of the smooth surface
 */
export function ringFacetingError(rings: readonly Ring[], segments: number): number {
  const largest = Math.max(...rings.map((ring) => Math.max(ring.halfAcross, ring.halfDown)));
  let twist = 0;
  for (let i = 0; i + 1 < rings.length; i++) {
    const [p, q] = [rings[i]!, rings[i + 1]!];
    const skew = Math.abs(p.halfAcross * q.halfDown - p.halfDown * q.halfAcross);
    if (skew <= 1e-12 * largest * largest) continue;
    const change = Math.max(Math.abs(p.halfAcross - q.halfAcross), Math.abs(p.halfDown - q.halfDown));
    twist = Math.max(twist, 0.25 * change * 2 * Math.sin(Math.PI / segments));
  }
  return largest * (1 - Math.cos(Math.PI / segments)) + twist;
}
