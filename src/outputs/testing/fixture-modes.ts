/** Fixture: modes of a made-up pair by short formulas with plausible trends. Not physics. */
import type { EnergyShares, Mode, ModeClass, ModePlane } from "../../studies/hold/types.ts";

export interface FixtureState {
  readonly mass: number;
  readonly airspeed: number;
  readonly boomAngle: number;
  readonly bending: number;
  readonly accumulator: number;
  readonly snubber: number;
}

/** Real and imaginary part of the tangential stiffness at one frequency. */
function tangential(state: FixtureState, omega: number): readonly [number, number] {
  const { bending: kb, accumulator: ka, snubber: c } = state;
  const denominator = (kb + ka) ** 2 + (c * omega) ** 2;
  const real = (kb * (ka * (kb + ka) + (c * omega) ** 2)) / denominator;
  return [real, (kb * kb * c * omega) / denominator];
}

/** ζ of the made-up heave–pitch mode from a stiffness [N/m] and its loss part [N/m]. */
export function heavePitchDamping(stiffness: number, loss: number, airspeed: number, boomAngle: number): number {
  const x = stiffness / 8000;
  const rise = 1 + 0.012 * Math.max(0, 52 - boomAngle);
  const coupling = ((0.15 * x) / (1 + x) / (1 + (stiffness / 250e3) ** 1.2)) * rise;
  return loss / (2 * stiffness) + 0.045 + 0.0004 * (airspeed - 95) - coupling;
}

function oscillation(
  zeta: number,
  omega: number,
  head: Pick<Mode, "name" | "class" | "plane">,
  energy: EnergyShares,
): Mode {
  const real = -zeta * omega;
  const imag = omega * Math.sqrt(1 - zeta * zeta);
  const half = real < 0 ? Math.LN2 / -real : null;
  return {
    ...head,
    share: share(energy, head.name),
    real_1_s: real,
    imag_rad_s: imag,
    frequency_Hz: imag / (2 * Math.PI),
    dampingRatio: zeta,
    timeToHalf_s: half,
    timeToDouble_s: real > 0 ? Math.LN2 / real : null,
    cyclesToHalf: half === null ? null : (half * imag) / (2 * Math.PI),
    energy,
    strain: { bending: 0.61, accumulator: 0.33, axial: 0.04, lateral: 0.02 },
  };
}

function realRoot(real: number, head: Pick<Mode, "name" | "class" | "plane">, energy: EnergyShares): Mode {
  return {
    ...head,
    share: share(energy, head.name),
    real_1_s: real,
    imag_rad_s: 0,
    frequency_Hz: 0,
    dampingRatio: real > 0 ? -1 : 1,
    timeToHalf_s: real < 0 ? Math.LN2 / -real : null,
    timeToDouble_s: real > 0 ? Math.LN2 / real : null,
    cyclesToHalf: null,
    energy,
    strain: { bending: 0.61, accumulator: 0.33, axial: 0.04, lateral: 0.02 },
  };
}

function share(energy: EnergyShares, name: string): number {
  const top = Object.values(energy).sort((a, b) => b - a);
  return name.startsWith("coupled") ? (top[0] ?? 0) + (top[1] ?? 0) : (top[0] ?? 0);
}

const rigid = "rigid-body-type" satisfies ModeClass;
const along = "longitudinal" satisfies ModePlane;
const across = "lateral" satisfies ModePlane;

/** All made-up modes of one state. */
export function fixtureModes(state: FixtureState): Mode[] {
  const { mass, airspeed, boomAngle } = state;
  let omega = 4;
  let [stiffness, loss] = tangential(state, omega);
  for (let i = 0; i < 20; i++) {
    omega = Math.sqrt(stiffness / (0.73 * mass));
    [stiffness, loss] = tangential(state, omega);
  }
  const pitchZeta = 0.31 + 0.001 * (airspeed - 95);
  const swing = 0.0013 * (airspeed - 100) - 0.0004 * (52 - boomAngle) + (2600 - mass) * 1e-5;
  return [
    oscillation(
      Math.min(0.9, heavePitchDamping(stiffness, loss, airspeed, boomAngle)),
      omega,
      { name: "coupled heave–pitch", class: rigid, plane: along },
      { heave: 0.47, pitch: 0.34, surge: 0.03, boom: 0.13, accumulator: 0.03 },
    ),
    oscillation(
      pitchZeta,
      0.027 * airspeed * Math.sqrt(2600 / mass),
      { name: "pitch", class: rigid, plane: along },
      { heave: 0.14, pitch: 0.71, surge: 0.01, boom: 0.1, accumulator: 0.04 },
    ),
    realRoot(
      -0.02 * airspeed,
      { name: "accumulator", class: rigid, plane: along },
      { accumulator: 0.83, boom: 0.12, heave: 0.05 },
    ),
    oscillation(
      0.0151,
      56.2,
      { name: "axial boom stretch", class: "structural", plane: along },
      { surge: 0.92, heave: 0.05, pitch: 0.03 },
    ),
    oscillation(
      swing,
      0.012 * airspeed,
      { name: "coupled roll–yaw", class: rigid, plane: across },
      { roll: 0.44, yaw: 0.33, sway: 0.23 },
    ),
    oscillation(
      0.11 + 0.0008 * (airspeed - 95),
      0.024 * airspeed,
      { name: "yaw", class: rigid, plane: across },
      { yaw: 0.72, sway: 0.17, roll: 0.11 },
    ),
    realRoot(-0.03 * airspeed, { name: "roll", class: rigid, plane: across }, { roll: 0.93, yaw: 0.05, sway: 0.02 }),
    realRoot(
      -0.014 + 0.00025 * (100 - airspeed),
      { name: "sway", class: rigid, plane: across },
      { sway: 0.77, roll: 0.13, yaw: 0.1 },
    ),
  ];
}

/** Least damping ratio of the oscillatory rigid-body-type modes of one plane. */
export function worstDamping(modes: readonly Mode[], plane: ModePlane): number {
  const ratios = modes.filter((mode) => mode.plane === plane && mode.class === rigid && mode.imag_rad_s > 0);
  return Math.min(...ratios.map((mode) => mode.dampingRatio));
}
