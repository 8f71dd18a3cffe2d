import { BugError, DomainError } from "../../math/errors.ts";
import { type HeldBoom, holdMesh } from "./held-boom.ts";
import { seriesStiffness } from "./links.ts";
import { apply, dot } from "./matrix.ts";
import { type BoomMesh, meshBoom } from "./mesh.ts";
import { rigidMotions } from "./rigid-motions.ts";
import { type NotHeld, solveBoom } from "./statics.ts";
import { massAtTip, tipCompliance } from "./tip.ts";
import { type BoomAttachment, type BoomStructureSettings, FREEDOMS } from "./types.ts";
import { type BoomMode, boomModes } from "./vibration.ts";

type Jack = Extract<BoomAttachment, { kind: "jack" }>;

/** The jack as the tip feels it. */
export interface JackAtTip {
  /** i, tip travel per jack travel at fixed loads; also jack force per tip force [1]. */
  readonly tipPerJack: number;
  /** Stiffness of the jack with all that is in series with it, at the jack [N/m]. */
  readonly atJack: number;
  /** Stiffness that resists jack travel besides the jack itself (a strut, a spring); 0 for hinge and jack alone [N/m]. */
  readonly besides: number;
  /** (k_jack + besides)/i² [N/m]: in series with the boom's bending. */
  readonly atTip: number;
}

/** The boom as the equations of the hooked pair take it. */
export interface TipEquivalent {
  readonly outcome: "found";
  /** From hinge to tip [m]. */
  readonly length: number;
  /** k_b: tangential stiffness of the tip with the jack locked [N/m]. */
  readonly bending: number;
  /** `undefined` for a boom without jack: then `bending` is all. */
  readonly jack: JackAtTip | undefined;
  /** Tangential stiffness with the jack as it is: 1/(1/k_b + 1/k_jack,tip) [N/m]. */
  readonly tangential: number;
  /** Stiffness along the boom and sideways, jack locked [N/m]. */
  readonly axial: number;
  readonly lateral: number;
  /** Mass that moves with the tip [kg]. */
  readonly effectiveTipMass: {
    /** Tangentially, on the jack as it is: between the next two. The one for the hooked pair. */
    readonly tangential: number;
    /** Tangentially with the jack locked, and swinging freely: I_hinge/L². */
    readonly locked: number;
    readonly swinging: number;
    readonly axial: number;
    readonly lateral: number;
  };
  /** Mass of the boom with the bodies on it [kg], distance of its centre from the hinge along the boom [m]. */
  readonly ownMass: number;
  readonly ownCentre: number;
  /** First modes with the jack locked. */
  readonly lockedModes: readonly BoomMode[];
}

/**
 * Reduces the boom to springs and a mass at its tip.
 *
 * The one jack is locked for k_b. By reciprocity, with s what resists the jack's travel besides the jack,
 *
 *     1/k = 1/k_b + i²/(k_jack + s),  s = 0 for hinge and jack alone                       (README eq. 15)
 *
 * which is exact. An accumulator beside a snubber is referred by the same i.
 *
 * @param settings boom with a hinge or a clamp, and at most one jack
 * @param options  how many modes with the jack locked; default 6
 * @returns the reduction, or "not held" when the boom can move although the jack is locked
 * @throws {DomainError} as `holdBoom`; for two jacks; for neither hinge nor clamp, or both; for a tip that a support holds
 *   still, or a locked jack that does not move the tip
 * @source own derivation, README eq. 13–16
 * @verified tip-equivalent.test.ts: series identity (1e-7), analytic/beam-statics (1e-9), limits of the effective mass, hooked frequency of
 *   the reduction against the whole boom
 */
export function tipEquivalent(
  settings: BoomStructureSettings,
  options: { readonly modes?: number } = {},
): TipEquivalent | NotHeld {
  const mesh = meshBoom(settings);
  const root = rootStation(settings.attachments);
  const jackAt = onlyJack(settings.attachments);
  const withJack = (change: (jack: Jack) => BoomAttachment[]): HeldBoom =>
    holdMesh(
      mesh,
      settings.attachments.flatMap((one) => (one.kind === "jack" ? change(one) : [one])),
    );
  const locked = withJack((jack) => [{ kind: "prop", ...placeOf(jack) }]);
  const compliance = tipCompliance(locked);
  if (compliance.outcome === "not held") return compliance;
  const yields = [0, 1, 2].map((i) => compliance.translation[4 * i]);
  yields.forEach((value, i) => {
    if (!(value > 0))
      throw new DomainError("compliance of the boom's tip", value, `above 0 in direction ${i + 1} of 3`);
  });
  const mass = (shape: Float64Array, direction: number): number => massAtTip(mesh.mass, shape, direction);
  const bending = 1 / yields[1];
  const lockedMass = mass(compliance.shapes[1], 1);
  const vibration = boomModes(locked, options.modes ?? 6);
  if (vibration.outcome !== "found") throw new BugError("a boom that is held has modes without stiffness and mass");
  const shared = {
    outcome: "found" as const,
    length: mesh.table.last - root,
    ...{ bending, axial: 1 / yields[0], lateral: 1 / yields[2] },
    ...ownMass(mesh, root),
    lockedModes: vibration.modes,
  };
  const others = { locked: lockedMass, axial: mass(compliance.shapes[0], 0), lateral: mass(compliance.shapes[2], 2) };
  if (jackAt === undefined) {
    const effectiveTipMass = { ...others, tangential: lockedMass, swinging: lockedMass };
    return { ...shared, jack: undefined, tangential: bending, effectiveTipMass };
  }
  // one metre of jack travel with no load: the tip moves by i, the jack feels s
  const moved = solveBoom(
    withJack((jack) => [{ kind: "prop", ...placeOf(jack), travel: 1 }]),
    {},
  );
  if (moved.outcome === "not held") return moved;
  const free = tipCompliance(withJack(() => []));
  const swing = moved.displacement[mesh.order - FREEDOMS + 1];
  if (!(Math.abs(swing) > 1e-9)) {
    throw new DomainError("tip travel per jack travel of the boom", swing, "not 0: the jack must move the tip");
  }
  const link = locked.links.findIndex(({ attachment }) => attachment === jackAt.index);
  const atJack = seriesStiffness([jackAt.jack.stiffness, ...(jackAt.jack.inSeries ?? [])]);
  // without the jack the boom swings freely: then nothing else resists its travel
  const besides = free.outcome === "not held" ? 0 : moved.linkForces[link];
  const atTip = (atJack + besides) / swing ** 2;
  // the shape under a tip force: bent boom with the jack locked, plus the travel i/(k_jack + s) of the jack
  const travel = swing / (atJack + besides);
  const held = Number.isFinite(travel)
    ? compliance.shapes[1].map((u, i) => u + travel * moved.displacement[i])
    : moved.displacement;
  const swinging = mass(free.outcome === "solved" ? free.shapes[1] : moved.displacement, 1);
  return {
    ...shared,
    jack: { tipPerJack: Math.abs(swing), atJack, besides, atTip },
    tangential: 1 / (1 / bending + 1 / atTip),
    effectiveTipMass: { ...others, tangential: mass(held, 1), swinging },
  };
}

export function placeOf({ station, direction, offset }: Jack): Pick<Jack, "station" | "direction" | "offset"> {
  return offset === undefined ? { station, direction } : { station, direction, offset };
}

/** Station of the hinge, or of the clamp of a boom without hinge. */
function rootStation(attachments: readonly BoomAttachment[]): number {
  const roots = attachments.filter(({ kind }) => kind === "hinge" || kind === "clamp");
  if (roots.length !== 1) throw new DomainError("hinges and clamps of the boom", roots.length, "one");
  return roots[0].station;
}

export function onlyJack(attachments: readonly BoomAttachment[]): { jack: Jack; index: number } | undefined {
  const jacks = attachments.flatMap((one, index) => (one.kind === "jack" ? [{ jack: one, index }] : []));
  if (jacks.length > 1)
    throw new DomainError("jacks of the boom", jacks.length, "one; parallel jacks add their stiffness");
  return jacks[0];
}

/** From the rigid motions t (all towards a larger angle) and r (turning about the hinge): m = tᵀMt, m·c = tᵀMr. */
function ownMass(mesh: BoomMesh, root: number): { ownMass: number; ownCentre: number } {
  const motions = rigidMotions(mesh, root);
  const momentum = apply(mesh.mass, motions[1]);
  const total = dot(momentum, motions[1]);
  return { ownMass: total, ownCentre: total > 0 ? dot(momentum, motions[5]) / total : 0 };
}
