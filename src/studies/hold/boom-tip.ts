import type { Pair } from "../../inputs/index.ts";
import { BugError, InputError } from "../../math/errors.ts";
import { monotoneCubic } from "../../math/interpolate/index.ts";
import {
  type BoomAttachment,
  type BoomStructureSettings,
  type BoomVector,
  type TipVibration,
  tipEquivalent,
  tipVibration,
  withLength,
} from "../../physics/boom-structure/index.ts";

/** The boom at its tip, at one boom angle. */
export interface BoomTip {
  /** Stiffness in the swing plane with the jack locked, along the boom and sideways [N/m]. */
  readonly bending: number;
  readonly axial: number;
  readonly lateral: number;
  /** Mass that moves with the tip [kg]. */
  readonly effectiveTipMass: number;
}

/** The boom along its stroke, with what its sections say about it. */
export interface BoomAlongStroke {
  readonly at: (angleDown: number) => BoomTip;
  /** Inertia and bending motions of the boom; `undefined` when the pair takes none in. */
  readonly motionsAt: (angleDown: number) => TipVibration | undefined;
  /** Bending motions taken in, in each plane. */
  readonly motions: number;
  /** Values of `BoomTip` that come from sections; empty when all are measured. */
  readonly fromSections: readonly (keyof BoomTip)[];
  /** Lowest frequency of the boom itself, jack locked, at the stowed and the extended end [Hz]; `null` without sections. */
  readonly firstMode: number | null;
}

const KEYS = ["bending", "axial", "lateral", "effectiveTipMass"] as const;
/** Boom angles at which the beam is solved; between them monotone interpolation. */
const ANGLES = 7;
const ELEMENTS = 12;
/** Bending motions in each plane when the pair does not say. */
const MOTIONS = 2;

/**
 * Tip stiffness and mass of the pair's boom: measured values where the pair states them, else from its sections.
 *
 * The jack holds the boom from where it is drawn, so that what it leaves to bending depends on the boom angle.
 * Sections that end elsewhere than at the boom's length are stretched to it, so that a variant may change the length alone.
 *
 * @param pair  the pair
 * @param stiffnessAtJack accumulator at the jack [N/m]
 * @param range boom angles that are asked for [rad]
 * @throws {InputError} when the sections cannot stand or the jack does not hold the boom
 * @source `physics/boom-structure`, README eq. 13–18
 * @verified boom-tip.test.ts
 */
export function readBoomTip(
  pair: Pair,
  stiffnessAtJack: number,
  range: { readonly from: number; readonly to: number },
): BoomAlongStroke {
  const { boom } = pair.mechanism;
  const measured = Object.fromEntries(KEYS.map((key) => [key, boom[key]?.si])) as Partial<BoomTip>;
  const fromSections = KEYS.filter((key) => measured[key] === undefined);
  if (fromSections.length === 0) {
    const tip = measured as BoomTip;
    return { at: () => tip, motionsAt: () => undefined, motions: 0, fromSections, firstMode: null };
  }
  const low = Math.min(range.from, boom.angle.stowed.si);
  const high = Math.max(range.to, boom.angle.extended.si);
  const angles = Float64Array.from({ length: ANGLES }, (_, i) => low + ((high - low) * i) / (ANGLES - 1));
  const solved = Array.from(angles, (angle) => solveAt(pair, stiffnessAtJack, angle));
  const curves = Object.fromEntries(
    fromSections.map((key) => [
      key,
      monotoneCubic(
        angles,
        Float64Array.from(solved, (tip) => tip[key]),
      ),
    ]),
  );
  const at = (angle: number): BoomTip =>
    ({ ...measured, ...Object.fromEntries(fromSections.map((key) => [key, curves[key](angle)])) }) as BoomTip;
  const firstMode = Math.min(...solved.map((tip) => tip.firstMode));
  return { at, ...readMotions(pair, stiffnessAtJack, fromSections), fromSections, firstMode };
}

/** Bending motions need the boom's inertia and springs from one and the same table: none where something was measured. */
function readMotions(
  pair: Pair,
  stiffnessAtJack: number,
  fromSections: readonly (keyof BoomTip)[],
): Pick<BoomAlongStroke, "motionsAt" | "motions"> {
  const stated = pair.mechanism.boom.structure?.modes?.si;
  const motions = stated ?? (fromSections.length === KEYS.length ? MOTIONS : 0);
  if (motions === 0) return { motionsAt: () => undefined, motions };
  if (fromSections.length < KEYS.length) throw new BugError("bending motions beside measured values passed the checks");
  const known = new Map<number, TipVibration>();
  const motionsAt = (angle: number): TipVibration => {
    const found = known.get(angle) ?? solveMotions(pair, stiffnessAtJack, angle, motions);
    known.set(angle, found);
    return found;
  };
  return { motionsAt, motions };
}

function solveMotions(pair: Pair, stiffnessAtJack: number, angle: number, motions: number): TipVibration {
  const found = tipVibration(structureAt(pair, stiffnessAtJack, angle), motions);
  if (found.outcome === "not held") throw new BugError("a boom that was held is not held with its motions");
  return found;
}

function solveAt(pair: Pair, stiffnessAtJack: number, angle: number): BoomTip & { firstMode: number } {
  const found = tipEquivalent(structureAt(pair, stiffnessAtJack, angle), { modes: 1 });
  if (found.outcome === "not held") {
    const message = `the boom is not held at ${((angle * 180) / Math.PI).toFixed(1)} deg: hinge and jack leave it free`;
    throw new InputError([{ path: "mechanism.boom.structure", message }]);
  }
  return {
    bending: found.bending,
    axial: found.axial,
    lateral: found.lateral,
    effectiveTipMass: found.effectiveTipMass.tangential,
    firstMode: found.lockedModes[0].frequency / (2 * Math.PI),
  };
}

/** The beam with hinge, jack, struts and socket at a boom angle. */
function structureAt(pair: Pair, stiffnessAtJack: number, angle: number): BoomStructureSettings {
  const { boom, linkage } = pair.mechanism;
  const { structure } = boom;
  if (structure === undefined || linkage === undefined) throw new BugError("a boom without values passed the checks");
  const { columns } = structure.sections;
  const sections = Array.from(columns.station, (station, i) => ({
    station,
    bendingSwing: columns.EIswing[i],
    bendingLateral: columns.EIlateral[i],
    torsion: columns.GJ[i],
    axial: columns.EA[i],
    massPerLength: columns.massPerLength[i],
    shearSwing: columns.shearSwing[i],
    shearLateral: columns.shearLateral[i],
  }));
  const drawn = linkage.stowed.boomAngle.si;
  const [anchor, lug] =
    linkage.jack.between[0] === "carrier" ? [linkage.jack.from, linkage.jack.to] : [linkage.jack.to, linkage.jack.from];
  const toBoom = (p: typeof anchor, at: number): [number, number, number] => {
    const aft = p.FS.si - boom.hinge.FS.si;
    const down = boom.hinge.WL.si - p.WL.si;
    const [c, s] = [Math.cos(at), Math.sin(at)];
    return [aft * c + down * s, down * c - aft * s, p.BL.si - boom.hinge.BL.si];
  };
  const [along, swing, right] = toBoom(lug, drawn);
  const end = toBoom(anchor, angle);
  const direction: BoomVector = [end[0] - along, end[1] - swing, end[2] - right];
  const attachments: BoomAttachment[] = [
    { kind: "hinge", station: 0 },
    { kind: "jack", station: along, offset: [0, swing, right], direction, stiffness: stiffnessAtJack },
    ...(structure.struts ?? []).map(
      (strut): BoomAttachment => ({
        kind: "strut",
        station: strut.along.si,
        direction: [-Math.cos(strut.slope.si), -Math.sin(strut.slope.si), 0],
        axialStiffness: strut.EA.si,
        length: strut.length.si,
      }),
    ),
  ];
  const last = sections[sections.length - 1].station;
  const { socketMass, theory } = structure;
  const masses = socketMass === undefined ? [] : [{ station: last, mass: socketMass.si }];
  const asTabled = { sections, attachments, masses, theory, elements: ELEMENTS };
  return Math.abs(boom.length.si - last) < 1e-9 ? asTabled : withLength(asTabled, boom.length.si / last, "stay");
}
