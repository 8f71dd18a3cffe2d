import type { LatchState } from "../latch/types.ts";
import {
  EVENT_AWAY,
  EVENT_BOTTOM,
  EVENT_LOAD,
  EVENT_MOUTH,
  EVENT_PULL,
  EVENT_RIM,
  EVENT_SEAT,
  EVENT_TUMBLE,
  EVENT_WALL,
  U_HELD_AT,
  U_HOLDS,
  U_LATCH,
  W_ALONG,
  W_AXIAL,
  W_AXIS,
  W_EVENTS,
  W_FROM_KO,
  W_GIMBAL_AXIS,
  W_HEAD_VELOCITY,
  W_K2,
  W_KO_VELOCITY,
  W_OFF,
  W_PROBE_AXIS,
  W_SIDE,
  W_TILT,
  X_BUFFER,
  X_IMPULSE,
} from "./layout.ts";
import { type HookonMotion, type MotionWatcher, TIMER } from "./motion.ts";
import * as at from "./parameter-layout.ts";
import type { HookonOutcome, HookonSettings } from "./types.ts";

/** Touches closer together than this count as one [s]. */
const SAME_TOUCH = 0.2;

/** What events look like in a replay. */
export type NoteEvent = (time: number, what: string) => void;

/**
 * Latch logic and record of one run: what the events mean.
 *
 * @source README "Outcomes"
 * @verified run.test.ts
 */
export class RunRecord implements MotionWatcher {
  outcome: HookonOutcome | null = null;
  latch: LatchState = "open";
  contact = Number.NaN;
  closure = Number.NaN;
  lateral = Number.NaN;
  angle = Number.NaN;
  missRight = Number.NaN;
  missUp = Number.NaN;
  impulse = Number.NaN;
  axial = 0;
  side = 0;
  buffer = 0;
  bottomed = false;
  tilt = 0;
  trip = Number.NaN;
  lock = Number.NaN;
  touches = 0;
  events = 0;
  touching = false;
  /** When the touch in hand, or the last, began and ended [s]. */
  touchBegan = Number.NaN;
  touchEnded = Number.NEGATIVE_INFINITY;
  /** Set by a replay. */
  note: NoteEvent | null = null;

  private readonly motion: HookonMotion;
  private readonly settings: HookonSettings;

  constructor(motion: HookonMotion, settings: HookonSettings) {
    this.motion = motion;
    this.settings = settings;
  }

  restart(): void {
    this.outcome = null;
    this.latch = "open";
    this.contact = this.closure = this.lateral = this.angle = Number.NaN;
    this.missRight = this.missUp = this.impulse = Number.NaN;
    this.trip = this.lock = Number.NaN;
    this.axial = this.side = this.buffer = this.tilt = 0;
    this.bottomed = false;
    this.touches = this.events = 0;
    this.touching = false;
    this.touchBegan = Number.NaN;
    this.touchEnded = Number.NEGATIVE_INFINITY;
  }

  /** Hooks hold the head, locked or on the edge. */
  get hooked(): boolean {
    return this.motion.U[U_LATCH] === 2;
  }

  step(): boolean {
    const { W, X } = this.motion;
    this.axial = Math.max(this.axial, Math.abs(W[W_AXIAL]));
    this.side = Math.max(this.side, W[W_SIDE]);
    this.buffer = Math.max(this.buffer, X[X_BUFFER]);
    this.tilt = Math.max(this.tilt, W[W_TILT + 2]);
    return true;
  }

  event(which: number, rising: boolean): boolean {
    this.events++;
    if (which <= EVENT_RIM) {
      this.touch();
      if (which === EVENT_SEAT && !rising && this.latch === "open") this.tripNow();
      return true;
    }
    switch (which) {
      case TIMER:
        this.closeHooks();
        return true;
      case EVENT_BOTTOM:
        this.bottomed ||= rising;
        if (rising) this.say("buffer bottoms");
        return true;
      case EVENT_TUMBLE:
        return rising && !this.hooked ? this.end("socket tumbled", "funnel tumbles") : true;
      case EVENT_MOUTH:
        return rising ? true : this.atMouth();
      case EVENT_PULL:
        return rising ? this.giveWay() : true;
      case EVENT_LOAD:
        return rising ? this.end("overloaded", "load on the probe over its limit") : true;
      case EVENT_AWAY:
        return rising ? this.away() : true;
      default:
        return true;
    }
  }

  /** Ends the run. */
  end(outcome: HookonOutcome, what: string): false {
    this.outcome = outcome;
    this.say(what);
    return false;
  }

  say(what: string): void {
    this.note?.(this.motion.time, what);
  }

  private touch(): void {
    const { W, time } = this.motion;
    let touching = this.hooked;
    for (let i = EVENT_WALL; i <= EVENT_RIM; i++) touching ||= W[W_EVENTS + i] < 0;
    if (touching === this.touching) return;
    this.touching = touching;
    if (!touching) {
      this.touchEnded = time;
      this.say("contact ends");
      return;
    }
    if (time - this.touchEnded > SAME_TOUCH) {
      this.touches++;
      this.touchBegan = time;
    }
    this.say("contact");
    if (!Number.isNaN(this.contact)) return;
    this.contact = time;
    const [vx, vy, vz] = [0, 1, 2].map((i) => W[W_HEAD_VELOCITY + i] - W[W_KO_VELOCITY + i]);
    const along = vx * W[W_AXIS] + vy * W[W_AXIS + 1] + vz * W[W_AXIS + 2];
    this.closure = -along;
    this.lateral = Math.sqrt(Math.max(0, vx * vx + vy * vy + vz * vz - along * along));
    this.angle = Math.acos(Math.max(-1, Math.min(1, -this.probeAlong())));
  }

  /** Cosine between the probe, out of the aircraft, and the funnel's axis, out of the mouth. */
  private probeAlong(): number {
    const { W } = this.motion;
    let sum = 0;
    for (let i = 0; i < 3; i++) sum += W[W_PROBE_AXIS + i] * W[W_AXIS + i];
    return sum;
  }

  private tripNow(): void {
    const { U, time } = this.motion;
    this.latch = "tripped";
    this.trip = time;
    U[U_LATCH] = 1;
    this.motion.timer = time + this.settings.latch.lockTime;
    this.say("latch trips");
  }

  /** The hooks are home: locked, half-locked on the head's flank, or closed on nothing. */
  private closeHooks(): void {
    const { U, W, P, X, time } = this.motion;
    const { lockWindow, holds, holdsHalf, stiffness } = this.settings.latch;
    const gap = W[W_ALONG] - P[at.P_SEAT] - P[at.P_HEAD_RADIUS];
    const inside = W[W_OFF] < P[at.P_THROAT_RADIUS];
    const locked = inside && gap <= lockWindow;
    const onEdge = inside && gap <= lockWindow + P[at.P_HEAD_RADIUS];
    this.latch = locked ? "locked" : "half-locked";
    U[U_LATCH] = locked || onEdge ? 2 : 3;
    // what pressed on the seat goes on pressing: no jump of the force
    U[U_HELD_AT] = gap < 0 ? W[W_ALONG] - (P[at.P_CONTACT] * gap) / stiffness : W[W_ALONG];
    U[U_HOLDS] = Math.max(1, locked ? holds : holdsHalf);
    this.impulse = X[X_IMPULSE];
    if (locked) this.lock = time;
    this.touching = locked || onEdge || this.touching;
    this.say(locked ? "latch locks" : onEdge ? "hooks close on the edge of the head" : "hooks close on nothing");
  }

  private giveWay(): boolean {
    const half = this.latch === "half-locked";
    this.latch = "broken";
    this.motion.U[U_LATCH] = 4;
    return half ? this.end("half-locked", "half-locked hooks give way") : this.end("overloaded", "hooks give way");
  }

  private atMouth(): boolean {
    const { W, P } = this.motion;
    if (Number.isNaN(this.missRight)) {
      const off = [0, 1, 2].map((i) => W[W_FROM_KO + i] - W[W_ALONG] * W[W_AXIS + i]);
      const dot = (offset: number): number => off[0] * W[offset] + off[1] * W[offset + 1] + off[2] * W[offset + 2];
      this.missRight = dot(W_K2);
      // the funnel's own axis where it is tilted
      this.missUp = dot(W_GIMBAL_AXIS);
      this.say("head comes to the mouth");
    }
    if (W[W_OFF] <= P[at.P_MOUTH_RADIUS] + P[at.P_HEAD_RADIUS]) return true;
    return Number.isNaN(this.contact)
      ? this.end("missed", "head passes the mouth outside")
      : this.end("bounced", "head leaves the funnel and passes outside");
  }

  private away(): boolean {
    if (this.latch === "half-locked") return this.end("half-locked", "probe comes out of half-locked hooks");
    if (!Number.isNaN(this.contact) && !this.hooked) return this.end("bounced", "aircraft is clear again");
    return true;
  }
}
