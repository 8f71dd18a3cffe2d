import type { MassProperties } from "../bodies/index.ts";

/** Carrier among the states of a mode vector, its place left out (`relativeToCarrier`). */
export interface CarrierEnergy {
  /** Mass, and inertia unless it does not turn. */
  readonly mass: MassProperties;
  /** Index of its first state: attitude (3), velocity (3), angular velocity (3); velocity (3) alone if it does not turn. */
  readonly state: number;
  readonly turns: boolean;
  /** Boom tip from the carrier's c.g. at trim, carrier axes [m]. */
  readonly tip: readonly [number, number, number];
}

/** Adds the kinetic energy of the carrier's surge, sway, heave, roll, pitch and yaw; shape (6).   (README eq. 5) */
export function addCarrierKinetic(of: CarrierEnergy, at: (state: number) => number, out: Float64Array): void {
  const { mass, Ixx, Iyy, Izz, Ixy, Ixz, Iyz } = of.mass;
  const velocity = of.state + (of.turns ? 3 : 0);
  for (let i = 0; i < 3; i++) out[i] += 0.5 * mass * at(velocity + i) ** 2;
  if (!of.turns) return;
  const p = at(velocity + 3);
  const q = at(velocity + 4);
  const r = at(velocity + 5);
  out[3] += 0.5 * p * (Ixx * p - Ixy * q - Ixz * r);
  out[4] += 0.5 * q * (Iyy * q - Ixy * p - Iyz * r);
  out[5] += 0.5 * r * (Izz * r - Ixz * p - Iyz * q);
}

/** Takes from the tip's place the part that a turned carrier gives to it: what is left strains the boom.   (README eq. 6) */
export function tipAgainstCarrier(of: CarrierEnergy, at: (state: number) => number, place: Float64Array): void {
  if (!of.turns) return;
  const x = at(of.state);
  const y = at(of.state + 1);
  const z = at(of.state + 2);
  const [a, b, c] = of.tip;
  place[6] -= y * c - z * b;
  place[7] -= z * a - x * c;
  place[8] -= x * b - y * a;
}
