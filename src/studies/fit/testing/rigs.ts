/** Mechanisms and shapes that several tests of this folder and of `test/validation` use. All invented. */
import type { FitInputs, JointInput, LinkageInput, MoverInput, PartInput, ShapeForm } from "../inputs.ts";
import type { PartOwner, Station3 } from "../types.ts";

const DEGREE = Math.PI / 180;
const LATERAL: Station3 = [0, 1, 0];

/** Trapeze of the demonstration: boom 5.6 m from 14° to 52°, the carried aircraft links boom and aft yoke. */
export const TRAPEZE = {
  boomHinge: [10.4, 0, 2.15],
  yokeHinge: [13.243, 0, 1.92],
  boomLength: 5.6,
  probeTip: [2.1, 0, 1.85],
  aftPins: [5.05, 0, 1.62],
  jackFrom: [12.9, 0, 3.35],
  stowed: 14 * DEGREE,
  extended: 52 * DEGREE,
} as const;

function hinge(name: string, first: string, second: string, place: JointInput["place"]): JointInput {
  return { name, kind: "hinge", between: [first, second], place, axis: LATERAL, to: null };
}

/** The demonstration's linkage, drawn stowed. */
export function trapezeLinkage(changes: Partial<LinkageInput> = {}): LinkageInput {
  const { boomHinge, yokeHinge, boomLength, aftPins, probeTip, jackFrom, stowed, extended } = TRAPEZE;
  const [c, s] = [Math.cos(stowed), Math.sin(stowed)];
  // The lug stands 1.55 m along the boom and 0.28 m above it.
  const lug: Station3 = [boomHinge[0] + 1.55 * c + 0.28 * s, 0, boomHinge[2] - 1.55 * s + 0.28 * c];
  const tolerance = { FS: 0.002, WL: 0.002 };
  const joints = [
    hinge("boomHinge", "carrier", "boom", { in: "carrier", point: boomHinge }),
    hinge("socket", "boom", "carried", { in: "carried", point: probeTip }),
    hinge("yokeHinge", "carrier", "aftYoke", { in: "carrier", point: yokeHinge }),
    hinge("aftPin", "aftYoke", "carried", { in: "carried", point: aftPins }),
  ];
  return {
    drawn: { boomAngle: stowed, carriedPitch: 0 },
    bodies: ["boom", "aftYoke"],
    joints,
    jack: { between: ["carrier", "boom"], from: jackFrom, to: lug },
    attached: "three point",
    boomLength,
    stroke: { stowed, extended },
    ownWeight: null,
    jackCapacity: 142e3,
    tolerances: {
      ...Object.fromEntries(joints.map(({ name }) => [name, tolerance])),
      "jack.from": tolerance,
      "jack.to": tolerance,
    },
    ...changes,
  };
}

/** A shape of a body. */
export function part(
  name: string,
  owner: PartOwner,
  form: ShapeForm,
  more: { readonly group?: string; readonly zone?: boolean } = {},
): PartInput {
  const [body, shape] = name.split(".");
  const { group = null, zone = false } = more;
  return { body, shape, owner, group, zone, form, path: name };
}

/** A carrier part on a hinge that turns evenly from 0 to `angle` [rad]. */
export function mover(
  body: string,
  at: Station3,
  axis: Station3,
  angle: number,
  mirroredBody: string | null = null,
): MoverInput {
  return {
    ...{ body, group: "gear", path: body, mirroredBody, hangsOn: null, mirroredHangsOn: null },
    hingeAt: at,
    hingeAxis: axis,
    fractions: Float64Array.of(0, 1),
    angles: Float64Array.of(0, angle),
  };
}

/** Inputs around some shapes, with the trapeze and no stack. */
export function rig(
  parts: readonly PartInput[],
  movers: readonly MoverInput[] = [],
  changes: Partial<FitInputs> = {},
): FitInputs {
  return {
    ...{ parts, movers, linkage: trapezeLinkage(), probeTip: TRAPEZE.probeTip },
    masses: [{ name: "full", mass: 2600, cg: [4.3, 0, 1] }],
    ...{ ground: null, loading: null, near: 0.15, apart: [], stack: [], mapNodes: 21 },
    criteria: { staticClearance: null, movingClearance: null, transmissionAngle: null },
    ...changes,
  };
}
