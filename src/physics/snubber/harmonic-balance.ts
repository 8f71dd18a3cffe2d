import { newtonSystem } from "../../math/roots/index.ts";
import { requireLaw, type SnubberForceLaw, valveForce } from "./force-law.ts";

/** Writes real and imaginary part of a complex number that depends on a frequency ω [rad/s] into `out`, shape (2). */
export type ComplexOfFrequency = (omega: number, out: Float64Array) => void;

/** A periodic motion of snubber and surroundings. */
export interface Balance {
  readonly outcome: "balanced" | "not found";
  /** ω [rad/s]. */
  readonly omega: number;
  /**
   * Complex amplitudes of speed across the snubber [m/s] and of its force [N] at ω, 3ω, 5ω …, [re, im, re, im, …]; the first speed
   * is real. w(t) = Re Σ W_n·exp(inωt).
   */
  readonly speed: Float64Array;
  readonly force: Float64Array;
}

/** Samples of half a cycle; the other half is its mirror image. */
const SAMPLES = 512;
/** Share of the speed amplitude over which Coulomb friction turns round. */
const TURN = 2e-2;
const TOLERANCE = 1e-9;

/**
 * Periodic motion of a linear surrounding with the force law of a snubber, by harmonic balance in odd harmonics.
 *
 *     Z(inω)·W_n + F_n = 0,  n = 1, 3, 5 …;  F_n of F(w(t))                                  (README eq. 15)
 *
 * With one harmonic it is the describing function: Z(iω) = −N(V). The law is odd, so that even harmonics do not occur.
 *
 * @param law       at the place of w
 * @param impedance Z of the surroundings without the snubber: the force that they put on it over −w [N·s/m]
 * @param start     speed amplitude [m/s] and frequency [rad/s] of the first harmonic alone
 * @param harmonics how many odd ones, ≥ 1
 * @returns "not found" when Newton's method does not close from the start
 * @source own derivation, README eq. 15
 * @verified harmonic-balance.test.ts (one harmonic is the describing function; convergence; a simulated oscillator)
 */
export function balanceHarmonics(
  law: SnubberForceLaw,
  impedance: ComplexOfFrequency,
  start: { readonly speed: number; readonly omega: number },
  harmonics: number,
): Balance {
  requireLaw(law);
  const size = 2 * harmonics;
  const force = new Float64Array(size);
  const speed = new Float64Array(size);
  const z = new Float64Array(2);
  // unknowns: ω and Re W_1 over their start, then the other harmonics over the speed at the start
  const unpack = (x: Float64Array): number => {
    for (let i = 0; i < size; i++) speed[i] = start.speed * x[i];
    speed[0] = start.speed * x[1];
    speed[1] = 0;
    return start.omega * x[0];
  };
  const residual = (x: Float64Array, out: Float64Array): void => {
    const omega = unpack(x);
    forceHarmonics(law, speed, force, start.speed);
    for (let k = 0; k < harmonics; k++) {
      impedance((2 * k + 1) * omega, z);
      const [re, im] = [speed[2 * k], speed[2 * k + 1]];
      out[2 * k] = z[0] * re - z[1] * im + force[2 * k];
      out[2 * k + 1] = z[0] * im + z[1] * re + force[2 * k + 1];
    }
  };
  const x0 = new Float64Array(size);
  x0[0] = 1;
  x0[1] = 1;
  unpack(x0);
  forceHarmonics(law, speed, force, start.speed);
  const tolerance = TOLERANCE * Math.hypot(force[0], force[1]);
  const found = newtonSystem(residual, x0, { tolerance: tolerance > 0 ? tolerance : 1, scales: 0.1 });
  const omega = unpack(found.x);
  forceHarmonics(law, speed, force, start.speed);
  const isFound = found.outcome === "converged" && omega > 0 && speed[0] > 0;
  return { outcome: isFound ? "balanced" : "not found", omega, speed, force };
}

const COSINES = Float64Array.from({ length: 2 * SAMPLES }, (_, j) => Math.cos((Math.PI * j) / SAMPLES));

/** Odd harmonics of the force of a speed, by the rectangle rule over half a cycle. */
function forceHarmonics(law: SnubberForceLaw, speed: Float64Array, out: Float64Array, scale: number): void {
  out.fill(0);
  for (let j = 0; j < SAMPLES; j++) {
    let w = 0;
    for (let k = 0; 2 * k < speed.length; k++) {
      const angle = ((2 * k + 1) * j) % (2 * SAMPLES);
      w += speed[2 * k] * COSINES[angle] - speed[2 * k + 1] * sine(angle);
    }
    const turn = TURN * scale;
    const f = valveForce(law, w) + (law.friction * w) / Math.sqrt(w * w + turn * turn);
    for (let k = 0; 2 * k < out.length; k++) {
      const angle = ((2 * k + 1) * j) % (2 * SAMPLES);
      out[2 * k] += (2 / SAMPLES) * f * COSINES[angle];
      out[2 * k + 1] -= (2 / SAMPLES) * f * sine(angle);
    }
  }
}

/** sin of the same angle, out of the table of cosines. */
function sine(angle: number): number {
  return COSINES[(angle + (3 * SAMPLES) / 2) % (2 * SAMPLES)];
}
