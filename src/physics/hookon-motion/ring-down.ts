/** Extremes that are kept; later ones push nothing out but are not kept. */
const MOST = 512;
/** Swings below this share of the largest say nothing more about the decay. */
const LEAST_SWING = 0.03;

/**
 * Damping and frequency of a swing from its extremes.
 *
 *     ln A = ln A₀ − σ·t over half swings A = ½|eᵢ₊₁ − eᵢ|,   ω = π/(mean time between extremes),   ζ = σ/√(σ² + ω²)   (README eq. 18)
 *
 * Samples at equal steps; an extreme is placed by the parabola through three samples.
 *
 * @source own derivation, README eq. 18; logarithmic decrement
 * @verified ring-down.test.ts (a damped oscillation with and without offset, rtol 1e-3)
 * @cost no allocation
 */
export class RingDown {
  private readonly time = new Float64Array(MOST);
  private readonly value = new Float64Array(MOST);
  private count = 0;
  private samples = 0;
  private a = 0;
  private b = 0;

  /** Of the last `settle`; NaN with fewer than three half swings. */
  dampingRatio = Number.NaN;
  frequency = Number.NaN;
  /** Largest half swing of the last third of the time over that of the first third; NaN with too few. */
  growth = Number.NaN;

  restart(): void {
    this.count = 0;
    this.samples = 0;
    this.dampingRatio = Number.NaN;
    this.frequency = Number.NaN;
    this.growth = Number.NaN;
  }

  /** Takes the value at a time; times rise by `step`. */
  take(time: number, step: number, value: number): void {
    if (this.samples >= 2 && this.count < MOST) {
      const before = this.b - this.a;
      const after = value - this.b;
      if ((before > 0 && after <= 0) || (before < 0 && after >= 0)) {
        const curve = after - before;
        const shift = curve === 0 ? 0 : (-0.5 * (before + after)) / curve;
        this.time[this.count] = time - step + shift * step;
        this.value[this.count] = this.b + 0.25 * (before + after) * shift;
        this.count++;
      }
    }
    this.a = this.b;
    this.b = value;
    this.samples++;
  }

  /** Fits what was taken. */
  settle(): void {
    const { time, value } = this;
    let largest = 0;
    for (let i = 1; i < this.count; i++) largest = Math.max(largest, 0.5 * Math.abs(value[i] - value[i - 1]));
    // from the first swing until they have died away
    let [n, st, sy, stt, sty] = [0, 0, 0, 0, 0];
    let last = 0;
    for (let i = 1; i < this.count; i++) {
      const swing = 0.5 * Math.abs(value[i] - value[i - 1]);
      if (!(swing > LEAST_SWING * largest)) {
        if (n > 0 && swing < LEAST_SWING * largest) break;
        continue;
      }
      const t = 0.5 * (time[i] + time[i - 1]) - time[0];
      const y = Math.log(swing);
      n++;
      st += t;
      sy += y;
      stt += t * t;
      sty += t * y;
      last = i;
    }
    if (n < 3) return;
    const sigma = -(n * sty - st * sy) / (n * stt - st * st);
    const omega = (Math.PI * last) / (time[last] - time[0]);
    this.dampingRatio = sigma / Math.sqrt(sigma * sigma + omega * omega);
    this.frequency = omega / (2 * Math.PI);
    const whole = time[this.count - 1] - time[0];
    let early = 0;
    let late = 0;
    for (let i = 1; i < this.count; i++) {
      const swing = 0.5 * Math.abs(value[i] - value[i - 1]);
      const share = (0.5 * (time[i] + time[i - 1]) - time[0]) / whole;
      if (share < 1 / 3) early = Math.max(early, swing);
      if (share > 2 / 3) late = Math.max(late, swing);
    }
    this.growth = early > 0 ? late / early : Number.NaN;
  }
}
