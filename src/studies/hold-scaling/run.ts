import type { Pair } from "../../inputs/index.ts";
import { standardAtmosphere } from "../../physics/atmosphere/index.ts";
import { type Similitude, similitude } from "../../physics/similitude/index.ts";
import { referToTip } from "../../physics/snubber/index.ts";
import { type FindingDraft, findingMaker } from "../finding/index.ts";
import type { HoldPartContext, HoldPartOutcome, HoldPoint } from "../hold/index.ts";
import { restsOf } from "../hold/index.ts";
import { modelQuantities, type SnubberAtTip } from "./quantities.ts";
import type { BroughtBack, ScaledMode, ScaledModel, ScalingResult } from "./types.ts";

type Models = NonNullable<NonNullable<NonNullable<Pair["studies"]>["hold"]>["scaling"]>;
type Model = Models[string];

const FREQUENCY = { mass: 0, length: 0, time: -1 };

/**
 * Dynamically similar models of the hooked pair: what they must weigh and how stiff they must be, what they must show, and what
 * their measured oscillations say about the aircraft.
 *
 * @returns `null` when the pair names no model
 * @source `physics/similitude`, README eq. 1–3
 * @verified run.test.ts; physics/similitude/similitude.test.ts on the equations of motion
 */
export function runScaling(context: HoldPartContext): HoldPartOutcome<ScalingResult> | null {
  const view = context.reads();
  const models = view.pair.studies?.hold?.scaling;
  if (models === undefined) return null;
  const names = Object.keys(models);
  if (names.length === 0) return null;
  const make = findingMaker(context.findings);
  const found: ScaledModel[] = [];
  const drafts: FindingDraft[] = [];
  for (const { name: condition } of context.inputs.conditions) {
    const points = context.base.points.filter((point) => point.condition === condition);
    for (const name of names) {
      const own = context.reads();
      const scaled = scaledModel(context, own.pair, name, condition, points);
      found.push(scaled);
      drafts.push(...modelFindings(context, scaled, own.paths()));
    }
  }
  return {
    result: { models: found },
    findings: drafts.map(make),
    limits: [],
    assumptions: [
      "Models: same shape and same coefficients as the aircraft; the lower Reynolds and Mach number of the model change none of them.",
    ],
    notAnalysed: [],
    answers: [],
  };
}

function settingsOf(pair: Pair, name: string): Model {
  return pair.studies!.hold!.scaling![name];
}

function scaledModel(
  context: HoldPartContext,
  pair: Pair,
  name: string,
  condition: string,
  points: readonly HoldPoint[],
): ScaledModel {
  const { inputs } = context;
  const own = settingsOf(pair, name);
  const at = inputs.conditions.find((each) => each.name === condition)!;
  const air = standardAtmosphere(own.altitude.si, own.isaOffset.si);
  const flown = standardAtmosphere(at.altitude, at.isaOffset);
  const density = air.density * (own.compression?.si ?? 1);
  const like = similitude({ length: own.length.si, density: density / flown.density });
  const snubber = snubberAtTip(pair, inputs.tipPerJack, at.boomAngleDown);
  const states = points.map((point) => ({
    mass: point.mass,
    quantities: modelQuantities(inputs, point, massOf(context, point.mass), snubber, like),
    modes: scaledModes(point, like),
  }));
  const speed = points[0].airspeed_m_s_TAS;
  const { chord } = inputs.carried.derivatives;
  const fullReynolds = (flown.density * speed * chord) / flown.viscosity;
  const root = Math.sqrt(like.length);
  return {
    ...{ name, condition, scale_1: like.length, density_kg_m3: density, densityRatio_1: like.density, states },
    reynoldsRatio_1: (like.density * like.length * root * flown.viscosity) / air.viscosity,
    fullReynolds_1: fullReynolds,
    machRatio_1: (root * flown.soundSpeed) / air.soundSpeed,
    fullMach_1: speed / flown.soundSpeed,
    measured: (own.measured ?? []).map((each) =>
      broughtBack(each.mass, each.plane, each.frequency.si, each.dampingRatio.si, points, like),
    ),
  };
}

function massOf({ inputs }: HoldPartContext, name: string) {
  return inputs.carried.massStates.find((state) => state.name === name)!;
}

/** C1 and C2 at the tip at a boom angle, wherever the pair states them. */
function snubberAtTip(pair: Pair, tipPerJack: (angle: number) => number, boomAngle: number): SnubberAtTip {
  const { snubber } = pair.mechanism;
  const there = snubber.referredTo === "tip" ? tipPerJack(snubber.atBoomAngle.si) : 1;
  // a force per speed goes with the ratio squared, a force per speed squared with its cube
  const ratio = tipPerJack(boomAngle) / there;
  return { C1: referToTip(snubber.C1.si, ratio), C2: referToTip(snubber.C2.si, ratio) / ratio };
}

function scaledModes(point: HoldPoint, like: Similitude): ScaledMode[] {
  return point.modes
    .filter((mode) => mode.imag_rad_s > 0)
    .map((mode) => ({
      name: mode.name,
      plane: mode.plane,
      fullFrequency_Hz: mode.frequency_Hz,
      modelFrequency_Hz: mode.frequency_Hz * like.factor(FREQUENCY),
      dampingRatio: mode.dampingRatio,
    }));
}

function broughtBack(
  mass: string,
  plane: "longitudinal" | "lateral",
  frequency: number,
  dampingRatio: number,
  points: readonly HoldPoint[],
  like: Similitude,
): BroughtBack {
  const full = frequency / like.factor(FREQUENCY);
  const modes = points
    .filter((point) => point.mass === mass)
    .flatMap((point) => point.modes)
    .filter((mode) => mode.plane === plane && mode.imag_rad_s > 0);
  const gap = (hertz: number): number => Math.abs(Math.log(hertz / full));
  const [nearest] = [...modes].sort((a, b) => gap(a.frequency_Hz) - gap(b.frequency_Hz));
  return {
    ...{ mass, plane, modelFrequency_Hz: frequency, fullFrequency_Hz: full, dampingRatio },
    nearest:
      nearest === undefined
        ? null
        : { name: nearest.name, frequency_Hz: nearest.frequency_Hz, dampingRatio: nearest.dampingRatio },
  };
}

function modelFindings(context: HoldPartContext, model: ScaledModel, read: readonly string[]): FindingDraft[] {
  const { groups, inputs } = context;
  const symmetric = inputs.conditions.find(({ name }) => name === model.condition)!;
  const own = restsOf(groups, model.condition, symmetric.masses, false).dynamics.longitudinal;
  const rests = [...own, ...read];
  const id = `hold.${model.condition}.scaling.${model.name}`;
  const unequal =
    `the model flies at ${(100 * model.reynoldsRatio_1).toFixed(1)} % of the aircraft's Reynolds number and ` +
    `${(100 * model.machRatio_1).toFixed(0)} % of its Mach number; coefficients are taken to be equal`;
  const drafts: FindingDraft[] = model.states.map(({ mass, quantities }) => ({
    id: `${id}.mass.${mass}`,
    title: `Mass of the similar model "${model.name}", mass state ${mass}`,
    value: quantities.find((each) => each.name === "mass")!.model,
    unit: "kg",
    note: unequal,
    rests,
  }));
  model.measured.forEach((each, i) => {
    const beside =
      each.nearest === null
        ? `no oscillation of that plane is computed for the mass state ${each.mass}`
        : `computed: ${each.nearest.name} at ${each.nearest.frequency_Hz.toFixed(3)} Hz, ζ ${each.nearest.dampingRatio.toFixed(4)}`;
    drafts.push({
      id: `${id}.measured.${i + 1}`,
      title: `Frequency that the measurement on "${model.name}" means for the aircraft, ${each.plane}, mass state ${each.mass}`,
      value: each.fullFrequency_Hz,
      unit: "Hz",
      note: `ζ ${each.dampingRatio.toFixed(4)} carries over unchanged; ${beside}`,
      rests,
    });
  });
  return drafts;
}
