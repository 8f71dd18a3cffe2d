import type { Pair, Quantity } from "../../inputs/index.ts";
import type { Accumulator, Bleed, Fluid, Orifice } from "../../physics/hydraulics/index.ts";
import type { CriterionValue, OpenReads } from "../hold/index.ts";

/** Snubber and accumulator as hardware, SI, at the jack. */
export interface SnubberHardware {
  readonly fluid: Fluid;
  readonly jack: {
    readonly area: number;
    /** p_c·A_c, drives the jack towards a larger boom angle [N]. */
    readonly counterForce: number;
    readonly shutInVolume: number;
  };
  readonly orifice: Orifice;
  readonly bleed: Bleed | null;
  readonly relief: { readonly pressure: number; readonly rise: number; readonly atSpeed: number } | null;
  readonly sealFriction: number;
  readonly freePlay: number;
  readonly accumulator: Omit<Accumulator, "lineCompliance"> & {
    readonly exponent: number;
    /** [Hz]. */
    readonly fastAbove: number;
    /** Of the motion that the pair declares for the snubber [Hz]: it decides which exponent holds. */
    readonly motion: number;
    readonly lineVolume: number;
    readonly hose: { readonly volume: number; readonly modulus: number } | null;
  };
}

export type TemperatureName = "cold" | "normal" | "hot";
export const TEMPERATURES: readonly TemperatureName[] = ["cold", "normal", "hot"];

/** What the part is asked. */
export interface SnubberSettings {
  readonly temperatures: Readonly<Record<TemperatureName, number>>;
  readonly stroke: { readonly time: number; readonly load: number | null };
  readonly largestAmplitude: number;
  readonly criteria: {
    readonly nodding: CriterionValue;
    readonly slowForce: CriterionValue;
    readonly agreement: CriterionValue;
  };
}

/** A value of the snubber as the pair declares it, where it declares it. */
export interface DeclaredSnubber {
  readonly linear: number;
  readonly quadratic: number;
  readonly accumulator: number;
  /** Amplitude across the snubber [m] and frequency [rad/s] of the equivalent rate, at the tip. */
  readonly amplitude: number;
  readonly omega: number;
  /** Boom angle at which the tip values hold [rad]; `null` when they hold at the jack. */
  readonly snubberAngle: number | null;
  readonly accumulatorAngle: number | null;
}

export interface SnubberInputs {
  readonly hardware: SnubberHardware;
  readonly settings: SnubberSettings;
  readonly declared: DeclaredSnubber;
  /** Force that the jack can hold [N]; `null` when the pair does not say. */
  readonly capacity: number | null;
  readonly travel: { readonly stowed: number; readonly extended: number };
  readonly paths: {
    readonly hardware: readonly string[];
    readonly declared: readonly string[];
    readonly capacity: readonly string[];
    readonly travel: readonly string[];
    readonly study: readonly string[];
    readonly criteria: readonly string[];
  };
}

/** Reads hardware and settings of the snubber; `null` when the pair gives either of them not. */
export function readSnubber(open: OpenReads): SnubberInputs | null {
  const asked = open().pair;
  if (asked.mechanism.hydraulics === undefined || asked.studies?.hold?.snubber === undefined) return null;
  const views = {
    hardware: open(),
    declared: open(),
    capacity: open(),
    travel: open(),
    study: open(),
    criteria: open(),
  };
  const { stowed, extended } = views.travel.pair.mechanism.boom.angle;
  return {
    hardware: readHardware(views.hardware.pair),
    settings: { ...readStudy(views.study.pair), criteria: readCriteria(views.criteria.pair) },
    declared: readDeclared(views.declared.pair),
    capacity: views.capacity.pair.mechanism.linkage?.jackCapacity?.si ?? null,
    travel: { stowed: stowed.si, extended: extended.si },
    paths: {
      hardware: views.hardware.paths(),
      declared: views.declared.paths(),
      capacity: views.capacity.paths(),
      travel: views.travel.paths(),
      study: views.study.paths(),
      criteria: views.criteria.paths(),
    },
  };
}

function readHardware({ mechanism }: Pair): SnubberHardware {
  const { fluid, jack, snubber, accumulator } = mechanism.hydraulics!;
  const { cold, warm } = fluid.viscosity;
  const { bleed, relief } = snubber;
  return {
    fluid: {
      viscosity: [
        { temperature: cold.temperature.si, viscosity: cold.value.si },
        { temperature: warm.temperature.si, viscosity: warm.value.si },
      ],
      density: fluid.density.si,
      densityTemperature: fluid.densityAt.si,
      expansion: fluid.expansion.si,
      bulkModulus: fluid.bulkModulus.si,
      gasContent: fluid.gasContent.si,
    },
    jack: {
      area: jack.area.si,
      counterForce: jack.counterPressure.si * jack.counterArea.si,
      shutInVolume: jack.shutInVolume.si,
    },
    orifice: { area: snubber.orifice.area.si, dischargeCoefficient: snubber.orifice.dischargeCoefficient.si },
    bleed:
      bleed === undefined
        ? null
        : bleed.kind === "tubes"
          ? { kind: "tubes", count: bleed.count, diameter: bleed.diameter.si, length: bleed.length.si }
          : { kind: "annular gap", diameter: bleed.diameter.si, width: bleed.width.si, length: bleed.length.si },
    relief:
      relief === undefined ? null : { pressure: relief.pressure.si, rise: relief.rise.si, atSpeed: relief.atSpeed.si },
    sealFriction: snubber.sealFriction?.si ?? 0,
    freePlay: snubber.freePlay?.si ?? 0,
    accumulator: {
      precharge: accumulator.precharge.si,
      prechargeTemperature: accumulator.prechargeAt.si,
      volume: accumulator.volume.si,
      gasLoss: accumulator.gasLoss?.si ?? 0,
      exponent: accumulator.exponent.si,
      fastAbove: accumulator.fastAbove.si,
      motion: mechanism.snubber.frequency.si,
      lineVolume: accumulator.lineVolume.si,
      hose:
        accumulator.hose === undefined
          ? null
          : { volume: accumulator.hose.volume.si, modulus: accumulator.hose.modulus.si },
    },
  };
}

function readStudy({ studies }: Pair): Omit<SnubberSettings, "criteria"> {
  const { temperatures, stroke, largestAmplitude } = studies!.hold!.snubber!;
  return {
    temperatures: { cold: temperatures.cold.si, normal: temperatures.normal.si, hot: temperatures.hot.si },
    stroke: { time: stroke.time.si, load: stroke.load?.si ?? null },
    largestAmplitude: largestAmplitude.si,
  };
}

function readCriteria({ studies }: Pair): SnubberSettings["criteria"] {
  const { nodding, slowForce, agreement } = studies!.hold!.snubber!.criteria;
  const own = (quantity: Quantity): CriterionValue => ({
    value: quantity.si,
    source: quantity.provenance.source ?? "project criterion",
  });
  return { nodding: own(nodding), slowForce: own(slowForce), agreement: own(agreement) };
}

function readDeclared({ mechanism }: Pair): DeclaredSnubber {
  const { snubber, accumulator } = mechanism;
  return {
    linear: snubber.C1.si,
    quadratic: snubber.C2.si,
    accumulator: accumulator.stiffness.si,
    amplitude: snubber.amplitude.si,
    omega: 2 * Math.PI * snubber.frequency.si,
    snubberAngle: snubber.referredTo === "tip" ? snubber.atBoomAngle.si : null,
    accumulatorAngle: accumulator.referredTo === "tip" ? accumulator.atBoomAngle.si : null,
  };
}
