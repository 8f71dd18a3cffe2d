import { bracketedRoot } from "../roots/index.ts";
import { type DormandPrince, evaluateDense } from "./dormand-prince.ts";
import type { EventHit, EventSpec } from "./types.ts";

/** What is remembered of the events between steps. */
export interface EventWatch {
  readonly specs: readonly EventSpec[];
  readonly hits: EventHit[];
  /** Sign of each event function after the last step, 0 while it has been exactly zero. */
  readonly sides: Int8Array;
  /** Place in the step of each event found in it, above 1 if none. */
  readonly places: Float64Array;
  readonly probe: Float64Array;
  /** Function of θ for the root search; `current` says of which event. */
  readonly alongStep: (theta: number) => number;
  current: number;
  from: number;
  step: number;
}

/**
 * Starts the watch at the initial state.
 *
 * An event that is exactly zero there does not count: its side is taken from the first step.
 */
export function startWatch(specs: readonly EventSpec[], work: DormandPrince, t: number, y: Float64Array): EventWatch {
  const watch: EventWatch = {
    specs,
    hits: [],
    sides: Int8Array.from(specs, (spec) => Math.sign(spec.value(t, y))),
    places: new Float64Array(specs.length),
    probe: new Float64Array(work.n),
    alongStep: (theta) => {
      evaluateDense(work, theta, watch.probe);
      return specs[watch.current]!.value(watch.from + theta * watch.step, watch.probe);
    },
    current: 0,
    from: t,
    step: 0,
  };
  return watch;
}

/** Place of a terminal event in the step, or 2 when there is none. */
export const NO_PLACE = 2;

/**
 * Finds the events in an accepted step whose continuous extension is prepared, and records them in order of time up to
 * the first terminal one.
 *
 * @returns θ of the terminal event, `NO_PLACE` if there is none, NaN if an event function is not finite
 */
export function findEvents(watch: EventWatch, work: DormandPrince, t: number, step: number, tNext: number): number {
  const { specs, places } = watch;
  watch.from = t;
  watch.step = step;
  let found = 0;
  for (let e = 0; e < specs.length; e++) {
    places[e] = placeOf(watch, work, e, tNext);
    if (Number.isNaN(places[e]!)) return Number.NaN;
    if (places[e]! <= 1) found++;
  }
  for (; found > 0; found--) {
    let first = 0;
    for (let e = 1; e < specs.length; e++) if (places[e]! < places[first]!) first = e;
    const theta = places[first]!;
    places[first] = NO_PLACE;
    const y = new Float64Array(work.n);
    evaluateDense(work, theta, y);
    watch.hits.push({ event: first, t: theta === 1 ? tNext : t + theta * step, y });
    if (specs[first]!.terminal === true) return theta;
  }
  return NO_PLACE;
}

/** Where event e changes sign in the wanted direction within the step; updates its side. */
function placeOf(watch: EventWatch, work: DormandPrince, e: number, tNext: number): number {
  const spec = watch.specs[e]!;
  const value = spec.value(tNext, work.yNext);
  if (!Number.isFinite(value)) return Number.NaN;
  const before = watch.sides[e]!;
  const after = Math.sign(value);
  watch.sides[e] = after;
  if (before === 0 || after === before) return NO_PLACE;
  const direction = spec.direction ?? "either";
  if (direction !== "either" && (direction === "rising") !== before < 0) return NO_PLACE;
  if (after === 0) return 1;
  watch.current = e;
  const root = bracketedRoot(watch.alongStep, 0, 1, 4 * Number.EPSILON);
  if (root.outcome === "not finite") return Number.NaN;
  // The extension starts from the state exactly but may round its end to the near side of zero: the event is at the end.
  return root.outcome === "no sign change" ? 1 : root.x;
}
