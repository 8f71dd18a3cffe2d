import * as z from "zod";
import { direction } from "./point.ts";
import {
  AMPLITUDE_ANGLE,
  AREA,
  CLOSING_SPEED,
  CONTACT_FRICTION,
  CREEP_SPEED,
  DAMPING_RATE,
  FREQUENCY,
  FRICTION,
  FRICTION_MOMENT,
  FUNNEL_LENGTH,
  GIMBAL_INERTIA,
  PART_MASS,
  RESTITUTION,
  SOCKET_LENGTH,
  SOCKET_STOP,
  STIFFNESS,
  TURNING_RATE,
  TURNING_STIFFNESS,
} from "./ranges.ts";
import { quantity } from "./value.ts";

const length = (describe: string, example: string) => quantity("length", describe, [example], SOCKET_LENGTH);

const funnel = z
  .strictObject({
    mouthRadius: length("Radius inside at the mouth.", "0.28 m"),
    throatRadius: length("Radius inside at the throat, where the cone becomes the bore.", "33 mm"),
    coneDepth: length("Along the axis from mouth to throat.", "0.30 m"),
    boreDepth: length("Along the axis from throat to seat.", "0.10 m"),
    mouthFromGimbal: quantity(
      "length",
      "Along the axis from the gimbal's centre to the mouth.",
      ["0.35 m"],
      FUNNEL_LENGTH,
    ),
    mouth: direction("Where the mouth looks at rest, in the carrier's stations."),
    dragArea: quantity("area", "Drag area of head and funnel, through which gusts push them.", ["0.08 m^2"], AREA),
  })
  .meta({ description: "Funnel that leads the probe to the seat." });

const probe = z
  .strictObject({
    radius: length("Radius of the head, a ball whose centre is the carried aircraft's probe tip.", "30 mm"),
    axis: direction("Where the probe points, in the carried aircraft's stations."),
    stemRadius: length("Radius of the stem behind the head.", "20 mm"),
    stemLength: length("Length of the stem behind the head.", "0.5 m"),
  })
  .meta({ description: "Head of the probe." });

const contact = z
  .strictObject({
    stiffness: quantity("stiffness", "Stiffness of the contact of head and funnel.", ["400 kN/m"], STIFFNESS),
    restitution: quantity(
      "number",
      "Share of the speed of approach with which the head springs back.",
      [0.4],
      RESTITUTION,
    ),
    restitutionAt: quantity("speed", "Speed at which that share holds.", ["1 m/s"], CLOSING_SPEED),
    friction: quantity("number", "Coefficient of friction of head on funnel.", [0.15], CONTACT_FRICTION),
    creepSpeed: quantity("speed", "Sliding speed below which friction fades to zero.", ["10 mm/s"], CREEP_SPEED),
  })
  .meta({ description: "Contact of head and funnel." });

const gimbal = z
  .strictObject({
    centring: quantity(
      "turningStiffness",
      "Moment per angle back to the middle; zero leaves the funnel free to tumble.",
      ["60 N m/rad"],
      TURNING_STIFFNESS,
    ),
    damping: quantity("turningRate", "Damping of its turning.", ["6 N m s/rad"], TURNING_RATE),
    friction: quantity("moment", "Friction against turning.", ["0.5 N m"], FRICTION_MOMENT),
    stop: quantity("angle", "Angle of its stops, either way.", ["25 deg"], SOCKET_STOP),
    stopStiffness: quantity("turningStiffness", "Stiffness of the stops.", ["2 kN m/rad"], TURNING_STIFFNESS),
    inertia: quantity(
      "inertia",
      "Moment of inertia of the funnel across its axis, about the gimbal's centre.",
      ["1.2 kg m^2"],
      GIMBAL_INERTIA,
    ),
    tumbled: quantity("angle", "Angle beyond which the mouth no longer faces the probe.", ["40 deg"], AMPLITUDE_ANGLE),
  })
  .meta({ description: "Gimbal between funnel and boom tip." });

const buffer = z
  .strictObject({
    preload: quantity("force", "Force at which it starts to move.", ["600 N"], FRICTION),
    stiffness: quantity("stiffness", "Spring rate.", ["12 kN/m"], STIFFNESS),
    compressionDamping: quantity("dampingRate", "Damping while it is pushed in.", ["1.5 kN*s/m"], DAMPING_RATE),
    extensionDamping: quantity("dampingRate", "Damping while it comes out.", ["3 kN*s/m"], DAMPING_RATE),
    stroke: quantity("length", "Travel to the stop.", ["0.15 m"], FUNNEL_LENGTH),
    bottomStiffness: quantity("stiffness", "Stiffness of the stop.", ["2 MN/m"], STIFFNESS),
    headMass: quantity("mass", "Mass of socket head and funnel that it carries.", ["18 kg"], PART_MASS),
  })
  .meta({ description: "Spring buffer between socket head and boom tip, along the axis of the socket." });

export const socket = z
  .strictObject({
    centring: quantity(
      "turningStiffness",
      "Moment per tilt of the probe in the socket, about its attitude at trim.",
      ["4 kN m/rad"],
      TURNING_STIFFNESS,
    ),
    friction: quantity(
      "moment",
      "Friction against every turn of the probe in the socket.",
      ["120 N m"],
      FRICTION_MOMENT,
    ),
    amplitude: quantity("angle", "Amplitude of turning for the equivalent rate.", ["1 deg"], AMPLITUDE_ANGLE),
    frequency: quantity("frequency", "Frequency for the equivalent rate.", ["0.8 Hz"], FREQUENCY),
    funnel: funnel.optional(),
    probe: probe.optional(),
    contact: contact.optional(),
    gimbal: gimbal.optional(),
    buffer: buffer.optional(),
  })
  .meta({
    description:
      "The socket: what it does to the attitude of the carried aircraft that hangs in it, and what hook-on needs of it.",
  });
