import type { Pair, Quantity } from "../../inputs/index.ts";
import { BugError } from "../../math/errors.ts";
import type { FitInputs, GroundInput, LoadingInput, SourcedValue } from "./inputs.ts";

type FitSettings = NonNullable<NonNullable<Pair["studies"]>["fit"]>;

function settingsOf(pair: Pair): FitSettings {
  const fit = pair.studies?.fit;
  if (fit === undefined) throw new BugError("studies.fit was there a moment ago");
  return fit;
}

function sourced(quantity: Quantity): SourcedValue {
  return { value: quantity.si, source: quantity.provenance.source ?? "project criterion" };
}

/** Ground of the carrier; `null` when the pair does not describe it. */
export function readGround(pair: Pair, rotation: Pair): GroundInput | null {
  const { ground } = pair.carrier;
  if (ground === undefined) return null;
  const wanted = rotation.carrier.ground?.rotation;
  return {
    line: ground.line.si,
    flatTyre: ground.flatTyre.si,
    bottomedStrut: ground.bottomedStrut.si,
    mainWheels: { FS: ground.mainWheels.FS.si, BL: ground.mainWheels.BL.si },
    aftCg: ground.aftCg === undefined ? null : { FS: ground.aftCg.FS.si, WL: ground.aftCg.WL.si },
    rotation: wanted === undefined ? null : sourced(wanted),
  };
}

/** Loading on the ground; `null` when the pair does not describe it. */
export function readLoading(pair: Pair): LoadingInput | null {
  const { loading } = settingsOf(pair);
  if (loading === undefined) return null;
  return { dollyHeight: loading.dollyHeight.si, from: loading.from, margin: loading.margin.si };
}

export function readSettings(criteria: Pair, settings: Pair): Pick<FitInputs, "criteria" | "near" | "apart" | "stack"> {
  const { staticClearance, movingClearance, transmissionAngle } = settingsOf(criteria).criteria;
  const { near, apart, stack } = settingsOf(settings);
  return {
    criteria: {
      staticClearance: sourced(staticClearance),
      movingClearance: sourced(movingClearance),
      transmissionAngle: sourced(transmissionAngle),
    },
    near: near.si,
    apart: (apart ?? []).map(([a, b]) => [a, b] as const),
    stack: Object.entries(stack ?? {}).map(([name, value]) => ({ name, value: value.si })),
  };
}
