import type { Pair, Quantity } from "../../inputs/index.ts";
import type { SpectrumForm, TurbulenceDocument } from "../../physics/turbulence/types.ts";
import type { HoldPartContext } from "../hold/index.ts";
import type { QuantityKey } from "./types.ts";

/** A limit as the pair states it, SI. */
export interface StatedLimit {
  readonly key: QuantityKey;
  /** Both ends from the mean at trim ("from trim"), from zero ("either way"), or a band. */
  readonly kind: "from trim" | "either way" | "band";
  readonly lower: number;
  readonly upper: number;
  readonly source: string;
  readonly paths: readonly string[];
}

export interface RoughAirInputs {
  readonly document: TurbulenceDocument;
  readonly spectrum: SpectrumForm;
  /** [m]; absent: the altitude of the condition. */
  readonly height: number | undefined;
  readonly timeHooked: number;
  readonly probability: number;
  readonly sigmas: readonly { readonly name: string; readonly sigma: number }[];
  readonly design: { readonly name: string; readonly sigma: number };
  readonly gust: { readonly reference: number; readonly alleviation: number } | undefined;
  readonly simulation: { readonly seeds: number; readonly time: number; readonly sigma: number } | undefined;
  readonly limits: readonly StatedLimit[];
  /** Pair paths of the settings without the limits. */
  readonly paths: readonly string[];
}

type Settings = NonNullable<NonNullable<NonNullable<Pair["studies"]>["hold"]>["roughAir"]>;
type Limits = Settings["limits"];

const MOTIONS = ["jackTravel", "tipTravel", "pitch", "bank"] as const;
const LOADS = ["socketTension", "socketShear", "socketSideLoad", "latchLoad"] as const;
const KEYS = {
  socketTension: "tension",
  socketShear: "shear",
  socketSideLoad: "sideLoad",
  latchLoad: "towLoad",
  jackTravel: "jackTravel",
  tipTravel: "tipNormal",
  pitch: "pitch",
  bank: "bank",
} as const;

const sourceOf = (value: Quantity): string => value.provenance.source ?? "project criterion";

/** Settings of the part, or nothing when the pair gives none. */
export function readSettings({ reads }: HoldPartContext): RoughAirInputs | null {
  const view = reads();
  const own = view.pair.studies?.hold?.roughAir;
  if (own === undefined) return null;
  const sigmas = Object.entries(own.sigmas).map(([name, value]) => ({ name, sigma: value.si }));
  const { discreteGust, simulation } = own;
  return {
    document: own.document,
    spectrum: own.spectrum,
    height: own.heightAboveGround?.si,
    timeHooked: own.timeHooked.si,
    probability: own.probability.si,
    sigmas,
    design: sigmas.find(({ name }) => name === own.design)!,
    gust: discreteGust && { reference: discreteGust.reference.si, alleviation: discreteGust.alleviation.si },
    simulation: simulation && { seeds: simulation.seeds, time: simulation.time.si, sigma: simulation.sigma.si },
    paths: view.paths(),
    limits: readLimits(reads),
  };
}

/** Each limit through a view of its own, so that a finding rests on its own limit alone. */
function readLimits(reads: HoldPartContext["reads"]): StatedLimit[] {
  const found: StatedLimit[] = [];
  const read = (add: (limits: Limits) => Omit<StatedLimit, "paths"> | undefined): void => {
    const view = reads();
    const limit = add(view.pair.studies!.hold!.roughAir!.limits);
    if (limit !== undefined) found.push({ ...limit, paths: view.paths() });
  };
  for (const name of [...LOADS, ...MOTIONS]) {
    const kind = (MOTIONS as readonly string[]).includes(name) ? "from trim" : "either way";
    read((limits) => {
      const value = limits[name];
      return value && { key: KEYS[name], kind, lower: -value.si, upper: value.si, source: sourceOf(value) };
    });
  }
  read(({ loadFactor }) => {
    if (loadFactor === undefined) return undefined;
    const { from, to } = loadFactor;
    return { key: "loadFactor", kind: "band", lower: from.si, upper: to.si, source: sourceOf(to) };
  });
  return found;
}
