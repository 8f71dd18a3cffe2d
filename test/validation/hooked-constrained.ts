/**
 * The hooked aircraft with rigid joints in place of springs, written down apart from the equations of motion: a
 * ball joint that is fixed in H, or one that slides without friction on the arc of a rigid boom. Own trim, Euler
 * angles, accelerations by solving a residual that is linear in them.
 */
import { type HookedNumbers, hookedBalance } from "../../reference/analytic/hooked-linear/index.ts";
import type { AirLoad } from "../../src/physics/airloads/index.ts";
import type { Longshore } from "../support/longshore.ts";
import { analyticNumbers, type Root, rootsOf } from "./hooked-support.ts";

type Vector = readonly [number, number, number];
const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const add = (...all: readonly Vector[]): Vector => [0, 1, 2].map((i) => all.reduce((s, v) => s + v[i], 0)) as never;
const scale = (f: number, v: Vector): Vector => [f * v[0], f * v[1], f * v[2]];
const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** Body axes seen in H: columns of R from yaw, pitch, roll. */
function bodyAxes(yaw: number, pitch: number, roll: number): readonly [Vector, Vector, Vector] {
  const [cy, sy, cp, sp, cr, sr] = [yaw, pitch, roll].flatMap((angle) => [Math.cos(angle), Math.sin(angle)]);
  return [
    [cy * cp, sy * cp, -sp],
    [cy * sp * sr - sy * cr, sy * sp * sr + cy * cr, cp * sr],
    [cy * sp * cr + sy * sr, sy * sp * cr - cy * sr, cp * cr],
  ];
}

/**
 * Roots of the constrained aircraft: 6 on a fixed ball joint; 8 on the arc, where the load that the boom carried
 * at trim stays on as a constant moment about the hinge and the tip has its effective mass.
 */
export function constrainedRoots(settings: Longshore, joint: "fixed" | "on the arc"): Root[] {
  const numbers = analyticNumbers(settings);
  const balance = hookedBalance(numbers);
  const slides = joint === "on the arc";
  const size = slides ? 8 : 6;
  const model = new Constrained(settings, numbers, balance, slides);
  const rest = new Float64Array(size);
  rest[1] = balance.alpha;
  if (slides) rest[6] = numbers.boom.angleDown;
  const matrix = new Float64Array(size * size);
  for (let j = 0; j < size; j++) {
    const step = 1e-3;
    const at = (k: number): number[] => model.flow(Array.from(rest, (x, i) => (i === j ? x + k * step : x)));
    const [farBack, back, ahead, farAhead] = [at(-2), at(-1), at(1), at(2)];
    for (let i = 0; i < size; i++) {
      matrix[i * size + j] = (8 * (ahead[i] - back[i]) - (farAhead[i] - farBack[i])) / (12 * step);
    }
  }
  return rootsOf(matrix, size);
}

class Constrained {
  private readonly settings: Longshore;
  private readonly numbers: HookedNumbers;
  private readonly elevator: number;
  private readonly idle = { aileron: 0, rudder: 0, thrust: 0 };
  private readonly slides: boolean;
  /** Moment about the hinge that carries the tip load at trim, towards a larger angle [N·m]. */
  private readonly moment: number;
  private readonly load: AirLoad = { load: new Float64Array(6), perAcceleration: new Float64Array(36) };

  constructor(
    settings: Longshore,
    numbers: HookedNumbers,
    { elevator, fx, fz }: ReturnType<typeof hookedBalance>,
    slides: boolean,
  ) {
    this.settings = settings;
    this.numbers = numbers;
    this.elevator = elevator;
    this.slides = slides;
    const { length, angleDown } = numbers.boom;
    this.moment = length * (fx * Math.sin(angleDown) + fz * Math.cos(angleDown));
  }

  /** ż of z = [yaw, pitch, roll, p, q, r] and, on the arc, [Γ, Γ̇]. */
  flow(z: readonly number[]): number[] {
    const [, pitch, roll, p, q, r] = z;
    const unknowns = this.slides ? 4 : 3;
    const unit = (k: number): number[] => Array.from({ length: unknowns }, (_, i) => (i === k ? 1 : 0));
    const base = this.residual(z, unit(-1));
    const columns = Array.from({ length: unknowns }, (_, k) => this.residual(z, unit(k)).map((x, i) => x - base[i]));
    const accelerations = solve(
      columns,
      base.map((x) => -x),
    );
    const yawRate = (q * Math.sin(roll) + r * Math.cos(roll)) / Math.cos(pitch);
    const angles = [yawRate, q * Math.cos(roll) - r * Math.sin(roll), p + yawRate * Math.sin(pitch)];
    const turn = [...angles, ...accelerations.slice(0, 3)];
    return this.slides ? [...turn, z[7], accelerations[3]] : turn;
  }

  /** Moments about the probe tip in body axes and, on the arc, force along it: zero for the true accelerations. */
  private residual(z: readonly number[], guess: readonly number[]): number[] {
    const { mass: properties, probe, air, airloads, boom } = this.settings;
    const { mass, gravity } = this.numbers;
    const axes = bodyAxes(z[0], z[1], z[2]);
    const toH = (v: Vector): Vector => add(...axes.map((axis, i) => scale(v[i], axis)));
    const toBody = (v: Vector): Vector => axes.map((axis) => dot(axis, v)) as never;
    const w: Vector = [z[3], z[4], z[5]];
    const wRate: Vector = [guess[0], guess[1], guess[2]];
    const [gamma, gammaRate, gammaRate2] = this.slides ? [z[6], z[7], guess[3]] : [0, 0, 0];
    const along: Vector = [Math.sin(gamma), 0, Math.cos(gamma)];
    const out: Vector = [-Math.cos(gamma), 0, Math.sin(gamma)];
    const tipVelocity = scale(boom.length * gammaRate, along);
    const tipAcceleration = add(
      scale(boom.length * gammaRate2, along),
      scale(-boom.length * gammaRate * gammaRate, out),
    );
    const back = scale(-1, probe);
    // c.g. seen from the probe tip
    const velocity = add(toBody(add(tipVelocity, [air.trueAirspeed, 0, 0])), cross(w, back));
    const acceleration = add(toBody(tipAcceleration), cross(wRate, back), cross(w, cross(w, back)));
    const inBody = add(acceleration, scale(-1, cross(w, velocity)));
    const [u, v, w_] = velocity;
    const flight = { u, v, w: w_, p: w[0], q: w[1], r: w[2], density: air.density, soundSpeed: air.soundSpeed };
    airloads.evaluate(flight, { elevator: this.elevator, ...this.idle }, this.load);
    const rates = [...inBody, ...wRate];
    const total = Array.from(this.load.load, (x, i) =>
      rates.reduce((sum, rate, j) => sum + this.load.perAcceleration[6 * i + j] * rate, x),
    );
    const force: Vector = [total[0], total[1], total[2]];
    const weight = scale(mass * gravity, toBody([0, 0, 1]));
    // what the tip has to put on the aircraft
    const tip = add(scale(mass, acceleration), scale(-1, add(force, weight)));
    const { Ixx, Iyy, Izz, Ixz } = properties;
    const spin = (a: Vector): Vector => [Ixx * a[0] - Ixz * a[2], Iyy * a[1], Izz * a[2] - Ixz * a[0]];
    const moments = add(
      spin(wRate),
      cross(w, spin(w)),
      scale(-1, [total[3], total[4], total[5]]),
      scale(-1, cross(probe, tip)),
    );
    if (!this.slides) return [...moments];
    const swing = boom.effectiveTipMass * boom.length * gammaRate2 + dot(toH(tip), along) - this.moment / boom.length;
    return [...moments, swing];
  }
}

/** Solves Σ x_k·column_k = right by elimination with row exchange. */
function solve(columns: readonly (readonly number[])[], right: readonly number[]): number[] {
  const n = right.length;
  const rows = right.map((value, i) => [...columns.map((column) => column[i]), value]);
  for (let k = 0; k < n; k++) {
    const best = rows.slice(k).reduce((at, row, i) => (Math.abs(row[k]) > Math.abs(rows[at][k]) ? k + i : at), k);
    [rows[k], rows[best]] = [rows[best], rows[k]];
    for (let i = 0; i < n; i++) {
      if (i === k) continue;
      const factor = rows[i][k] / rows[k][k];
      for (let j = k; j <= n; j++) rows[i][j] -= factor * rows[k][j];
    }
  }
  return rows.map((row, i) => row[n] / row[i]);
}
