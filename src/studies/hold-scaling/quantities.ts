import type { Dimension, Similitude } from "../../physics/similitude/index.ts";
import type { HoldInputs, HoldPoint, MassState } from "../hold/index.ts";
import type { ScaledQuantity } from "./types.ts";

const LENGTH: Dimension = { mass: 0, length: 1, time: 0 };
const AREA: Dimension = { mass: 0, length: 2, time: 0 };
const MASS: Dimension = { mass: 1, length: 0, time: 0 };
const INERTIA: Dimension = { mass: 1, length: 2, time: 0 };
const STIFFNESS: Dimension = { mass: 1, length: 0, time: -2 };
const BLEED: Dimension = { mass: 1, length: 0, time: -1 };
const ORIFICE: Dimension = { mass: 1, length: -1, time: 0 };
const SPEED: Dimension = { mass: 0, length: 1, time: -1 };
const FORCE: Dimension = { mass: 1, length: 1, time: -2 };
const TIME: Dimension = { mass: 0, length: 0, time: 1 };

/** Coefficients of the snubber at the tip. */
export interface SnubberAtTip {
  readonly C1: number;
  readonly C2: number;
}

/** What a model of one operating point must have, quantity by quantity. */
export function modelQuantities(
  inputs: HoldInputs,
  point: HoldPoint,
  mass: MassState,
  snubber: SnubberAtTip,
  like: Similitude,
): ScaledQuantity[] {
  const { carried, boom } = inputs;
  const tip = boom.tip.at((point.boomAngle_deg * Math.PI) / 180);
  const { properties } = mass;
  const row = (name: string, unit: string, full: number, of: Dimension): ScaledQuantity => {
    const factor = like.factor(of);
    return { name, unit, full, factor_1: factor, model: full * factor };
  };
  const forward = mass.cg.FS - carried.probe.FS;
  const above = carried.probe.WL - mass.cg.WL;
  return [
    row("wing area", "m^2", carried.derivatives.area, AREA),
    row("wing span", "m", carried.derivatives.span, LENGTH),
    row("reference chord", "m", carried.derivatives.chord, LENGTH),
    row("probe tip forward of the c.g.", "m", forward, LENGTH),
    row("probe tip above the c.g.", "m", above, LENGTH),
    row("mass", "kg", properties.mass, MASS),
    row("rolling inertia Ixx", "kg m^2", properties.Ixx, INERTIA),
    row("pitching inertia Iyy", "kg m^2", properties.Iyy, INERTIA),
    row("yawing inertia Izz", "kg m^2", properties.Izz, INERTIA),
    row("product of inertia Ixz", "kg m^2", properties.Ixz, INERTIA),
    row("boom length", "m", boom.length, LENGTH),
    row("bending stiffness at the tip", "N/m", point.bendingStiffness_N_m, STIFFNESS),
    row("axial stiffness at the tip", "N/m", tip.axial, STIFFNESS),
    row("lateral stiffness at the tip", "N/m", tip.lateral, STIFFNESS),
    row("accumulator stiffness at the tip", "N/m", point.accumulatorStiffness_N_m, STIFFNESS),
    row("snubber rate at the tip", "N*s/m", point.snubberRate_N_s_m, BLEED),
    row("bleed coefficient C1 at the tip", "N*s/m", snubber.C1, BLEED),
    row("orifice coefficient C2 at the tip", "N*s^2/m^2", snubber.C2, ORIFICE),
    row("effective tip mass", "kg", tip.effectiveTipMass, MASS),
    row("true airspeed", "m/s", point.airspeed_m_s_TAS, SPEED),
    row("time", "s", 1, TIME),
    ...(point.trim === null ? [] : [row("tow load", "N", point.trim.towLoad_N, FORCE)]),
  ];
}
