import { hookedMass } from "../../physics/bodies/index.ts";
import { closureWindow } from "../../physics/closure-window/index.ts";
import type { HookonSettings } from "../../physics/hookon-motion/types.ts";
import { isLatched, type StraightOutcome, type StraightRuns } from "./straight-runs.ts";
import type { ClosureWindow, WindowPoint } from "./types.ts";

/** Closures of the sweep, and halvings of the interval in which an end lies. */
const CLOSURES = 16;
const HALVINGS = 6;
/** Share of the largest closure at which the sweep begins. */
const SLOWEST = 0.05;
/** Load nearer to its limit than this counts as passing it. */
const AT_LIMIT = 1 - 1e-6;

type Vector = readonly [number, number, number];

/**
 * Closed form of the window from the settings of the motion.
 *
 * @param settings of the motion in still air
 * @source `physics/closure-window`, README eq. 1–5; the boom's static stiffness along an axis k is 1/(k_Γ²/K_Γ + k_ℓ²/k_r), with
 * K_Γ bending and accumulator in series
 * @verified window.test.ts: against the motion
 */
export function closedWindow(settings: HookonSettings) {
  const { boom, mass, probe, trim, socket, latch, tipMass, limits } = settings;
  const angle = boom.geometry.angleDown;
  const [x, , z] = socket.restAxis_H;
  // parts of the axis along the boom (away from the hinge) and across it, towards a larger angle
  const along = -x * Math.cos(angle) + z * Math.sin(angle);
  const across = x * Math.sin(angle) + z * Math.cos(angle);
  const { bending, accumulator } = boom.tangential;
  const compliance = across ** 2 * (1 / bending + 1 / accumulator) + along ** 2 / boom.axial;
  const [c, s] = [Math.cos(trim.alpha), Math.sin(trim.alpha)];
  const toBody = ([vx, vy, vz]: Vector): Vector => [c * vx - s * vz, vy, s * vx + c * vz];
  const alongBoom: Vector = [-Math.cos(angle), 0, Math.sin(angle)];
  // a mass that only gives way across the boom is heavier along the axis
  const share = Math.max(across ** 2, 1e-6);
  return closureWindow({
    latch,
    buffer: socket.buffer,
    aircraft: {
      along: hookedMass(mass, probe, 0, toBody(socket.restAxis_H)),
      boom: hookedMass(mass, probe, 0, toBody(alongBoom)),
    },
    tip: { mass: tipMass / share, stiffness: 1 / compliance },
    arc: { stiffness: 1 / (1 / latch.sideStiffness + 1 / boom.axial), share: Math.abs(along) },
    limits: { axial: limits.axialLoad, side: limits.sideLoad },
  });
}

const isDamaging = ({ outcome, bottomed }: StraightOutcome): boolean => outcome === "overloaded" || bottomed;
const isSound = (run: StraightOutcome): boolean => isLatched(run.outcome) && !isDamaging(run);

/**
 * Closure window on the axis, in closed form and by straight runs; ends of the simulated one by halving.
 *
 * The lower end is the least closure that latches soundly, the upper one the least above it that passes a limit load or brings the
 * buffer to its stop.
 *
 * @param settings of the motion in still air
 * @param runs     straight runs with the same settings
 * @param plan     largest closure that is tried and the planned one [m/s]
 * @source README "Closure window"
 * @verified window.test.ts
 */
export function windowOf(
  settings: HookonSettings,
  runs: StraightRuns,
  plan: { readonly most: number; readonly planned: number },
): ClosureWindow {
  const at = (closure: number): StraightOutcome => runs.run({ closure, right: 0, up: 0, angle: 0 });
  const closures = Array.from(
    { length: CLOSURES },
    (_, i) => plan.most * (SLOWEST + ((1 - SLOWEST) * i) / (CLOSURES - 1)),
  );
  const swept = closures.map(at);
  const first = swept.findIndex(isSound);
  const lower =
    first < 0 ? null : first === 0 ? closures[0] : halved(at, closures[first - 1], closures[first], isSound);
  const bad = first < 0 ? -1 : swept.findIndex((run, i) => i > first && isDamaging(run));
  const upper = bad < 0 ? null : halved(at, closures[bad - 1], closures[bad], isDamaging);
  const because = bad < 0 ? "no limit up to the largest closure tried" : reasonOf(at(upper!), settings);
  const closed = closedWindow(settings);
  const hasWindow = closed.lower < closed.upper;
  const agreement = (own: number | null, simulated: number | null): number | null =>
    own === null || simulated === null ? null : own / simulated - 1;
  return {
    closedForm: {
      lower_m_s: closed.lower,
      upper_m_s: Number.isFinite(closed.upper) ? closed.upper : null,
      upperBecause: hasWindow ? closed.upperBecause : `${closed.upperBecause}, below the lower end`,
    },
    simulated: { lower_m_s: lower, upper_m_s: upper, upperBecause: first < 0 ? "no closure latches" : because },
    agreement_1: { lower: agreement(closed.lower, lower), upper: agreement(closed.upper, upper) },
    planned_m_s: plan.planned,
    sweep: closures.map((closure, i): WindowPoint => {
      const { outcome, tripped, locked, axial, buffer } = swept[i];
      return { closure_m_s: closure, outcome, tripped, locked, peakAxial_N: axial, bufferTravel_m: buffer };
    }),
  };
}

/** Least value of an interval at which a property holds that holds at its upper end and not at its lower one. */
function halved(
  at: (closure: number) => StraightOutcome,
  from: number,
  to: number,
  holds: (run: StraightOutcome) => boolean,
): number {
  let [low, high] = [from, to];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = 0.5 * (low + high);
    if (holds(at(middle))) high = middle;
    else low = middle;
  }
  return high;
}

function reasonOf(run: StraightOutcome, { limits }: HookonSettings): string {
  const reasons = [
    ...(run.axial >= AT_LIMIT * limits.axialLoad ? ["load along the probe"] : []),
    ...(run.side >= AT_LIMIT * limits.sideLoad ? ["load across the probe"] : []),
    ...(run.bottomed ? ["buffer comes to its stop"] : []),
  ];
  return reasons.length === 0 ? "tip or attitude beyond its limit" : reasons.join(" and ");
}
