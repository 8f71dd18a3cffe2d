import { InputError } from "../../math/errors.ts";
import {
  createLinkage,
  type JointSpec,
  type Linkage,
  type LinkageSpec,
  type PointRef,
} from "../../physics/linkage/index.ts";
import type { Pose } from "../../physics/shapes/index.ts";
import { type Axes3, broughtBack, carried, pitchedPose, toAxes, turnedBack } from "./frames.ts";
import { CARRIED, CARRIER, type FitInputs, type JointInput, type JointPlace, type LinkageInput } from "./inputs.ts";
import type { Station3 } from "./types.ts";

export const JACK = "jack";
/** Distance by which the drawn socket may miss the stated boom length [m]. */
const LENGTH_SLACK = 5e-3;

/** The mechanism of the pair as a linkage, with the names that the study needs. */
export interface Mechanism {
  readonly linkage: Linkage;
  /** Hinge between carrier and boom, the drive of the study. */
  readonly boomHinge: string;
  readonly boom: string;
  /** Joint between the boom and the carried aircraft. */
  readonly socket: string;
  readonly tip: PointRef;
  /** Joints that meet at the link behind the carried aircraft: pin on it, root on the carrier; `null` at single point. */
  readonly coupler: { readonly pin: string; readonly root: string } | null;
  /** Carried aircraft as drawn, x_carrier = R·x_carried + p. */
  readonly drawn: Pose;
  readonly socketDrawn: Axes3;
  readonly joints: readonly JointInput[];
  /** Pairs of bodies that a joint or the jack joins. */
  readonly joined: readonly (readonly [string, string])[];
}

/**
 * Linkage of the pair as drawn at its stowed pose. Bodies other than the carried aircraft have the carrier's axes there.
 *
 * The socket stands where its station says, or else the boom's length from its hinge at the drawn boom angle:
 *
 *     p_S = p_A + L·(aft cos Γ + down sin Γ)                                   (README eq. 3)
 *
 * @param inputs  mechanism of the pair
 * @throws {InputError} for a mechanism without boom hinge or socket, or one that does not close as drawn
 * @source own derivation, README eq. 3; `physics/linkage`
 * @verified stroke.test.ts: four-bar closed form
 */
export function buildMechanism(inputs: FitInputs): Mechanism {
  const { linkage: input } = inputs;
  const boomHinge = input.joints.find(
    (joint) => joint.kind === "hinge" && ends(joint, CARRIER, (name) => isBoom(input, name)),
  );
  if (boomHinge === undefined) throw missing("a hinge between the carrier and a body that holds the carried aircraft");
  const boom = boomHinge.between[0] === CARRIER ? boomHinge.between[1] : boomHinge.between[0];
  const socket = input.joints.find((joint) => ends(joint, boom, (name) => name === CARRIED));
  if (socket === undefined) throw missing("a joint between the boom and the carried aircraft");
  const hinge = toAxes(boomHinge.place.point);
  const { boomAngle, carriedPitch } = input.drawn;
  const down: Axes3 = [-Math.cos(boomAngle), 0, Math.sin(boomAngle)];
  const byLength = hinge.map((value, k) => value + input.boomLength * down[k]) as [number, number, number];
  const socketDrawn = socket.place.in === "carrier" ? toAxes(socket.place.point) : byLength;
  requireLength(input, hinge, socketDrawn);
  const tip = socketPoint(inputs, socket);
  const drawn = pitchedPose(carriedPitch, tip, socketDrawn);
  const joints = attachedJoints(input, socket);
  const specs = joints.map((joint) => jointSpec(joint, drawn, joint === boomHinge ? down : undefined));
  const spec: LinkageSpec = {
    fixed: CARRIER,
    bodies: [
      ...input.bodies.map((name) => ({ name })),
      {
        name: CARRIED,
        position: [...drawn.translation] as [number, number, number],
        attitude: pitchQuaternion(carriedPitch),
      },
    ],
    joints: [...specs, ...holdingJoints(input, joints), jackSpec(input, drawn)],
  };
  return {
    linkage: createLinkage(spec),
    ...{ boomHinge: boomHinge.name, boom, socket: socket.name, drawn, socketDrawn, joints },
    tip: { joint: socket.name, on: socket.between[0] === boom ? "first" : "second" },
    coupler: input.attached === "three point" ? couplerOf(input, socket) : null,
    joined: [...joints.map((joint) => joint.between), input.jack.between],
  };
}

function missing(what: string): InputError {
  return new InputError([{ path: "mechanism.linkage.joints", message: `needs ${what}` }]);
}

function ends(joint: JointInput, one: string, other: (name: string) => boolean): boolean {
  const [a, b] = joint.between;
  return (a === one && other(b)) || (b === one && other(a));
}

/** The boom is the body on the carrier that the jack drives and that holds the carried aircraft, or the first that does. */
function isBoom(input: LinkageInput, name: string): boolean {
  const holds = (body: string) => input.joints.some((joint) => ends(joint, body, (other) => other === CARRIED));
  const driven = input.jack.between.filter((body) => body !== CARRIER && holds(body));
  return driven.length > 0 ? driven.includes(name) : name !== CARRIED && holds(name);
}

function requireLength(input: LinkageInput, hinge: Axes3, socket: Axes3): void {
  const drawn = Math.hypot(...hinge.map((value, k) => socket[k] - value));
  if (Math.abs(drawn - input.boomLength) <= LENGTH_SLACK) return;
  throw new InputError([
    {
      path: "mechanism.linkage",
      message: "does not close as drawn: the socket is not the boom's length from the boom hinge",
      value: `${drawn.toFixed(4)} m`,
      allowed: `${input.boomLength.toFixed(4)} m within ${1e3 * LENGTH_SLACK} mm`,
    },
  ]);
}

/** The carried aircraft's point that the socket holds, body axes. */
function socketPoint(inputs: FitInputs, socket: JointInput): Axes3 {
  return socket.place.in === "carried" ? toAxes(socket.place.point) : toAxes(inputs.probeTip);
}

/** At single point only the socket holds the carried aircraft. */
function attachedJoints(input: LinkageInput, socket: JointInput): JointInput[] {
  if (input.attached === "three point") return [...input.joints];
  return input.joints
    .filter((joint) => joint === socket || !joint.between.includes(CARRIED))
    .map((joint) => (joint === socket ? { ...joint, kind: "ball" } : joint));
}

/** What holds bodies that nothing else holds: the attitude of an aircraft at single point, links that lost their end. */
function holdingJoints(input: LinkageInput, joints: readonly JointInput[]): JointSpec[] {
  if (input.attached === "three point") return [];
  const lost = input.bodies.filter((body) => {
    const had = input.joints.filter((joint) => joint.between.includes(body)).length;
    const has = joints.filter((joint) => joint.between.includes(body)).length;
    return has < had;
  });
  return [
    { kind: "attitude", name: "attitude held", first: CARRIER, second: CARRIED, axisOnFirst: [0, 1, 0] },
    ...lost.map(
      (body): JointSpec => ({
        kind: "fixed",
        name: `${body} held as drawn`,
        first: CARRIER,
        second: body,
        pointOnFirst: [0, 0, 0],
        axisOnFirst: [0, 1, 0],
      }),
    ),
  ];
}

/** A place in the axes of one of the bodies, as drawn: the carried aircraft is the only one with axes of its own there. */
function placeOn(body: string, place: JointPlace, drawn: Pose): Axes3 {
  const own = toAxes(place.point);
  if (body === CARRIED) return place.in === "carried" ? own : broughtBack(drawn, own);
  return place.in === "carried" ? carried(drawn, own) : own;
}

function jointSpec(joint: JointInput, drawn: Pose, sideOnBoom: Axes3 | undefined): JointSpec {
  // The boom hinge has the carrier first: its angle turns the carrier's aft direction down to the boom's.
  const [first, second] =
    sideOnBoom !== undefined && joint.between[1] === CARRIER ? [...joint.between].reverse() : joint.between;
  const { name, kind } = joint;
  const pointOnFirst = placeOn(first, joint.place, drawn);
  if (kind === "rod") {
    const pointOnSecond = placeOn(second, joint.to ?? joint.place, drawn);
    const ends = [placeOn(CARRIER, joint.place, drawn), placeOn(CARRIER, joint.to ?? joint.place, drawn)];
    const length = Math.hypot(...ends[0].map((value, k) => ends[1][k] - value));
    return { name, kind, first, second, pointOnFirst, pointOnSecond, length };
  }
  const base = { name, first, second, pointOnFirst, pointOnSecond: placeOn(second, joint.place, drawn) };
  if (kind === "ball") return { ...base, kind };
  const axis = toAxes(joint.axis);
  if (sideOnBoom !== undefined) {
    return { ...base, kind: "hinge", axisOnFirst: axis, sideOnFirst: [-1, 0, 0], sideOnSecond: sideOnBoom };
  }
  return { ...base, kind, axisOnFirst: first === CARRIED ? turnedBack(drawn, axis) : axis };
}

function jackSpec({ jack }: LinkageInput, drawn: Pose): JointSpec {
  const [first, second] = jack.between;
  const place = (point: Station3): JointPlace => ({ in: "carrier", point });
  return {
    ...{ kind: "jack", name: JACK, first, second },
    pointOnFirst: placeOn(first, place(jack.from), drawn),
    pointOnSecond: placeOn(second, place(jack.to), drawn),
  };
}

function couplerOf(input: LinkageInput, socket: JointInput): Mechanism["coupler"] {
  const pin = input.joints.find((joint) => joint !== socket && joint.between.includes(CARRIED));
  const link = pin?.between.find((body) => body !== CARRIED);
  const root = input.joints.find((joint) => link !== undefined && joint !== pin && joint.between.includes(link));
  return pin === undefined || root === undefined ? null : { pin: pin.name, root: root.name };
}

function pitchQuaternion(pitch: number): [number, number, number, number] {
  return [Math.cos(0.5 * pitch), 0, Math.sin(0.5 * pitch), 0];
}
