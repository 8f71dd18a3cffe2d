import type { Joint, Pair, Quantity } from "../../inputs/index.ts";
import { BugError, InputError } from "../../math/errors.ts";
import type { FitInputs, JointInput, JointPlace, LinkageInput } from "./inputs.ts";
import type { Station3 } from "./types.ts";

/** Standard deviations in a tolerance of normal spread (common practice, no source). */
const DEVIATIONS = 3;
const LATERAL: Station3 = [0, 1, 0];

interface View {
  readonly pair: Pair;
}
type Linkage = NonNullable<Pair["mechanism"]["linkage"]>;
type Place = Extract<Joint, { kind: "hinge" }>["at"];
interface Point {
  readonly FS: Quantity;
  readonly BL: Quantity;
  readonly WL: Quantity;
}

function linkageOf(pair: Pair): Linkage {
  const { linkage } = pair.mechanism;
  if (linkage === undefined) throw new BugError("mechanism.linkage was there a moment ago");
  return linkage;
}

/** Mechanism of the pair; tolerances and capacity through views of their own. */
export function readLinkage(views: {
  readonly linkage: View;
  readonly tolerances: View;
  readonly capacity: View;
}): Pick<FitInputs, "linkage" | "probeTip"> {
  const { pair } = views.linkage;
  const given = linkageOf(pair);
  const { boom } = pair.mechanism;
  const [first, second] = given.jack.between;
  const linkage: LinkageInput = {
    drawn: { boomAngle: given.stowed.boomAngle.si, carriedPitch: given.stowed.carriedPitch.si },
    bodies: Object.keys(given.bodies),
    joints: Object.entries(given.joints).map(([name, joint]) => readJoint(pair, name, joint)),
    jack: { between: [first, second], from: at(given.jack.from), to: at(given.jack.to) },
    attached: given.attached,
    boomLength: boom.length.si,
    stroke: { stowed: boom.angle.stowed.si, extended: boom.angle.extended.si },
    ownWeight:
      boom.ownWeight === undefined
        ? null
        : { mass: boom.ownWeight.mass.si, centreFromHinge: boom.ownWeight.centreFromHinge.si },
    jackCapacity: linkageOf(views.capacity.pair).jackCapacity?.si ?? null,
    tolerances: readTolerances(linkageOf(views.tolerances.pair)),
  };
  return { linkage, probeTip: at(pair.carried.points.probeTip) };
}

function at(p: Point): Station3 {
  return [p.FS.si, p.BL.si, p.WL.si];
}

function readJoint(pair: Pair, name: string, joint: Joint): JointInput {
  const [first, second] = joint.between;
  const base = { name, between: [first, second] as const, axis: LATERAL, to: null };
  const place = (given: Place) => placeOf(pair, name, given);
  if (joint.kind === "rod") return { ...base, kind: "rod", place: place(joint.from), to: place(joint.to) };
  if (joint.kind === "ball") return { ...base, kind: "ball", place: place(joint.at) };
  const axis = joint.axis === undefined ? LATERAL : at(joint.axis);
  return { ...base, kind: joint.kind, place: place(joint.at), axis };
}

function placeOf(pair: Pair, joint: string, given: Place): JointPlace {
  if (typeof given !== "string") return { in: "carrier", point: at(given) };
  const { points } = pair.carried;
  const path = `mechanism.linkage.joints.${joint}.at`;
  const find = (name: "probeTip" | "aftPinLeft" | "aftPinRight"): Station3 => {
    const found = points[name];
    if (found === undefined) {
      throw new InputError([
        { path, message: `names carried.points.${name}, which the pair does not give`, value: given },
      ]);
    }
    return at(found);
  };
  if (given !== "aftPinCentre") return { in: "carried", point: find(given) };
  const [left, right] = [find("aftPinLeft"), find("aftPinRight")];
  return { in: "carried", point: [0, 1, 2].map((k) => 0.5 * (left[k] + right[k])) as [number, number, number] };
}

/** Tolerance of each coordinate: the point's own uncertainty, else the joint's, else the common one. */
function readTolerances(given: Linkage): LinkageInput["tolerances"] {
  const { tolerances } = given;
  if (tolerances === undefined) return null;
  const common = (name: string): number => (tolerances.each?.[name] ?? tolerances.points).si;
  const own = (place: Place, fallback: number) =>
    typeof place === "string"
      ? { FS: fallback, WL: fallback }
      : { FS: toleranceOf(place.FS) ?? fallback, WL: toleranceOf(place.WL) ?? fallback };
  return {
    ...Object.fromEntries(
      Object.entries(given.joints).map(([name, joint]) => [
        name,
        own(joint.kind === "rod" ? joint.from : joint.at, common(name)),
      ]),
    ),
    "jack.from": own(given.jack.from, common("jack")),
    "jack.to": own(given.jack.to, common("jack")),
  };
}

function toleranceOf({ uncertainty }: Quantity): number | undefined {
  if (uncertainty === undefined) return undefined;
  return uncertainty.stated === "bounds" ? uncertainty.plusMinus : DEVIATIONS * uncertainty.sigma;
}
