import type { FindingDraft } from "../finding/index.ts";
import type { HoldPartContext } from "../hold/index.ts";
import type { SnubberInputs } from "./settings.ts";
import type { FailedState, SnubberResult } from "./types.ts";
import { kilo } from "./words.ts";

const STATES: readonly FailedState["state"][] = ["valve closed", "valve open", "gas lost", "no fluid"];

/** Shortest time to double of each failed state over the masses. */
export function failedFindings(
  { inputs }: HoldPartContext,
  { failed }: SnubberResult,
  condition: string,
  rests: readonly string[],
): FindingDraft[] {
  const { value: limit, source } = inputs.criteria.timeToDouble;
  return STATES.flatMap((state): FindingDraft[] => {
    const own = failed.filter((each) => each.condition === condition && each.state === state);
    const analysed = own.filter(({ outcome }) => outcome === "analysed");
    if (own.length === 0) return [];
    const title = `Snubber failed, ${state}: shortest time to double of a longitudinal motion over the masses`;
    const id = `hold.${condition}.failed-${state.replace(" ", "-")}`;
    if (analysed.length === 0) {
      const note = "the pair finds no balance: no weight share leaves the boom without load";
      return [{ id, title, value: null, unit: "s", verdict: "not met", note, rests }];
    }
    const growing = analysed.filter(({ timeToDouble_s }) => timeToDouble_s !== null);
    const missing = own.filter(({ outcome }) => outcome === "no balance").map(({ mass }) => `${mass}: no balance`);
    const each = analysed.map(({ mass, dampingRatio, frequency_Hz, accumulatorStiffness_N_m, weightShare_1 }) => {
      const zeta = dampingRatio === null ? "no oscillation" : `worst ζ ${dampingRatio.toFixed(4)}`;
      const stiffness = accumulatorStiffness_N_m === null ? "" : `, accumulator ${kilo(accumulatorStiffness_N_m)} kN/m`;
      const share = state === "no fluid" ? `, balances at a weight share of ${(100 * weightShare_1).toFixed(1)} %` : "";
      const rate = frequency_Hz === null ? "" : ` at ${frequency_Hz.toFixed(3)} Hz`;
      return `${mass}: ${zeta}${rate}${stiffness}${share}`;
    });
    const worst = growing.length === 0 ? null : Math.min(...growing.map(({ timeToDouble_s }) => timeToDouble_s!));
    return [
      {
        ...{ id, title, value: worst, unit: "s", rests },
        criterion: {
          text: `with the snubber failed no longitudinal motion doubles in less than ${limit} s`,
          ...{ sense: "at least", limit, source },
        },
        // a mass without balance is not held at all
        ...(missing.length > 0 ? { verdict: "not met" as const } : worst === null ? { verdict: "met" as const } : {}),
        note: `${worst === null ? "nothing grows; " : ""}${[...each, ...missing].join("; ")}`,
      },
    ];
  });
}

/** What the choice of coefficients can give at best. */
export function mapFindings(
  { inputs }: HoldPartContext,
  { settings, capacity }: SnubberInputs,
  { maps }: SnubberResult,
  condition: string,
  rests: readonly string[],
): FindingDraft[] {
  const { value: limit, source } = inputs.criteria.rigidBodyDamping;
  const share = (100 * settings.criteria.slowForce.value).toFixed(0);
  return maps
    .filter((map) => map.condition === condition)
    .map(({ oil, best }) => {
      const isAll = oil !== "normal";
      const over = isAll
        ? "all masses, airspeeds, oil temperatures and amplitudes"
        : "all masses, airspeeds and amplitudes";
      const text = `some bleed and orifice give a damping ratio of at least ${limit} and a cold stroke below ${share} % of the jack's capacity`;
      const missing =
        capacity === null ? "the pair states no capacity of the jack" : "no bleed lets the cold stroke pass";
      return {
        id: `hold.${condition}.snubber-coefficients${isAll ? "-hot-to-cold" : ""}`,
        title: `Largest worst-case damping ratio over bleed and orifice that still let the cold stroke pass: ${over}`,
        ...{ value: best?.dampingRatio ?? null, unit: "1", rests },
        ...(best === null
          ? { verdict: capacity === null ? ("not analysed" as const) : ("not met" as const) }
          : { criterion: { text, sense: "at least" as const, limit, source } }),
        note:
          best === null
            ? missing
            : `C1 ${kilo(best.C1_N_s_m)} kN·s/m, C2 ${kilo(best.C2_N_s2_m2)} kN·s²/m² at the tip, normal oil`,
      };
    });
}
