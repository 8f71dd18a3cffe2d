/** Bodies without air, for tests of mechanics alone: closed forms and conservation laws. */
import { createRk4Workspace, rk4Step } from "../../src/math/ode/index.ts";
import { quaternionFromEuler, rotateToParent, rotationMatrix } from "../../src/math/rotation/index.ts";
import type { AirloadModel } from "../../src/physics/airloads/index.ts";
import {
  type CarrierPort,
  type Environment,
  type MassProperties,
  PairMotion,
  STANDARD_GRAVITY,
  steadyCarrier,
} from "../../src/physics/bodies/index.ts";
import {
  type BoomMotions,
  BoomSprings,
  type BoomSpringsSettings,
  BoomVibration,
  boundTravel,
} from "../../src/physics/boom/index.ts";
import type { LinkPort } from "../../src/physics/links/index.ts";
import { controlsFixed } from "../../src/physics/pilot/index.ts";

export const noAir: AirloadModel = {
  evaluate(_air, _controls, out) {
    out.load.fill(0);
    out.perAcceleration.fill(0);
  },
};

/** Gravity along +z of H, or any other direction, and nothing else. */
export function vacuum(gravity: readonly [number, number, number] = [0, 0, STANDARD_GRAVITY]): Environment {
  return {
    evaluate(_state, out) {
      out.gravity.set(gravity);
      out.airVelocity.fill(0);
      out.airRotation.fill(0);
      out.density = 1;
      out.soundSpeed = 340;
    },
  };
}

const atZero = { elevator: 0, aileron: 0, rudder: 0, thrust: 0 };
const noBoom: BoomSpringsSettings = {
  geometry: { length: 5, angleDown: 0.9 },
  preload: { tension: 0, tangential: 0, lateral: 0 },
  axial: 0,
  axialDamping: 0,
  lateral: 0,
  lateralDamping: 0,
  tangential: { bending: 0, bendingDamping: 0, accumulator: 0, snubber: 0 },
  ownMass: 0,
  ownCentre: 0,
};

export interface VacuumPair {
  readonly mass: MassProperties;
  readonly probe: readonly [number, number, number];
  readonly tipMass?: number;
  readonly boom?: Partial<BoomSpringsSettings>;
  /** Bending motions of the boom and their damping ratio. */
  readonly motions?: BoomMotions;
  readonly motionDamping?: number;
  readonly carrier?: CarrierPort;
  readonly environment?: Environment;
  /** Pitch angle of the aircraft at rest [rad]. */
  readonly pitch?: number;
  readonly links?: readonly LinkPort[];
}

/** Aircraft on a boom without air, and the state in which the boom stands at its trim place and nothing moves. */
export function vacuumPair(pair: VacuumPair): { motion: PairMotion; state: Float64Array; boom: BoomSprings } {
  const settings = { ...noBoom, ...pair.boom };
  const { motions } = pair;
  const free = motions !== undefined && boundTravel(settings.tangential) === undefined;
  const boom = new BoomSprings(free ? { ...settings, inertialTravel: true } : settings);
  const own = { tipMass: pair.tipMass ?? 0, length: settings.geometry.length, damping: pair.motionDamping ?? 0 };
  const motion = new PairMotion({
    mass: pair.mass,
    airloads: noAir,
    trim: atZero,
    law: controlsFixed,
    environment: pair.environment ?? vacuum(),
    attachment: "single point",
    boom,
    ...(motions === undefined ? {} : { vibration: new BoomVibration(motions, settings.tangential, own) }),
    carrier: pair.carrier ?? steadyCarrier(),
    tipMass: pair.tipMass ?? 0,
    probe: pair.probe,
    ...(pair.links === undefined ? {} : { links: pair.links }),
  });
  const state = new Float64Array(motion.stateCount);
  quaternionFromEuler(0, pair.pitch ?? 0, 0, state, 3);
  state.set(boom.tipAtTrim(), motion.layout.tip);
  hangOnTip(motion, state);
  return { motion, state, boom };
}

/** Free aircraft without air, at rest at the origin. */
export function vacuumBody(mass: MassProperties, environment = vacuum()): { motion: PairMotion; state: Float64Array } {
  const motion = new PairMotion({
    mass,
    airloads: noAir,
    trim: atZero,
    law: controlsFixed,
    environment,
    attachment: "free",
  });
  const state = new Float64Array(motion.stateCount);
  state[3] = 1;
  return { motion, state };
}

/** Puts the aircraft where its probe meets the boom tip, at the tip's velocity; attitude and rates stay. */
export function hangOnTip(motion: PairMotion, state: Float64Array): void {
  const [px, py, pz] = motion.settings.probe!;
  const [p, q, r] = state.subarray(10, 13);
  const arm = Float64Array.of(px, py, pz);
  const swing = Float64Array.of(q * pz - r * py, r * px - p * pz, p * py - q * px);
  const R = new Float64Array(9);
  rotationMatrix(state, 3, R);
  rotateToParent(R, arm, 0, arm, 0);
  rotateToParent(R, swing, 0, swing, 0);
  const { tip } = motion.layout;
  for (let i = 0; i < 3; i++) {
    state[i] = state[tip + i] - arm[i];
    state[7 + i] = state[tip + 3 + i] - swing[i];
  }
}

/** Integrates with Runge–Kutta steps of order four and shows every state, the first included. */
export function walk(
  motion: PairMotion,
  start: Float64Array,
  step: number,
  steps: number,
  see: (state: Float64Array, index: number) => void,
): Float64Array {
  const state = start.slice();
  const workspace = createRk4Workspace(state.length);
  see(state, 0);
  for (let i = 1; i <= steps; i++) {
    rk4Step(motion.derivative, 0, state, step, state, workspace);
    see(state, i);
  }
  return state;
}
