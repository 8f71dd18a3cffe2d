/** Roots of the hooked pair, by planes, and how far two sets of roots are apart. */
import type { HookedNumbers, Rows } from "../../reference/analytic/hooked-linear/index.ts";
import { createEigenWorkspace, eigenvalues } from "../../src/math/eigen/index.ts";
import {
  type CarrierPort,
  type HookedPair,
  hookedPair,
  type Linearisation,
  linearise,
  STANDARD_GRAVITY,
} from "../../src/physics/bodies/index.ts";
import type { Longshore } from "../support/longshore.ts";

export interface Root {
  readonly re: number;
  readonly im: number;
}

export const dampingRatio = ({ re, im }: Root): number => -re / Math.hypot(re, im);
export const naturalFrequency = ({ re, im }: Root): number => Math.hypot(re, im) / (2 * Math.PI);

/** Eigenvalues of a row-major matrix of order n. */
export function rootsOf(matrix: Float64Array, n: number): Root[] {
  const re = new Float64Array(n);
  const im = new Float64Array(n);
  const outcome = eigenvalues(matrix, n, createEigenWorkspace(n), re, im);
  if (outcome !== "converged") throw new Error(`eigenvalues: ${outcome}`);
  return Array.from(re, (x, i) => ({ re: x, im: im[i] }));
}

/** Eigenvalues of a matrix given by rows. */
export const rootsOfRows = (rows: Rows): Root[] => rootsOf(Float64Array.from(rows.flat()), rows.length);

/** States of one plane: those whose name has one of the words in it. */
function rootsAmong(linear: Linearisation, words: readonly string[]): Root[] {
  const keep = linear.names.flatMap((name, i) => (words.some((word) => name.split(" ").includes(word)) ? [i] : []));
  const part = keep.flatMap((i) => keep.map((j) => linear.matrix[i * linear.size + j]));
  return rootsOf(Float64Array.from(part), keep.length);
}
export const longitudinalRoots = (linear: Linearisation) => rootsAmong(linear, ["x", "z", "pitch", "snubber"]);
export const lateralRoots = (linear: Linearisation) => rootsAmong(linear, ["y", "roll", "yaw", "law"]);

/** Pair in balance and its linear model; a pair without balance is a failed test. */
export function linearPair(settings: Longshore, carrier?: CarrierPort): { pair: HookedPair; linear: Linearisation } {
  const pair = hookedPair(settings, carrier);
  if (pair.trim.outcome !== "trimmed") throw new Error("the pair does not trim");
  return { pair, linear: linearise(pair.motion, pair.state) };
}

/** Roots by plane from the nonlinear equations. */
export function planes(settings: Longshore): { longitudinal: Root[]; lateral: Root[] } {
  const { linear } = linearPair(settings);
  return { longitudinal: longitudinalRoots(linear), lateral: lateralRoots(linear) };
}

/**
 * Pairs two sets of roots, nearest first.
 *
 * @returns largest |a − b| over the larger of |a| and `floor` [1/s]
 */
export function rootGap(a: readonly Root[], b: readonly Root[], floor = 0): number {
  if (a.length !== b.length) throw new Error(`${a.length} roots against ${b.length}`);
  const candidates = a.flatMap((x, i) => b.map((y, j) => ({ i, j, gap: Math.hypot(x.re - y.re, x.im - y.im) })));
  candidates.sort((p, q) => p.gap - q.gap);
  const [usedA, usedB] = [new Set<number>(), new Set<number>()];
  let worst = 0;
  for (const { i, j, gap } of candidates) {
    if (usedA.has(i) || usedB.has(j)) continue;
    usedA.add(i);
    usedB.add(j);
    worst = Math.max(worst, gap / Math.max(Math.hypot(a[i].re, a[i].im), floor));
  }
  return worst;
}

/** Oscillations below a frequency [Hz], lowest damping ratio first. */
export function oscillations(roots: readonly Root[], below = 3): Root[] {
  return roots
    .filter((root) => root.im > 1e-9 && naturalFrequency(root) < below)
    .sort((a, b) => dampingRatio(a) - dampingRatio(b));
}

/** The least damping ratio of the oscillations below 3 Hz. */
export const worstDamping = (roots: readonly Root[]): number => dampingRatio(oscillations(roots)[0]);

/** The numbers that the analytic linear model starts from. */
export function analyticNumbers(settings: Longshore): HookedNumbers {
  const { derivatives, mass, probe, air, weightShare, boom } = settings;
  const { drag } = derivatives;
  if (drag.kind !== "parabolic" || settings.thrust !== 0) throw new Error("outside the analytic model");
  const aspectRatio = derivatives.span ** 2 / derivatives.area;
  return {
    ...mass,
    probe,
    derivatives,
    drag: { zeroLift: drag.zeroLift, induced: 1 / (Math.PI * aspectRatio * drag.efficiency) },
    density: air.density,
    trueAirspeed: air.trueAirspeed,
    gravity: STANDARD_GRAVITY,
    weightShare,
    boom,
  };
}
