import { createRk4Workspace, rk4Step } from "../../math/ode/index.ts";
import { requireNotNegative, requirePositive } from "../../math/require.ts";

/** A body that falls with drag and without lift. */
export interface FallingBody {
  /** [kg] */
  readonly mass: number;
  /** C_D·S [m²]; zero: no air. */
  readonly dragArea: number;
}

/** Air by height above the ground [m]; wind north, east [m/s]. */
export interface FallAir {
  density(height: number): number;
  /** Writes wind north and east [m/s]. */
  wind(height: number, out: Float64Array): void;
  readonly gravity: number;
}

export interface FallStart {
  /** Height above the ground [m], > 0. */
  readonly height: number;
  /** Velocity over the ground north, east, down [m/s]. */
  readonly velocity: readonly [number, number, number];
}

export interface Fall {
  /** Where it meets the ground, from below the start: north, east [m]; after [s] at [m/s] down and in all. */
  readonly north: number;
  readonly east: number;
  readonly time: number;
  readonly sinkRate: number;
  readonly speed: number;
}

/**
 * Fall of a body with drag through wind to the ground.
 *
 *     m·v̇ = m·g − ½ρ(h)·A·|v − w(h)|·(v − w(h))                                (README eq. 12)
 *
 * Classical Runge–Kutta steps; the last one is shortened until it ends at the ground.
 *
 * @param body  mass and drag area
 * @param air   density, wind and gravity by height
 * @param start height and velocity
 * @param step  [s], default 0.05
 * @throws {DomainError} for a height, mass or step that is not positive, or a negative drag area
 * @source Newton's law
 * @verified falling-body.test.ts (parabola, terminal speed, closed form with quadratic drag, published/nasa-tm-2015-218675 case 4 in test/validation/release-fall)
 */
export function fallToGround(body: FallingBody, air: FallAir, start: FallStart, step = 0.05): Fall {
  requirePositive("height of the fall", start.height);
  requirePositive("mass", body.mass);
  requirePositive("time step", step);
  requireNotNegative("drag area", body.dragArea);
  const wind = new Float64Array(2);
  const derivative = (_t: number, y: Float64Array, out: Float64Array): void => {
    const height = start.height - y[2];
    air.wind(Math.max(0, height), wind);
    const x = y[3] - wind[0];
    const e = y[4] - wind[1];
    const d = y[5];
    const k = (0.5 * air.density(Math.max(0, height)) * body.dragArea * Math.sqrt(x * x + e * e + d * d)) / body.mass;
    out[0] = y[3];
    out[1] = y[4];
    out[2] = y[5];
    out[3] = -k * x;
    out[4] = -k * e;
    out[5] = air.gravity - k * d;
  };
  const work = createRk4Workspace(6);
  let y: Float64Array = Float64Array.of(0, 0, 0, ...start.velocity);
  let next: Float64Array = new Float64Array(6);
  let time = 0;
  while (true) {
    rk4Step(derivative, time, y, step, next, work);
    if (next[2] >= start.height) break;
    [y, next] = [next, y];
    time += step;
  }
  // the share of the last step at which it meets the ground
  let [low, high] = [0, 1];
  for (let i = 0; i < 60; i++) {
    const share = 0.5 * (low + high);
    rk4Step(derivative, time, y, share * step, next, work);
    if (next[2] >= start.height) high = share;
    else low = share;
  }
  rk4Step(derivative, time, y, high * step, next, work);
  return {
    north: next[0],
    east: next[1],
    time: time + high * step,
    sinkRate: next[5],
    speed: Math.hypot(next[3], next[4], next[5]),
  };
}
