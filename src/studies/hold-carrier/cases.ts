import type { FlowTable } from "../../physics/flowfield/index.ts";
import { TableFlow } from "../../physics/flowfield/index.ts";
import { dominantMotion, type PairMode } from "../../physics/modes/index.ts";
import type { HoldInputs, Mode, Operating } from "../hold/index.ts";
import { type CarrierChoice, type CarrierPair, carrierModes, carrierPair } from "./models.ts";
import type { CarrierBody } from "./read-carrier.ts";
import type { CarrierCase, CarrierMode, CarrierModel, CarrierTrim, FlowAtAircraft } from "./types.ts";

const DEGREE = Math.PI / 180;

/** The models that the pair gives something for, the poorest first. */
export function modelsOf(body: CarrierBody | null, table: FlowTable | null): [CarrierModel, CarrierChoice][] {
  const choice = (motion: CarrierChoice["motion"], own: FlowTable | null, gradients: boolean): CarrierChoice => ({
    ...{ body, motion, table: own, gradients },
  });
  const all: [CarrierModel, CarrierChoice][] = [["steady", choice("steady", null, true)]];
  if (body !== null) all.push(["free mass", choice("free mass", null, true)], ["rigid", choice("rigid", null, true)]);
  if (table !== null) {
    all.push(["steady, uniform flow", choice("steady", table, false)]);
    all.push(["steady, flow with gradients", choice("steady", table, true)]);
  }
  if (body !== null && table !== null) all.push(["rigid, flow with gradients", choice("rigid", table, true)]);
  return all;
}

/** One model at one operating point; `steady` are the modes of the base, by which its modes are named. */
export function carrierCase(
  inputs: HoldInputs,
  at: Operating,
  model: CarrierModel,
  choice: CarrierChoice,
  steady: readonly Mode[],
): CarrierCase {
  const made = carrierPair(inputs, at, choice);
  if (made.pair.trim.outcome !== "trimmed") return { model, outcome: "no trim", trim: null, modes: [] };
  if (!made.inside) return { model, outcome: "outside", trim: null, modes: [] };
  const modes = carrierModes(inputs, at, made);
  return { model, outcome: "trimmed", trim: trimOf(inputs, at, made), modes: describe(modes, steady) };
}

function trimOf(inputs: HoldInputs, at: Operating, made: CarrierPair): CarrierTrim {
  const { trim, tipLoad, settings } = made.pair;
  const moved = new Float64Array(3);
  settings.flow?.evaluate(made.below, moved);
  const inflow = Math.atan2(-moved[2], settings.air.trueAirspeed - moved[0]);
  return {
    pitch_deg: trim.alpha / DEGREE,
    alpha_deg: (trim.alpha + inflow) / DEGREE,
    elevator_deg: trim.controls.elevator / DEGREE,
    towLoad_N: trim.f_onV_byTip_H[0],
    tipAxialLoad_N: tipLoad.tension,
    tipTangentialLoad_N: tipLoad.tangential,
    jackLoad_N: tipLoad.tangential * inputs.tipPerJack(at.boomAngleDown),
  };
}

/** Flow where the aircraft hangs in a flow with gradients, or `null` without one or outside it. */
export function flowAt(
  inputs: HoldInputs,
  at: Operating,
  body: CarrierBody | null,
  table: FlowTable | null,
): FlowAtAircraft | null {
  if (table === null) return null;
  const made = carrierPair(inputs, at, { body, motion: "steady", table, gradients: true });
  if (!made.inside || made.pair.trim.outcome !== "trimmed") return null;
  const found = new TableFlow(table, made.pair.settings.air.trueAirspeed).at(made.below);
  return {
    below_m: made.below,
    downwash_deg: found.downwash / DEGREE,
    sidewash_deg: found.sidewash / DEGREE,
    pressureRatio_1: found.pressureRatio,
    downwashGradient_deg_m: found.perMetre.downwash / DEGREE,
    pressureGradient_1_m: found.perMetre.pressureRatio,
  };
}

/** Modes by plane and rising frequency with unique names, each beside the mode of the base that it comes from. */
function describe(modes: readonly PairMode[], steady: readonly Mode[]): CarrierMode[] {
  const size = (mode: PairMode): number => Math.hypot(mode.real, mode.imag);
  const rank = (mode: PairMode): number => (mode.plane === "longitudinal" ? 0 : 1);
  const sorted = [...modes].sort((a, b) => rank(a) - rank(b) || size(a) - size(b));
  const names = sorted.map((mode) => dominantMotion(mode).name);
  const from = origins(sorted, steady);
  return sorted.map((mode, i) => {
    const same = names.filter((name) => name === names[i]).length;
    const number = names.slice(0, i + 1).filter((name) => name === names[i]).length;
    return {
      name: same > 1 ? `${names[i]} ${number}` : names[i],
      ...{ class: mode.class, plane: mode.plane, real_1_s: mode.real, imag_rad_s: mode.imag },
      frequency_Hz: mode.imag / (2 * Math.PI),
      dampingRatio: -mode.real / size(mode),
      carrierShare_1: shareOf(mode),
      from: from[i],
    };
  });
}

function shareOf(mode: PairMode): number {
  return mode.carrier === undefined
    ? 0
    : Math.max(
        0,
        Math.min(
          1,
          mode.carrier.reduce((sum, x) => sum + x, 0),
        ),
      );
}

/**
 * The mode of the base nearest to each mode in its plane, each once, the closest first: nearness is the way between the roots
 * over their size. Modes of which the carrier has the larger part come from none.
 */
function origins(modes: readonly PairMode[], steady: readonly Mode[]): (string | null)[] {
  const pairs = modes.flatMap((mode, i) =>
    shareOf(mode) > 0.5
      ? []
      : steady.flatMap((base, j) => {
          if (base.plane !== mode.plane) return [];
          const way = Math.hypot(mode.real - base.real_1_s, mode.imag - base.imag_rad_s);
          return [
            { i, j, far: way / Math.max(Math.hypot(mode.real, mode.imag), Math.hypot(base.real_1_s, base.imag_rad_s)) },
          ];
        }),
  );
  const found: (string | null)[] = modes.map(() => null);
  const taken = new Set<number>();
  for (const { i, j } of pairs.sort((a, b) => a.far - b.far)) {
    if (found[i] !== null || taken.has(j)) continue;
    found[i] = steady[j].name;
    taken.add(j);
  }
  return found;
}
