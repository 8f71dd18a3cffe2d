import { type SwingSystem, swingSystem } from "../../physics/stability-boundary/index.ts";
import { type HoldInputs, type Operating, PointModel } from "../hold/index.ts";
import type { MapAxis } from "./map-axes.ts";
import { type ModelAt, pointAt } from "./trim-family.ts";

/** Cells of the lattice between two neighbours of the scan for seeds: a corner is then right to a few hundredths of a percent. */
const CELLS_PER_SCAN = 128;

interface Tabled {
  readonly swing: SwingSystem;
  readonly damping: number;
}

/**
 * Linear models on a fine lattice over a map, made where they are asked for, with smooth pieces of second degree between them.
 *
 *     A(x, y) = Σ wᵢ(x)·wⱼ(y)·Aᵢⱼ,  w = (½ − t)²/2, ¾ − t², (½ + t)²/2 of the nearest place and its neighbours        (README eq. 6)
 *
 * For airloads with corners, which no polynomial over the whole map follows: a corner stays within three places, and a jump becomes the
 * steep side of one cell, so that a curve can be followed through both. Straight lines are kept; the error is (cell)²/8 of what
 * bends, and an eighth of a cell of a slope that jumps.
 *
 * @source own derivation, README eq. 6: quadratic B-splines with the models as control points
 * @verified tables.test.ts: models of its own, continuous slope, straight beyond the ends; curves against bisection on the pair itself
 */
export class ModelLattice implements ModelAt {
  readonly swing: SwingSystem;
  damping = 0;
  private readonly inputs: HoldInputs;
  private readonly operating: Operating;
  private readonly axes: readonly [MapAxis, MapAxis];
  private readonly cells: readonly [number, number];
  private readonly wx = new Float64Array(3);
  private readonly wy = new Float64Array(3);
  private readonly known = new Map<number, Tabled | null>();

  /**
   * @param axes of the map; an axis that does not move the trim has no cells
   * @param like a system of the map, for the states that are kept
   * @param scan places of the scan for seeds along an axis: they are places of the lattice too
   */
  constructor(
    inputs: HoldInputs,
    operating: Operating,
    { axes, like, scan }: { axes: readonly [MapAxis, MapAxis]; like: SwingSystem; scan: number },
  ) {
    const cellsOf = ({ movesTrim }: MapAxis): number => (movesTrim ? CELLS_PER_SCAN * (scan - 1) : 0);
    const { size, kept } = like;
    this.inputs = inputs;
    this.operating = operating;
    this.axes = axes;
    this.cells = [cellsOf(axes[0]), cellsOf(axes[1])];
    this.swing = {
      ...{ size, kept },
      matrix: new Float64Array(size * size),
      input: new Float64Array(size),
      output: new Float64Array(size),
    };
  }

  /** Models that were made so far. */
  get count(): number {
    return this.known.size;
  }

  at(x: number, y: number): boolean {
    const { swing, wx, wy } = this;
    const i = this.weigh(0, x, wx);
    const j = this.weigh(1, y, wy);
    swing.matrix.fill(0);
    swing.input.fill(0);
    swing.output.fill(0);
    this.damping = 0;
    for (let b = 0; b < 3; b++) {
      for (let a = 0; a < 3; a++) {
        const w = wx[a] * wy[b];
        if (w === 0) continue;
        const tabled = this.tabled(i + a - 1, j + b - 1);
        if (tabled === null) return false;
        this.add(tabled, w);
      }
    }
    return true;
  }

  near(x: number, y: number): boolean {
    const { swing } = this;
    const tabled = this.tabled(Math.round(this.placeOf(0, x)), Math.round(this.placeOf(1, y)));
    if (tabled === null) return false;
    swing.matrix.fill(0);
    swing.input.fill(0);
    swing.output.fill(0);
    this.damping = 0;
    this.add(tabled, 1);
    return true;
  }

  private add({ swing, damping }: Tabled, w: number): void {
    addTo(this.swing.matrix, swing.matrix, w);
    addTo(this.swing.input, swing.input, w);
    addTo(this.swing.output, swing.output, w);
    this.damping += w * damping;
  }

  /** Place in cells from the start of an axis. */
  private placeOf(k: 0 | 1, length: number): number {
    const { toLength, from, to } = this.axes[k];
    const [a, b] = [toLength(from), toLength(to)];
    return this.cells[k] === 0 ? 0 : (this.cells[k] * (length - a)) / (b - a);
  }

  /** Weights of the nearest inner place and its neighbours; goes on straight beyond the ends. Returns that place. */
  private weigh(k: 0 | 1, length: number, w: Float64Array): number {
    if (this.cells[k] === 0) {
      w[0] = w[2] = 0;
      w[1] = 1;
      return 0;
    }
    const place = this.placeOf(k, length);
    const centre = Math.min(this.cells[k] - 1, Math.max(1, Math.round(place)));
    const t = Math.min(1, Math.max(-1, place - centre));
    const beyond = place - centre - t;
    w[0] = 0.5 * (0.5 - t) ** 2 - (0.5 - t) * beyond;
    w[1] = 0.75 - t * t - 2 * t * beyond;
    w[2] = 0.5 * (0.5 + t) ** 2 + (0.5 + t) * beyond;
    return centre;
  }

  private tabled(i: number, j: number): Tabled | null {
    const key = j * (this.cells[0] + 1) + i;
    let found = this.known.get(key);
    if (found === undefined) {
      found = this.make(this.corner(0, i), this.corner(1, j));
      this.known.set(key, found);
    }
    return found;
  }

  private corner(k: 0 | 1, i: number): number {
    const { toLength, from, to, own } = this.axes[k];
    const count = this.cells[k];
    if (count === 0) return toLength(own);
    const [a, b] = [toLength(from), toLength(to)];
    return i === count ? b : a + ((b - a) * i) / count;
  }

  private make(x: number, y: number): Tabled | null {
    const { inputs, axes, operating, swing } = this;
    const model = new PointModel(inputs, pointAt(axes, operating, x, y));
    if (!model.trimmed) return null;
    const { length, structuralDamping } = inputs.boom;
    return {
      swing: swingSystem(model.base, length, swing.kept),
      damping: 2 * structuralDamping * Math.sqrt(model.pair.hookedMass.tangential),
    };
  }
}

function addTo(to: Float64Array, from: Float64Array, by: number): void {
  for (let i = 0; i < to.length; i++) to[i] += by * from[i];
}
