import { type Level, levelCurves } from "../../physics/stability-boundary/index.ts";
import {
  allowedGrowth,
  type BoundaryPiece,
  CHORD_DEVIATION,
  type HoldInputs,
  type Operating,
  PointModel,
  pairAt,
  piecesOf,
  tangentialRates,
} from "../hold/index.ts";
import { buildMap, shade } from "./build-map.ts";
import type { ModesAt } from "./check-curves.ts";
import { airspeedAxis, boomAngleAxis, type MapAxis, snubberAxis } from "./map-axes.ts";
import { ModelLattice } from "./model-lattice.ts";
import { evenly } from "./path-maps.ts";
import { type RootList, SwingRoots, scanSeeds } from "./seeds.ts";
import { FamilyInterpolant, familyProblem, type ModelAt, pointAt, type TrimFamily, trimFamily } from "./trim-family.ts";
import type { BoundaryMap, BoundaryMissing } from "./types.ts";

/** Nodes of the table along an axis that moves the trim. */
const ONE_AXIS = 17;
const TWO_AXES = 13;
/** Grid of the scan for seeds, and of the shading along an axis that does not move the trim. */
const SCAN = 21;
const SHADE = 25;
/** Places of one curve at which the nonlinear equations are linearised to say what it is. */
const JUDGED = 9;
const HALVINGS = 30;
const NO_ROOTS: RootList = { re: new Float64Array(0), im: new Float64Array(0), count: 0 };

interface Plan {
  readonly id: string;
  readonly title: string;
  readonly axes: (lowest?: number) => readonly [MapAxis, MapAxis];
  readonly counts: readonly [number, number];
}

/** Maps whose axes move the trim, by continuation: airspeed × snubber rate, boom angle × airspeed. */
export function trimMaps(
  inputs: HoldInputs,
  at: Operating,
  further: readonly number[],
): { maps: BoundaryMap[]; missing: BoundaryMissing[] } {
  const plans: Plan[] = [
    {
      id: "airspeed-snubber",
      title: "Airspeed and snubber rate",
      axes: (lowest) => [airspeedAxis(inputs, at, lowest), snubberAxis(inputs, at)],
      counts: [ONE_AXIS, 1],
    },
    {
      id: "boomAngle-airspeed",
      title: "Boom angle and airspeed, stiffness and snubber as the mechanism has them",
      axes: (lowest) => [boomAngleAxis(inputs, at), airspeedAxis(inputs, at, lowest)],
      counts: [TWO_AXES, TWO_AXES],
    },
  ];
  const maps: BoundaryMap[] = [];
  const missing: BoundaryMissing[] = [];
  for (const plan of plans) {
    const map = trimMap(inputs, at, plan, further);
    if (typeof map === "string") missing.push({ id: plan.id, condition: at.condition, reason: map });
    else maps.push(map);
  }
  return { maps, missing };
}

function trimMap(inputs: HoldInputs, at: Operating, plan: Plan, further: readonly number[]): BoundaryMap | string {
  const wide = plan.axes();
  for (const { axis, from, to } of wide) if (!(to > from)) return `the swept range of ${axis.key} is empty`;
  const lowest = lowestTrimmed(inputs, at, wide);
  if (lowest === null) return "the aircraft does not trim at the highest swept airspeed";
  const axes = plan.axes(lowest);
  const family = trimFamily(inputs, at, axes, plan.counts);
  if (family === null) return "the aircraft does not trim in part of the swept range";
  const modesAt: ModesAt = (x, y) => {
    const model = new PointModel(inputs, pointAt(axes, at, x, y));
    return model.trimmed ? model.modes(model.rates, "longitudinal") : null;
  };
  // coefficient tables have corners that no polynomial over the whole map follows
  const models: ModelAt =
    inputs.carried.tables === undefined
      ? new FamilyInterpolant(family)
      : new ModelLattice(inputs, at, { axes, like: family.swings[0], scan: SCAN });
  return buildMap(
    inputs,
    at,
    {
      ...{ id: plan.id, title: plan.title, method: "continuation", axes, modesAt },
      grid: shadedGrid(inputs, family),
      pieces: (level, limit) => familyPieces(inputs, { family, models, modesAt }, level, limit),
    },
    further,
  );
}

/** Lowest swept airspeed [m/s EAS] from which the aircraft trims over the other axis; `null` when it does not at the highest. */
function lowestTrimmed(inputs: HoldInputs, at: Operating, axes: readonly [MapAxis, MapAxis]): number | null {
  const speed = axes.find(({ axis }) => axis.key === "airspeed")!;
  const other = axes.find((axis) => axis !== speed)!;
  const others = other.movesTrim ? evenly(other, 7).map(other.toValue) : [other.own];
  const trims = (value: number): boolean =>
    others.every((o) => pairAt(inputs, speed.apply(other.apply(at, o), value)).trim.outcome === "trimmed");
  if (trims(speed.from)) return speed.from;
  if (!trims(speed.to)) return null;
  let [low, high] = [speed.from, speed.to];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = 0.5 * (low + high);
    if (trims(middle)) high = middle;
    else low = middle;
  }
  // a little inside, so that no node falls on the edge itself
  return high + 1e-3 * (speed.to - high);
}

function shadedGrid(inputs: HoldInputs, { nodes, models, axes }: TrimFamily) {
  const x = Array.from(nodes[0]);
  if (axes[1].movesTrim) {
    const worst = models.map((model) => shade(inputs, model.modes(model.rates, "longitudinal")));
    return { x, y: Array.from(nodes[1]), worst };
  }
  const y = evenly(axes[1], SHADE);
  const worst = y.flatMap((v) =>
    models.map((model) => shade(inputs, model.modes(model.ratesWith({ snubber: axes[1].toValue(v) }), "longitudinal"))),
  );
  return { x, y, worst };
}

function familyPieces(
  inputs: HoldInputs,
  { family, models, modesAt }: { family: TrimFamily; models: ModelAt; modesAt: ModesAt },
  level: Level,
  limit: number,
): BoundaryPiece[] {
  const { axes, at } = family;
  const roots = new SwingRoots();
  const first = family.models[0].base;
  const coordinates = family.swings[0].kept.filter((i) => i < first.coordinates).length;
  const rootsAt = (x: number, y: number) => {
    if (!models.near(x, y)) return NO_ROOTS;
    const point = pointAt(axes, at, x, y);
    const hooked = (models.damping / (2 * inputs.boom.structuralDamping || 1)) ** 2;
    return roots.at(models.swing, coordinates, inputs.boom.length, tangentialRates(inputs, point, hooked));
  };
  const seeds = scanSeeds(evenly(axes[0], SCAN), evenly(axes[1], SCAN), level, rootsAt);
  const window = {
    x: { from: axes[0].toLength(axes[0].from), to: axes[0].toLength(axes[0].to) },
    y: { from: axes[1].toLength(axes[1].from), to: axes[1].toLength(axes[1].to) },
  };
  const curves = levelCurves(familyProblem(family, models), level, window, seeds, {
    deviation: 0.5 * CHORD_DEVIATION,
    longestStep: 0.1,
    middles: inputs.carried.tables !== undefined,
  });
  const judge = { limit, growth: allowedGrowth(inputs), modesAt, most: JUDGED };
  return curves.flatMap((curve) => piecesOf(curve, level, judge));
}
