import {
  add,
  type Interval,
  magnitude,
  multiply,
  plusMinus,
  point,
  roundedUp,
  square,
  squareRoot,
  subtract,
} from "../../math/interval/index.ts";
import { addBounds, type Bounds3, largestLength, points3, scaleBounds, subtractBounds } from "./interval-vectors.ts";
import { attitudeBounds, type BodyStretch } from "./stretch.ts";

/** One body at a share of a stretch. */
interface At {
  readonly body: BodyStretch;
  readonly share: number;
}

/** How far two poses of a body are from each other: way of the reference point by component [m], and turn [rad]. */
export interface Nearness {
  readonly way: readonly number[];
  readonly turn: number;
}

/** θ ≤ 1.12·‖R − S‖ (Frobenius), for ‖R − S‖ = 2√2·sin(θ/2) ≥ (2√2/π)·θ. */
const TURN_OF_NORM = 1.12;

/**
 * No less than the way and the turn from one pose of a body to another.
 *
 *     θ ≤ 1.12·‖R − S‖_F                                                        (README eq. 23)
 *
 * @source own derivation, README eq. 23
 * @verified enclosure.test.ts: nodes that do not fit their turns
 */
export function nearness(one: At, other: At): Nearness {
  const at = ({ body, share }: At): Bounds3 => addBounds(body.from, scaleBounds(point(share), body.way));
  const way = subtractBounds(at(one), at(other)).map(magnitude);
  const [r, s] = [one, other].map(({ body, share }) => attitudeBounds(body, point(share)));
  let sum: Interval = point(0);
  for (let k = 0; k < 9; k++) sum = add(sum, square(subtract(r[k], s[k])));
  return { way, turn: multiply(plusMinus(TURN_OF_NORM), squareRoot(sum)).high };
}

/**
 * No less than the way of the reference point [m] and the turn [rad] between a stretch and a finer one that covers the shares from … to of it,
 * at the same share.
 *
 *     |Δp| ≤ max of both ends,   θ ≤ max of both ends + ½|φ′ − (to − from)φ|     (README eq. 24)
 *
 * @source own derivation, README eq. 24: Δp goes straight; exp(sφ′)exp(−sφ) turns at the rate |φ′ − φ|
 * @verified enclosure.test.ts: coarse nodes, whose stretches have to be divided
 */
export function betweenStretches(
  coarse: BodyStretch,
  fine: BodyStretch,
  { from, to }: { readonly from: number; readonly to: number },
): { readonly way: number; readonly turn: number } {
  const ends = [
    nearness({ body: coarse, share: from }, { body: fine, share: 0 }),
    nearness({ body: coarse, share: to }, { body: fine, share: 1 }),
  ];
  const ways = ends.map(({ way: [x, y, z] }) => largestLength(points3(x, y, z)));
  const apart = largestLength(subtractBounds(fine.turn, scaleBounds(point(to - from), coarse.turn)));
  return {
    way: Math.max(...ways),
    turn: roundedUp(Math.max(ends[0].turn, ends[1].turn) + roundedUp(0.5 * apart)),
  };
}
