import { DomainError } from "../../math/errors.ts";

/**
 * A time as a number of ticks, n = t/Δt.
 *
 * @param what  for the message
 * @param time  [s]
 * @param tick  Δt [s], > 0
 * @throws {DomainError} for a time that is negative or no whole number of ticks (to 1e-6 of a tick)
 * @source definition
 * @verified navigation.test.ts
 */
export function ticksOf(what: string, time: number, tick: number): number {
  if (!(tick > 0 && tick < Number.POSITIVE_INFINITY)) throw new DomainError("tick of an approach law", tick, "above 0");
  const count = Math.round(time / tick);
  if (!(time >= 0 && Math.abs(time / tick - count) <= 1e-6)) {
    throw new DomainError(what, time, `a whole number of ticks of ${tick} s, 0 or more`);
  }
  return count;
}

/**
 * Delay of several numbers by a whole number of ticks: what goes in at tick k comes out at tick k + n. Before that, the first comes out.
 *
 * @cost no array and no object is made in `pass`; numbers may be boxed (README)
 * @source definition
 * @verified navigation.test.ts (exact)
 */
export class DelayLine {
  readonly width: number;
  readonly #delay: number;
  readonly #ring: Float64Array;
  #at = 0;
  #isEmpty = true;

  constructor(delay: number, width: number) {
    this.width = width;
    this.#delay = delay;
    this.#ring = new Float64Array((delay + 1) * width);
  }

  restart(): void {
    this.#at = 0;
    this.#isEmpty = true;
  }

  /** Takes the values of this tick and replaces them by those of n ticks before; shape (width). */
  pass(values: Float64Array): void {
    const { width } = this;
    const ring = this.#ring;
    const length = this.#delay + 1;
    if (this.#isEmpty) {
      for (let i = 0; i < ring.length; i++) ring[i] = values[i % width];
      this.#isEmpty = false;
    }
    const newest = this.#at * width;
    for (let i = 0; i < width; i++) ring[newest + i] = values[i];
    this.#at = (this.#at + 1) % length;
    const oldest = this.#at * width;
    for (let i = 0; i < width; i++) values[i] = ring[oldest + i];
  }
}
