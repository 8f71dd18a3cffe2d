import { quaternionFromEuler } from "../../math/rotation/index.ts";
import {
  type AttachedPair,
  type AttachedPin,
  armFromStation,
  attachedPair,
  hookedMass,
  linearise,
  PairMotion,
  pairOnTrim,
  type SocketTurning,
  socketLinks,
  trimFree,
  uniformAir,
} from "../../physics/bodies/index.ts";
import type { EnergyModel, PairMode } from "../../physics/modes/index.ts";
import { type HoldInputs, isSymmetric, type Operating, pairAt, planeModes, settingsAt } from "../hold/index.ts";
import type { AttachmentInputs, PinSettings } from "./read-settings.ts";
import type { AttachmentState } from "./types.ts";

/** What a state rests on: pins, socket, elevator. */
export interface StateInputs {
  readonly pins: PinSettings | null;
  readonly socket: { readonly linear: SocketTurning } | null;
  readonly elevator: number;
}

/** A state of attachment at rest with its modes. */
export interface StateModel {
  readonly state: AttachmentState;
  readonly trimmed: boolean;
  /** Yaw, pitch, roll [rad]. */
  readonly attitude: readonly [number, number, number];
  readonly elevator: number;
  readonly attached: AttachedPair | null;
  readonly modes: readonly PairMode[];
}

/** Pins of a state, by the name of the state. */
const LATCHED: Readonly<Partial<Record<AttachmentState, readonly ("left" | "right")[]>>> = {
  "left aft pin": ["left"],
  "right aft pin": ["right"],
  "three point": ["left", "right"],
  "three point, in clearance": ["left", "right"],
};

/** States that the pair gives something for, in their order; of two that mirror each other the left one. */
export function statesOf(inputs: HoldInputs, own: AttachmentInputs): AttachmentState[] {
  const { pins } = own;
  const mirrored =
    pins !== null &&
    isSymmetric(inputs) &&
    pins.left.BL === -pins.right.BL &&
    pins.left.FS === pins.right.FS &&
    pins.left.WL === pins.right.WL &&
    pins.misfit.along === 0 &&
    pins.misfit.lateral === 0;
  return [
    "free",
    "single point",
    ...(own.socket === null ? [] : (["single point, socket"] as const)),
    ...(pins === null ? [] : (["left aft pin"] as const)),
    ...(pins === null || mirrored ? [] : (["right aft pin"] as const)),
    ...(pins === null ? [] : (["three point", "three point, in clearance"] as const)),
  ];
}

/**
 * One state at an operating point: balance, linear model, modes.
 *
 * @param inputs pair as physics arguments
 * @param own    settings of this part
 * @param at     operating point
 * @param state  who holds the aircraft
 */
export function stateModel(inputs: HoldInputs, own: StateInputs, at: Operating, state: AttachmentState): StateModel {
  if (state === "free") return freeModel(inputs, at);
  if (state === "single point" || state === "single point, socket") return singleModel(inputs, own, at, state);
  const pins = own.pins!;
  const open = state === "three point, in clearance";
  const attached = attachedPair({
    pair: settingsAt(inputs, at),
    pitch: pins.pitch(at.boomAngleDown),
    elevator: open ? "pins unloaded" : own.elevator,
    pins: pinsAt(pins, at, LATCHED[state]!, open ? "open" : "closed"),
    ...(own.socket === null ? {} : { socket: own.socket.linear }),
  });
  const trimmed = attached.outcome === "trimmed";
  const { attitude, elevator } = attached;
  const modes = trimmed ? modesAt(inputs, at, attached.motion, attached.state) : [];
  return { state, trimmed, attitude, elevator, attached, modes };
}

/** Pins of the aircraft as links: in contact, without clearance or with it, or free inside it. */
export function pinsAt(
  own: PinSettings,
  at: Operating,
  names: readonly ("left" | "right")[],
  contact: "closed" | "open" | "with clearance",
): AttachedPin[] {
  const { cg, properties } = at.mass;
  return names.map((name) => {
    const pin = armFromStation(cg, own[name]);
    const side = name === "left" ? -1 : 1;
    const [c, s] = [Math.cos(at.boomAngleDown), Math.sin(at.boomAngleDown)];
    const band = (key: "along" | "lateral", n: readonly [number, number, number]) => {
      const k = contact === "open" ? 0 : own.stiffness[key];
      const damping = 2 * own.structuralDamping * Math.sqrt(k * hookedMass(properties, pin, 0, n));
      return { stiffness: k, damping, clearance: contact === "with clearance" ? own.clearance[key] : 0 };
    };
    return {
      name,
      pin,
      root: [own.root.forward, own[name].BL, own.root.down] as const,
      along: band("along", [-c, 0, s]),
      lateral: band("lateral", [0, 1, 0]),
      misfit: {
        along: name === "left" ? own.misfit.along : 0,
        lateral: 0.5 * side * own.misfit.lateral,
      },
    };
  });
}

/** Modes of a pair at rest, with the strain of its links. */
export function modesAt(inputs: HoldInputs, at: Operating, motion: PairMotion, state: Float64Array): PairMode[] {
  const linear = linearise(motion, state);
  return planeModes(linear.matrix, linear.size, namesOf(linear), energyAt(inputs, at, motion, linear));
}

/** As `planeModes` wants it: the snubber travel has no name of its own, and the size is that of the names. */
export function namesOf(linear: ReturnType<typeof linearise>): ReturnType<typeof linearise> {
  const names = linear.names.filter((name) => name !== "snubber travel");
  return { ...linear, names, size: names.length };
}

/** Energies of a state; call after the motion was evaluated at rest, so that the links see it. */
export function energyAt(
  inputs: HoldInputs,
  at: Operating,
  motion: PairMotion,
  linear: ReturnType<typeof linearise>,
): EnergyModel {
  const { boom } = inputs;
  const tip = boom.tip.at(at.boomAngleDown);
  const hasState = motion.settings.boom?.stateCount === 1;
  const path = motion.settings.boom?.path;
  const bending = path?.kind === "elastic" ? path.stiffness : at.bending;
  const links = (motion.linkLoads?.links ?? []).flatMap((link) =>
    link.springs(motion.linkLoads!.view).map(({ stiffness, slope }) => {
      const full = new Float64Array(9);
      full.set(slope);
      return { stiffness, slope: full };
    }),
  );
  return {
    mass: at.mass.properties,
    tipMass: motion.settings.boom === undefined ? 0 : tip.effectiveTipMass,
    basis: linear.basis,
    coordinates: linear.coordinates,
    ...(motion.settings.boom === undefined
      ? {}
      : {
          boom: {
            angleDown: at.boomAngleDown,
            length: boom.length,
            axial: tip.axial,
            lateral: tip.lateral,
            bending,
            accumulator: at.accumulator,
            snubberState: hasState ? 2 * linear.coordinates : -1,
          },
        }),
    links,
  };
}

function freeModel(inputs: HoldInputs, at: Operating): StateModel {
  const { airloads, mass, air } = settingsAt(inputs, at);
  const trim = trimFree({ airloads, mass: mass.mass, ...air });
  const motion = new PairMotion({
    ...{ mass, airloads, trim: trim.controls, law: inputs.law },
    environment: uniformAir(air),
    attachment: "free",
  });
  const state = new Float64Array(motion.stateCount);
  quaternionFromEuler(0, trim.alpha, 0, state, 3);
  const trimmed = trim.outcome === "trimmed";
  return {
    ...{ state: "free" as const, trimmed, attitude: [0, trim.alpha, 0] as const },
    ...{ elevator: trim.controls.elevator, attached: null },
    modes: trimmed ? modesAt(inputs, at, motion, state) : [],
  };
}

function singleModel(
  inputs: HoldInputs,
  own: StateInputs,
  at: Operating,
  state: "single point" | "single point, socket",
): StateModel {
  const plain = pairAt(inputs, at);
  const turning = state === "single point" ? undefined : own.socket!.linear;
  const pair =
    turning === undefined
      ? plain
      : pairOnTrim(plain.settings, plain.trim, undefined, (rest, tip) => socketLinks(turning, rest, tip));
  const trimmed = pair.trim.outcome === "trimmed";
  return {
    ...{ state, trimmed, attitude: [0, pair.trim.alpha, 0] as const },
    ...{ elevator: pair.trim.controls.elevator, attached: null },
    modes: trimmed ? modesAt(inputs, at, pair.motion, pair.state) : [],
  };
}
