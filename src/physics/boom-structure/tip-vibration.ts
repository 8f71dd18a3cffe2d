import { BugError, DomainError } from "../../math/errors.ts";
import { requireSize } from "../../math/require.ts";
import { holdMesh } from "./held-boom.ts";
import { apply, dot } from "./matrix.ts";
import { meshBoom } from "./mesh.ts";
import { fixedTip } from "./reduction.ts";
import { type NotHeld, solveBoom } from "./statics.ts";
import { tipCompliance } from "./tip.ts";
import { onlyJack, placeOf } from "./tip-equivalent.ts";
import { type BoomAttachment, type BoomStructureSettings, FREEDOMS } from "./types.ts";
import { boomModes } from "./vibration.ts";

/** Inertia of the boom as tip, jack travel and bending motions feel it; its springs are those of `TipEquivalent`. */
export interface TipVibration {
  readonly outcome: "found";
  /** 4 + number of motions. */
  readonly order: number;
  /**
   * Shape (order, order) row-major; coordinates: tip along, swing, right [m], jack travel referred to the tip [m], then the
   * motions with tip and jack held [m·√kg]. Row and column of the jack travel are 0 for a boom without jack.
   */
  readonly mass: Float64Array;
  /** ω of the motions [rad/s]: first those in the swing plane, then the lateral ones, each by rising frequency. */
  readonly frequency: Float64Array;
  /** How many of the motions lie in the swing plane. */
  readonly inSwingPlane: number;
}

/**
 * Reduces the boom to tip, jack travel and bending motions.
 *
 *     u ≈ Σ w_i·u_i + T·s + Φ·η,  w_i under a tip force along i with the jack locked, T = R/i − w_swing,
 *     R under a unit travel of the jack                                                    (README eq. 19)
 *
 * T leaves the tip where it is: the swing of the tip is that of the bent boom plus s. Between tip and jack travel lies k_b, between
 * jack travel and carrier what holds the jack; the motions vibrate with tip and jack held, ω² each, and are coupled to
 * the rest through M̂ = [w T Φ]ᵀM[w T Φ] alone.
 *
 * @param settings boom with a hinge or a clamp, and at most one jack
 * @param motions  how many in each plane; fewer come back when the mesh has no more
 * @returns the reduction, or "not held" when the boom can move although the jack is locked
 * @throws {DomainError} as `tipEquivalent`
 * @source own derivation, README eq. 19; after Craig and Bampton, AIAA J. 6 (1968), 1313–1319
 * @verified tip-vibration.test.ts: masses of `tipEquivalent` in every limit of the jack; test/validation/hooked-boom: frequencies and
 *   decay of the pair against the whole beam
 */
export function tipVibration(settings: BoomStructureSettings, motions: number): TipVibration | NotHeld {
  requireSize("bending motions of the boom", motions, 1);
  const mesh = meshBoom(settings);
  const jack = onlyJack(settings.attachments)?.jack;
  const withJack = (travel?: number): BoomAttachment[] =>
    settings.attachments.map((one) =>
      one.kind === "jack" ? { kind: "prop", ...placeOf(one), ...(travel === undefined ? {} : { travel }) } : one,
    );
  const compliance = tipCompliance(holdMesh(mesh, withJack()));
  if (compliance.outcome === "not held") return compliance;
  const last = mesh.order - FREEDOMS;
  const shapes: Float64Array[] = [0, 1, 2].map((i) => {
    const yields = compliance.translation[4 * i];
    if (!(yields > 0))
      throw new DomainError("compliance of the boom's tip", yields, `above 0 in direction ${i + 1} of 3`);
    return compliance.shapes[i].map((u) => u / yields);
  });
  if (jack === undefined) shapes.push(new Float64Array(mesh.order));
  else {
    const moved = solveBoom(holdMesh(mesh, withJack(1)), {});
    if (moved.outcome === "not held") return moved;
    const perJack = moved.displacement[last + 1];
    if (!(Math.abs(perJack) > 1e-9)) {
      throw new DomainError("tip travel per jack travel of the boom", perJack, "not 0: the jack must move the tip");
    }
    shapes.push(moved.displacement.map((u, i) => u / perJack - shapes[1][i]));
  }
  const held = boomModes(holdMesh(mesh, [...withJack(), ...fixedTip(mesh)]), mesh.order);
  if (held.outcome !== "found") throw new BugError("a boom that is held has modes without stiffness and mass");
  const of = (kind: "swing" | "lateral") => held.modes.filter((mode) => mode.kind === kind).slice(0, motions);
  const [swing, lateral] = [of("swing"), of("lateral")];
  shapes.push(...[...swing, ...lateral].map(({ shape }) => shape));
  const order = shapes.length;
  const mass = new Float64Array(order * order);
  for (let i = 0; i < order; i++) {
    const momentum = apply(mesh.mass, shapes[i]);
    for (let j = 0; j <= i; j++) {
      const value = dot(momentum, shapes[j]);
      mass[i * order + j] = value;
      mass[j * order + i] = value;
    }
  }
  const frequency = Float64Array.from([...swing, ...lateral], (mode) => mode.frequency);
  return { outcome: "found", order, mass, frequency, inSwingPlane: swing.length };
}
