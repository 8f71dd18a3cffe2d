/** Extremes that are kept; a run has fewer. */
const MOST = 512;
/** A turn counts once it has gone back this share of the whole range so far: chatter on top of a swing is no swing. */
const TURN_SHARE = 0.06;

/**
 * Damping and frequency of a swing from its extremes.
 *
 *     ln A = ln A₀ − σ·t over half swings A = ½|eᵢ₊₁ − eᵢ|,   ω = π/(mean time between extremes),   ζ = σ/√(σ² + ω²)   (README eq. 18)
 *
 * Samples at equal steps; an extreme is placed by the parabola through three samples.
 *
 * @source own derivation, README eq. 18; logarithmic decrement
 * @verified ring-down.test.ts (a damped oscillation with offset and chatter); test/validation/hookon-ring
 * @cost no allocation
 */
export class RingDown {
  private readonly time = new Float64Array(MOST);
  private readonly value = new Float64Array(MOST);
  private readonly least: number;
  private count = 0;
  private samples = 0;
  private low = 0;
  private high = 0;
  /** Sense in which an extreme is sought; the best so far with its neighbours. */
  private sense = 0;
  private at = 0;
  private best = 0;
  private beforeBest = 0;
  private afterBest = Number.NaN;
  private last = 0;

  /** Of the last `settle`; NaN with fewer than three half swings. */
  dampingRatio = Number.NaN;
  frequency = Number.NaN;
  /** Largest half swing of the last third of the time over that of the first third; NaN with too few. */
  growth = Number.NaN;

  /** @param least range below which nothing counts, in the unit of the signal */
  constructor(least = 0) {
    this.least = least;
  }

  restart(): void {
    this.count = 0;
    this.samples = 0;
    this.sense = 0;
    this.afterBest = Number.NaN;
    this.dampingRatio = Number.NaN;
    this.frequency = Number.NaN;
    this.growth = Number.NaN;
  }

  /** Takes the value at a time; times rise by `step`. */
  take(time: number, step: number, value: number): void {
    if (this.samples === 0) {
      this.low = this.high = this.best = this.beforeBest = this.last = value;
      this.at = time;
    }
    this.samples++;
    this.low = Math.min(this.low, value);
    this.high = Math.max(this.high, value);
    const turn = Math.max(this.least, TURN_SHARE * (this.high - this.low));
    if (this.sense === 0) {
      if (Math.abs(value - this.best) > turn && value !== this.best) this.sense = value > this.best ? 1 : -1;
    }
    if (this.sense !== 0 && this.sense * (value - this.best) >= 0) {
      this.beforeBest = this.last;
      this.best = value;
      this.at = time;
      this.afterBest = Number.NaN;
    } else if (Number.isNaN(this.afterBest)) this.afterBest = value;
    if (this.sense !== 0 && this.sense * (this.best - value) > turn) this.keep(step, time, value);
    this.last = value;
  }

  private keep(step: number, time: number, value: number): void {
    if (this.count < MOST) {
      const before = this.best - this.beforeBest;
      const after = this.afterBest - this.best;
      const curve = after - before;
      const shift = curve === 0 ? 0 : (-0.5 * (before + after)) / curve;
      this.time[this.count] = this.at + shift * step;
      this.value[this.count] = this.best + 0.25 * (before + after) * shift;
      this.count++;
    }
    this.sense = -this.sense;
    this.beforeBest = this.last;
    this.best = value;
    this.at = time;
    this.afterBest = Number.NaN;
  }

  /** Fits what was taken. */
  settle(): void {
    const { time, value, count } = this;
    const n = count - 1;
    if (n < 3) return;
    let st = 0;
    let sy = 0;
    let stt = 0;
    let sty = 0;
    let early = 0;
    let late = 0;
    const whole = time[n] - time[0];
    for (let i = 1; i <= n; i++) {
      const swing = 0.5 * Math.abs(value[i] - value[i - 1]);
      const t = 0.5 * (time[i] + time[i - 1]) - time[0];
      const y = Math.log(swing);
      st += t;
      sy += y;
      stt += t * t;
      sty += t * y;
      if (3 * t < whole) early = Math.max(early, swing);
      if (3 * t > 2 * whole) late = Math.max(late, swing);
    }
    const sigma = -(n * sty - st * sy) / (n * stt - st * st);
    const omega = (Math.PI * n) / whole;
    this.dampingRatio = sigma / Math.sqrt(sigma * sigma + omega * omega);
    this.frequency = omega / (2 * Math.PI);
    this.growth = early > 0 ? late / early : Number.NaN;
  }
}
