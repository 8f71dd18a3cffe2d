import { createDistanceQuery, createPose, enclosure, minimumDistance } from "../../physics/shapes/index.ts";
import { CARRIER, type FitInputs } from "./inputs.ts";
import type { MovingPart, Scene } from "./motion.ts";
import type { FitResult } from "./types.ts";

/** Two parts whose clearance counts. */
export interface PartPair {
  readonly a: MovingPart;
  readonly b: MovingPart;
  /** Proven deviation of both from their interpolated motion [m]. */
  readonly deviation: number;
  /** Taken off: faceting, deviation and rounding of both [m]. */
  readonly slack: number;
}

export interface PairChoice {
  /** Solid against solid. */
  readonly pairs: readonly PartPair[];
  /** First a solid, then a zone. */
  readonly zones: readonly PartPair[];
  readonly leftOut: FitResult["leftOut"];
}

/**
 * Which parts are looked at against which.
 *
 * Every part of one body against every part of another that can move against it. Left out: what the pair declares apart; gear and doors
 * against the shapes of the carrier that they hang on or are stowed in, whose wells and bays a drawing closes, all shapes where the pair
 * names none; of bodies that a joint of the mechanism joins, those parts that are near each other as drawn, which is the joint itself; two
 * zones; a zone against gear.
 *
 * @param inputs  declared pairs and near
 * @param scene   parts with their motion
 * @param joined  pairs of bodies with a joint
 * @source definition
 * @verified findings.test.ts, "what is left out"
 */
export function choosePairs(
  inputs: FitInputs,
  scene: Scene,
  joined: readonly (readonly [string, string])[],
): PairChoice {
  const pairs: PartPair[] = [];
  const zones: PartPair[] = [];
  const leftOut = new Map<string, { pair: [string, string]; because: string }>();
  const leave = (x: string, y: string, because: string) => leftOut.set(`${x} ${y}`, { pair: [x, y], because });
  const isNearAsDrawn = nearAsDrawn(inputs.near);
  const { parts } = scene;
  for (let i = 0; i < parts.length; i++) {
    for (let j = i + 1; j < parts.length; j++) {
      const [a, b] = [parts[i], parts[j]];
      const [p, q] = [a.part, b.part];
      if (p.body === q.body || !movesAgainst(a, b)) continue;
      const isZone = p.zone || q.zone;
      if (isZone && (p.zone === q.zone || a.drivenBy === "group" || b.drivenBy === "group")) continue;
      if (declaredApart(inputs, a, b)) leave(p.name, q.name, "declared apart: they touch by design");
      else if (!isZone && hangsOn(a, b)) leave(...hungPair(a, b), "the one hangs on the other");
      else if (!isZone && areJoined(joined, a, b) && isNearAsDrawn(a, b)) {
        leave(p.name, q.name, "their bodies are joined and they are near as drawn");
      } else {
        const pair = { a, b, deviation: a.deviation + b.deviation, slack: a.slack + b.slack };
        if (isZone) zones.push(p.zone ? { ...pair, a: b, b: a } : pair);
        else pairs.push(pair);
      }
    }
  }
  return { pairs, zones, leftOut: [...leftOut.values()] };
}

/** Nearer than near as drawn, touching, or one inside the other. */
function nearAsDrawn(near: number): (a: MovingPart, b: MovingPart) => boolean {
  const query = createDistanceQuery();
  const [poseA, poseB] = [createPose(), createPose()];
  return (a, b) => {
    a.poseAt(0, 0, poseA);
    b.poseAt(0, 0, poseB);
    const { distance } = minimumDistance(a.part.tree, poseA, b.part.tree, poseB, query);
    return distance <= near + a.slack + b.slack || enclosure(a.part.tree, poseA, b.part.tree, poseB, query) !== "none";
  };
}

/** Two parts that stand still, or that the same body carries, keep their distance. */
function movesAgainst(a: MovingPart, b: MovingPart): boolean {
  return a.drivenBy !== "nothing" || b.drivenBy !== "nothing";
}

/** Does the pair declare that these two touch by design? */
export function declaredApart(inputs: FitInputs, a: MovingPart, b: MovingPart): boolean {
  const is = (name: string, one: MovingPart) => name === one.part.body || name === one.part.name;
  return inputs.apart.some(([x, y]) => (is(x, a) && is(y, b)) || (is(x, b) && is(y, a)));
}

/** A gear part or door and a shape of the carrier that it hangs on, as far as the pair says which. */
function hangsOn(a: MovingPart, b: MovingPart): boolean {
  const hung = (one: MovingPart, other: MovingPart) => {
    if (one.part.owner !== "gear" || other.part.body !== CARRIER) return false;
    const shapes = one.part.hinge?.mover.hangsOn ?? null;
    return shapes === null || shapes.some((shape) => other.part.name === `${CARRIER}.${shape}`);
  };
  return hung(a, b) || hung(b, a);
}

/** Names for the list of what was left out: the carrier as a whole unless the pair says which of its shapes. */
function hungPair(a: MovingPart, b: MovingPart): [string, string] {
  const declared = [a, b].some(({ part }) => (part.hinge?.mover.hangsOn ?? null) !== null);
  const name = ({ part }: MovingPart) => (declared && part.body === CARRIER ? part.name : part.body);
  return [name(a), name(b)];
}

function areJoined(joined: readonly (readonly [string, string])[], a: MovingPart, b: MovingPart): boolean {
  const [x, y] = [a.part.body, b.part.body];
  return joined.some(([p, q]) => (p === x && q === y) || (p === y && q === x));
}
