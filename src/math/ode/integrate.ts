import { requireFinite, requireLength, requirePositive, requireSize } from "../require.ts";
import {
  createDormandPrince,
  type DormandPrince,
  errorOfStep,
  evaluateDense,
  prepareDense,
  tryStep,
} from "./dormand-prince.ts";
import { type EventWatch, findEvents, NO_PLACE, startWatch } from "./events.ts";
import { chooseFirstStep, nextFactor } from "./step-control.ts";
import type { Derivative, IntegrateOptions, Integration, IntegrationOutcome, Step } from "./types.ts";

/** A step below this many roundings of t cannot move it. */
const SMALLEST_STEP = 8 * Number.EPSILON;
/** An error below this tells the step control nothing. */
const SMALLEST_ERROR = 1e-4;

/** Everything that changes during one integration. */
interface Run {
  readonly options: IntegrateOptions;
  readonly derivative: Derivative;
  readonly work: DormandPrince;
  readonly absoluteTolerances: Float64Array;
  readonly longest: number;
  readonly watch: EventWatch | undefined;
  /** What `onStep` sees. */
  readonly report: { from: number; t: number; step: number; readonly y: Float64Array; readonly view: Step };
  t: number;
  /** Signed. */
  step: number;
  previousError: number;
  acceptedSteps: number;
  rejectedSteps: number;
  evaluations: number;
}

/**
 * Integrates ordinary differential equations with controlled error and finds events on the way.
 *
 *     ẏ = f(t, y),  y(from) = y₀                                               (1)
 *
 * Dormand–Prince pair 5(4), continuous extension of order four, events by root search on it. f must be smooth between
 * events: end at a terminal event and start again where it is not. Explicit, so not for stiff equations.
 *
 * @param options  see `IntegrateOptions`
 * @returns the end state with its outcome; nothing that the equations do is thrown
 * @throws {DomainError} if the span, the state or a step is not finite, a tolerance is not usable or an array too short
 * @source Dormand and Prince (1980); step control: Gustafsson's PI rule as in Hairer, Nørsett and Wanner (1993), II.4
 * @verified integrate.test.ts: order five, dense order four, odex, closed forms, events, refusals and outcomes
 * @cost six calls of f a step; allocates at the start and for each event found, no array for a step
 */
export function integrate(options: IntegrateOptions): Integration {
  const run = startRun(options);
  const outcome = isFiniteState(run.work.k[0]!) ? advance(run) : "not finite";
  return {
    outcome,
    t: run.t,
    y: run.work.y,
    events: run.watch?.hits ?? [],
    acceptedSteps: run.acceptedSteps,
    rejectedSteps: run.rejectedSteps,
    evaluations: run.evaluations,
    nextStep: run.step,
  };
}

function startRun(options: IntegrateOptions): Run {
  const { y0, from, to, relativeTolerance, initialStep, maximumStep } = options;
  const n = y0.length;
  requireSize("number of states", n, 1);
  requireFinite("start", from);
  requireFinite("end", to);
  requireSize("step limit", options.maxSteps, 1);
  if (initialStep !== undefined) requirePositive("initial step", Math.abs(initialStep));
  if (maximumStep !== undefined) requirePositive("maximum step", maximumStep);
  const work = createDormandPrince(n);
  work.y.set(y0);
  for (let i = 0; i < n; i++) requireFinite(`initial state ${i}`, work.y[i]!);
  const absoluteTolerances = spreadTolerances(options, n);
  const run: Run = {
    options,
    work,
    absoluteTolerances,
    derivative: (t, y, out) => {
      run.evaluations++;
      options.derivative(t, y, out);
    },
    longest: Math.min(Math.abs(to - from), maximumStep ?? Number.POSITIVE_INFINITY),
    watch: options.events === undefined ? undefined : startWatch(options.events, work, from, work.y),
    report: createReport(work, from),
    t: from,
    step: 0,
    previousError: SMALLEST_ERROR,
    acceptedSteps: 0,
    rejectedSteps: 0,
    evaluations: 0,
  };
  run.derivative(from, work.y, work.k[0]!);
  const direction = to >= from ? 1 : -1;
  const first =
    initialStep === undefined
      ? chooseFirstStep(work, run.derivative, from, direction, run.longest, relativeTolerance, absoluteTolerances)
      : Math.min(Math.abs(initialStep), run.longest);
  run.step = direction * first;
  return run;
}

/** Steps until an end is reached. */
function advance(run: Run): IntegrationOutcome {
  const { options, work, watch } = run;
  let isRetry = false;
  while (run.t !== options.to) {
    if (run.acceptedSteps + run.rejectedSteps >= options.maxSteps) return "too many steps";
    const left = options.to - run.t;
    const isLast = Math.abs(1.01 * run.step) >= Math.abs(left);
    const step = isLast ? left : run.step;
    const tNext = isLast ? options.to : run.t + step;
    tryStep(work, run.derivative, run.t, step);
    const error = errorOfStep(work, step, options.relativeTolerance, run.absoluteTolerances);
    if (!(error <= 1)) {
      run.rejectedSteps++;
      run.step = step * Math.min(1, nextFactor(error, 0));
      isRetry = true;
      const isTooSmall = Math.abs(run.step) <= SMALLEST_STEP * Math.abs(run.t) || run.t + run.step === run.t;
      if (isTooSmall) return Number.isFinite(error) ? "step too small" : "not finite";
      continue;
    }
    run.acceptedSteps++;
    prepareDense(work, step);
    const place = watch === undefined ? NO_PLACE : findEvents(watch, work, run.t, step, tNext);
    if (Number.isNaN(place)) return "not finite";
    run.step = nextStep(run, step, error, isRetry);
    isRetry = false;
    finishStep(run, step, tNext, place);
    if (place !== NO_PLACE) return "event";
  }
  return "reached";
}

function nextStep(run: Run, step: number, error: number, isRetry: boolean): number {
  const factor = nextFactor(error, run.previousError);
  run.previousError = Math.max(error, SMALLEST_ERROR);
  const length = Math.abs(step) * (isRetry ? Math.min(1, factor) : factor);
  return Math.sign(step) * Math.min(length, run.longest);
}

/** Moves to the end of the step, or to the terminal event in it, and reports it. */
function finishStep(run: Run, step: number, tNext: number, place: number): void {
  const { work, report, options, watch } = run;
  report.from = run.t;
  report.step = step;
  if (place === NO_PLACE) {
    work.y.set(work.yNext);
    work.k[0]!.set(work.k[6]!);
    run.t = tNext;
  } else {
    const hit = watch!.hits[watch!.hits.length - 1]!;
    work.y.set(hit.y);
    run.t = hit.t;
  }
  report.t = run.t;
  report.y.set(work.y);
  options.onStep?.(report.view);
}

function createReport(work: DormandPrince, from: number): Run["report"] {
  const y = new Float64Array(work.n);
  const report = {
    from,
    t: from,
    step: 1,
    y,
    view: {
      get from() {
        return report.from;
      },
      get t() {
        return report.t;
      },
      y,
      interpolate: (time: number, out: Float64Array) => {
        evaluateDense(work, (time - report.from) / report.step, out);
      },
    },
  };
  return report;
}

function spreadTolerances(options: IntegrateOptions, n: number): Float64Array {
  const { relativeTolerance, absoluteTolerance } = options;
  requirePositive("relative tolerance", relativeTolerance);
  const tolerances =
    typeof absoluteTolerance === "number"
      ? new Float64Array(n).fill(absoluteTolerance)
      : Float64Array.from(absoluteTolerance);
  requireLength("absolute tolerances", tolerances.length, n);
  for (let i = 0; i < n; i++) requirePositive(`absolute tolerance ${i}`, tolerances[i]!);
  return tolerances;
}

function isFiniteState(values: Float64Array): boolean {
  return values.every(Number.isFinite);
}
