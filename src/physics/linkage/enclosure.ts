import { DomainError } from "../../math/errors.ts";
import { roundedUp } from "../../math/interval/index.ts";
import { requireLength } from "../../math/require.ts";
import { drivenIndex } from "./assemble.ts";
import { type Between, createBetween } from "./between.ts";
import { betweenStretches, nearness } from "./nearby.ts";
import type { NodePoses } from "./nodes.ts";
import { type Box, bodyBox, norm, Prover } from "./prover.ts";
import { type Stretch, stretchOf } from "./stretch.ts";
import type { Stroke } from "./stroke.ts";

/** What is proven of a motion that was interpolated between nodes. */
export interface MotionEnclosure {
  /**
   * Largest way of each moving body's reference point [m], and largest turn of the body [rad], from the interpolated to the true pose, over
   * all shares that are proven; shape (moving bodies).
   */
  readonly way: Float64Array;
  readonly turn: Float64Array;
  /** Nodes, 0 … number of stretches, between which nothing is proven: near a dead point, or nodes of different branches. */
  readonly unresolved: readonly { readonly from: number; readonly to: number }[];
  /** Boxes that were proven. */
  readonly pieces: number;
}

/** Halvings of a stretch before it counts as unresolved. */
const DEPTH = 6;
/** Largest turn of a body in a stretch, squared [rad²]. */
const LARGEST_TURN = 1;

/**
 * Encloses the motion of a linkage along a stroke by boxes about an interpolation between its nodes.
 *
 * For every share t of a stretch the rows, with all bodies displaced from the interpolated pose by z, have exactly one solution in the
 * box that Krawczyk's operator maps into itself:
 *
 *     |z| ≤ k = |Y·h| + G·ρ < ρ,   |Y·h| ≤ max(|Y·h(0)|, |Y·h(1)|) + ⅛|Y·h″|     (README eq. 21, 22)
 *
 * A stretch that this does not show is halved at a pose that is solved there; how far the finer interpolation is from the given one is added
 * (eq. 24). A stretch of which a part is left at the smallest is unresolved. Each box continues the branch of the one before: the
 * solution at the common share lies in both. Rows that repeat others (redundant joints) are left out, the same ones everywhere.
 *
 * @param stroke  from `traceStroke`: its first values are the nodes
 * @param bodies  interpolation of each moving body, in the order of the linkage
 * @throws {DomainError} if bodies or nodes do not fit the stroke
 * @source own derivation, README eq. 18–22; R. Krawczyk, Computing 4 (1969) 187–201
 * @verified enclosure.test.ts: analytic/four-bar, analytic/slider-crank, analytic/spatial-four-bar inside; second order; wrong nodes refused
 */
export function encloseMotion(stroke: Stroke, bodies: readonly NodePoses[]): MotionEnclosure {
  const { linkage } = stroke;
  if (bodies.length !== linkage.bodies.length - 1) {
    throw new DomainError("number of interpolated bodies", bodies.length, `${linkage.bodies.length - 1}`);
  }
  const stretches = Math.floor(bodies[0].turns.length / 3);
  requireLength("nodes", Math.min(...bodies.map(({ points }) => points.length)), 3 * (stretches + 1));
  requireLength("stroke values", stroke.values.length, stretches + 1);
  const chain = new Chain(stroke, bodies, stretches);
  for (let node = 0; node < stretches; node++) chain.follow(node);
  return chain;
}

/** A stretch that has to be proven, and what it covers of the one between two nodes. */
interface Task {
  readonly stretch: Stretch;
  readonly from: number;
  readonly to: number;
  readonly depth: number;
}

class Chain implements MotionEnclosure {
  readonly way: Float64Array;
  readonly turn: Float64Array;
  readonly unresolved: { from: number; to: number }[] = [];
  pieces = 0;
  private readonly stroke: Stroke;
  private readonly bodies: readonly NodePoses[];
  private readonly prover: Prover;
  private readonly between: Between;
  private last: { readonly box: Box; readonly stretch: Stretch } | null = null;
  /** Pieces that may yet be looked at, so that a motion that cannot be proven does not take for ever. */
  private left: number;

  constructor(stroke: Stroke, bodies: readonly NodePoses[], stretches: number) {
    this.stroke = stroke;
    this.bodies = bodies;
    this.way = new Float64Array(bodies.length);
    this.turn = new Float64Array(bodies.length);
    this.left = 8 * stretches + 4 * 2 ** DEPTH;
    this.prover = new Prover(stroke, bodies, stretches >> 1);
    this.between = createBetween(stroke);
  }

  /** From one node to the next. */
  follow(node: number): void {
    const { values, along, held, linkage } = this.stroke;
    const value = (joint: string, from: number, to: number) => ({ joint: drivenIndex(linkage, joint), from, to });
    const stretch = stretchOf(this.bodies, node, [
      ...held.map((drive) => value(drive.joint, drive.value, drive.value)),
      value(along, values[node], values[node + 1]),
    ]);
    const [ways, turns] = [this.way.slice(), this.turn.slice()];
    if (largestTurn(stretch) <= LARGEST_TURN && this.divide(stretch, { stretch, from: 0, to: 1, depth: 0 })) return;
    this.way.set(ways);
    this.turn.set(turns);
    this.last = null;
    const before = this.unresolved.at(-1);
    if (before !== undefined && before.to === node) before.to = node + 1;
    else this.unresolved.push({ from: node, to: node + 1 });
  }

  /** @returns whether all of the task was proven */
  private divide(whole: Stretch, task: Task): boolean {
    const { stretch, from, to, depth } = task;
    this.left -= 1;
    if (this.left < 0) return false;
    const box = this.prover.prove(stretch);
    if (box !== null && this.continues(stretch, box)) {
      this.take(whole, task, box);
      return true;
    }
    const halves = depth === DEPTH ? null : this.between(stretch);
    if (halves === null) return false;
    const half = 0.5 * (from + to);
    return (
      this.divide(whole, { stretch: halves[0], from, to: half, depth: depth + 1 }) &&
      this.divide(whole, { stretch: halves[1], from: half, to, depth: depth + 1 })
    );
  }

  /** Does the solution at the end of the last box lie in this one? Then it is this one's, for there is only one. */
  private continues(stretch: Stretch, { radii }: Box): boolean {
    const { last } = this;
    if (last === null) return true;
    const { size } = this.stroke.linkage;
    return stretch.bodies.every((body, index) => {
      const before = last.stretch.bodies[index];
      if (body === null || before === null) return true;
      const seam = nearness({ body: before, share: 1 }, { body, share: 0 });
      // The same attitude seen from either: |φ′ − φ| ≤ 2θ for turns below a radian.
      const turn = roundedUp(2 * seam.turn * size);
      return [...seam.way, turn, turn, turn].every((more, k) => {
        const at = 6 * (index - 1) + k;
        return roundedUp(last.box.atEnd[at] + more) <= radii[at];
      });
    });
  }

  private take(whole: Stretch, { stretch, from, to, depth }: Task, box: Box): void {
    const { size } = this.stroke.linkage;
    this.last = { box, stretch };
    this.pieces += 1;
    for (let at = 0; at < this.way.length; at++) {
      const own = bodyBox(box.inside, at, size);
      const [coarse, fine] = [whole.bodies[at + 1], stretch.bodies[at + 1]];
      const more =
        depth === 0 || coarse === null || fine === null ? null : betweenStretches(coarse, fine, { from, to });
      const way = norm(own.way[0], own.way[1], own.way[2]);
      this.way[at] = Math.max(this.way[at], more === null ? way : roundedUp(way + more.way));
      this.turn[at] = Math.max(this.turn[at], more === null ? own.turn : roundedUp(own.turn + more.turn));
    }
  }
}

/** Squared [rad²], of all bodies. */
function largestTurn({ bodies }: Stretch): number {
  return bodies.reduce((most, body) => Math.max(most, body?.turnSquared.high ?? 0), 0);
}
