import { type HookedPair, STANDARD_GRAVITY } from "../../physics/bodies/index.ts";
import { dominantMotion, MOTIONS, type PairMode, SPRINGS } from "../../physics/modes/index.ts";
import type { HoldInputs } from "./inputs.ts";
import { airOf, type Operating } from "./operating.ts";
import { PointModel } from "./stability.ts";
import type { HoldPoint, HoldTrim, Mode } from "./types.ts";

const DEGREE = Math.PI / 180;

/** Full result of one operating point: trim, every mode, and what nature refuses (no trim, stalled). */
export function holdPoint(inputs: HoldInputs, at: Operating, id: string): HoldPoint {
  const model = new PointModel(inputs, at);
  const air = airOf(at);
  const trim = model.trimmed ? describeTrim(inputs, at, model.pair) : null;
  const outcome = trim === null ? "no trim" : trim.stallMargin < 0 ? "stalled" : "trimmed";
  return {
    id,
    condition: at.condition,
    mass: at.mass.name,
    airspeed_m_s_EAS: air.equivalentAirspeed,
    airspeed_m_s_TAS: air.trueAirspeed,
    altitude_m: at.altitude,
    density_kg_m3: air.density,
    boomAngle_deg: at.boomAngleDown / DEGREE,
    weightShare_1: at.weightShare,
    bendingStiffness_N_m: at.bending,
    accumulatorStiffness_N_m: at.accumulator,
    snubberRate_N_s_m: at.snubber,
    outcome,
    trim,
    modes: trim === null ? [] : describeModes(model.modes()),
  };
}

function describeTrim(inputs: HoldInputs, at: Operating, pair: HookedPair): HoldTrim {
  const { trim, tipLoad } = pair;
  const air = airOf(at);
  const [forward, , down] = trim.f_onV_byTip_H;
  const weight = at.mass.properties.mass * STANDARD_GRAVITY;
  const pressureArea = 0.5 * air.density * air.trueAirspeed ** 2 * inputs.carried.derivatives.area;
  const lift = weight + down;
  const compliance = 1 / at.bending + 1 / at.accumulator;
  const unloaded = at.boomAngleDown - (tipLoad.tangential * compliance) / inputs.boom.length;
  const liftCoefficient = lift / pressureArea;
  return {
    alpha_deg: trim.alpha / DEGREE,
    elevator_deg: trim.controls.elevator / DEGREE,
    aileron_deg: trim.controls.aileron / DEGREE,
    rudder_deg: trim.controls.rudder / DEGREE,
    towLoad_N: forward,
    lift_N: lift,
    supportLoad_N: -down,
    tipAxialLoad_N: tipLoad.tension,
    tipTangentialLoad_N: tipLoad.tangential,
    jackLoad_N: tipLoad.tangential * inputs.tipPerJack(at.boomAngleDown),
    unloadedBoomAngle_deg: unloaded / DEGREE,
    liftCoefficient,
    stallMargin: 1 - liftCoefficient / inputs.carried.maximumLift,
  };
}

/** Modes as the result document carries them, longitudinal first, by rising frequency, with unique names. */
export function describeModes(modes: readonly PairMode[]): Mode[] {
  const order = (mode: PairMode): number[] => [
    mode.plane === "longitudinal" ? 0 : 1,
    mode.class === "structural" ? 1 : 0,
    Math.hypot(mode.real, mode.imag),
  ];
  const sorted = [...modes].sort((a, b) => {
    const [p, q] = [order(a), order(b)];
    return p[0] - q[0] || p[1] - q[1] || p[2] - q[2];
  });
  const base = sorted.map((mode) => dominantMotion(mode));
  return sorted.map((mode, i) => {
    const same = base.filter((other) => other.name === base[i].name).length;
    const number = base.slice(0, i + 1).filter((other) => other.name === base[i].name).length;
    return describeMode(mode, same > 1 ? `${base[i].name} ${number}` : base[i].name, base[i].share);
  });
}

const BENDING: ReadonlySet<string> = new Set(["boom bending", "boom motions"]);

function describeMode(mode: PairMode, name: string, share: number): Mode {
  const { real, imag } = mode;
  // a boom without bending motions has no share in them
  const shares = (labels: readonly string[], values: Float64Array): Record<string, number> =>
    Object.fromEntries(
      labels
        .map((label, i) => [label, values[i]])
        .filter(([label, value]) => value !== 0 || !BENDING.has(label as string)),
    );
  return {
    name,
    share,
    class: mode.class,
    plane: mode.plane,
    real_1_s: real,
    imag_rad_s: imag,
    frequency_Hz: imag / (2 * Math.PI),
    dampingRatio: dampingRatio(real, imag),
    timeToHalf_s: real < 0 ? -Math.LN2 / real : null,
    timeToDouble_s: real > 0 ? Math.LN2 / real : null,
    cyclesToHalf: real < 0 && imag > 0 ? (Math.LN2 * imag) / (2 * Math.PI * -real) : null,
    energy: shares(MOTIONS, mode.motion),
    strain: shares(SPRINGS, mode.strain),
  };
}

/** ζ = −real/|λ|; ±1 for a real root. */
export function dampingRatio(real: number, imag: number): number {
  const size = Math.hypot(real, imag);
  return size > 0 ? -real / size : 0;
}
