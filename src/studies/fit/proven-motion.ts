import { encloseMotion } from "../../physics/linkage/index.ts";
import type { Mechanism } from "./mechanism.ts";
import type { TracedStroke } from "./stroke.ts";
import type { BodyTable } from "./stroke-table.ts";

/** How far the interpolated motion of a body may be from that of the linkage, anywhere along the stroke. */
export interface Deviation {
  /** Way of the reference point [m], and turn of the body [rad]. */
  readonly way: number;
  readonly turn: number;
}

/** What is proven of the motion between the solved poses. */
export interface ProvenMotion {
  readonly deviations: ReadonlyMap<string, Deviation>;
  /** Shares of the stroke between which nothing is proven. */
  readonly unresolved: readonly (readonly [number, number])[];
}

/**
 * Proves the motion between the nodes of the tables: one branch of the linkage, no farther from the interpolation than the deviations.
 *
 * @param mechanism  its linkage
 * @param traced     the stroke; its poses are the nodes
 * @param tables     by name of the body, all moving ones
 * @source `physics/linkage` README eq. 18–24
 * @verified stroke.test.ts: closed form of the four-bar between nodes; a stroke that ends at a dead point
 */
export function proveMotion(
  mechanism: Mechanism,
  traced: TracedStroke,
  tables: ReadonlyMap<string, BodyTable>,
): ProvenMotion {
  const own = mechanism.linkage.bodies.flatMap((body) => {
    const table = tables.get(body);
    return table === undefined ? [] : [{ body, nodes: table.nodes }];
  });
  const { way, turn, unresolved } = encloseMotion(
    traced.stroke,
    own.map(({ nodes }) => nodes),
  );
  const stretches = traced.poses.length - 1;
  return {
    deviations: new Map(own.map(({ body }, at) => [body, { way: way[at], turn: turn[at] }])),
    unresolved: unresolved.map(({ from, to }) => [from / stretches, to / stretches]),
  };
}
