import type { ModeClass, PairMode } from "../../physics/modes/index.ts";
import {
  type Level,
  type LevelCurve,
  levelCurves,
  type MapWindow,
  pathProblem,
  pathSeeds,
  swingSystem,
} from "../../physics/stability-boundary/index.ts";
import type { HoldInputs, Range } from "./inputs.ts";
import type { PointModel } from "./stability.ts";

/** A piece of an exact curve along which the same can be said of its root. Coordinates in the lengths of its map. */
export interface BoundaryPiece {
  readonly level: Level;
  /** Class of the mode whose root lies on the piece; real roots have the class of their energy too. */
  readonly class: ModeClass;
  /**
   * Whether crossing the piece decides: no other rigid-body-type oscillation is below the damping ratio that is asked for,
   * and no real root doubles too fast.
   */
  readonly border: boolean;
  readonly x: readonly number[];
  readonly y: readonly number[];
  /** |s| [rad/s] */
  readonly frequency: readonly number[];
}

/** Largest distance of a chord from the exact curve, as a share of the parameters: half of the 0.1 % that is promised. */
export const CHORD_DEVIATION = 5e-4;
/** Halvings with which a place is found where something changes along a curve. */
const HALVINGS = 10;
/** Another mode this little below the level lies on it: two curves cross there. */
const ON_LEVEL = 1e-9;

/** What the pieces of a curve are judged by. */
export interface Judge {
  /** Damping ratio that the map asks for. */
  readonly limit: number;
  /** Growth rate that the time to double allows [1/s]. */
  readonly growth: number;
  /** Longitudinal modes at a place of the map; `null` where there is no trim. */
  readonly modesAt: (x: number, y: number) => readonly PairMode[] | null;
  /** Most places of one curve at which modes are found, before changes are narrowed down; default all. */
  readonly most?: number;
}

/**
 * Exact curves of a level over stiffness and snubber rate, at one operating point, cut into pieces.
 *
 * @param along  which stiffness lies along x
 * @param window ranges of stiffness [N/m] and snubber rate [N·s/m]
 * @param limit  damping ratio that decides what is a border
 * @returns pieces with x = ln stiffness, y = ln snubber rate
 * @source physics/stability-boundary README eq. 3–8
 * @verified exact-boundary.test.ts: grid agreement, order two of the grid's contour, roots of the model on the curve
 */
export function pathBoundary(
  inputs: HoldInputs,
  model: PointModel,
  along: "bending" | "accumulator",
  ranges: { readonly stiffness: Range; readonly snubber: Range },
  level: Level,
  limit: number,
): BoundaryPiece[] {
  const { at } = model;
  const map = {
    swing: swingSystem(model.base, inputs.boom.length),
    along,
    parts: { bending: at.bending, accumulator: at.accumulator, snubber: at.snubber },
    damping: 2 * inputs.boom.structuralDamping * Math.sqrt(model.pair.hookedMass.tangential),
  } as const;
  const window: MapWindow = { x: logRange(ranges.stiffness), y: logRange(ranges.snubber) };
  const curves = levelCurves(pathProblem(map), level, window, pathSeeds(map, level, window), {
    deviation: CHORD_DEVIATION,
  });
  const judge: Judge = {
    limit,
    growth: allowedGrowth(inputs),
    modesAt: (x, y) => model.modes(model.ratesWith({ [along]: Math.exp(x), snubber: Math.exp(y) }), "longitudinal"),
    most: 25,
  };
  return curves.flatMap((curve) => piecesOf(curve, level, judge));
}

/** Growth rate of a real root that the time to double still allows [1/s]. */
export function allowedGrowth(inputs: HoldInputs): number {
  return Math.LN2 / inputs.criteria.timeToDouble.value;
}

function logRange({ from, to }: Range): Range {
  return { from: Math.log(from), to: Math.log(to) };
}

interface PieceState {
  readonly class: ModeClass;
  readonly border: boolean;
}

/** Cuts a curve where the class of its mode changes, or whether it is a border. */
export function piecesOf(curve: LevelCurve, level: Level, judge: Judge): BoundaryPiece[] {
  const last = curve.x.length - 1;
  const place = (t: number): { x: number; y: number; frequency: number } => {
    const i = Math.min(last - 1, Math.floor(t));
    const part = t - i;
    const mix = (values: Float64Array): number => values[i] + part * (values[i + 1] - values[i]);
    return { x: mix(curve.x), y: mix(curve.y), frequency: mix(curve.frequency) };
  };
  const stateAt = (t: number): PieceState => {
    const { x, y, frequency } = place(t);
    return stateOf(judge.modesAt(x, y) ?? [], level, frequency, judge);
  };
  const stride = judge.most === undefined ? 1 : Math.max(1, Math.ceil(last / (judge.most - 1)));
  const stops: number[] = [];
  for (let t = 0; t < last; t += stride) stops.push(t);
  stops.push(last);
  const pieces: BoundaryPiece[] = [];
  let from = 0;
  let state = stateAt(0);
  for (let k = 1; k < stops.length; k++) {
    const after = stateAt(stops[k]);
    if (same(state, after)) continue;
    let [low, high] = [stops[k - 1], stops[k]];
    for (let i = 0; i < HALVINGS + Math.log2(stride); i++) {
      const middle = 0.5 * (low + high);
      if (same(stateAt(middle), state)) low = middle;
      else high = middle;
    }
    pieces.push(cut(curve, level, state, from, low, place));
    from = low;
    state = after;
  }
  pieces.push(cut(curve, level, state, from, last, place));
  return pieces.filter(({ x }) => x.length > 1);
}

function cut(
  curve: LevelCurve,
  level: Level,
  state: PieceState,
  from: number,
  to: number,
  place: (t: number) => { x: number; y: number; frequency: number },
): BoundaryPiece {
  const inner = Array.from(curve.x.keys()).filter((i) => i > from + 1e-9 && i < to - 1e-9);
  const points = [from, ...inner, to].map(place);
  return {
    level,
    ...state,
    x: points.map(({ x }) => x),
    y: points.map(({ y }) => y),
    frequency: points.map(({ frequency }) => frequency),
  };
}

function same(a: PieceState, b: PieceState): boolean {
  return a.class === b.class && a.border === b.border;
}

function zetaOf({ real, imag }: PairMode): number {
  return -real / Math.hypot(real, imag);
}

/** The mode of a place whose root lies on the level at a magnitude, and what the others leave to decide. */
function stateOf(modes: readonly PairMode[], level: Level, frequency: number, judge: Judge): PieceState {
  const own = ownMode(modes, level, frequency);
  const others = modes.filter((mode) => mode !== own && mode.class !== "structural");
  const border = others.every((mode) =>
    mode.imag > 0 ? zetaOf(mode) >= judge.limit - ON_LEVEL : mode.real <= judge.growth + ON_LEVEL,
  );
  return { class: own?.class ?? "rigid-body-type", border };
}

/** The mode nearest to a level and magnitude; `undefined` without a mode of that kind. */
export function ownMode(modes: readonly PairMode[], level: Level, frequency: number): PairMode | undefined {
  let best: PairMode | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const mode of modes) {
    if (mode.imag > 0 !== (level.kind === "oscillation")) continue;
    const off =
      level.kind === "oscillation"
        ? Math.abs(Math.log(Math.hypot(mode.real, mode.imag) / frequency)) + Math.abs(zetaOf(mode) - level.dampingRatio)
        : Math.abs(mode.real - level.growth);
    if (off < least) {
      least = off;
      best = mode;
    }
  }
  return best;
}
