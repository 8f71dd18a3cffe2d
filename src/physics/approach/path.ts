import { DomainError } from "../../math/errors.ts";

/**
 * A demanded point that runs along a straight line to an end and stops there.
 *
 *     v ← v + clip(min(v_max, √(2·a·s)) − v, ±a·Δt),   s ← s − v·Δt,   point = end − s·d,   velocity = v·d           (README eq. 4)
 *
 * s is the way left, d the direction. Begun with a speed away from the end it first stops and turns.
 *
 * @param acceleration a [m/s²], > 0
 * @throws {DomainError} for an acceleration that is not positive
 * @source own derivation, README eq. 4
 * @verified schedule.test.ts: time of a trapezoid in closed form, never past the end, speed and acceleration within limits
 * @cost no array and no object is made in `begin` and `step`; numbers may be boxed (README)
 */
export class StraightPath {
  readonly point = new Float64Array(3);
  readonly velocity = new Float64Array(3);
  /** Rate of the velocity [m/s²]. */
  readonly acceleration = new Float64Array(3);
  /** Way left to the end [m] and speed towards it [m/s]. */
  left = 0;
  speed = 0;
  readonly #end = new Float64Array(3);
  readonly #direction = new Float64Array(3);
  readonly #most: number;

  constructor(acceleration: number) {
    if (!(acceleration > 0)) throw new DomainError("acceleration along the path", acceleration, "greater than 0");
    this.#most = acceleration;
  }

  /** Begins at a place with a velocity, of which the part along the new line is kept; shape (3) each. */
  begin(from: ArrayLike<number>, velocity: ArrayLike<number>, end: ArrayLike<number>): void {
    const d = this.#direction;
    let square = 0;
    for (let i = 0; i < 3; i++) {
      this.#end[i] = end[i];
      d[i] = end[i] - from[i];
      square += d[i] * d[i];
    }
    const length = Math.sqrt(square);
    this.left = length;
    this.speed = 0;
    for (let i = 0; i < 3; i++) {
      d[i] = length > 1e-9 ? d[i] / length : 0;
      this.speed += d[i] * velocity[i];
    }
    this.acceleration.fill(0);
    this.#write();
  }

  /** One tick of time Δt [s] with a largest speed [m/s]; 0 waits where it is. */
  step(largest: number, tick: number): void {
    const a = this.#most;
    // half a tick of way is kept back: the speed is held through the tick
    const stopping = Math.sqrt(2 * a * Math.max(0, this.left) + 0.25 * a * a * tick * tick) - 0.5 * a * tick;
    const change = Math.min(largest, stopping) - this.speed;
    const gained = Math.min(a * tick, Math.max(-a * tick, change));
    this.speed += gained;
    for (let i = 0; i < 3; i++) this.acceleration[i] = (gained / tick) * this.#direction[i];
    this.left = this.speed > 0 ? Math.max(0, this.left - this.speed * tick) : this.left - this.speed * tick;
    this.#write();
  }

  #write(): void {
    for (let i = 0; i < 3; i++) {
      this.point[i] = this.#end[i] - this.left * this.#direction[i];
      this.velocity[i] = this.speed * this.#direction[i];
    }
  }
}
