import { derivativeModel } from "../../physics/airloads/index.ts";
import {
  attachedPair,
  type CarrierPort,
  carrierAtTrim,
  type Environment,
  type HookedPairSettings,
  type hookedPair,
  pairOnTrim,
  rigidCarrier,
  STANDARD_GRAVITY,
  socketLinks,
  steadyCarrier,
  trimFree,
  trimHooked,
  uniformAir,
} from "../../physics/bodies/index.ts";
import { boomAxes, type LinkPort } from "../../physics/links/index.ts";
import { controlsFixed } from "../../physics/pilot/index.ts";
import {
  type ManoeuvringCarrier,
  manoeuvringCarrier,
  pullUp,
  SeparationAirloads,
  SeparationMotion,
  type SeparationStep,
} from "../../physics/separation/index.ts";
import { atBoomAngle, type Operating, operatingPoint, settingsAt } from "../hold/index.ts";
import { pinsAt } from "../hold-attachment/index.ts";
import type { ReleaseCase } from "./cases.ts";
import type { ReleaseInputs } from "./settings.ts";

/** Where and with what a separation begins, and what scatters. */
export interface ReleasePoint {
  readonly mass: string;
  readonly boomAngle: number;
  /** Equivalent airspeed in place of the condition's [m/s]. */
  readonly equivalentAirspeed?: number;
  /** Thrust in place of the condition's [N]. */
  readonly thrust?: number;
}

/** What differs from sample to sample. */
export interface Scatter {
  /** Factor on both frictions. */
  readonly friction: number;
  /** Added to the time of each step, in the order of the case's steps [s]. */
  readonly timing: readonly number[];
  /** Air that changes with time, on top of everything else. */
  readonly gusts: ((environment: Environment) => Environment) | null;
}

export interface BuiltRelease {
  readonly motion: SeparationMotion;
  readonly airloads: SeparationAirloads;
  readonly at: Operating;
  /** Time that the held pair is given to come to rest before the command [s]. */
  readonly settle: number;
  readonly rigid: boolean;
  /** Before anything opens: load on the carrier at the hinge, in H (force, moment), and force on the aircraft by all that holds it. */
  readonly hingeLoad: Float64Array;
  readonly holdingForce: Float64Array;
}

/** Time in which the held pair comes to rest in a pull-up or a sideslip [s]. */
const SETTLE = 4;
/** Speed below which the friction of the bore fades [m/s]. */
const CREEP = 0.005;
/** Mass that the bore's damping is referred to is the tip's; its damping ratio. */
const BORE_DAMPING = 0.3;

/** Time before the command in a case [s]. */
export const settleOf = ({ loadFactor, sideslip }: ReleaseCase): number =>
  loadFactor !== 1 || sideslip !== 0 ? SETTLE : 0;

/** Operating point of a release. */
export function operatingAt(inputs: ReleaseInputs, point: ReleasePoint, weightShare: number): Operating {
  const base = operatingPoint(inputs.hold, inputs.condition, point.mass);
  return atBoomAngle(inputs.hold, {
    ...base,
    weightShare,
    boomAngleDown: point.boomAngle,
    ...(point.thrust === undefined ? {} : { thrust: point.thrust }),
    ...(point.equivalentAirspeed === undefined
      ? {}
      : { airspeed: { kind: "EAS" as const, value: point.equivalentAirspeed } }),
  });
}

/**
 * A case at a point as a motion that is ready to run; `null` where the held pair has no balance there.
 *
 * The balance is that of straight and level flight, in a pull-up with the weight times its load factor; what that leaves in a pull-up or a
 * sideslip settles before the command.
 */
export function buildRelease(
  inputs: ReleaseInputs,
  wanted: ReleaseCase,
  point: ReleasePoint,
  scatter: Scatter = { friction: 1, timing: [], gusts: null },
): BuiltRelease | null {
  const at = operatingAt(inputs, point, wanted.weightShare);
  const pair = settingsAt(inputs.hold, at);
  const held = holdAt(inputs, wanted, at, { ...pair, law: controlsFixed });
  if (held === null) return null;
  const { air } = pair;
  const settle = settleOf(wanted);
  const level = sideslipping(uniformAir(air), wanted.sideslip, air.trueAirspeed);
  const turned = pullUp(level, wanted.loadFactor, air.trueAirspeed);
  const environment = scatter.gusts === null ? turned : scatter.gusts(turned);
  held.motion.derivative(0, held.state, new Float64Array(held.motion.stateCount));
  const hingeLoad = held.motion.hingeLoad.slice();
  const byLinks = held.motion.linkLoads?.load.f_onV_H;
  const holdingForce = held.motion.jointForce.map((f, i) => f + (byLinks?.[i] ?? 0));
  const crew = carrierOf(inputs, pair, environment, hingeLoad);
  const airloads = new SeparationAirloads(pair.airloads, inputs.proximity);
  const tipMass = pair.boom.effectiveTipMass;
  const { friction, sealFriction, startWithin, startTravel } = inputs.settings.bore;
  const { stiffness, damping, side } = inputs.latch;
  const motion = new SeparationMotion({
    held,
    socket: held.socket,
    bore: {
      axis: inBoomAxes(inputs.bore.axis, held.tip),
      ...{ depth: inputs.bore.depth, axial: stiffness, axialDamping: damping },
      ...{ lateral: side, lateralDamping: 2 * BORE_DAMPING * Math.sqrt(side * tipMass) },
      friction: friction.si * scatter.friction,
      sealFriction: sealFriction.si * scatter.friction,
      creepSpeed: CREEP,
    },
    carrier: crew ?? steadyCarrier(),
    ...(crew === null ? {} : { crew: { port: crew, weight: inputs.carrier!.properties.mass * STANDARD_GRAVITY } }),
    ...{ environment, airloads, law: controlsFixed },
    steps: [...wanted.steps, ...trimStep(wanted, pair, held)]
      .filter((step) => crew !== null || step.kind !== "carrier pulls")
      .map((step, i) => ({ ...step, time: Math.max(0, step.time + (scatter.timing[i] ?? 0)) + settle })),
    ...{ startWithin: startWithin.si, startTravel: startTravel.si },
  });
  return { motion, airloads, at, settle, rigid: crew !== null, hingeLoad, holdingForce };
}

/** The elevator's move from where it was held to free flight, with the nose. */
function trimStep(wanted: ReleaseCase, { airloads, mass, air }: HookedPairSettings, held: Held): SeparationStep[] {
  if (wanted.elevator === null || wanted.noseAt === null) return [];
  const free = trimFree({ airloads, mass: mass.mass, ...air });
  const wish =
    (free.outcome === "trimmed" ? free.controls.elevator : held.motion.settings.trim.elevator) + wanted.elevator;
  const by = wish - held.motion.settings.trim.elevator;
  return [{ time: wanted.noseAt, kind: "move control", control: "elevator", by }];
}

interface Held {
  readonly motion: ReturnType<typeof hookedPair>["motion"];
  readonly state: Float64Array;
  readonly links: readonly LinkPort[];
  readonly socket: readonly LinkPort[];
  readonly tip: readonly [number, number, number];
}

/** The pair as it hangs before the command. */
function holdAt(inputs: ReleaseInputs, wanted: ReleaseCase, at: Operating, pair: HookedPairSettings): Held | null {
  const { latched } = inputs;
  const turning = latched?.socket ?? undefined;
  const tipOf = (state: Float64Array, from: number): [number, number, number] => [
    state[from],
    state[from + 1],
    state[from + 2],
  ];
  if (wanted.attachment === "three point") {
    if (latched === null) return null;
    const attached = attachedPair({
      ...{ pair, pitch: latched.pins.pitch(at.boomAngleDown), elevator: "pins unloaded" as const },
      pins: pinsAt(latched.pins, at, ["left", "right"], "closed"),
    });
    if (attached.outcome !== "trimmed") return null;
    const tip = tipOf(attached.state, attached.motion.layout.tip);
    return { ...attached, socket: socketLinks(turning, attached.state, tip), tip };
  }
  const { length, angleDown } = pair.boom;
  const place = { aft: length * Math.cos(angleDown), below: length * Math.sin(angleDown) };
  const weight = pair.mass.mass * wanted.loadFactor;
  const trim = trimHooked({ airloads: pair.airloads, mass: weight, ...pair.air }, { ...pair, tip: place });
  if (trim.outcome !== "trimmed") return null;
  const made = pairOnTrim(pair, trim);
  const tip = tipOf(made.state, made.motion.layout.tip);
  return { motion: made.motion, state: made.state, links: [], socket: socketLinks(turning, made.state, tip), tip };
}

/** The carrier's own motion with its crew; `null` where the pair says nothing of it. */
function carrierOf(
  { carrier }: ReleaseInputs,
  { air }: HookedPairSettings,
  environment: Environment,
  trimLoad: Float64Array,
): ManoeuvringCarrier | null {
  if (carrier === null) return null;
  const { properties, hinge } = carrier;
  const set = carrierAtTrim(carrier.set, { mass: properties.mass, ...air }, hinge, trimLoad);
  const port: CarrierPort = rigidCarrier({
    ...{ mass: properties, hinge, trimLoad, environment },
    controls: { elevator: 0, aileron: 0, rudder: 0, thrust: 0 },
    airloads: derivativeModel(set),
  });
  return manoeuvringCarrier(port, hinge);
}

/** Air from the side: both aircraft slip by an angle, nose left positive. */
function sideslipping(base: Environment, sideslip: number, speed: number): Environment {
  if (sideslip === 0) return base;
  const across = speed * Math.tan(sideslip);
  return {
    evaluate(state, out, time) {
      base.evaluate(state, out, time);
      out.airVelocity[1] -= across;
    },
  };
}

/** Direction in carrier axes as components along, across and to the side of the boom. */
function inBoomAxes(direction: readonly [number, number, number], tip: readonly number[]): [number, number, number] {
  const U = new Float64Array(9);
  boomAxes(Float64Array.from(tip), U);
  return [0, 1, 2].map((k) => U[k] * direction[0] + U[3 + k] * direction[1] + U[6 + k] * direction[2]) as [
    number,
    number,
    number,
  ];
}

/** c.g. of a mass state from the carried aircraft's datum, axes x forward, y right, z down [m]. */
export function cgOf(at: Operating): [number, number, number] {
  const { FS, BL, WL } = at.mass.cg;
  return [-FS, BL, -WL];
}
