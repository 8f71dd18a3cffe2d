import { rotationMatrix } from "../../math/rotation/index.ts";
import { STANDARD_GRAVITY } from "../../physics/bodies/index.ts";
import {
  coordinateAt,
  driveForce,
  type LoadCase,
  type PointRef,
  pointPosition,
  type Stroke,
  traceStroke,
  transmissionAngle,
  transmissionAt,
} from "../../physics/linkage/index.ts";
import { DEGREE, toAxes, toStation } from "./frames.ts";
import { CARRIED, type FitInputs } from "./inputs.ts";
import { JACK, type Mechanism } from "./mechanism.ts";
import type { JackLoad, StrokeEventResult, StrokePoint } from "./types.ts";

/** Largest step of the boom angle between points of the result [rad]. */
const STEP = DEGREE;
/** Solved poses from one point of the result to the next: the nodes of the motion tables. */
const WITHIN = 6;
const SHARES: readonly number[] = [0.2, 1];

/** The stroke as it was traced. */
export interface TracedStroke {
  readonly stroke: Stroke;
  /** Boom angles of the result's points, as far as the stroke was reached [rad]. */
  readonly angles: readonly number[];
  /** Index of each point in `stroke.states`. */
  readonly indices: readonly number[];
  /** Solved poses, the nodes of the motion tables: all up to the last point. */
  readonly poses: Stroke["poses"];
}

/**
 * Traces the mechanism from stowed to extended, driven by the boom angle.
 *
 * @param inputs     mechanism
 * @param mechanism  its linkage
 * @source `physics/linkage`
 * @verified stroke.test.ts
 */
export function traceMechanism(inputs: FitInputs, mechanism: Mechanism): TracedStroke {
  const { stowed, extended } = inputs.linkage.stroke;
  const intervals = Math.max(1, Math.ceil(Math.abs(extended - stowed) / STEP - 1e-9));
  const count = intervals * WITHIN;
  const values = Array.from({ length: count + 1 }, (_, i) => stowed + (i / count) * (extended - stowed));
  const stroke = traceStroke(mechanism.linkage, { along: mechanism.boomHinge, values, tip: mechanism.tip });
  const reached = Math.max(0, Math.floor((stroke.values.length - 1) / WITHIN));
  const indices = stroke.values.length === 0 ? [] : Array.from({ length: reached + 1 }, (_, i) => i * WITHIN);
  return {
    stroke,
    indices,
    angles: indices.map((index) => stroke.values[index]),
    poses: stroke.poses.slice(0, reached * WITHIN + 1),
  };
}

/** Points of the result without the attitude error. */
export function strokePoints(inputs: FitInputs, mechanism: Mechanism, traced: TracedStroke): StrokePoint[] {
  const first = traced.stroke.states[0];
  const start = first === undefined ? 0 : coordinateAt(mechanism.linkage, first, JACK);
  return traced.indices.map((index) => strokePoint(inputs, mechanism, traced.stroke, index, start));
}

function strokePoint(
  inputs: FitInputs,
  mechanism: Mechanism,
  stroke: Stroke,
  index: number,
  startLength: number,
): StrokePoint {
  const { linkage, tip } = mechanism;
  const state = stroke.states[index];
  const pose = stroke.poses[index];
  const transmission = transmissionAt(linkage, state, JACK, tip);
  const moves = transmission.outcome === "moves";
  const jackAngle = moves ? transmission.jackTransmissionAngle / DEGREE : 0;
  const couplerAngle = couplerAngleAt(mechanism, state);
  const length = coordinateAt(linkage, state, JACK);
  const carried = linkage.bodies.indexOf(CARRIED);
  const rotation = new Float64Array(9);
  rotationMatrix(pose.attitudes, 4 * carried, rotation);
  return {
    boomAngle_deg: stroke.values[index] / DEGREE,
    jackLength_m: length,
    jackTravel_m: length - startLength,
    tipPerJack_1: moves ? transmission.tipTravelPerJackTravel : null,
    transmissionAngle_deg: Math.min(jackAngle, couplerAngle ?? 90),
    jackTransmissionAngle_deg: jackAngle,
    couplerTransmissionAngle_deg: couplerAngle,
    jackLoads: jackLoads(inputs, mechanism, state),
    poses: linkage.bodies.map((body, at) => ({
      body,
      position_m: toStation(pose.positions, 3 * at),
      attitude: [0, 1, 2, 3].map((k) => pose.attitudes[4 * at + k] + 0) as [number, number, number, number],
    })),
    // Nose up raises the body's x axis: −z of its direction is the sine of the pitch.
    carriedPitch_deg: Math.atan2(0 - rotation[6], rotation[0]) / DEGREE + 0,
    socket_m: toStation(pointPosition(linkage, state, tip)),
    cg: inputs.masses.map(({ name, cg }) => ({
      mass: name,
      at_m: toStation(pointPosition(linkage, state, { body: CARRIED, at: toAxes(cg) })),
    })),
    attitudeError_deg: null,
  };
}

/** Between carried aircraft and link behind it [deg]; `null` at single point. */
function couplerAngleAt(mechanism: Mechanism, state: Float64Array): number | null {
  const { linkage, coupler, tip } = mechanism;
  if (coupler === null) return null;
  const pin: PointRef = { joint: coupler.pin, on: "first" };
  return transmissionAngle(linkage, state, tip, pin, { joint: coupler.root, on: "first" }) / DEGREE;
}

/** Force of the jack by virtual work, for each mass with each share of its weight on the mechanism; the boom's own weight in all. */
export function jackLoads(inputs: FitInputs, mechanism: Mechanism, state: Float64Array): JackLoad[] {
  const own = ownWeight(inputs, mechanism);
  return inputs.masses.flatMap(({ name, mass, cg }) =>
    SHARES.map((share): JackLoad => {
      const loadCase: LoadCase = {
        masses: [{ body: CARRIED, mass: share * mass, centre: toAxes(cg) }, ...own],
        gravity: [0, 0, STANDARD_GRAVITY],
      };
      const load = driveForce(mechanism.linkage, state, JACK, loadCase);
      return { mass: name, weightShare_1: share, load_N: load ?? null };
    }),
  );
}

/** The boom's own mass on the line from hinge to socket. */
function ownWeight(inputs: FitInputs, mechanism: Mechanism): NonNullable<LoadCase["masses"]> {
  const { ownWeight: own, boomLength, drawn } = inputs.linkage;
  if (own === null) return [];
  const back = boomLength - own.centreFromHinge;
  const [x, y, z] = mechanism.socketDrawn;
  const [c, s] = [Math.cos(drawn.boomAngle), Math.sin(drawn.boomAngle)];
  return [{ body: mechanism.boom, mass: own.mass, centre: [x + back * c, y, z - back * s] }];
}

/** What happened along the stroke: where it ended before its end, crossings, dead points. */
export function strokeEvents(traced: TracedStroke): StrokeEventResult[] {
  const { stroke } = traced;
  const events = stroke.events.map(
    ({ kind, at, joint }): StrokeEventResult => ({ kind, boomAngle_deg: at / DEGREE, joint: joint ?? null }),
  );
  if (stroke.outcome === "dead point" || stroke.outcome === "lost") {
    events.push({ kind: stroke.outcome, boomAngle_deg: stroke.reached / DEGREE, joint: null });
  }
  return events;
}
