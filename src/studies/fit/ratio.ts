import { InputError } from "../../math/errors.ts";
import { traceStroke, transmissionAt } from "../../physics/linkage/index.ts";
import type { FitInputs } from "./inputs.ts";
import { buildMechanism, JACK } from "./mechanism.ts";
import { readLinkage } from "./read-linkage.ts";
import type { OpenReads } from "./read-pair.ts";

/** Step between points of the ratio [rad]. */
const STEP = Math.PI / 180;

/** Tip travel per jack travel at rising boom angles [rad], as far as the mechanism goes. */
export interface RatioAlongStroke {
  readonly angles: Float64Array;
  readonly ratios: Float64Array;
  /** Pair paths behind it. */
  readonly paths: readonly string[];
}

/**
 * Tip travel per jack travel from the mechanism of the pair, with the carried aircraft hanging by its probe.
 *
 * Boom and jack alone decide it, so that it reaches beyond the stroke of the whole linkage where `hold` looks there.
 *
 * @param open     opens a view of the pair
 * @param from, to boom angles that are asked for [rad]
 * @throws {InputError} when the mechanism does not reach two of them
 * @source `physics/linkage`, README eq. 9–11
 * @verified ratio.test.ts: triangle of the jack by the law of cosines
 */
export function ratioAlongStroke(open: OpenReads, from: number, to: number): RatioAlongStroke {
  const view = open();
  const { linkage, probeTip } = readLinkage({ linkage: view, tolerances: open(), capacity: open() });
  const hanging = { linkage: { ...linkage, attached: "single point" }, probeTip } as FitInputs;
  const mechanism = buildMechanism(hanging);
  const low = Math.min(from, linkage.stroke.stowed);
  const high = Math.max(to, linkage.stroke.extended);
  const start = linkage.drawn.boomAngle;
  const down = low < start ? trace(mechanism, start, low).reverse() : [];
  const up = high > start ? trace(mechanism, start, high) : [];
  // both begin where the mechanism is drawn
  const points = up.length > 0 ? [...down.slice(0, -1), ...up] : down;
  if (points.length < 2) {
    const message = "the jack stands at a dead point where the mechanism is drawn: there is no ratio along the stroke";
    throw new InputError([{ path: "mechanism.linkage", message }]);
  }
  return {
    angles: Float64Array.from(points, ([angle]) => angle),
    ratios: Float64Array.from(points, ([, ratio]) => ratio),
    paths: view.paths(),
  };
}

/** Points [angle, ratio] from one boom angle towards another, up to where the mechanism stops or the jack loses it. */
function trace(mechanism: ReturnType<typeof buildMechanism>, start: number, end: number): [number, number][] {
  const count = Math.max(1, Math.ceil(Math.abs(end - start) / STEP - 1e-9));
  const values = Array.from({ length: count + 1 }, (_, i) => start + ((end - start) * i) / count);
  const stroke = traceStroke(mechanism.linkage, { along: mechanism.boomHinge, values, tip: mechanism.tip });
  const points: [number, number][] = [];
  for (let i = 0; i < stroke.values.length; i++) {
    const transmission = transmissionAt(mechanism.linkage, stroke.states[i], JACK, mechanism.tip);
    if (transmission.outcome !== "moves") break;
    points.push([stroke.values[i], transmission.tipTravelPerJackTravel]);
  }
  return points;
}
