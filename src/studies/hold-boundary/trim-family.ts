import { chebyshevNodes, chebyshevWeights } from "../../math/chebyshev/index.ts";
import {
  PathFlexibility,
  type PathParts,
  type RootProblem,
  SwingResponse,
  type SwingSystem,
  swingSystem,
} from "../../physics/stability-boundary/index.ts";
import type { HoldInputs, Operating } from "../hold/index.ts";
import { PointModel } from "../hold/index.ts";
import type { MapAxis } from "./map-axes.ts";

/** Step of the differences in the map's lengths: far below what bends, far above rounding. */
const STEP = 1e-5;

/** Linear models over a map whose axes move the trim, tabled at Chebyshev nodes. */
export interface TrimFamily {
  readonly axes: readonly [MapAxis, MapAxis];
  /** Nodes of each axis in map lengths; one node for an axis that does not move the trim. */
  readonly nodes: readonly [Float64Array, Float64Array];
  /** Model at node (i, j), `models[j * nodes[0].length + i]`. */
  readonly models: readonly PointModel[];
  readonly swings: readonly SwingSystem[];
  /** 2·ζ_s·√m at each node. */
  readonly dampings: Float64Array;
  readonly at: Operating;
}

/** Operating point of a place of a map. */
export function pointAt(axes: readonly [MapAxis, MapAxis], at: Operating, x: number, y: number): Operating {
  const [ax, ay] = axes;
  return ay.apply(ax.apply(at, ax.toValue(x)), ay.toValue(y));
}

/**
 * Linear models at the nodes of a map; `null` when the aircraft does not trim at one of them.
 *
 * @param counts nodes along an axis that moves the trim
 */
export function trimFamily(
  inputs: HoldInputs,
  at: Operating,
  axes: readonly [MapAxis, MapAxis],
  counts: readonly [number, number],
): TrimFamily | null {
  const along = ({ movesTrim, toLength, from, to, own }: MapAxis, count: number): Float64Array =>
    movesTrim ? chebyshevNodes(toLength(from), toLength(to), count) : Float64Array.of(toLength(own));
  const nodes = [along(axes[0], counts[0]), along(axes[1], counts[1])] as const;
  const models: PointModel[] = [];
  for (const y of nodes[1]) {
    for (const x of nodes[0]) {
      const model = new PointModel(inputs, pointAt(axes, at, x, y));
      if (!model.trimmed) return null;
      models.push(model);
    }
  }
  const { length, structuralDamping } = inputs.boom;
  const first = swingSystem(models[0].base, length);
  const swings = models.map((model) => swingSystem(model.base, length, first.kept));
  const dampings = Float64Array.from(
    models,
    ({ pair }) => 2 * structuralDamping * Math.sqrt(pair.hookedMass.tangential),
  );
  return { axes, nodes, models, swings, dampings, at };
}

/** The linear model without its path at any place of a map. */
export interface ModelAt {
  readonly swing: SwingSystem;
  /** 2·ζ_s·√m at the place. */
  readonly damping: number;
  /** Writes `swing` and `damping` at a place in map lengths; false where the aircraft does not trim. */
  at(x: number, y: number): boolean;
  /** The same, as well as one model near the place shows it: for a first look. */
  near(x: number, y: number): boolean;
}

/** Interpolates the tabled models to any place of the map. */
export class FamilyInterpolant implements ModelAt {
  readonly swing: SwingSystem;
  /** 2·ζ_s·√m at the place. */
  damping = 0;
  private readonly family: TrimFamily;
  private readonly wx: Float64Array;
  private readonly wy: Float64Array;

  constructor(family: TrimFamily) {
    this.family = family;
    const { size, kept } = family.swings[0];
    this.swing = {
      ...{ size, kept },
      matrix: new Float64Array(size * size),
      input: new Float64Array(size),
      output: new Float64Array(size),
    };
    this.wx = new Float64Array(family.nodes[0].length);
    this.wy = new Float64Array(family.nodes[1].length);
  }

  /**
   * Writes `swing` and `damping` at a place in map lengths.
   *
   * @cost (nodes)·(size² + 2·size), no allocation
   */
  at(x: number, y: number): boolean {
    const { nodes, swings, dampings } = this.family;
    const { wx, wy, swing } = this;
    weights(nodes[0], x, wx);
    weights(nodes[1], y, wy);
    swing.matrix.fill(0);
    swing.input.fill(0);
    swing.output.fill(0);
    this.damping = 0;
    for (let j = 0; j < wy.length; j++) {
      for (let i = 0; i < wx.length; i++) {
        const w = wx[i] * wy[j];
        if (w === 0) continue;
        const k = j * wx.length + i;
        add(swing.matrix, swings[k].matrix, w);
        add(swing.input, swings[k].input, w);
        add(swing.output, swings[k].output, w);
        this.damping += w * dampings[k];
      }
    }
    return true;
  }

  near(x: number, y: number): boolean {
    return this.at(x, y);
  }
}

/** Path at a place; beyond the ends of the axes on the straight line from them, because the mechanism is not defined there. */
function partsAt({ axes, at }: TrimFamily, x: number, y: number): PathParts {
  const clamp = ({ toLength, from, to }: MapAxis, u: number): number => {
    const ends = [toLength(from), toLength(to)];
    return Math.min(ends[1], Math.max(ends[0], u));
  };
  const [cx, cy] = [clamp(axes[0], x), clamp(axes[1], y)];
  const edge = pointAt(axes, at, cx, cy);
  if (cx === x && cy === y) return edge;
  const [dx, dy] = [x - cx, y - cy];
  const inward = pointAt(
    axes,
    at,
    clamp(axes[0], cx - Math.sign(dx) * STEP),
    clamp(axes[1], cy - Math.sign(dy) * STEP),
  );
  const steps = Math.max(Math.abs(dx), Math.abs(dy)) / STEP;
  const beyond = (key: keyof PathParts): number =>
    Math.max(edge[key] + (edge[key] - inward[key]) * steps, 1e-6 * edge[key]);
  return { bending: beyond("bending"), accumulator: beyond("accumulator"), snubber: beyond("snubber") };
}

function weights(nodes: Float64Array, u: number, out: Float64Array): void {
  if (nodes.length === 1) out[0] = 1;
  else chebyshevWeights(nodes, u, out);
}

function add(to: Float64Array, from: Float64Array, by: number): void {
  for (let i = 0; i < to.length; i++) to[i] += by * from[i];
}

/** The root condition over a family; derivatives with the axes by central differences of what stands for its models. */
export function familyProblem(family: TrimFamily, interpolant: ModelAt = new FamilyInterpolant(family)): RootProblem {
  const response = new SwingResponse(interpolant.swing.size);
  const path = new PathFlexibility();
  const ahead = new Float64Array(2);
  const value = (sRe: number, sIm: number, x: number, y: number, out: Float64Array): boolean => {
    if (!interpolant.at(x, y)) return false;
    if (!response.evaluate(interpolant.swing, sRe, sIm)) return false;
    const parts = partsAt(family, x, y);
    path.evaluate(parts, interpolant.damping, sRe, sIm);
    out[0] = response.re + path.value[0];
    out[1] = response.im + path.value[1];
    return true;
  };
  const slope = (
    sRe: number,
    sIm: number,
    x: number,
    y: number,
    dx: number,
    dy: number,
    out: Float64Array,
  ): boolean => {
    if (!value(sRe, sIm, x + dx, y + dy, ahead) || !value(sRe, sIm, x - dx, y - dy, out)) return false;
    out[0] = (ahead[0] - out[0]) / (2 * (dx + dy));
    out[1] = (ahead[1] - out[1]) / (2 * (dx + dy));
    return true;
  };
  const inside = ({ toLength, from, to }: MapAxis, u: number): boolean => {
    const [low, high] = [toLength(from), toLength(to)];
    const room = 0.05 * (high - low);
    return u > low - room && u < high + room;
  };
  return {
    evaluate(sRe, sIm, x, y, out) {
      if (!inside(family.axes[0], x) || !inside(family.axes[1], y)) return false;
      if (!slope(sRe, sIm, x, y, STEP, 0, out.byX) || !slope(sRe, sIm, x, y, 0, STEP, out.byY)) return false;
      if (!value(sRe, sIm, x, y, out.value)) return false;
      out.byRate[0] = response.slopeRe + path.bySlope[0];
      out.byRate[1] = response.slopeIm + path.bySlope[1];
      return true;
    },
  };
}
