import type { PrintedNumber } from "../../reference/load.ts";
import { createEigenWorkspace, eigenvalues } from "../../src/math/eigen/index.ts";
import type { AirloadModel, Controls, DimensionalSet, normalToFlow } from "../../src/physics/airloads/index.ts";
import { linearise, type MassProperties, PairMotion, uniformAir } from "../../src/physics/bodies/index.ts";
import { controlsFixed } from "../../src/physics/pilot/index.ts";

export interface Root {
  readonly re: number;
  readonly im: number;
}
/** An oscillation (ζ, ω) or, where im is 0, a subsidence with 1/T = −re. */
export interface FreeModes {
  readonly phugoid: { readonly zeta: number; readonly omega: number };
  readonly shortPeriod: { readonly zeta: number; readonly omega: number };
  readonly dutchRoll: { readonly zeta: number; readonly omega: number };
  /** 1/T [1/s], positive converges. */
  readonly roll: number;
  readonly spiral: number;
  readonly longitudinal: readonly Root[];
  readonly lateral: readonly Root[];
}
export interface FreeAircraft {
  readonly mass: MassProperties;
  readonly airloads: AirloadModel;
  readonly controls: Controls;
  readonly density: number;
  readonly trueAirspeed: number;
  /** Pitch angle of body x in level flight: the angle of attack [rad]. */
  readonly alpha: number;
}

const neutral: Controls = { elevator: 0, aileron: 0, rudder: 0, thrust: 0 };
export const noControls = neutral;

/** Eigenvalues of some rows and columns of a matrix. */
function rootsOf(matrix: Float64Array, size: number, keep: readonly number[]): Root[] {
  const n = keep.length;
  const part = new Float64Array(n * n);
  keep.forEach((i, a) => {
    keep.forEach((j, b) => {
      part[a * n + b] = matrix[i * size + j];
    });
  });
  const re = new Float64Array(n);
  const im = new Float64Array(n);
  const outcome = eigenvalues(part, n, createEigenWorkspace(n), re, im);
  if (outcome !== "converged") throw new Error(`eigenvalues: ${outcome}`);
  return Array.from(re, (x, i) => ({ re: x, im: im[i] }));
}

/** Eigenvalues of a matrix given by rows. */
export function rootsOfRows(rows: readonly (readonly number[])[]): Root[] {
  const n = rows.length;
  return rootsOf(Float64Array.from(rows.flat()), n, [...rows.keys()]);
}

const oscillation = ({ re, im }: Root) => ({ zeta: -re / Math.hypot(re, im), omega: Math.hypot(re, im) });
const above = (roots: readonly Root[]) => roots.filter((r) => r.im > 0).sort((a, b) => a.im - b.im);
const real = (roots: readonly Root[]) => roots.filter((r) => r.im === 0).sort((a, b) => a.re - b.re);

/** The linear model of the free aircraft from the nonlinear equations of motion, level flight. */
export function freeModel(aircraft: FreeAircraft) {
  const environment = uniformAir({
    density: aircraft.density,
    soundSpeed: 340,
    trueAirspeed: aircraft.trueAirspeed,
  });
  const motion = new PairMotion({
    mass: aircraft.mass,
    airloads: aircraft.airloads,
    trim: aircraft.controls,
    law: controlsFixed,
    environment,
    attachment: "free",
  });
  const state = new Float64Array(motion.stateCount);
  state[3] = Math.cos(aircraft.alpha / 2);
  state[5] = Math.sin(aircraft.alpha / 2);
  const linear = linearise(motion, state);
  const at = (name: string): number => {
    const index = linear.names.indexOf(name);
    if (index < 0) throw new Error(`the linear model has no state "${name}"`);
    return index;
  };
  const rate = new Float64Array(motion.stateCount);
  motion.derivative(0, state, rate);
  return { linear, at, residual: Math.max(...Array.from(rate, Math.abs)) };
}

/** Free modes of an aircraft through the nonlinear equations, linearised about level flight. */
export function freeModes(aircraft: FreeAircraft): FreeModes {
  const { linear, at } = freeModel(aircraft);
  const { matrix, size } = linear;
  const longitudinal = rootsOf(matrix, size, ["pitch", "x rate", "z rate", "pitch rate"].map(at));
  // Heading is neutral: of the five lateral roots the one nearest to zero belongs to it
  const lateral = rootsOf(matrix, size, ["roll", "yaw", "y rate", "roll rate", "yaw rate"].map(at)).sort(
    (a, b) => Math.hypot(b.re, b.im) - Math.hypot(a.re, a.im),
  );
  lateral.pop();
  const [phugoid, shortPeriod] = above(longitudinal);
  const [dutchRoll] = above(lateral);
  const [roll, spiral] = real(lateral);
  return {
    phugoid: oscillation(phugoid),
    shortPeriod: oscillation(shortPeriod),
    dutchRoll: oscillation(dutchRoll),
    roll: -roll.re,
    spiral: -spiral.re,
    longitudinal,
    lateral,
  };
}

const noElevator = { Xelevator: 0, Zelevator: 0, Melevator: 0 };
/** Longitudinal derivatives as printed; what is not given is zero. */
export function printedLongitudinal(given: Partial<Parameters<typeof normalToFlow>[0]>) {
  return { Xu: 0, Xw: 0, Zu: 0, Zw: 0, Zwdot: 0, Zq: 0, Mu: 0, Mw: 0, Mwdot: 0, Mq: 0, ...noElevator, ...given };
}

export const zeroLateral: DimensionalSet["lateral"] = {
  moments: "primed",
  Yv: 0,
  Yp: 0,
  Yr: 0,
  Yaileron: 0,
  Yrudder: 0,
  Lbeta: 0,
  Lp: 0,
  Lr: 0,
  Laileron: 0,
  Lrudder: 0,
  Nbeta: 0,
  Np: 0,
  Nr: 0,
  Naileron: 0,
  Nrudder: 0,
};

/** Mass properties of a symmetric aircraft from a published entry. */
export function massOf(mass: number, Ixx: number, Iyy: number, Izz: number, Ixz: number): MassProperties {
  return { mass, Ixx, Iyy, Izz, Ixy: 0, Ixz, Iyz: 0 };
}

/** Numbers by name, in SI and radians. */
export type Values = Readonly<Record<string, number>>;

/**
 * Results that follow from printed numbers, with what the rounding of those numbers can do to them: each number is
 * moved by half a unit of its last digit, one at a time, and the changes of the results are added up.
 *
 * @param inputs   the printed numbers; an exact zero is not moved
 * @param compute  results from the numbers, by name
 */
export function withRounding(
  inputs: Readonly<Record<string, PrintedNumber>>,
  compute: (values: Values) => Values,
): { readonly nominal: Values; readonly rounding: Values } {
  const base = Object.fromEntries(Object.entries(inputs).map(([name, number]) => [name, number.si]));
  const nominal = compute(base);
  const rounding = Object.fromEntries(Object.keys(nominal).map((name) => [name, 0]));
  for (const [name, number] of Object.entries(inputs)) {
    if (number.value === 0) continue;
    const [more, less] = [0.5, -0.5].map((half) =>
      compute({ ...base, [name]: base[name] + half * number.lastDigitSi }),
    );
    for (const key of Object.keys(nominal)) {
      rounding[key] += Math.max(Math.abs(more[key] - nominal[key]), Math.abs(less[key] - nominal[key]));
    }
  }
  return { nominal, rounding };
}

/** The modes under the names that the tests use. */
export function namedModes(modes: FreeModes): Values {
  return {
    "phugoid zeta": modes.phugoid.zeta,
    "phugoid omega": modes.phugoid.omega,
    "short period zeta": modes.shortPeriod.zeta,
    "short period omega": modes.shortPeriod.omega,
    "spiral 1/T": modes.spiral,
    "roll 1/T": modes.roll,
    "dutch roll zeta": modes.dutchRoll.zeta,
    "dutch roll omega": modes.dutchRoll.omega,
  };
}
