import { BugError } from "../../math/errors.ts";
import { lyapunov } from "../../math/lyapunov/index.ts";
import { RandomStream } from "../../math/random/index.ts";
import { requirePositive } from "../../math/require.ts";
import { addLower, discrete, noiseIntensity, triangle } from "./history.ts";
import type { GustFilter } from "./shaping.ts";

/**
 * Gusts at equal steps of time, drawn one after the other: the recurrence of `gustHistory` without a table.
 *
 *     xₖ₊₁ = Φ·xₖ + wₖ                                                                                  (18)
 *
 * @source as `gustHistory`
 * @verified sampler.test.ts: the same bits as `gustHistory`
 * @cost no allocation after construction
 */
export class GustSampler {
  private readonly n: number;
  private readonly C: Float64Array;
  private readonly transition: Float64Array;
  private readonly spread: Float64Array;
  private readonly start: Float64Array;
  private readonly random = new RandomStream(0, 0);
  private readonly draw: Float64Array;
  private readonly next: Float64Array;
  private readonly x: Float64Array;

  /**
   * @param filter from `drydenFilter`
   * @param step   h [s], > 0
   * @throws {DomainError} if the step is not above zero
   */
  constructor(filter: GustFilter, step: number) {
    requirePositive("time step", step);
    const n = filter.size;
    this.n = n;
    this.C = filter.C;
    const { transition, noise } = discrete(filter, step);
    this.transition = transition;
    this.spread = triangle(noise, n);
    const stationary = lyapunov(filter.A, noiseIntensity(filter), n);
    if (stationary.outcome !== "solved") throw new BugError(`a gust filter is ${stationary.outcome}`);
    this.start = triangle(stationary.matrix, n);
    this.draw = new Float64Array(n);
    this.next = new Float64Array(n);
    this.x = new Float64Array(n);
  }

  /** Begins a sample in the stationary state. */
  restart(seed: number, index: number, stream = 0): void {
    const { n, draw, x, random } = this;
    random.restart(seed, index, stream);
    for (let i = 0; i < n; i++) draw[i] = random.normal();
    x.fill(0);
    addLower(this.start, n, draw, x);
  }

  /** Writes u, v, w, p, q, r of this step and goes on to the next. */
  step(out: Float64Array): void {
    const { n, C, transition, spread, draw, next, x, random } = this;
    for (let i = 0; i < 6; i++) {
      let sum = 0;
      for (let j = 0; j < n; j++) sum += C[i * n + j] * x[j];
      out[i] = sum;
    }
    for (let i = 0; i < n; i++) {
      draw[i] = random.normal();
      let sum = 0;
      for (let j = 0; j < n; j++) sum += transition[i * n + j] * x[j];
      for (let j = 0; j <= i; j++) sum += spread[i * n + j] * draw[j];
      next[i] = sum;
    }
    x.set(next);
  }
}
