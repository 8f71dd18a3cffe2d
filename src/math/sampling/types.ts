/** Points in the unit cube. A point depends on its number and on what the sampler was made with, not on the order of calls. */
export interface UnitSampler {
  readonly dimensions: number;
  /** Number of points that can be asked for. */
  readonly count: number;
  /**
   * Writes point `index`, every coordinate above 0 and below 1.
   *
   * @param index  0 … count − 1
   * @param out    shape (dimensions), written
   */
  point(index: number, out: Float64Array): void;
}
