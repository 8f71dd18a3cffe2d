import { kinematicViscosity } from "../../physics/hydraulics/index.ts";
import { type SnubberForceLaw, valveForce } from "../../physics/snubber/index.ts";
import {
  type HoldCondition,
  type HoldInputs,
  type HoldPartContext,
  type HoldPartOutcome,
  type Operating,
  operatingPoint,
  PointModel,
  worstDamping,
} from "../hold/index.ts";
import { agreementOf } from "./agreement.ts";
import { amplitudeCurve } from "./amplitude-curve.ts";
import { designMaps } from "./design-map.ts";
import { snubberFindings } from "./findings.ts";
import { bleedReynolds, lawAtJack } from "./hardware.ts";
import { rateIn } from "./nodding.ts";
import { noddingOf } from "./nodding-point.ts";
import { jackLoadOf, pathWith } from "./points.ts";
import { readSnubber, type SnubberInputs, TEMPERATURES, type TemperatureName } from "./settings.ts";
import { jackTravel, slowStroke } from "./slow-motion.ts";
import { failedStates } from "./states.ts";
import type { ForceCurve, SlowMotion, SnubberPoint, SnubberResult } from "./types.ts";

const ZERO = 273.15;

/**
 * The part `snubber` of `hold`: nodding, slow motion, failed states and the choice of coefficients with the snubber and the
 * accumulator as hardware.
 *
 * @returns `null` when the pair gives no `mechanism.hydraulics` or no `studies.hold.snubber`
 */
export function runSnubber(context: HoldPartContext): HoldPartOutcome<SnubberResult> | null {
  const { inputs, step } = context;
  const snubber = readSnubber(context.reads);
  if (snubber === null) return null;
  const masses = (condition: HoldCondition): Operating[] =>
    condition.masses.map((mass) => operatingPoint(inputs, condition, mass));
  step("nodding");
  const points = inputs.conditions.flatMap((condition) =>
    masses(condition).flatMap((at) => TEMPERATURES.flatMap((name) => pointAt(inputs, snubber, at, name))),
  );
  step("slow motion");
  const slow = TEMPERATURES.map((name) => slowMotion(inputs, snubber, name, points));
  step("failed states");
  const failed = inputs.conditions.flatMap((condition) =>
    masses(condition).flatMap((at) => failedStates(inputs, snubber, at)),
  );
  step("amplitudes");
  const amplitude = inputs.conditions.flatMap((condition) =>
    (["as built", "orifice alone"] as const).flatMap(
      (bleed) => amplitudeCurve(inputs, snubber, masses(condition), bleed) ?? [],
    ),
  );
  step("coefficients");
  const maps = inputs.conditions.flatMap((condition) => designMaps(inputs, snubber, masses(condition)));
  const result: SnubberResult = {
    agreement: agreementOf(inputs, snubber, points),
    points,
    amplitude,
    slow,
    force: forceCurves(snubber, slow),
    failed,
    maps,
  };
  return {
    result,
    findings: snubberFindings(context, snubber, result),
    limits: [],
    assumptions: inputs.boom.tip.motions > 0 ? [...ASSUMPTIONS, WITHOUT_BENDING] : ASSUMPTIONS,
    notAnalysed: NOT_ANALYSED,
    answers: ["snubber"],
  };
}

function pointAt(inputs: HoldInputs, snubber: SnubberInputs, at: Operating, name: TemperatureName): SnubberPoint[] {
  const model = new PointModel(inputs, at);
  if (!model.trimmed) return [];
  const { settings, declared, hardware } = snubber;
  const temperature = settings.temperatures[name];
  const { at: found, rates } = pathWith(inputs, model, hardware, temperature);
  const { law } = found;
  const rate = rateIn(law, declared.amplitude, declared.omega);
  const damping = (snubberRate: number): number | null =>
    worstDamping(
      model.modes({ ...rates, snubber: snubberRate }, "longitudinal"),
      "longitudinal",
      inputs.criteria.timeToDouble.value,
    );
  const nodding = noddingOf(inputs, model, rates, {
    ...{ law, freePlay: found.freePlay, largest: settings.largestAmplitude },
    closely: name === "normal",
  });
  return [
    {
      condition: at.condition,
      mass: at.mass.name,
      temperature: name,
      temperature_degC: temperature - ZERO,
      jackLoad_N: jackLoadOf(inputs, model),
      pressure_Pa: found.pressure,
      precharge_Pa: found.precharge,
      accumulator: found.outcome,
      gasVolume_m3: found.gasVolume,
      accumulatorStiffness_N_m: found.accumulator,
      slowAccumulatorStiffness_N_m: found.slowAccumulator,
      shutInOilStiffness_N_m: found.oil,
      C1_N_s_m: law.linear,
      C2_N_s2_m2: law.quadratic,
      rate_N_s_m: rate,
      dampingRatio: damping(rate),
      smallDampingRatio: lesser(damping(law.linear), law.friction > 0 ? damping(Number.POSITIVE_INFINITY) : null),
      nodding,
    },
  ];
}

function lesser(a: number | null, b: number | null): number | null {
  return a === null || b === null ? (a ?? b) : Math.min(a, b);
}

function slowMotion(
  inputs: HoldInputs,
  snubber: SnubberInputs,
  name: TemperatureName,
  points: readonly SnubberPoint[],
): SlowMotion {
  const { hardware, settings, capacity, travel } = snubber;
  const temperature = settings.temperatures[name];
  const whole = jackTravel(inputs, travel);
  const { time } = settings.stroke;
  const load = settings.stroke.load ?? Math.max(0, ...points.map((point) => point.jackLoad_N));
  const stroke = slowStroke(lawAtJack(hardware, temperature), whole, time, capacity, load);
  return {
    temperature: name,
    temperature_degC: temperature - ZERO,
    viscosity_m2_s: kinematicViscosity(hardware.fluid.viscosity, temperature),
    jackTravel_m: whole,
    jackSpeed_m_s: stroke.speed,
    tipSpeed_m_s: (inputs.boom.length * (travel.extended - travel.stowed)) / time,
    jackForce_N: stroke.force,
    capacityShare_1: stroke.share,
    reliefOpen: stroke.reliefOpen,
    strokeTime_s: stroke.time,
    bleedReynolds_1: bleedReynolds(hardware, temperature, stroke.speed),
  };
}

const CURVE = 61;

/** Force curves up to three times the speed of the stroke, or past the relief setting where that is sooner reached than ten. */
function forceCurves({ hardware, settings, declared }: SnubberInputs, slow: readonly SlowMotion[]): ForceCurve[] {
  const laws = TEMPERATURES.map((name) => lawAtJack(hardware, settings.temperatures[name]));
  const most = topSpeed(laws, slow[0].jackSpeed_m_s, declared.amplitude * declared.omega);
  return TEMPERATURES.map((name, k) => {
    const speeds = Array.from({ length: CURVE }, (_, i) => (most * i) / (CURVE - 1));
    return {
      temperature: name,
      temperature_degC: settings.temperatures[name] - ZERO,
      jackSpeed_m_s: speeds,
      jackForce_N: speeds.map((speed) => valveForce(laws[k], speed) + laws[k].friction),
    };
  });
}

function topSpeed(laws: readonly SnubberForceLaw[], stroke: number, motion: number): number {
  const least = 3 * Math.max(stroke, motion / 3);
  const opens = laws.map((law) => {
    const { linear, quadratic, relief } = law;
    return relief === Number.POSITIVE_INFINITY
      ? 0
      : (2 * relief) / (linear + Math.sqrt(linear ** 2 + 4 * quadratic * relief));
  });
  const past = 1.3 * Math.max(...opens);
  return past > least && past < 10 * least ? past : least;
}

const ASSUMPTIONS = [
  "Snubber hardware: bleed and orifice lie in one line, so that their pressures add; the relief valve lies beside them.",
  "Snubber hardware: oil, gas and hoses have one temperature; the gas has settled at it before it moves fast.",
  "Snubber hardware: seal friction acts on the travel across the snubber; the accumulator is linear about trim.",
  "Snubber hardware: lasting oscillations are looked for with all equations of motion up to the amplitude whose lift is the maximum; the airloads keep their slopes until there.",
  "Snubber hardware: a pair with a plane of symmetry nods in it; its sideways motion is that of the modes.",
  "Snubber hardware: the oil shut in behind the piston lies in series with the bending of the boom, which is taken as measured without it.",
];

const WITHOUT_BENDING =
  "Snubber hardware: bending motions of the boom are left out of the simulation of the real law; its bending stiffness is not.";

const NOT_ANALYSED = [
  "Nodding so large that the carried aircraft stalls in it.",
  "Cavitation, valve flutter and the inertia of the oil in the snubber.",
  "Small oscillation in the free play where the jack load changes sign; the play is in the simulation of nodding alone.",
  "The gas spring's curvature in large strokes: its stiffness is that at trim.",
  "Entrance losses and turbulence in the bleed beyond the stated Reynolds number.",
];
