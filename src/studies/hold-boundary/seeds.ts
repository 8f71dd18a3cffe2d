import { createEigenWorkspace, eigenvalues } from "../../math/eigen/index.ts";
import { BugError } from "../../math/errors.ts";
import { type Linearisation, TangentialModel } from "../../physics/bodies/index.ts";
import type { TangentialRates } from "../../physics/snubber/index.ts";
import type { Level, Seed, SwingSystem } from "../../physics/stability-boundary/index.ts";

/** Halvings of an edge of the scan before the nearest root becomes a seed. */
const HALVINGS = 5;

/** The roots of one pair of a family. */
export interface RootList {
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly count: number;
}

/** Roots of a swing system with a tangential path. */
export class SwingRoots {
  private readonly re = new Float64Array(64);
  private readonly im = new Float64Array(64);
  private readonly matrix = new Float64Array(64 * 64);
  private readonly workspace = createEigenWorkspace(64);

  /**
   * @param coordinates number of coordinates among the states of the system, which come first
   * @param length      L [m]
   */
  at(swing: SwingSystem, coordinates: number, length: number, rates: TangentialRates): RootList {
    const base: Linearisation = {
      ...{ size: swing.size, matrix: swing.matrix, coordinates, basis: new Float64Array(0), names: [] },
      swing: {
        perMoment: swing.input.slice(coordinates, 2 * coordinates).map((x) => x / length),
        angle: swing.output.slice(0, coordinates).map((x) => x / length),
      },
    };
    const count = new TangentialModel(base, length).assemble(rates, this.matrix);
    const outcome = eigenvalues(this.matrix, count, this.workspace, this.re, this.im);
    if (outcome !== "converged") throw new BugError(`eigenvalues: ${outcome}`);
    return { re: this.re, im: this.im, count };
  }
}

/** How many roots are beyond a level: oscillations with less damping, or real roots that grow faster. */
function countBeyond({ re, im, count }: RootList, level: Level): number {
  let beyond = 0;
  for (let k = 0; k < count; k++) {
    if (level.kind === "real root") {
      if (im[k] === 0 && re[k] > level.growth) beyond++;
    } else if (im[k] > 0 && -re[k] < level.dampingRatio * Math.hypot(re[k], im[k])) beyond++;
  }
  return beyond;
}

/** Magnitude of the root nearest to a level. */
function nearestFrequency({ re, im, count }: RootList, level: Level): number {
  let best = 1;
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < count; k++) {
    if (level.kind === "real root" ? im[k] !== 0 : !(im[k] > 0)) continue;
    const size = Math.hypot(re[k], im[k]);
    const off =
      level.kind === "real root" ? Math.abs(re[k] - level.growth) : Math.abs(-re[k] / size - level.dampingRatio);
    if (off < least) {
      least = off;
      best = size;
    }
  }
  return best;
}

/**
 * Seeds from a scan: along every edge of a grid whose ends differ in the number of roots beyond the level, the place where
 * the number changes, narrowed down, with the magnitude of the root that is nearest to the level there.
 *
 * A closed piece that no edge of the grid crosses is not seen.
 *
 * @param xs,ys   grid in map lengths, rising
 * @param rootsAt roots at a place
 */
export function scanSeeds(
  xs: ArrayLike<number>,
  ys: ArrayLike<number>,
  level: Level,
  rootsAt: (x: number, y: number) => RootList,
): Seed[] {
  const nx = xs.length;
  const counts = Array.from({ length: nx * ys.length }, (_, k) =>
    countBeyond(rootsAt(xs[k % nx], ys[Math.floor(k / nx)]), level),
  );
  const seeds: Seed[] = [];
  const search = (
    a: readonly [number, number],
    na: number,
    b: readonly [number, number],
    nb: number,
    depth: number,
  ): void => {
    if (na === nb) return;
    const middle = [0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1])] as const;
    const roots = rootsAt(...middle);
    if (depth === 0) {
      seeds.push({ frequency: nearestFrequency(roots, level), x: middle[0], y: middle[1] });
      return;
    }
    const n = countBeyond(roots, level);
    search(a, na, middle, n, depth - 1);
    search(middle, n, b, nb, depth - 1);
  };
  for (let j = 0; j < ys.length; j++) {
    for (let i = 0; i < nx; i++) {
      const k = j * nx + i;
      if (i > 0) search([xs[i - 1], ys[j]], counts[k - 1], [xs[i], ys[j]], counts[k], HALVINGS);
      if (j > 0) search([xs[i], ys[j - 1]], counts[k - nx], [xs[i], ys[j]], counts[k], HALVINGS);
    }
  }
  return seeds;
}
