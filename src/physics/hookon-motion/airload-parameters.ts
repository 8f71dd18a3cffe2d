import { DomainError } from "../../math/errors.ts";
import {
  type AirloadModel,
  DerivativeModel,
  type DerivativeSet,
  loadPerThrust,
  localDerivatives,
  TableModel,
} from "../airloads/index.ts";
import {
  P_ALPHA0,
  P_AREA,
  P_CHORD,
  P_DRAG,
  P_LIFT,
  P_PITCH,
  P_REFERENCE,
  P_ROLL,
  P_SIDE,
  P_SPAN,
  P_STABILITY_MOMENTS,
  P_THRUST,
  P_WIND_SIDE,
  P_YAW,
} from "./parameter-layout.ts";
import type { HookonSettings } from "./types.ts";

/** Derivatives that stand for a model of airloads, and what that leaves out. */
export interface MotionDerivatives {
  readonly set: DerivativeSet;
  readonly assumptions: readonly string[];
}

/**
 * Derivatives with which the motion flies: those of a derivative model as they are; tables by their slopes at trim.
 *
 * @param model   a `DerivativeModel` or `TableModel`
 * @param flight  trim and air
 * @throws {DomainError} for a model that has no coefficients
 * @source airloads README eq. 14
 * @verified airload-parameters.test.ts
 */
export function motionDerivatives(
  model: AirloadModel,
  { trim, air }: Pick<HookonSettings, "trim" | "air">,
): MotionDerivatives {
  if (!(model instanceof DerivativeModel)) {
    throw new DomainError("airloads of the hook-on motion", model.constructor.name, "derivatives or tables");
  }
  if (!(model instanceof TableModel)) return { set: model.set, assumptions: [] };
  const at = {
    u: air.trueAirspeed * Math.cos(trim.alpha),
    v: 0,
    w: air.trueAirspeed * Math.sin(trim.alpha),
    ...{ p: 0, q: 0, r: 0, density: air.density, soundSpeed: air.soundSpeed },
  };
  const d = localDerivatives(model, at, trim.controls);
  const { elevator } = trim.controls;
  const rates = model.rateDerivatives;
  const { lift, pitch, side, roll, yaw } = rates;
  const set: DerivativeSet = {
    ...model.set,
    referenceAlpha: trim.alpha,
    lift: { atReference: d.CL - d.CLelevator * elevator, alpha: d.CLalpha, ...lift, elevator: d.CLelevator },
    drag: { kind: "linear", atReference: d.CD, alpha: d.CDalpha, elevator: 0 },
    pitch: { atReference: d.Cm - d.Cmelevator * elevator, alpha: d.Cmalpha, ...pitch, elevator: d.Cmelevator },
    side: { beta: d.CYbeta, ...side, aileron: d.CYaileron, rudder: d.CYrudder },
    roll: { beta: d.Clbeta, ...roll, aileron: d.Claileron, rudder: d.Clrudder },
    yaw: { beta: d.Cnbeta, ...yaw, aileron: d.Cnaileron, rudder: d.Cnrudder },
  };
  return {
    set,
    assumptions: [
      "Airloads of the hook-on are the slopes of the tables at trim: no stall, no change with Mach number or with the place near the carrier",
    ],
  };
}

/** Writes the airload part of the parameters. */
export function writeAirloads(set: DerivativeSet, P: Float64Array): void {
  const { lift, pitch, drag, side, roll, yaw } = set;
  P[P_AREA] = set.area;
  P[P_SPAN] = set.span;
  P[P_CHORD] = set.chord;
  P[P_STABILITY_MOMENTS] = set.axes.moments === "stability" ? 1 : 0;
  P[P_WIND_SIDE] = set.axes.sideForce === "wind" ? 1 : 0;
  P.set(set.referencePoint, P_REFERENCE);
  P[P_ALPHA0] = set.referenceAlpha;
  P.set([lift.atReference, lift.alpha, lift.elevator, lift.pitchRate, lift.alphaRate], P_LIFT);
  P.set([pitch.atReference, pitch.alpha, pitch.elevator, pitch.pitchRate, pitch.alphaRate], P_PITCH);
  const aspectRatio = (set.span * set.span) / set.area;
  P.set(
    drag.kind === "parabolic"
      ? [drag.zeroLift, 1 / (Math.PI * aspectRatio * drag.efficiency), 0, drag.elevator]
      : [drag.atReference, 0, drag.alpha, drag.elevator],
    P_DRAG,
  );
  P.set([side.beta, side.rollRate, side.yawRate, side.aileron, side.rudder], P_SIDE);
  P.set([roll.beta, roll.rollRate, roll.yawRate, roll.aileron, roll.rudder], P_ROLL);
  P.set([yaw.beta, yaw.rollRate, yaw.yawRate, yaw.aileron, yaw.rudder], P_YAW);
  P.set(loadPerThrust(set.thrust.direction, set.thrust.point), P_THRUST);
}
