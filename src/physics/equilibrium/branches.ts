import { liesOnCurve, type TracedCurve, traceCurve } from "../../math/continuation/index.ts";
import { createJacobianWorkspace, jacobian } from "../../math/differentiate/index.ts";
import { DomainError } from "../../math/errors.ts";
import { bracketedRoot } from "../../math/roots/index.ts";
import { type HookedStatics, staticState } from "./statics.ts";

/** What holds the elevator along a branch. */
export type ElevatorRule =
  | { readonly kind: "fixed"; readonly elevator: number }
  | { readonly kind: "holds weight share"; readonly weightShare: number };

/** One balance. */
export interface Balance {
  /** True airspeed [m/s]. */
  readonly speed: number;
  readonly alpha: number;
  readonly elevator: number;
  readonly angleDown: number;
}

/** A connected family of balances against airspeed. */
export interface BalanceBranch {
  readonly balances: readonly Balance[];
  /** Whether both ends lie on the border of what was searched. */
  readonly complete: boolean;
}

/** Angle of attack and elevator beyond which a balance means nothing [rad], as in the trim. */
const LARGEST_ALPHA = Math.PI / 4;
const LARGEST_ELEVATOR = Math.PI / 3;
/** Furthest that the boom is looked for from where the jack has it without load [rad]. */
const LARGEST_SWING = Math.PI / 2;
const ALPHAS = 181;
const ANGLES = 181;
const TOLERANCE = 1e-12;
const DEVIATION = 1e-4;
const STEPS = [1e-3, 1e-3, 1e-3, 1e-3] as const;

/** Places between two values where a function changes sign, each by bracketed root. */
function allRoots(f: (x: number) => number, from: number, to: number, count: number): number[] {
  const roots: number[] = [];
  let before = f(from);
  for (let i = 1; i < count; i++) {
    const x = from + ((to - from) * i) / (count - 1);
    const value = f(x);
    if (before === 0) roots.push(from + ((to - from) * (i - 1)) / (count - 1));
    else if (before * value < 0) {
      const found = bracketedRoot(f, from + ((to - from) * (i - 1)) / (count - 1), x, TOLERANCE);
      if (found.outcome === "converged") roots.push(found.x);
    }
    before = value;
  }
  if (before === 0) roots.push(to);
  return roots;
}

/**
 * Every balance of the hooked pair at an airspeed, none, one or several.
 *
 * In uniform air the loads depend on angle of attack and elevator alone, so that the balance in pitch stands for itself and the boom
 * follows: both are scanned and every sign change is narrowed down. With the weight share held, the elevator is first solved for.
 *
 * @param speed true airspeed [m/s], > 0
 * @returns by rising angle of attack, then boom angle; two balances nearer than 0.5° in one angle may be missed as a pair
 * @throws {DomainError} for an airspeed that is not positive
 * @source own derivation, README eq. 1–4
 * @verified equilibrium.test.ts: analytic/torsion-divergence (one balance, three), rest of the equations of motion
 */
export function balancesAt(statics: HookedStatics, rule: ElevatorRule, speed: number): Balance[] {
  if (!(speed > 0)) throw new DomainError("true airspeed", speed, "greater than 0");
  const at = staticState();
  const { boom } = statics.settings;
  const middle = boom.unloadedAngleDown;
  const elevatorFor = (alpha: number): number => {
    if (rule.kind === "fixed") return rule.elevator;
    const missing = (elevator: number): number => {
      statics.at(speed, alpha, elevator, middle, at);
      return at.weightShare - rule.weightShare;
    };
    const found = bracketedRoot(missing, -LARGEST_ELEVATOR, LARGEST_ELEVATOR, TOLERANCE);
    return found.outcome === "converged" ? found.x : Number.NaN;
  };
  const moment = (alpha: number): number => {
    statics.at(speed, alpha, elevatorFor(alpha), middle, at);
    return at.moment;
  };
  return allRoots(moment, -LARGEST_ALPHA, LARGEST_ALPHA, ALPHAS).flatMap((alpha) => {
    const elevator = elevatorFor(alpha);
    const excess = (angleDown: number): number => {
      statics.at(speed, alpha, elevator, angleDown, at);
      return at.boom;
    };
    return allRoots(excess, middle - LARGEST_SWING, middle + LARGEST_SWING, ANGLES).map((angleDown) => ({
      ...{ speed, alpha, elevator, angleDown },
    }));
  });
}

/**
 * Branches of balances against airspeed: every balance at a number of airspeeds, each followed both ways through its folds.
 *
 * @param from,to true airspeeds [m/s], 0 < from < to
 * @param starts  number of airspeeds at which all balances are found
 * @throws {DomainError} for a range that does not rise
 * @source own derivation, README eq. 5; `math/continuation`
 * @verified equilibrium.test.ts
 */
export function balanceBranches(
  statics: HookedStatics,
  rule: ElevatorRule,
  from: number,
  to: number,
  starts: number,
): BalanceBranch[] {
  if (!(to > from && from > 0)) throw new DomainError("range of airspeed", [from, to], "rising and above 0");
  const { unloadedAngleDown } = statics.settings.boom;
  const at = staticState();
  const equations = (u: Float64Array, out: Float64Array): void => {
    statics.at(u[0] * to, u[1], u[2], u[3], at);
    out[0] = at.moment;
    out[1] = at.boom;
    out[2] = rule.kind === "fixed" ? u[2] - rule.elevator : at.weightShare - rule.weightShare;
  };
  const workspace = createJacobianWorkspace(4, 3);
  const steps = Float64Array.from(STEPS);
  const problem = {
    size: 4,
    from: [from / to, -LARGEST_ALPHA, -LARGEST_ELEVATOR, unloadedAngleDown - LARGEST_SWING],
    to: [1, LARGEST_ALPHA, LARGEST_ELEVATOR, unloadedAngleDown + LARGEST_SWING],
    evaluate(u: Float64Array, residual: Float64Array, derivatives: Float64Array): boolean {
      equations(u, residual);
      return jacobian(equations, u, steps, 3, derivatives, workspace);
    },
  };
  const curves: TracedCurve[] = [];
  for (let i = 0; i < starts; i++) {
    const speed = from + ((to - from) * (i + 0.5)) / starts;
    for (const { alpha, elevator, angleDown } of balancesAt(statics, rule, speed)) {
      const start = [speed / to, alpha, elevator, angleDown];
      if (curves.some((curve) => liesOnCurve(curve, start, 10 * DEVIATION))) continue;
      const curve = traceCurve(problem, start, { deviation: DEVIATION, longestStep: 0.05 });
      if (curve !== null && curve.points.length > 1) curves.push(curve);
    }
  }
  return curves.map(({ points, ends }) => ({
    balances: points.map(([v, alpha, elevator, angleDown]) => ({ speed: v * to, alpha, elevator, angleDown })),
    complete: ends.every((end) => end === "border" || end === "closed"),
  }));
}

/**
 * Airspeeds at which a branch turns back: two balances meet and neither exists beyond.
 *
 * @returns true airspeeds [m/s] of the vertices of parabolas through three neighbouring balances
 */
export function foldsOf({ balances }: BalanceBranch): number[] {
  const folds: number[] = [];
  for (let i = 1; i + 1 < balances.length; i++) {
    const [a, b, c] = [balances[i - 1], balances[i], balances[i + 1]];
    if ((b.speed - a.speed) * (c.speed - b.speed) >= 0) continue;
    // speed as a parabola over the distance along the branch
    const h = Math.hypot(b.alpha - a.alpha, b.angleDown - a.angleDown);
    const k = Math.hypot(c.alpha - b.alpha, c.angleDown - b.angleDown);
    if (!(h > 0 && k > 0)) continue;
    const [left, right] = [(b.speed - a.speed) / h, (c.speed - b.speed) / k];
    const second = (right - left) / (h + k);
    const slope = (left * k + right * h) / (h + k);
    folds.push(b.speed - (slope * slope) / (4 * second));
  }
  return folds;
}
