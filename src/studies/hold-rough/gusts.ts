import { type GustModel, searchGusts } from "../../physics/gust-response/index.ts";
import { designGust } from "../../physics/turbulence/index.ts";
import type { Limited } from "./bands.ts";
import { QUANTITIES } from "./quantities.ts";
import type { RoughAirInputs } from "./settings.ts";
import type { RoughAirGusts } from "./types.ts";

/** Worst 1−cosine gust of each quantity, up, down and to either side; nothing when the pair gives no gust. */
export function gustsOf(
  { gust }: RoughAirInputs,
  model: GustModel,
  chord: number,
  air: { readonly trueAirspeed: number; readonly equivalentAirspeed: number },
  limited: readonly Limited[],
): RoughAirGusts | null {
  if (gust === undefined) return null;
  const toTrue = air.trueAirspeed / air.equivalentAirspeed;
  const peakOf = (gradient: number): number => toTrue * designGust(gust.reference, gust.alleviation, gradient);
  const both = (["vertical", "lateral"] as const).map((direction) => searchGusts(model, chord, direction, peakOf));
  return {
    reference_m_s_EAS: gust.reference,
    alleviation_1: gust.alleviation,
    gradients_m: both[0].gradients,
    rows: QUANTITIES.map(({ key, factor }, i) => {
      const search = both[0].worst[i] >= both[1].worst[i] ? both[0] : both[1];
      const own = limited.find((one) => one.key === key);
      const room = own === undefined ? Infinity : Math.min(own.upper - own.mean, own.mean - own.lower);
      return {
        key,
        direction: search.direction,
        gradient_m: search.worstGradient[i],
        time_s: search.worstTime[i],
        distance: factor * search.worst[i],
        share_1: Number.isFinite(room) && room > 0 ? search.worst[i] / room : null,
        byGradient: search.distances.map((distances) => factor * distances[i]),
      };
    }),
  };
}
