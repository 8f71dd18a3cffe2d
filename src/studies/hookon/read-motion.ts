import type { Pair } from "../../inputs/index.ts";
import { BugError, InputError } from "../../math/errors.ts";
import { armFromStation, STANDARD_GRAVITY, trimFree } from "../../physics/bodies/index.ts";
import type { BoomSpringsSettings } from "../../physics/boom/index.ts";
import { type HookonSettings, type SurfaceLimits, straightGuide } from "../../physics/hookon-motion/index.ts";
import type { LatchSettings } from "../../physics/latch/types.ts";
import type { SocketSettings } from "../../physics/socket/types.ts";
import { type HoldInputs, type Operating, settingsAt } from "../hold/index.ts";

/** A part of the pair that the checks have made sure of. */
export function part<T>(value: T | undefined, path: string): T {
  if (value === undefined) throw new BugError(`${path} passed the checks but is missing`);
  return value;
}

type Direction = {
  readonly FS: { readonly si: number };
  readonly BL: { readonly si: number };
  readonly WL: { readonly si: number };
};

/** Direction in stations (aft, right, up) as a unit vector forward, right, down. */
function unitOf({ FS, BL, WL }: Direction): [number, number, number] {
  const length = Math.hypot(FS.si, BL.si, WL.si);
  return [-FS.si / length + 0, BL.si / length, -WL.si / length + 0];
}

/** Socket of the pair, SI. */
export function readSocket({ mechanism }: Pair): SocketSettings {
  const socket = part(mechanism.socket, "mechanism.socket");
  const funnel = part(socket.funnel, "mechanism.socket.funnel");
  const probe = part(socket.probe, "mechanism.socket.probe");
  const contact = part(socket.contact, "mechanism.socket.contact");
  const gimbal = part(socket.gimbal, "mechanism.socket.gimbal");
  const buffer = part(socket.buffer, "mechanism.socket.buffer");
  return {
    funnel: {
      mouthRadius: funnel.mouthRadius.si,
      throatRadius: funnel.throatRadius.si,
      coneDepth: funnel.coneDepth.si,
      boreDepth: funnel.boreDepth.si,
      mouthFromGimbal: funnel.mouthFromGimbal.si,
    },
    probe: {
      radius: probe.radius.si,
      axis: unitOf(probe.axis),
      stemRadius: probe.stemRadius.si,
      stemLength: probe.stemLength.si,
    },
    contact: {
      stiffness: contact.stiffness.si,
      restitution: contact.restitution.si,
      restitutionAt: contact.restitutionAt.si,
      friction: contact.friction.si,
      creepSpeed: contact.creepSpeed.si,
    },
    gimbal: {
      centring: gimbal.centring.si,
      damping: gimbal.damping.si,
      friction: gimbal.friction.si,
      stop: gimbal.stop.si,
      stopStiffness: gimbal.stopStiffness.si,
      inertia: gimbal.inertia.si,
      tumbled: gimbal.tumbled.si,
    },
    buffer: {
      preload: buffer.preload.si,
      stiffness: buffer.stiffness.si,
      compressionDamping: buffer.compressionDamping.si,
      extensionDamping: buffer.extensionDamping.si,
      stroke: buffer.stroke.si,
      bottomStiffness: buffer.bottomStiffness.si,
      headMass: buffer.headMass.si,
    },
    restAxis_H: unitOf(funnel.mouth),
    dragArea: funnel.dragArea.si,
  };
}

/** Latch of the pair, SI; a stated energy becomes a constant force over its travel. */
export function readLatch({ mechanism }: Pair): LatchSettings {
  const latch = part(mechanism.latch, "mechanism.latch");
  const { trip, tripEnergy, tripTravel } = latch;
  const travel = trip === undefined ? part(tripTravel, "mechanism.latch.tripTravel").si : 0;
  const force = trip === undefined ? part(tripEnergy, "mechanism.latch.tripEnergy").si / travel : 0;
  return {
    travel: trip === undefined ? Float64Array.of(0, travel) : trip.columns.travel,
    force: trip === undefined ? Float64Array.of(force, force) : trip.columns.force,
    lockTime: latch.lockTime.si,
    lockWindow: latch.lockWindow.si,
    stiffness: latch.stiffness.si,
    damping: latch.damping.si,
    sideStiffness: latch.sideStiffness.si,
    holds: latch.holds.si,
    holdsHalf: latch.holdsHalf.si,
  };
}

/** Boom without the aircraft at the condition's boom angle: only its own weight lies on it. */
function emptyBoom(inputs: HoldInputs, at: Operating): BoomSpringsSettings {
  const { boom } = settingsAt(inputs, at);
  const damping = (stiffness: number): number =>
    2 * boom.structuralDamping * Math.sqrt(stiffness * (boom.effectiveTipMass + at.mass.properties.mass));
  const ownNormal = ((boom.ownMass * boom.ownCentre) / boom.length) * STANDARD_GRAVITY * Math.cos(at.boomAngleDown);
  return {
    geometry: { length: boom.length, angleDown: at.boomAngleDown },
    preload: { tension: 0, tangential: ownNormal, lateral: 0 },
    axial: boom.axial,
    axialDamping: damping(boom.axial),
    lateral: boom.lateral,
    lateralDamping: damping(boom.lateral),
    tangential: {
      bending: boom.bending,
      bendingDamping: damping(boom.bending),
      accumulator: boom.accumulator,
      snubber: boom.snubber,
    },
    ownMass: boom.ownMass,
    ownCentre: boom.ownCentre,
  };
}

/** What the pair says beside the aircraft and the boom. */
export interface MotionParts {
  readonly socket: SocketSettings;
  readonly latch: LatchSettings;
  readonly actuators: HookonSettings["actuators"];
  readonly limits: HookonSettings["limits"];
}

/** Surfaces of `control.actuators`; thrust within its limits. */
export function readActuators(
  { control }: Pair,
  thrust: HookonSettings["actuators"]["thrust"],
): MotionParts["actuators"] {
  const actuators = part(control?.actuators, "control.actuators");
  const surface = ({ lag, rate, travel }: (typeof actuators)["elevator"]): SurfaceLimits => ({
    lag: lag.si,
    rate: rate.si,
    travel: travel.si,
  });
  return {
    elevator: surface(actuators.elevator),
    aileron: surface(actuators.aileron),
    rudder: surface(actuators.rudder),
    thrust,
  };
}

/**
 * Settings of the motion in still air with the controls held, at one operating point.
 *
 * @throws {InputError} when the free aircraft does not trim there
 */
export function stillSettings(inputs: HoldInputs, at: Operating, parts: MotionParts): HookonSettings {
  const { mass, airloads, air } = settingsAt(inputs, at);
  const trim = trimFree({ airloads, mass: mass.mass, ...air });
  if (trim.outcome !== "trimmed") {
    const message = `the carried aircraft does not trim free in level flight at ${at.condition} with mass ${at.mass.name}`;
    throw new InputError([{ path: "studies.hookon.condition", message, value: at.condition }]);
  }
  const tip = inputs.boom.tip.at(at.boomAngleDown);
  return {
    mass,
    airloads,
    probe: armFromStation(at.mass.cg, inputs.carried.probe),
    trim: { alpha: trim.alpha, controls: { ...trim.controls } },
    air,
    boom: emptyBoom(inputs, at),
    tipMass: tip.effectiveTipMass,
    ...parts,
    guide: straightGuide(trim.controls),
  };
}
