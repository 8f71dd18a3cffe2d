import { DomainError } from "../../math/errors.ts";
import { jointIndex, type Linkage, STATE } from "./linkage.ts";
import { coordinateRate, pointPosition, pointVelocity, unitMotion } from "./motion.ts";
import type { PointRef } from "./types.ts";

/** How a jack moves the tip at one pose. */
export type Transmission =
  | {
      readonly outcome: "moves";
      /** Tip travel per jack travel, i = |dp|/|dL| [1], never negative. */
      readonly tipTravelPerJackTravel: number;
      /** Velocity of the tip per unit of jack lengthening [1], carrier axes. */
      readonly tipVelocity: Float64Array;
      /** Between the jack and the line across which its driven end moves, 0 … π/2 [rad]; 0 is a dead point of the jack. */
      readonly jackTransmissionAngle: number;
    }
  /** The jack cannot move the linkage: the tip moves while the jack stands still, or the rows lose rank. */
  | { readonly outcome: "dead point" };

/** A jack slower than this share of its driven end stands still. */
const STANDS_STILL = 1e-9;

/**
 * Transmission of a jack at a pose, whatever the linkage is driven by.
 *
 *     i = |dp_tip/dL|,   sin μ = |dL|/|v|                                        (README eq. 10, 11)
 *
 * v is the velocity of the jack's second end seen from its first body.
 *
 * @param linkage  the linkage
 * @param state    a closed state, shape (bodies, 7)
 * @param jack     name of the jack
 * @param tip      the point whose travel counts
 * @param held     names of other drives that are held
 * @throws {DomainError} if `jack` names no jack
 * @source own derivation, README eq. 9–11
 * @verified transmission.test.ts: triangle of the jack by the law of cosines, differences along a stroke
 */
export function transmissionAt(
  linkage: Linkage,
  state: Float64Array,
  jack: string,
  tip: PointRef,
  held: readonly string[] = [],
): Transmission {
  const { kind, first } = linkage.joints[jointIndex(linkage, jack)];
  if (kind !== "jack") throw new DomainError(`kind of ${jack}`, kind, "a jack");
  const motion = unitMotion(linkage, state, [...held, jack], jack);
  if (motion === undefined) return { outcome: "dead point" };
  const end = pointPosition(linkage, state, { joint: jack, on: "second" });
  const velocity = pointVelocity(linkage, state, motion, { joint: jack, on: "second" });
  if (first > 0) {
    const m = 6 * (first - 1);
    const arm = [0, 1, 2].map((k) => end[k] - state[STATE * first + k]);
    const w = [3, 4, 5].map((k) => motion[m + k] / linkage.size);
    for (let k = 0; k < 3; k++) {
      const [i, j] = [(k + 1) % 3, (k + 2) % 3];
      velocity[k] -= motion[m + k] + w[i] * arm[j] - w[j] * arm[i];
    }
  }
  const speed = Math.hypot(velocity[0], velocity[1], velocity[2]);
  const share = Math.abs(coordinateRate(linkage, state, motion, jack)) / speed;
  if (!(share > STANDS_STILL)) return { outcome: "dead point" };
  const tipVelocity = pointVelocity(linkage, state, motion, tip);
  return {
    outcome: "moves",
    tipTravelPerJackTravel: Math.hypot(tipVelocity[0], tipVelocity[1], tipVelocity[2]),
    tipVelocity,
    jackTransmissionAngle: Math.asin(Math.min(1, share)),
  };
}

/**
 * Angle between two links at the point where they meet: for a four-bar between coupler and driven link.
 *
 * @param linkage  the linkage
 * @param state    shape (bodies, 7)
 * @param from     a point of the first link
 * @param at       where they meet
 * @param to       a point of the second link
 * @returns folded to 0 … π/2 [rad]; 0 when the links lie in line
 * @throws {DomainError} if two of the points coincide
 * @source definition
 * @verified transmission.test.ts
 */
export function transmissionAngle(
  linkage: Linkage,
  state: Float64Array,
  from: PointRef,
  at: PointRef,
  to: PointRef,
): number {
  const [a, b, c] = [from, at, to].map((point) => pointPosition(linkage, state, point));
  const one = a.map((value, k) => value - b[k]);
  const two = c.map((value, k) => value - b[k]);
  const sine = Math.hypot(
    one[1] * two[2] - one[2] * two[1],
    one[2] * two[0] - one[0] * two[2],
    one[0] * two[1] - one[1] * two[0],
  );
  const cosine = Math.abs(one[0] * two[0] + one[1] * two[1] + one[2] * two[2]);
  if (sine === 0 && cosine === 0) throw new DomainError("length of a link", 0, "above zero");
  return Math.atan2(sine, cosine);
}
