import {
  EVENT_BUFFER,
  EVENTS,
  U_BUFFER_HELD,
  U_SIZE,
  U_TIME,
  W_EVENTS,
  W_K1,
  W_SIZE,
  X_BUFFER,
  X_BUFFER_RATE,
  X_TIP_VELOCITY,
} from "./layout.ts";
import { P_BUFFER, P_TIP_MASS } from "./parameter-layout.ts";
import type { HookonParameters } from "./parameters.ts";
import { hookonRates } from "./right-hand-side.ts";
import { combine, move, SHARE } from "./rows.ts";
import { type StepLengths, stepAt, stepLengths } from "./steps.ts";

/** Who follows a motion: told of every step and every event; the state is that of the motion. */
export interface MotionWatcher {
  /** After a step, state and work up to date; `false` ends the motion. */
  step(): boolean;
  /** One of the EVENT_… of layout.ts, or `TIMER`; `false` ends the motion. It may change modes. */
  event(which: number, rising: boolean): boolean;
}

/** The event of the timer. */
export const TIMER = EVENTS;
/** To what an event is located [s], and how many a tick may have before it goes on without locating. */
const EVENT_TIME = 1e-10;
const MOST_EVENTS = 400;
const TIME = 0;
const STEP = 1;
const LONGEST = 2;

/**
 * The motion in time: the classical Runge–Kutta method of order four, steps cut at events.
 *
 *     a step in which an event function changes its sign is taken again, shorter, until it ends just past the change   (README eq. 17)
 *
 * Between events everything is smooth, so that the order stays four.
 *
 * @source Kutta's method as in `math/ode`; own derivation of the events, README eq. 16–17
 * @verified motion.test.ts, contact.test.ts (order four, also across events; energy); allocation.test.ts
 * @cost no allocation after construction
 */
export class HookonMotion {
  readonly parameters: HookonParameters;
  readonly P: Float64Array;
  readonly X: Float64Array;
  readonly U = new Float64Array(U_SIZE);
  readonly W = new Float64Array(W_SIZE);
  readonly lengths: StepLengths;
  get time(): number {
    return this.clock[TIME];
  }
  set time(value: number) {
    this.clock[TIME] = value;
  }
  /** When the timer rings [s]; Infinity: never. */
  timer = Number.POSITIVE_INFINITY;
  /** Factor on every step, for tests of the order. */
  refinement = 1;
  /** Evaluations of the right-hand side so far. */
  evaluations = 0;
  /** Rates at the state in hand. */
  readonly rates: Float64Array;

  /** Time of the state in hand, length of the step in hand, longest step, and by how much a row moves. In an array: a number handed on may cost memory. */
  private readonly clock = new Float64Array(4);
  private readonly k2: Float64Array;
  private readonly k3: Float64Array;
  private readonly k4: Float64Array;
  private readonly kNext: Float64Array;
  private readonly stage: Float64Array;
  private readonly trial: Float64Array;
  private readonly before = new Float64Array(EVENTS);
  private readonly low = new Float64Array(EVENTS);
  private readonly high = new Float64Array(EVENTS);
  private readonly changes = new Int8Array(EVENTS);

  constructor(parameters: HookonParameters) {
    const row = (): Float64Array => new Float64Array(parameters.states);
    this.parameters = parameters;
    this.P = parameters.P;
    this.lengths = stepLengths(parameters.P);
    this.X = row();
    this.rates = row();
    [this.k2, this.k3, this.k4, this.kNext, this.stage, this.trial] = [row(), row(), row(), row(), row(), row()];
    this.U[U_BUFFER_HELD] = 1;
  }

  /** Evaluates at the state in hand, after modes or inputs have changed. */
  refresh(): void {
    this.U[U_TIME] = this.clock[TIME];
    this.evaluations++;
    hookonRates(this.X, this.U, this.P, this.W, this.rates);
    // a push above the preload moves the buffer at once, also where it was there before anybody looked
    if (this.U[U_BUFFER_HELD] > 0 && this.W[W_EVENTS + EVENT_BUFFER] > 0) {
      this.U[U_BUFFER_HELD] = 0;
      this.evaluations++;
      hookonRates(this.X, this.U, this.P, this.W, this.rates);
    }
    for (let i = 0; i < EVENTS; i++) this.before[i] = this.W[W_EVENTS + i];
  }

  /**
   * Goes on to a time.
   *
   * @returns "reached", "ended" by the watcher, or "not finite"
   */
  advance(end: number, watcher: MotionWatcher): "reached" | "ended" | "not finite" {
    const { clock, X } = this;
    this.refresh();
    let events = 0;
    while (clock[TIME] < end) {
      const until = Math.min(end, this.timer);
      const left = until - clock[TIME];
      stepAt(this.lengths, X, this.U, this.W, clock, LONGEST);
      const parts = Math.ceil(left / (clock[LONGEST] * this.refinement) - 1e-9);
      clock[STEP] = parts > 1 ? left / parts : left;
      this.tryStep();
      const changed = events < MOST_EVENTS && this.changed();
      if (changed) {
        this.locate();
        events++;
      }
      this.accept(changed);
      clock[TIME] = parts > 1 || changed ? clock[TIME] + clock[STEP] : until;
      if (!Number.isFinite(X[0] + X[3] + X[13])) return "not finite";
      if (!watcher.step()) return "ended";
      if (changed && !this.tell(watcher)) return "ended";
      if (clock[TIME] >= this.timer) {
        this.timer = Number.POSITIVE_INFINITY;
        if (!watcher.event(TIMER, true)) return "ended";
        this.refresh();
      }
    }
    return "reached";
  }

  /** One step of the length in hand to `trial`, and what holds there. */
  private tryStep(): void {
    const { X, U, P, W, rates: k1, k2, k3, k4, kNext, stage, trial, clock } = this;
    const h = clock[STEP];
    const half = 0.5 * h;
    const from = clock[TIME];
    let rates = k1;
    // one place of call for all four, so that the compiled equations stand in the processor's cache once
    for (let k = 1; k <= 4; k++) {
      const isLast = k === 4;
      const at = isLast ? trial : stage;
      U[U_TIME] = k < 3 ? from + half : from + h;
      clock[SHARE] = isLast ? h / 6 : k === 3 ? h : half;
      if (isLast) combine(X, k1, k2, k3, k4, clock, at);
      else move(X, rates, clock, at);
      rates = k === 1 ? k2 : k === 2 ? k3 : isLast ? kNext : k4;
      hookonRates(at, U, P, W, rates);
    }
    this.evaluations += 4;
  }

  private changed(): boolean {
    const { before, W } = this;
    for (let i = 0; i < EVENTS; i++) if (before[i] < 0 !== W[W_EVENTS + i] < 0) return true;
    return false;
  }

  /** Shortens the step in hand to the shortest that ends past a change; `trial` is its end. */
  private locate(): void {
    const { before, low, high, W, clock } = this;
    let near = 0;
    let far = clock[STEP];
    let tried = far;
    low.set(before);
    for (let k = 0; k < EVENTS; k++) high[k] = W[W_EVENTS + k];
    for (let i = 0; i < 60 && far - near > EVENT_TIME; i++) {
      // secant of every event that changes between near and far; the earliest
      let share = 1;
      for (let k = 0; k < EVENTS; k++) {
        if (before[k] < 0 !== high[k] < 0) share = Math.min(share, low[k] / (low[k] - high[k]));
      }
      const width = far - near;
      // a little to either side, so that both ends close in; half now and then
      const margin = Math.max(0.4 * EVENT_TIME, 0.01 * width);
      const guess = share * width + (i % 2 === 0 ? margin : -margin);
      const within = i % 5 === 4 ? 0.5 * width : Math.max(0.1 * margin, Math.min(width - 0.1 * margin, guess));
      tried = near + within;
      clock[STEP] = tried;
      this.tryStep();
      const past = this.changed();
      if (past) far = tried;
      else near = tried;
      const side = past ? high : low;
      for (let k = 0; k < EVENTS; k++) side[k] = W[W_EVENTS + k];
    }
    if (tried === far) return;
    clock[STEP] = far;
    this.tryStep();
  }

  private accept(changed: boolean): void {
    const { X, trial, rates, kNext, before, changes, W } = this;
    X.set(trial);
    rates.set(kNext);
    if (!changed) {
      for (let i = 0; i < EVENTS; i++) before[i] = W[W_EVENTS + i];
      return;
    }
    for (let i = 0; i < EVENTS; i++) {
      const value = W[W_EVENTS + i];
      changes[i] = before[i] < 0 === value < 0 ? 0 : value < 0 ? -1 : 1;
      before[i] = value;
    }
  }

  private tell(watcher: MotionWatcher): boolean {
    const { changes } = this;
    for (let i = 0; i < EVENTS; i++) {
      if (changes[i] === 0) continue;
      if (i === EVENT_BUFFER) this.switchBuffer(changes[i] > 0);
      if (!watcher.event(i, changes[i] > 0)) return false;
    }
    this.refresh();
    return true;
  }

  /** The buffer leaves its stop, or its head comes back to it and stays without rebound (README eq. 10). */
  private switchBuffer(rising: boolean): void {
    const { U, X, W, P } = this;
    if (U[U_BUFFER_HELD] > 0) {
      if (rising) U[U_BUFFER_HELD] = 0;
      return;
    }
    if (rising) return;
    const share = (P[P_BUFFER + 6] / P[P_TIP_MASS]) * X[X_BUFFER_RATE];
    for (let i = 0; i < 3; i++) X[X_TIP_VELOCITY + i] -= share * W[W_K1 + i];
    X[X_BUFFER] = 0;
    X[X_BUFFER_RATE] = 0;
    U[U_BUFFER_HELD] = 1;
  }
}
