import { InputError, type Issue } from "../../math/errors.ts";
import { monotoneCubic } from "../../math/interpolate/index.ts";
import type { Airspeed } from "../../physics/atmosphere/index.ts";
import type { SocketTurning, StationPoint } from "../../physics/bodies/index.ts";
import { equivalentFrictionRate } from "../../physics/links/index.ts";
import { attitudeAlongStroke } from "../fit/index.ts";
import { type HoldInputs, type OpenReads, stationPoint } from "../hold/index.ts";

/** Per direction of a pin. */
export interface Directions {
  readonly along: number;
  readonly lateral: number;
}

export interface PinSettings {
  readonly stiffness: Directions;
  readonly structuralDamping: number;
  readonly clearance: Directions;
  readonly misfit: Directions;
  readonly left: StationPoint;
  readonly right: StationPoint;
  /** Root of the yoke from the boom hinge in the plane of symmetry, carrier axes [m]. */
  readonly root: { readonly forward: number; readonly down: number };
  /** Pitch that the linkage gives at a boom angle [rad]. */
  readonly pitch: (angleDown: number) => number;
}

/** What this part needs beside the inputs of `hold`, SI and radians, with the pair paths behind it. */
export interface AttachmentInputs {
  readonly elevator: number;
  readonly margin: number;
  readonly marginSource: string;
  readonly deviations: number;
  readonly speedBand: { readonly from: Airspeed; readonly to: Airspeed };
  readonly stroke: { readonly from: number; readonly to: number };
  readonly socket: {
    readonly linear: SocketTurning;
    readonly friction: { readonly moment: number; readonly fadeRate: number };
  } | null;
  readonly pins: PinSettings | null;
  readonly paths: {
    readonly rule: readonly string[];
    readonly socket: readonly string[];
    readonly pins: readonly string[];
    readonly elevator: readonly string[];
  };
}

/** Rate below which dry friction fades in the motion in time, as a share of the rate of the declared turning. */
const FADE = 0.02;

/**
 * Settings of the part, or `null` when the pair asks nothing about states of attachment.
 *
 * @throws {InputError} when pins are given without what they need: the pins' places, the drawn mechanism with its yoke
 */
export function readAttachment(open: OpenReads, hold: HoldInputs): AttachmentInputs | null {
  const views = { rule: open(), socket: open(), pins: open(), elevator: open() };
  const given = views.rule.pair.studies?.hold?.attachment;
  if (given === undefined) return null;
  const band = given.speedBand;
  const speed = ({ kind, si }: { readonly kind: Airspeed["kind"]; readonly si: number }): Airspeed => ({
    kind,
    value: si,
  });
  const { stowed, extended } = views.rule.pair.mechanism.boom.angle;
  const own = {
    margin: given.margin.si,
    marginSource: given.margin.provenance.source ?? "project criterion",
    deviations: given.deviations?.si ?? 2,
    speedBand: band === undefined ? hold.speedBand : { from: speed(band.from), to: speed(band.to) },
    stroke: { from: Math.min(stowed.si, extended.si), to: Math.max(stowed.si, extended.si) },
  };
  const socket = readSocket(views.socket);
  const attitude = views.pins.pair.mechanism.aftPins === undefined ? null : readPins(views.pins, open);
  const elevator = views.elevator.pair.studies?.hold?.attachment?.elevator.si ?? 0;
  return {
    ...own,
    elevator,
    socket,
    pins: attitude?.settings ?? null,
    paths: {
      rule: views.rule.paths(),
      socket: views.socket.paths(),
      pins: [...views.pins.paths(), ...(attitude?.paths ?? [])],
      elevator: views.elevator.paths(),
    },
  };
}

/** What another part needs to hold the aircraft at its aft pins. */
export interface LatchedInputs {
  readonly pins: PinSettings;
  /** `null`: the socket turns freely. */
  readonly socket: SocketTurning | null;
  /** Elevator at rest [rad], or the one with which the pins carry nothing. */
  readonly elevator: number | "pins unloaded";
  /** Boom angle stowed [rad]. */
  readonly stowed: number;
  readonly paths: readonly string[];
}

/**
 * Pins, socket and elevator as this part reads them, or `null` without aft pins.
 *
 * @throws {InputError} as `readAttachment`
 */
export function readLatched(open: OpenReads): LatchedInputs | null {
  const view = open();
  if (view.pair.mechanism.aftPins === undefined) return null;
  const { settings, paths } = readPins(view, open);
  const socket = readSocket(view);
  const { stowed, extended } = view.pair.mechanism.boom.angle;
  const elevator = view.pair.studies?.hold?.attachment?.elevator.si ?? 0;
  return {
    ...{ pins: settings, socket: socket?.linear ?? null, elevator },
    stowed: Math.min(stowed.si, extended.si),
    paths: [...view.paths(), ...paths],
  };
}

type View = ReturnType<OpenReads>;

function readSocket({ pair }: View): AttachmentInputs["socket"] {
  const { socket } = pair.mechanism;
  if (socket === undefined) return null;
  const frequency = 2 * Math.PI * socket.frequency.si;
  const damping = equivalentFrictionRate(socket.friction.si, socket.amplitude.si, frequency);
  return {
    linear: { centring: socket.centring.si, damping },
    friction: { moment: socket.friction.si, fadeRate: FADE * frequency * socket.amplitude.si },
  };
}

function readPins({ pair }: View, open: OpenReads): { settings: PinSettings; paths: readonly string[] } {
  const pins = pair.mechanism.aftPins!;
  const { aftPinLeft, aftPinRight } = pair.carried.points;
  const issues: Issue[] = [];
  for (const [name, point] of Object.entries({ aftPinLeft, aftPinRight })) {
    if (point !== undefined) continue;
    issues.push({
      path: `carried.points.${name}`,
      message: "is missing: mechanism.aftPins needs the place of each pin",
    });
  }
  if (pair.mechanism.linkage === undefined) {
    const message = "is missing: mechanism.aftPins needs the drawn mechanism, which sets the attitude at three points";
    issues.push({ path: "mechanism.linkage", message });
  }
  if (issues.length > 0) throw new InputError(issues);
  const attitude = attitudeAlongStroke(open);
  const { hinge } = pair.mechanism.boom;
  const settings: PinSettings = {
    stiffness: { along: pins.stiffness.along.si, lateral: pins.stiffness.lateral.si },
    structuralDamping: pins.structuralDamping.si,
    clearance: { along: pins.clearance.along.si, lateral: pins.clearance.lateral.si },
    misfit: { along: pins.misfit?.along.si ?? 0, lateral: pins.misfit?.lateral.si ?? 0 },
    left: stationPoint(aftPinLeft!),
    right: stationPoint(aftPinRight!),
    root: { forward: hinge.FS.si - attitude.yokeRoot[0], down: hinge.WL.si - attitude.yokeRoot[2] },
    pitch: monotoneCubic(attitude.angles, attitude.pitches),
  };
  return { settings, paths: attitude.paths };
}
