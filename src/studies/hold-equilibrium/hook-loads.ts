import { STANDARD_GRAVITY, trimHooked } from "../../physics/bodies/index.ts";
import {
  airOf,
  atBoomAngle,
  equivalentAt,
  type HoldInputs,
  type Operating,
  type Range,
  settingsAt,
} from "../hold/index.ts";
import type { LoadCurve, LoadsAlong } from "./types.ts";

const DEGREE = Math.PI / 180;
const POINTS = 57;

/** What hangs on the hook at one operating point. */
export interface HookLoads {
  readonly tow: number;
  readonly support: number;
  readonly hook: number;
  readonly axial: number;
  readonly tangential: number;
  readonly jack: number;
  readonly alpha: number;
  readonly stallMargin: number;
}

/**
 * Loads on the hook from a force on the aircraft by the tip, forward and down, at an operating point.
 *
 *     along the boom: T = f_x·cos Γ − f_z·sin Γ;  normal: N = −(f_x·sin Γ + f_z·cos Γ) + own weight;  jack: N·i(Γ)      (README eq. 1–3)
 */
export function hookLoadsOf(
  inputs: HoldInputs,
  at: Operating,
  forward: number,
  down: number,
  alpha: number,
): HookLoads {
  const [c, s] = [Math.cos(at.boomAngleDown), Math.sin(at.boomAngleDown)];
  const { ownMass, ownCentre, length } = inputs.boom;
  const own = ((ownMass * ownCentre) / length) * STANDARD_GRAVITY * c;
  const tangential = own - (forward * s + down * c);
  const air = airOf(at);
  const lift = at.mass.properties.mass * STANDARD_GRAVITY + down;
  const pressureArea = 0.5 * air.density * air.trueAirspeed ** 2 * inputs.carried.derivatives.area;
  return {
    ...{ tow: forward, support: -down, hook: Math.hypot(forward, down) },
    ...{ axial: forward * c - down * s, tangential },
    jack: tangential * inputs.tipPerJack(at.boomAngleDown),
    alpha,
    stallMargin: 1 - lift / (pressureArea * inputs.carried.maximumLift),
  };
}

/** Loads on the hook in trim at an operating point; `null` when the aircraft does not trim. */
export function hookLoadsInTrim(inputs: HoldInputs, at: Operating): HookLoads | null {
  const settings = settingsAt(inputs, at);
  const trim = trimHooked({ airloads: settings.airloads, mass: settings.mass.mass, ...settings.air }, settings);
  if (trim.outcome !== "trimmed") return null;
  const [forward, , down] = trim.f_onV_byTip_H;
  return hookLoadsOf(inputs, at, forward, down, trim.alpha);
}

interface LoadPlan {
  readonly along: LoadsAlong;
  readonly axis: LoadCurve["axis"];
  readonly range: Range;
  readonly per: number;
  readonly own: number;
  readonly point: (value: number) => Operating;
}

function plans(inputs: HoldInputs, at: Operating, speeds: Range, thrust: Range | null): LoadPlan[] {
  const { sweeps } = inputs;
  const own = airOf(at).equivalentAirspeed;
  return [
    {
      ...{ along: "airspeed", axis: { label: "Airspeed, EAS", unit: "m/s" }, range: speeds, per: 1, own },
      point: (value) => ({ ...at, airspeed: { kind: "EAS", value } }),
    },
    {
      ...{ along: "boomAngle", axis: { label: "Boom angle under load, below horizontal", unit: "deg" } },
      ...{ range: sweeps.boomAngle, per: DEGREE, own: at.boomAngleDown },
      point: (value) => atBoomAngle(inputs, { ...at, boomAngleDown: value }),
    },
    {
      ...{ along: "weightShare", axis: { label: "Weight share on the trapeze", unit: "%" } },
      ...{ range: sweeps.weightShare, per: 0.01, own: at.weightShare },
      point: (value) => ({ ...at, weightShare: value }),
    },
    ...(thrust === null
      ? []
      : [
          {
            ...{
              along: "thrust",
              axis: { label: "Thrust, forward", unit: "kN" },
              range: thrust,
              per: 1e3,
              own: at.thrust,
            },
            point: (value: number): Operating => ({ ...at, thrust: value }),
          } satisfies LoadPlan,
        ]),
  ];
}

/** Loads on the hook in trim along airspeed, boom angle, weight share and, where the pair asks for it, thrust. */
export function loadCurves(inputs: HoldInputs, at: Operating, speeds: Range, thrust: Range | null): LoadCurve[] {
  return plans(inputs, at, speeds, thrust)
    .filter(({ range }) => range.to > range.from)
    .map((plan) => curveOf(inputs, at, plan));
}

/** Loads on the hook in trim along airspeed over the declared speed band, its ends included. */
export function bandCurve(inputs: HoldInputs, at: Operating, band: Range): LoadCurve {
  return curveOf(inputs, at, plans(inputs, at, band, null)[0]);
}

function curveOf(inputs: HoldInputs, at: Operating, { along, axis, range, per, own, point }: LoadPlan): LoadCurve {
  const values = Array.from({ length: POINTS }, (_, i) =>
    i === POINTS - 1 ? range.to : range.from + ((range.to - range.from) * i) / (POINTS - 1),
  );
  const loads = values.map((value) => hookLoadsInTrim(inputs, point(value)));
  const each = (read: (load: HookLoads) => number) => loads.map((load) => (load === null ? null : read(load)));
  return {
    ...{ condition: at.condition, mass: at.mass.name, along, axis },
    ...{ values: values.map((value) => value / per), at: own / per },
    towLoad_N: each(({ tow }) => tow),
    supportLoad_N: each(({ support }) => support),
    hookLoad_N: each(({ hook }) => hook),
    axialLoad_N: each(({ axial }) => axial),
    tangentialLoad_N: each(({ tangential }) => tangential),
    jackLoad_N: each(({ jack }) => jack),
    alpha_deg: each(({ alpha }) => alpha / DEGREE),
    stallMargin: each(({ stallMargin }) => stallMargin),
  };
}

/** Equivalent airspeeds [m/s] of the declared speed band. */
export function bandOf(inputs: HoldInputs, at: Operating): Range {
  return { from: equivalentAt(inputs.speedBand.from, at), to: equivalentAt(inputs.speedBand.to, at) };
}
