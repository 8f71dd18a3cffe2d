import type { MultilinearGrid } from "../../math/interpolate/index.ts";
import { requireNotNegative, requirePositive } from "../../math/require.ts";
import type { AirLoad, AirloadModel, AirState, Controls } from "../airloads/types.ts";
import {
  type CarrierPort,
  type Environment,
  emptySurroundings,
  STANDARD_GRAVITY,
  type Surroundings,
} from "../bodies/index.ts";

/** Increments of the six coefficients near the carrier, over the place of the c.g. from the boom hinge and the attitude. */
export interface ProximityGrid {
  /** Axes aft, right, below [m], angle of attack [rad]; values CL, CD, CY, Cl, Cm, Cn. */
  readonly grid: Pick<MultilinearGrid, "contains" | "evaluate">;
  readonly area: number;
  readonly span: number;
  readonly chord: number;
}

const COEFFICIENTS = 6;

/**
 * Airloads of the carried aircraft with what a separation adds: increments near the carrier, an airbrake.
 *
 *     ΔX = −q·A_b·u/V …,   ΔC(aft, right, below, α) in wind and stability axes about the c.g.      (README eq. 3)
 *
 * A grid is never stretched: outside it nothing is added and `outside` is set, which stays set until it is cleared, so that a run
 * that left the grid can be told from one that did not. Place comes with the air state; `right` is set by whoever moves it.
 */
export class SeparationAirloads implements AirloadModel {
  /** Drag area of the airbrake [m²]. */
  brakeArea = 0;
  /** Set when the place lay outside the grid. */
  outside = false;
  /** Place of the c.g. right of the boom hinge, along H [m]. */
  right = 0;
  private readonly base: AirloadModel;
  private readonly near: ProximityGrid | null;
  private readonly place = new Float64Array(4);
  private readonly delta = new Float64Array(COEFFICIENTS);

  constructor(base: AirloadModel, near: ProximityGrid | null) {
    if (near !== null) {
      requirePositive("reference area of the increments", near.area);
      requirePositive("reference span of the increments", near.span);
      requirePositive("reference chord of the increments", near.chord);
    }
    this.base = base;
    this.near = near;
  }

  /**
   * @source own derivation, README eq. 3
   * @verified ports.test.ts (brake by hand, increments by hand at nodes, outside the grid)
   * @cost no allocation
   */
  evaluate(air: AirState, controls: Controls, out: AirLoad): void {
    this.base.evaluate(air, controls, out);
    const { u, v, w, density } = air;
    const speed = Math.sqrt(u * u + v * v + w * w);
    const { load } = out;
    const brake = 0.5 * density * speed * this.brakeArea;
    load[0] -= brake * u;
    load[1] -= brake * v;
    load[2] -= brake * w;
    const { near, place, delta } = this;
    if (near === null || air.aft === undefined || air.below === undefined || speed === 0) return;
    const across = Math.sqrt(u * u + w * w);
    place[0] = air.aft;
    place[1] = this.right;
    place[2] = air.below;
    place[3] = Math.atan2(w, u);
    if (!near.grid.contains(place)) {
      this.outside = true;
      return;
    }
    near.grid.evaluate(place, delta);
    const qS = 0.5 * density * speed * speed * near.area;
    const ca = across > 0 ? u / across : 1;
    const sa = across > 0 ? w / across : 0;
    const cb = across / speed;
    const sb = v / speed;
    // wind axes to body: drag against the motion, lift across it in the plane of symmetry, side force along wind y
    const D = qS * delta[1];
    const L = qS * delta[0];
    const Y = qS * delta[2];
    load[0] += -D * ca * cb + L * sa - Y * ca * sb;
    load[1] += -D * sb + Y * cb;
    load[2] += -D * sa * cb - L * ca - Y * sa * sb;
    // stability axes to body
    const roll = qS * near.span * delta[3];
    const yaw = qS * near.span * delta[5];
    load[3] += roll * ca - yaw * sa;
    load[4] += qS * near.chord * delta[4];
    load[5] += roll * sa + yaw * ca;
  }
}

/**
 * World of a steady pull-up at a load factor: axes that turn with the carrier's flight path.
 *
 *     ω = (n − 1)·g/V about −y (nose up),   g_H = n·g·k − 2·ω×v − ω×(ω×r),   **w** = **w**₀ − ω×r, air turns by −ω (README eq. 4)
 *
 * @param base        world of level flight
 * @param loadFactor  n
 * @param speed       V [m/s], > 0
 * @source own derivation, README eq. 4
 * @verified ports.test.ts (free body flies the circle's tangent; n = 1 is the base, bit for bit)
 */
export function pullUp(base: Environment, loadFactor: number, speed: number): Environment {
  requirePositive("speed of a pull-up", speed);
  if (loadFactor === 1) return base;
  const rate = ((loadFactor - 1) * STANDARD_GRAVITY) / speed;
  return {
    evaluate(state: Float64Array, out: Surroundings, time: number): void {
      base.evaluate(state, out, time);
      // nose up is a positive turn about y; terms of a frame that turns by (0, rate, 0)
      const vx = state.length > 9 ? state[7] : 0;
      const vz = state.length > 9 ? state[9] : 0;
      out.gravity[0] += -2 * rate * vz + rate * rate * state[0];
      out.gravity[2] += (loadFactor - 1) * STANDARD_GRAVITY + 2 * rate * vx + rate * rate * state[2];
      out.airRotation[1] -= rate;
      out.airVelocity[0] -= rate * state[2];
      out.airVelocity[2] += rate * state[0];
    },
  };
}

/** A manoeuvre of the carrier that can be set while it runs. */
export interface ManoeuvringCarrier extends CarrierPort {
  /** Upward force that the crew adds by its controls [N], through the c.g.; moments stay balanced. */
  pull: number;
}

/**
 * Carrier whose crew pulls or pushes: a force through its c.g. along its own z axis beside everything else.
 *
 * @param base   carrier port
 * @param hinge  boom hinge from the c.g., carrier axes [m]
 * @source own derivation, README eq. 5
 * @verified ports.test.ts (acceleration of the c.g. by hand, no turn)
 */
export function manoeuvringCarrier(base: CarrierPort, hinge: readonly [number, number, number]): ManoeuvringCarrier {
  const load = new Float64Array(6);
  const port: ManoeuvringCarrier = {
    ...base,
    pull: 0,
    derivative(state, offset, onHinge, out, time) {
      load.set(onHinge);
      if (port.pull !== 0) {
        const C = base.rotation;
        const [fx, fy, fz] = [-port.pull * C[2], -port.pull * C[5], -port.pull * C[8]];
        const hx = C[0] * hinge[0] + C[1] * hinge[1] + C[2] * hinge[2];
        const hy = C[3] * hinge[0] + C[4] * hinge[1] + C[5] * hinge[2];
        const hz = C[6] * hinge[0] + C[7] * hinge[1] + C[8] * hinge[2];
        load[0] += fx;
        load[1] += fy;
        load[2] += fz;
        load[3] -= hy * fz - hz * fy;
        load[4] -= hz * fx - hx * fz;
        load[5] -= hx * fy - hy * fx;
      }
      base.derivative(state, offset, load, out, time);
    },
  };
  return port;
}

/**
 * The root of a boom that has been jettisoned: a point mass that falls with drag, at the other end of the boom from the aircraft.
 *
 *     m·a = m·g + f − ½ρ·A·|V|·V                                            (README eq. 6)
 *
 * States: place and velocity of the hinge end in H; shape (6).
 *
 * @param mass     [kg], > 0
 * @param dragArea [m²]
 * @param world    air and gravity
 * @source own derivation, README eq. 6
 * @verified ports.test.ts (fall without air, terminal velocity)
 */
export function looseRoot(mass: number, dragArea: number, world: Environment): CarrierPort {
  requirePositive("mass of the boom's root", mass);
  requireNotNegative("drag area of the boom's root", dragArea);
  const around = emptySurroundings();
  const hinge = new Float64Array(3);
  const hingeVelocity = new Float64Array(3);
  const rotation = Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1);
  const at = new Float64Array(10);
  return {
    stateCount: 6,
    hinge,
    hingeVelocity,
    rotation,
    angularVelocity: new Float64Array(3),
    evaluate(state, offset) {
      for (let i = 0; i < 3; i++) {
        hinge[i] = state[offset + i];
        hingeVelocity[i] = state[offset + 3 + i];
      }
    },
    derivative(state, offset, load, out, time) {
      for (let i = 0; i < 3; i++) {
        at[i] = state[offset + i];
        at[7 + i] = state[offset + 3 + i];
      }
      world.evaluate(at, around, time);
      const x = at[7] - around.airVelocity[0];
      const y = at[8] - around.airVelocity[1];
      const z = at[9] - around.airVelocity[2];
      const drag = 0.5 * around.density * dragArea * Math.sqrt(x * x + y * y + z * z);
      const share = [x, y, z];
      for (let i = 0; i < 3; i++) {
        out[offset + i] = at[7 + i];
        out[offset + 3 + i] = around.gravity[i] + (load[i] - drag * share[i]) / mass;
      }
    },
  };
}
