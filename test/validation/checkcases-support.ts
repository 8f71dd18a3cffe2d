import type { Reference } from "../../reference/load.ts";
import { integrate } from "../../src/math/ode/index.ts";
import { eulerFromQuaternion, quaternionFromEuler, quaternionMultiply } from "../../src/math/rotation/index.ts";
import { type DerivativeModel, derivativeModel } from "../../src/physics/airloads/index.ts";
import { type Environment, type MassProperties, PairMotion } from "../../src/physics/bodies/index.ts";
import {
  cartesianFromGeodetic,
  type EarthFigure,
  type EarthSettings,
  geodeticFromCartesian,
  rotationFromLocal,
  turningEarth,
} from "../../src/physics/earth/index.ts";
import { controlsFixed } from "../../src/physics/pilot/index.ts";

export interface Vehicle {
  readonly mass: MassProperties;
  readonly airloads: DerivativeModel;
}

/** A case as it starts over latitude 0, longitude 0. */
export interface CheckCase {
  readonly vehicle: Vehicle;
  readonly earth: EarthSettings;
  /** The air's rotation as the damping sees it; false for damping by inertial rates. */
  readonly airTurns?: boolean;
  readonly altitude: number;
  /** North, east, down over the ground [m/s]. */
  readonly velocity: readonly [number, number, number];
  readonly heading: number;
  /** Body rates relative to the stars [rad/s]. */
  readonly rates: readonly [number, number, number];
}

/** What the published rows hold, in SI and radians; rates relative to the stars, in degrees nowhere. */
export type Motion = Readonly<
  Record<
    | "altitude"
    | "latitude"
    | "longitude"
    | "vN"
    | "vE"
    | "vD"
    | "roll"
    | "pitch"
    | "yaw"
    | "p"
    | "q"
    | "r"
    | "gravity"
    | "density"
    | "sound speed"
    | "mach"
    | "dynamic pressure",
    number
  >
>;

/** Sphere or brick: drag and rate damping alone, rates in body axes. */
export function vehicle(reference: Reference, kind: "sphere" | "brick", drag: boolean, damping: boolean): Vehicle {
  const si = (name: string): number => reference.quantity(name).si;
  const sphere = kind === "sphere";
  const inertia = ["Ixx", "Iyy", "Izz"].map((axis) => (sphere ? si("sphere inertia") : si(`brick ${axis}`)));
  const perRate = damping ? si("brick damping") : 0;
  const plane = { atReference: 0, alpha: 0, pitchRate: 0, alphaRate: 0, elevator: 0 };
  const lateral = { beta: 0, rollRate: 0, yawRate: 0, aileron: 0, rudder: 0 };
  return {
    mass: { mass: si(`${kind} mass`), Ixx: inertia[0], Iyy: inertia[1], Izz: inertia[2], Ixy: 0, Ixz: 0, Iyz: 0 },
    airloads: derivativeModel({
      area: si(`${kind} area`),
      span: sphere ? 1 : si("brick span"),
      chord: sphere ? 1 : si("brick chord"),
      axes: { moments: "body", sideForce: "wind" },
      referencePoint: [0, 0, 0],
      referenceAlpha: 0,
      lift: plane,
      drag: { kind: "linear", atReference: drag ? si("sphere CD") : 0, alpha: 0, elevator: 0 },
      pitch: { ...plane, pitchRate: perRate },
      side: lateral,
      roll: { ...lateral, rollRate: perRate },
      yaw: { ...lateral, yawRate: perRate },
      thrust: { direction: [1, 0, 0], point: [0, 0, 0] },
    }),
  };
}

function environmentOf(given: CheckCase): Environment {
  const environment = turningEarth(given.earth);
  if (given.airTurns ?? true) return environment;
  return {
    evaluate(state, out, time) {
      environment.evaluate(state, out, time);
      out.airRotation.fill(0);
    },
  };
}

function startOf(given: CheckCase): Float64Array {
  const state = new Float64Array(13);
  const position = new Float64Array(3);
  cartesianFromGeodetic(given.earth.figure, 0, 0, given.altitude, position);
  state.set(position);
  attitudeOfLocal(0, 0, given.heading, state, 3);
  const local = new Float64Array(9);
  rotationFromLocal(0, 0, local);
  const [north, east, down] = given.velocity;
  for (let i = 0; i < 3; i++) state[7 + i] = local[3 * i] * north + local[3 * i + 1] * east + local[3 * i + 2] * down;
  state[7] -= given.earth.rotationRate * state[1];
  state[8] += given.earth.rotationRate * state[0];
  state.set(given.rates, 10);
  return state;
}

/** Quaternion, body to H, of a level body over a place: local axes turned by the heading. */
function attitudeOfLocal(
  latitude: number,
  longitude: number,
  heading: number,
  out: Float64Array,
  offset: number,
): void {
  const local = new Float64Array(4);
  const turn = new Float64Array(4);
  quaternionFromEuler(longitude, -latitude - Math.PI / 2, 0, local, 0);
  quaternionFromEuler(heading, 0, 0, turn, 0);
  quaternionMultiply(local, 0, turn, 0, out, offset);
}

function motionOf(given: CheckCase, environment: Environment, time: number, state: Float64Array): Motion {
  const figure: EarthFigure = given.earth.figure;
  const geodetic = new Float64Array(3);
  geodeticFromCartesian(figure, state, geodetic);
  const [latitude, longitude, altitude] = geodetic;
  const spin = given.earth.rotationRate;
  const local = new Float64Array(9);
  rotationFromLocal(latitude, longitude, local);
  const overGround = [state[7] + spin * state[1], state[8] - spin * state[0], state[9]];
  const ned = [0, 1, 2].map((j) => [0, 1, 2].reduce((sum, i) => sum + local[3 * i + j] * overGround[i], 0));
  const attitude = new Float64Array(4);
  attitudeOfLocal(latitude, longitude, 0, attitude, 0);
  for (let i = 1; i < 4; i++) attitude[i] *= -1;
  quaternionMultiply(attitude, 0, state, 3, attitude, 0);
  const euler = new Float64Array(3);
  eulerFromQuaternion(attitude, 0, euler);
  const vector = () => new Float64Array(3);
  const [gravity, airVelocity, airRotation, airAcceleration] = [vector(), vector(), vector(), vector()];
  const around = { gravity, airVelocity, airRotation, airAcceleration, density: 0, soundSpeed: 0 };
  environment.evaluate(state, around, time);
  const airspeed = Math.hypot(...[0, 1, 2].map((i) => state[7 + i] - around.airVelocity[i]));
  return {
    altitude,
    latitude,
    longitude: longitude - spin * time,
    vN: ned[0],
    vE: ned[1],
    vD: ned[2],
    roll: euler[2],
    pitch: euler[1],
    yaw: euler[0],
    p: state[10],
    q: state[11],
    r: state[12],
    gravity: Math.hypot(...around.gravity),
    density: around.density,
    "sound speed": around.soundSpeed,
    mach: airspeed / around.soundSpeed,
    "dynamic pressure": 0.5 * around.density * airspeed * airspeed,
  };
}

/** Integrates a case through the equations of motion and returns the motion at each time [s], rising. */
export function fly(given: CheckCase, times: readonly number[]): Motion[] {
  const environment = environmentOf(given);
  const motion = new PairMotion({
    mass: given.vehicle.mass,
    airloads: given.vehicle.airloads,
    trim: { elevator: 0, aileron: 0, rudder: 0, thrust: 0 },
    law: controlsFixed,
    environment,
    attachment: "free",
  });
  let from = 0;
  let y0: Float64Array = startOf(given);
  return times.map((to) => {
    if (to > from) {
      // Positions of 6e6 m to 1e-6 m, velocities to 1e-8 m/s, attitude and rates to 1e-12
      const absoluteTolerance = [1e-6, 1e-6, 1e-6, ...Array(4).fill(1e-12), 1e-8, 1e-8, 1e-8, ...Array(3).fill(1e-12)];
      const options = { relativeTolerance: 1e-13, absoluteTolerance, maxSteps: 200000 };
      const run = integrate({ derivative: motion.derivative, y0, from, to, ...options });
      if (run.outcome !== "reached") throw new Error(`the integration ended with "${run.outcome}" at ${run.t} s`);
      y0 = run.y.slice();
      from = to;
    }
    return motionOf(given, environment, to, y0);
  });
}
