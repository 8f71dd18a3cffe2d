import { type CurveProblem, liesOnCurve, type TracedCurve, traceCurve } from "../../math/continuation/index.ts";
import { DomainError } from "../../math/errors.ts";
import type { Level, LevelCurve, MapWindow, RootCondition, RootProblem, Seed } from "./types.ts";

export interface LevelOptions {
  /** Largest distance of a chord from the curve, in the lengths of the map and of ln |s|. */
  readonly deviation: number;
  /** Range of |s| that is followed [rad/s]; default 1e-3 to 1e5. */
  readonly frequencies?: { readonly from: number; readonly to: number };
  readonly longestStep?: number;
  /** Whether the middles of chords are held to the deviation too: for pairs whose airloads have corners; default no. */
  readonly middles?: boolean;
}

/** Seeds nearer to a traced curve than this many deviations lie on it. */
const ON_CURVE = 4;

/** Arrays for one root condition. */
export function rootCondition(): RootCondition {
  const pair = (): Float64Array => new Float64Array(2);
  return { value: pair(), byRate: pair(), byX: pair(), byY: pair() };
}

/**
 * Every curve of a level that a seed lies on, exact to the corrector's tolerance at its points.
 *
 *     F(s; x, y) = 0,  s = ω·(−ζ + i·√(1 − ζ²)): two equations in (ln ω, x, y)                 (README eq. 7)
 *     F(σ; x, y) = 0: one equation in (x, y)                                                  (README eq. 8)
 *
 * @param problem the family of pairs
 * @param level   ζ below 1 in magnitude, or σ
 * @param window  part of the map
 * @param seeds   starts; those on a curve that is already traced cost nothing
 * @returns curves in the order of their first seed
 * @throws {DomainError} for a damping ratio of magnitude 1 or more
 * @source own derivation, README eq. 7–8
 * @verified stability-boundary.test.ts: analytic/two-mode-boundary (Routh–Hurwitz, rtol 1e-7), ζ of the eigenvalues (1e-8)
 */
export function levelCurves(
  problem: RootProblem,
  level: Level,
  window: MapWindow,
  seeds: readonly Seed[],
  options: LevelOptions,
): LevelCurve[] {
  const curve = level.kind === "oscillation" ? oscillation(problem, level.dampingRatio, window, options) : real(problem, level.growth, window); // biome-ignore format: one choice
  const found: TracedCurve[] = [];
  const near = ON_CURVE * options.deviation;
  for (const seed of seeds) {
    const start =
      level.kind === "oscillation" ? [Math.log(seed.frequency), seed.x, seed.y] : ([seed.x, seed.y] as const);
    if (found.some((other) => liesOnCurve(other, start, near))) continue;
    const traced = traceCurve(curve, start, {
      deviation: options.deviation,
      longestStep: options.longestStep ?? 0.25,
      ...(options.middles === undefined ? {} : { middles: options.middles }),
      // a rough seed may lead to a curve that is known
      known: (u) => found.some((other) => liesOnCurve(other, u, near)),
    });
    if (traced === null || traced.points.length < 2) continue;
    found.push(traced);
  }
  return found.map((traced) => describe(traced, level));
}

function describe({ points, closed, ends }: TracedCurve, level: Level): LevelCurve {
  const first = level.kind === "oscillation" ? 1 : 0;
  const growth = level.kind === "oscillation" ? 0 : Math.abs(level.growth);
  return {
    x: Float64Array.from(points, (u) => u[first]),
    y: Float64Array.from(points, (u) => u[first + 1]),
    frequency: Float64Array.from(points, (u) => (first === 1 ? Math.exp(u[0]) : growth)),
    closed,
    complete: ends.every((end) => end === "border" || end === "closed"),
  };
}

function oscillation(problem: RootProblem, zeta: number, window: MapWindow, options: LevelOptions): CurveProblem {
  if (!(Math.abs(zeta) < 1)) throw new DomainError("damping ratio of a level", zeta, "above −1 and below 1");
  const { from, to } = options.frequencies ?? { from: 1e-3, to: 1e5 };
  const directionRe = -zeta;
  const directionIm = Math.sqrt(1 - zeta * zeta);
  const at = rootCondition();
  return {
    size: 3,
    from: [Math.log(from), window.x.from, window.y.from],
    to: [Math.log(to), window.x.to, window.y.to],
    evaluate(u, residual, derivatives) {
      const omega = Math.exp(u[0]);
      const sRe = omega * directionRe;
      const sIm = omega * directionIm;
      if (!problem.evaluate(sRe, sIm, u[1], u[2], at)) return false;
      residual[0] = at.value[0];
      residual[1] = at.value[1];
      // dF/d ln ω = s·dF/ds
      derivatives[0] = at.byRate[0] * sRe - at.byRate[1] * sIm;
      derivatives[1] = at.byX[0];
      derivatives[2] = at.byY[0];
      derivatives[3] = at.byRate[0] * sIm + at.byRate[1] * sRe;
      derivatives[4] = at.byX[1];
      derivatives[5] = at.byY[1];
      return true;
    },
  };
}

function real(problem: RootProblem, growth: number, window: MapWindow): CurveProblem {
  const at = rootCondition();
  return {
    size: 2,
    from: [window.x.from, window.y.from],
    to: [window.x.to, window.y.to],
    evaluate(u, residual, derivatives) {
      if (!problem.evaluate(growth, 0, u[0], u[1], at)) return false;
      residual[0] = at.value[0];
      derivatives[0] = at.byX[0];
      derivatives[1] = at.byY[0];
      return true;
    },
  };
}
