import { DomainError } from "../../math/errors.ts";
import { StraightPath } from "./path.ts";
import { type AttemptState, breakawayReason, goAroundReason, REASON } from "./rules.ts";
import type { BreakawaySettings, ScheduleSettings } from "./settings.ts";
import { APPROACH_PHASES, type ApproachPhase } from "./types.ts";

/** Codes of the phases. */
export const PHASE = Object.fromEntries(APPROACH_PHASES.map((phase, code) => [phase, code])) as Readonly<
  Record<ApproachPhase, number>
>;

/** What the crew and the instruments tell. */
export interface Indications {
  readonly touching: boolean;
  readonly tripped: boolean;
  readonly locked: boolean;
}

function checkSchedule(settings: ScheduleSettings): void {
  const { observation, preContact, settled, attempts, goAround } = settings;
  const positive = {
    ...{ transit: settings.transit, closure: settings.closure, through: settings.through },
    ...{ alignment: settings.alignment, "settled distance": settled.distance, "settled speed": settled.speed },
    ...{ within: goAround.within, gate: goAround.gate, "most closure": goAround.mostClosure },
    ...{ "time limit": goAround.timeLimit, overrun: goAround.overrun, "touch time": goAround.touchTime },
  };
  for (const [what, value] of Object.entries(positive)) {
    if (!(value > 0)) throw new DomainError(`approach schedule, ${what}`, value, "greater than 0");
  }
  if (!(preContact[0] < 0 && observation[0] <= preContact[0])) {
    const allowed = "aft of the socket, and the observation position no farther forward";
    throw new DomainError("approach schedule, x of the pre-contact position", preContact[0], allowed);
  }
  if (!(Number.isInteger(attempts) && attempts >= 1)) {
    throw new DomainError("approach schedule, attempts", attempts, "a whole number, 1 or more");
  }
}

/**
 * Phases of an approach and the point that the aircraft is to be at.
 *
 *     observation → pre-contact → closing → hooked,  each step once settled;   closing → going around → pre-contact,  up to N times;
 *     any of these but hooked → breakaway                                                                         (README eq. 5)
 *
 * @throws {DomainError} for a pre-contact position that is not aft of the socket, speeds or limits that are not positive
 * @source own derivation, README eq. 4–7; positions after training practice of probe and drogue (secondary source in README)
 * @verified schedule.test.ts: order of phases, waiting outside the alignment, attempts, breakaway after the reaction time
 * @cost no array and no object is made in `step`; numbers may be boxed (README)
 */
export class Schedule {
  readonly path: StraightPath;
  readonly now: AttemptState;
  phase: number = PHASE.observation;
  attempt = 1;
  reason = 0;
  givenUp = false;
  readonly #settings: ScheduleSettings;
  readonly #breakaway: BreakawaySettings;
  readonly #tick: number;
  /** Direction of closing, and the end of the path past the mouth. */
  readonly #line = new Float64Array(3);
  readonly #end = new Float64Array(3);
  readonly #still = new Float64Array(3);
  #settledFor = 0;
  #calledAt = Number.POSITIVE_INFINITY;
  #called = 0;

  constructor(settings: ScheduleSettings, breakaway: BreakawaySettings, tick: number) {
    checkSchedule(settings);
    if (!(breakaway.reaction >= 0)) throw new DomainError("breakaway, reaction", breakaway.reaction, "0 or more");
    this.#settings = settings;
    this.#breakaway = breakaway;
    this.#tick = tick;
    this.path = new StraightPath(settings.acceleration);
    const length = Math.hypot(...settings.preContact);
    for (let i = 0; i < 3; i++) {
      this.#line[i] = -settings.preContact[i] / length;
      // braking begins where the path is through, not before the mouth
      this.#end[i] = this.#line[i] * (settings.through + settings.closure ** 2 / (2 * settings.acceleration));
    }
    this.now = {
      ...{ remaining: 0, offLine: 0, closure: 0, dropout: 0, elapsed: 0, touching: 0 },
      ...{ closing: false, tripped: false },
    };
  }

  restart(): void {
    const { start, observation, preContact } = this.#settings;
    const from = start === "observation" ? observation : preContact;
    this.phase = PHASE[start];
    this.attempt = 1;
    this.reason = REASON.none;
    this.givenUp = false;
    this.#settledFor = 0;
    this.#calledAt = Number.POSITIVE_INFINITY;
    this.#called = REASON.none;
    this.now.elapsed = 0;
    this.now.touching = 0;
    this.path.begin(from, this.#still, from);
  }

  /**
   * One tick.
   *
   * @param time of the sample [s]
   * @param place, velocity  as navigation gives them, from the aim [m], [m/s]; `dropout` time without navigation [s]
   */
  step(
    time: number,
    seen: { readonly place: Float64Array; readonly velocity: Float64Array; readonly age: number },
    told: Indications,
  ): void {
    this.#look(seen, told);
    if (told.locked) this.phase = PHASE.hooked;
    if (this.phase === PHASE.hooked) return;
    if (this.phase !== PHASE.breakaway) this.#call(time, seen);
    if (this.phase !== PHASE.breakaway) this.#advance(seen);
  }

  #look(
    seen: { readonly place: Float64Array; readonly velocity: Float64Array; readonly age: number },
    told: Indications,
  ) {
    const { place: p, velocity: v } = seen;
    const d = this.#line;
    const now = this.now;
    const remaining = -(p[0] * d[0] + p[1] * d[1] + p[2] * d[2]);
    const x = p[0] + remaining * d[0];
    const y = p[1] + remaining * d[1];
    const z = p[2] + remaining * d[2];
    now.remaining = remaining;
    now.offLine = Math.sqrt(x * x + y * y + z * z);
    now.closure = v[0] * d[0] + v[1] * d[1] + v[2] * d[2];
    now.dropout = seen.age;
    now.touching = told.touching && !told.tripped ? now.touching + this.#tick : 0;
    now.tripped = told.tripped;
    now.closing = this.phase === PHASE.closing;
    if (this.phase !== PHASE.observation) now.elapsed += this.#tick;
  }

  /** Breakaway: called by the rule or the command, flown after the reaction time. */
  #call(time: number, seen: { readonly place: Float64Array; readonly velocity: Float64Array }): void {
    if (this.#called === REASON.none) {
      this.#called = breakawayReason(this.now, this.#breakaway, time);
      if (this.#called !== REASON.none) this.#calledAt = time;
    }
    if (this.#called === REASON.none || time < this.#calledAt + this.#breakaway.reaction) return;
    this.phase = PHASE.breakaway;
    this.reason = this.#called;
    this.givenUp = true;
    this.path.begin(seen.place, seen.velocity, seen.place);
  }

  #advance(seen: { readonly place: Float64Array; readonly velocity: Float64Array }): void {
    const { path, now } = this;
    const { preContact, observation, closure, transit, alignment, goAround } = this.#settings;
    const reason = this.phase === PHASE["going around"] ? REASON.none : goAroundReason(now, goAround);
    if (reason !== REASON.none) {
      this.reason = reason;
      this.givenUp = this.attempt >= this.#settings.attempts;
      this.phase = PHASE["going around"];
      this.#settledFor = 0;
      path.begin(seen.place, seen.velocity, this.givenUp ? observation : preContact);
    }
    if (this.phase === PHASE.closing) {
      // off the line it waits, until so near that the rule decides
      const isAligned = now.offLine <= alignment || now.remaining <= goAround.within;
      path.step(isAligned ? closure : 0, this.#tick);
      this.#followLine();
      return;
    }
    path.step(transit, this.#tick);
    if (!this.#isSettled(seen)) return;
    this.#settledFor = 0;
    if (this.phase === PHASE.observation) {
      this.phase = PHASE["pre-contact"];
      now.elapsed = 0;
      path.begin(path.point, this.#still, preContact);
    } else if (this.phase === PHASE["pre-contact"]) {
      this.phase = PHASE.closing;
      path.begin(path.point, this.#still, this.#end);
    } else if (!this.givenUp) {
      this.phase = PHASE["pre-contact"];
      this.attempt++;
      now.elapsed = 0;
    }
  }

  /** Across and vertically the line is followed from where the aircraft is along it, not from where it should be (README eq. 5a). */
  #followLine(): void {
    const { remaining, closure } = this.now;
    for (let i = 1; i < 3; i++) {
      this.path.point[i] = -remaining * this.#line[i];
      this.path.velocity[i] = closure * this.#line[i];
    }
  }

  #isSettled({ place, velocity }: { readonly place: Float64Array; readonly velocity: Float64Array }): boolean {
    const { point, left } = this.path;
    const { distance, speed, time } = this.#settings.settled;
    const x = place[0] - point[0];
    const y = place[1] - point[1];
    const z = place[2] - point[2];
    const fast = velocity[0] * velocity[0] + velocity[1] * velocity[1] + velocity[2] * velocity[2];
    const isHere = left < 1e-3 && x * x + y * y + z * z <= distance * distance && fast <= speed * speed;
    this.#settledFor = isHere ? this.#settledFor + this.#tick : 0;
    return isHere && this.#settledFor >= time - 0.5 * this.#tick;
  }
}
