import type { Pair } from "../../inputs/index.ts";
import type { DerivativeSet } from "../../physics/airloads/index.ts";
import { armFromStation, type MassProperties } from "../../physics/bodies/index.ts";
import type { FlowTable } from "../../physics/flowfield/index.ts";
import { stationPoint } from "../hold/index.ts";

type Dynamics = NonNullable<Pair["carrier"]["dynamics"]>;

/** The carrier as physics arguments; derivatives lack lift and pitching moment at trim, which the balance gives. */
export interface CarrierBody {
  readonly properties: MassProperties;
  readonly hinge: readonly [number, number, number];
  readonly set: DerivativeSet;
}

/** Mass, hinge and derivatives of the carrier, or `null` when the pair gives none. */
export function readCarrierBody(pair: Pair): CarrierBody | null {
  const { dynamics } = pair.carrier;
  if (dynamics === undefined) return null;
  const { Ixx, Iyy, Izz, Ixz, Ixy, Iyz } = dynamics.inertia;
  return {
    properties: {
      ...{ mass: dynamics.mass.si, Ixx: Ixx.si, Iyy: Iyy.si, Izz: Izz.si, Ixz: Ixz.si },
      ...{ Ixy: Ixy?.si ?? 0, Iyz: Iyz?.si ?? 0 },
    },
    hinge: armFromStation(stationPoint(dynamics.cg), stationPoint(pair.mechanism.boom.hinge)),
    set: readSet(dynamics),
  };
}

function readSet({ reference, derivatives: given }: Dynamics): DerivativeSet {
  const fixed = { aileron: 0, rudder: 0 };
  const { lift, pitch, side, roll, yaw, drag, axes } = given;
  return {
    ...{ area: reference.area.si, span: reference.span.si, chord: reference.chord.si },
    axes: { moments: axes.moments, sideForce: axes.sideForce },
    ...{ referencePoint: [0, 0, 0], referenceAlpha: 0 },
    lift: {
      ...{ atReference: 0, alpha: lift.CLalpha.si, pitchRate: lift.CLq.si, alphaRate: lift.CLalphadot.si },
      elevator: 0,
    },
    drag: { kind: "parabolic", zeroLift: drag.CD0.si, efficiency: drag.spanEfficiency.si, elevator: 0 },
    pitch: {
      ...{ atReference: 0, alpha: pitch.Cmalpha.si, pitchRate: pitch.Cmq.si, alphaRate: pitch.Cmalphadot.si },
      elevator: 0,
    },
    side: { beta: side.CYbeta.si, rollRate: side.CYp.si, yawRate: side.CYr.si, ...fixed },
    roll: { beta: roll.Clbeta.si, rollRate: roll.Clp.si, yawRate: roll.Clr.si, ...fixed },
    yaw: { beta: yaw.Cnbeta.si, rollRate: yaw.Cnp.si, yawRate: yaw.Cnr.si, ...fixed },
    thrust: { direction: [1, 0, 0], point: [0, 0, 0] },
  };
}

/** Flow under the carrier, or `null` when the pair gives none. */
export function readFlow(pair: Pair): FlowTable | null {
  const { flow } = pair.carrier;
  if (flow === undefined) return null;
  const { below, downwash, sidewash, pressureRatio } = flow.columns;
  return { below, downwash, sidewash, pressureRatio };
}
