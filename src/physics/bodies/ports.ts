import { DomainError } from "../../math/errors.ts";

/** Standard acceleration of free fall [m/s²], exact by definition (3rd CGPM, 1901). */
export const STANDARD_GRAVITY = 9.80665;

/** What surrounds the aircraft at one place, in axes H. */
export interface Surroundings {
  /** Acceleration by gravity [m/s²], shape (3). */
  readonly gravity: Float64Array;
  /** Velocity of the air relative to H [m/s], shape (3). */
  readonly airVelocity: Float64Array;
  /** Angular velocity of the air relative to H [rad/s], shape (3). */
  readonly airRotation: Float64Array;
  /**
   * Rate of change of the air's velocity at the aircraft that the α̇ derivatives feel [m/s²], in H, shape (3); zero in air
   * that does not change. A gust writes what is slow enough for the wing to follow (README eq. 18).
   */
  readonly airAcceleration: Float64Array;
  /** [kg/m³] */
  density: number;
  /** [m/s] */
  soundSpeed: number;
}

/** Surroundings to be written. */
export function emptySurroundings(): Surroundings {
  return {
    gravity: new Float64Array(3),
    airVelocity: new Float64Array(3),
    airRotation: new Float64Array(3),
    airAcceleration: new Float64Array(3),
    density: 0,
    soundSpeed: 0,
  };
}

/**
 * The world as a port of the equations of motion. H is a frame in which Newton's law holds; for a carrier in
 * steady flight it travels with the carrier, so that at trim everything is at rest.
 */
export interface Environment {
  /** Writes `out`; the first three entries of `state` are the aircraft's position in H [m], `time` [s] is that of the integration. */
  evaluate(state: Float64Array, out: Surroundings, time: number): void;
}

/**
 * Uniform air and gravity along +z: H travels with `trueAirspeed` along a path of `climbAngle` through still air.
 *
 * @param air density [kg/m³], soundSpeed [m/s], trueAirspeed [m/s], climbAngle [rad] (up positive, default 0)
 * @throws {DomainError} for a density or airspeed that is not positive
 */
export function uniformAir(air: {
  readonly density: number;
  readonly soundSpeed: number;
  readonly trueAirspeed: number;
  readonly climbAngle?: number;
}): Environment {
  if (!(air.density > 0)) throw new DomainError("air density", air.density, "greater than 0");
  if (!(air.trueAirspeed >= 0)) throw new DomainError("true airspeed", air.trueAirspeed, "at least 0");
  const climb = air.climbAngle ?? 0;
  const airForward = -air.trueAirspeed * Math.cos(climb);
  const airDown = air.trueAirspeed * Math.sin(climb);
  return {
    evaluate(_state, out) {
      out.gravity.fill(0);
      out.gravity[2] = STANDARD_GRAVITY;
      out.airVelocity.fill(0);
      out.airVelocity[0] = airForward;
      out.airVelocity[2] = airDown;
      out.airRotation.fill(0);
      out.airAcceleration.fill(0);
      out.density = air.density;
      out.soundSpeed = air.soundSpeed;
    },
  };
}

/**
 * The carrier as a port: it says how the boom hinge moves and receives the load of the boom.
 *
 * `evaluate` writes, in H: `hinge` position, `hingeVelocity` [m, m/s], the rotation `R` (row-major, carrier
 * axes to H) and the angular velocity `omega` in H.
 */
export interface CarrierPort {
  readonly stateCount: number;
  readonly hinge: Float64Array;
  readonly hingeVelocity: Float64Array;
  readonly rotation: Float64Array;
  readonly angularVelocity: Float64Array;
  /** Updates the four vectors from the state. */
  evaluate(state: Float64Array, offset: number): void;
  /**
   * Writes the state's derivatives; `load` is the force on the carrier by the boom at the hinge [N] and its moment about the
   * hinge [N·m], in H, shape (6).
   */
  derivative(state: Float64Array, offset: number, load: Float64Array, out: Float64Array, time: number): void;
}

/** Vectors of a carrier port at rest at the origin of H. */
export function carrierVectors() {
  const rotation = new Float64Array(9);
  rotation[0] = 1;
  rotation[4] = 1;
  rotation[8] = 1;
  return {
    hinge: new Float64Array(3),
    hingeVelocity: new Float64Array(3),
    rotation,
    angularVelocity: new Float64Array(3),
  };
}

/** Carrier of infinite mass in steady flight: the hinge rests at the origin of H. */
export function steadyCarrier(): CarrierPort {
  return { stateCount: 0, ...carrierVectors(), evaluate() {}, derivative() {} };
}

/** Air that the carrier's wing and body move, attached to the carrier. */
export interface CarrierFlow {
  /** Writes the velocity of the air against undisturbed air [m/s], in carrier axes, at a place below the boom hinge [m]. */
  evaluate(below: number, out: Float64Array): void;
}

/**
 * The world with the air that the carrier moves: as the carried aircraft rises or sinks, or the carrier moves and turns,
 * the flow at the aircraft changes with its place in carrier axes (README eq. 24).
 *
 * @param carrier the port that the equations of motion use, so that the place is that of the evaluation in hand
 * @source own derivation, README eq. 24
 * @verified carrier-flow.test.ts (trim and slopes by hand, turned carrier)
 */
export function airNearCarrier(base: Environment, carrier: CarrierPort, flow: CarrierFlow): Environment {
  const moved = new Float64Array(3);
  return {
    evaluate(state, out, time) {
      base.evaluate(state, out, time);
      const C = carrier.rotation;
      let below = 0;
      for (let i = 0; i < 3; i++) below += C[3 * i + 2] * (state[i] - carrier.hinge[i]);
      flow.evaluate(below, moved);
      for (let i = 0; i < 3; i++) {
        out.airVelocity[i] += C[3 * i] * moved[0] + C[3 * i + 1] * moved[1] + C[3 * i + 2] * moved[2];
      }
    },
  };
}

/**
 * Carrier that answers the hook load as a free mass without rotation, from trim: its lift and thrust balance
 * its weight and the hook load at trim. As the mass grows it becomes `steadyCarrier`.
 *
 * States: hinge position and velocity in H, shape (6).
 *
 *     m·a = f_onCarrier_byBoom − f_atTrim                          (README eq. 6)
 *
 * @param mass      [kg], > 0
 * @param trimLoad  force on the carrier by the boom at trim [N], in H
 * @throws {DomainError} if the mass is not positive
 * @source own derivation, README eq. 6
 * @verified conservation.test.ts (momentum), hooked-pair.test.ts (rest at trim, limit of a large mass)
 */
export function freeMassCarrier(mass: number, trimLoad: Float64Array): CarrierPort {
  if (!(mass > 0)) throw new DomainError("carrier mass", mass, "greater than 0");
  const vectors = carrierVectors();
  return {
    stateCount: 6,
    ...vectors,
    evaluate(state, offset) {
      for (let i = 0; i < 3; i++) {
        vectors.hinge[i] = state[offset + i];
        vectors.hingeVelocity[i] = state[offset + 3 + i];
      }
    },
    derivative(state, offset, load, out) {
      for (let i = 0; i < 3; i++) {
        out[offset + i] = state[offset + 3 + i];
        out[offset + 3 + i] = (load[i] - trimLoad[i]) / mass;
      }
    },
  };
}
