import { DomainError } from "../../math/errors.ts";
import { RandomStream } from "../../math/random/index.ts";
import { PilotSteps } from "./hands.ts";
import { RelativeNavigation } from "./navigation.ts";
import { OuterLoop } from "./outer-loop.ts";
import { PHASE, Schedule } from "./schedule.ts";
import { APPROACH_STREAMS, type ApproachSettings, type InnerGains } from "./settings.ts";
import { BoomSteering } from "./steering.ts";
import { DelayLine, ticksOf } from "./ticks.ts";
import type { ApproachCommands, ApproachGuide, ApproachTruth } from "./types.ts";

/** Standard acceleration of free fall [m/s²], exact by definition (3rd CGPM, 1901). */
const GRAVITY = 9.80665;

/** Commands to be written. */
export function emptyCommands(): ApproachCommands {
  const surfaces = { elevator: 0, aileron: 0, rudder: 0, thrust: 0, boomRate: 0 };
  return { ...surfaces, phase: 0, attempt: 1, reason: 0, givenUp: false };
}

function checkGains(what: string, gains: InnerGains): void {
  for (const [name, value] of Object.entries(gains)) {
    if (!(value >= 0 && value < Number.POSITIVE_INFINITY))
      throw new DomainError(`${what}, ${name}`, value, "0 or more");
  }
}

/**
 * Flies the carried aircraft from the observation position to contact: navigation → schedule → outer loops → autopilot or pilot →
 * surfaces; after lock the hooked gains or controls held.
 *
 *     δe = δe₀ + k_θ·(θ − θ_c) + k_i·∫(θ − θ_c) + k_q·q,   δa = δa₀ + k_φ·(φ_c − φ) − k_p·p,   δr = δr₀ + k_r·(r − g·sin φ/V)           (README eq. 13)
 *
 * With a pilot the terms of θ and φ are the pilot's (`PilotSteps`); the rate terms stay as dampers.
 *
 * @source own derivation, README eq. 1–14
 * @verified guide.test.ts: capture of the free aircraft in smooth air, signs, delay, repeatability
 * @cost no array and no object is made in `step`; numbers may be boxed (README)
 */
class Guide implements ApproachGuide {
  readonly tick: number;
  readonly #settings: ApproachSettings;
  readonly #navigation: RelativeNavigation;
  readonly #schedule: Schedule;
  readonly #outer: OuterLoop;
  readonly #pilot: PilotSteps | null;
  readonly #steering: BoomSteering;
  readonly #attitude = new RandomStream(0, 0, APPROACH_STREAMS.attitude);
  readonly #delay: DelayLine;
  readonly #throttle: DelayLine;
  readonly #thrust = new Float64Array(1);
  readonly #commands = new Float64Array(4);
  readonly #washout: number;
  #start = Number.NaN;
  #washed = 0;
  #pitchSum = 0;

  constructor(settings: ApproachSettings) {
    const { tick, controller, hooked, thrustLimits: limits, trim } = settings;
    for (const [what, value] of Object.entries(trim)) {
      const isPositive = what === "mass" || what === "trueAirspeed";
      if (!(isPositive ? value > 0 : Number.isFinite(value)))
        throw new DomainError(`approach, trim, ${what}`, value, "");
    }
    if (!(limits.least <= limits.most)) throw new DomainError("approach, thrust limits", limits.least, "least ≤ most");
    checkGains("approach, inner loop", controller.inner);
    if (hooked.gains !== null) {
      checkGains("approach, hooked", hooked.gains);
      if (!(hooked.gains.washout > 0)) throw new DomainError("approach, washout", hooked.gains.washout, "above 0");
    }
    this.tick = tick;
    this.#settings = settings;
    this.#navigation = new RelativeNavigation(settings.navigation, tick);
    this.#schedule = new Schedule(settings.schedule, settings.breakaway, tick);
    const isPilot = controller.kind === "pilot";
    const thresholds = isPilot ? controller.hands : { placeThreshold: 0, speedThreshold: 0 };
    this.#outer = new OuterLoop(controller.outer, trim, { ...limits, ...thresholds });
    this.#pilot = isPilot ? new PilotSteps(controller.hands, tick) : null;
    // a pilot's delay lies before the hands on the stick, and here before the throttle
    this.#delay = new DelayLine(isPilot ? 0 : ticksOf("autopilot, delay", controller.delay, tick), 4);
    this.#throttle = new DelayLine(isPilot ? ticksOf("pilot, delay", controller.hands.delay, tick) : 0, 1);
    this.#steering = new BoomSteering(settings.steering, tick);
    this.#washout = hooked.gains === null ? 0 : -Math.expm1(-tick / hooked.gains.washout);
  }

  restart(seed: number, index: number): void {
    this.#navigation.restart(seed, index);
    this.#schedule.restart();
    this.#outer.restart();
    this.#pilot?.restart(seed, index);
    this.#steering.restart();
    this.#attitude.restart(seed, index, APPROACH_STREAMS.attitude);
    this.#delay.restart();
    this.#throttle.restart();
    this.#start = Number.NaN;
    this.#washed = 0;
    this.#pitchSum = 0;
  }

  step(truth: ApproachTruth, out: ApproachCommands): void {
    if (Number.isNaN(this.#start)) this.#start = truth.time;
    const time = truth.time - this.#start;
    const { schedule } = this.#settings;
    const isMouth = schedule.aim === "mouth";
    const navigation = this.#navigation;
    navigation.step(time, isMouth ? truth.p_MoPh_H : truth.p_RestPh_H, isMouth ? truth.v_MoPh_H : truth.v_RestPh_H);
    const plan = this.#schedule;
    plan.step(time, navigation, truth);
    if (plan.phase === PHASE.hooked) this.#flyHooked(truth);
    else this.#flyFree(truth);
    const commands = this.#commands;
    this.#delay.pass(commands);
    out.elevator = commands[0];
    out.aileron = commands[1];
    out.rudder = commands[2];
    out.thrust = commands[3];
    out.boomRate = this.#steering.step(truth.p_MoPh_H, plan.phase === PHASE.closing);
    out.phase = plan.phase;
    out.attempt = plan.attempt;
    out.reason = plan.reason;
    out.givenUp = plan.givenUp;
  }

  #flyFree(truth: ApproachTruth): void {
    const { trim, controller, navigation, breakaway } = this.#settings;
    const plan = this.#schedule;
    const outer = this.#outer;
    const isLeaving = plan.phase === PHASE.breakaway;
    if (isLeaving) {
      // the demanded point sinks with the aircraft: only its rate is flown
      plan.path.point[2] = this.#navigation.place[2];
      plan.path.velocity[2] = breakaway.sinkRate;
    }
    outer.step(plan.path, this.#navigation, this.tick);
    const noise = this.#attitude;
    const { attitudeNoise: angle, rateNoise: rate } = navigation;
    const pitch = truth.pitch + (angle > 0 ? angle * noise.normal() : 0);
    const bank = truth.bank + (angle > 0 ? angle * noise.normal() : 0);
    const p = truth.rollRate + (rate > 0 ? rate * noise.normal() : 0);
    const q = truth.pitchRate + (rate > 0 ? rate * noise.normal() : 0);
    const r = truth.yawRate + (rate > 0 ? rate * noise.normal() : 0);
    const g = controller.inner;
    // the integral keeps within what the pitch gain makes of the largest pitch
    const integral = this.#pitchSum + g.pitchIntegral * this.tick * (outer.pitch - pitch);
    const room = g.pitch * controller.outer.largestPitch;
    this.#pitchSum = Math.min(room, Math.max(-room, integral));
    let noseUp = g.pitch * (outer.pitch - pitch) + this.#pitchSum;
    let bankRight = g.bank * (outer.bank - bank);
    if (this.#pilot !== null) {
      this.#pilot.step(outer.pitch - pitch, outer.bank - bank);
      noseUp = this.#pilot.noseUp;
      bankRight = this.#pilot.bankRight;
    }
    const commands = this.#commands;
    commands[0] = trim.elevator - noseUp + g.pitchRate * q;
    commands[1] = trim.aileron + bankRight - g.rollRate * p;
    commands[2] = trim.rudder + g.yawRate * (r - (GRAVITY * Math.sin(bank)) / trim.trueAirspeed);
    this.#thrust[0] = isLeaving ? breakaway.thrust : outer.thrust;
    this.#throttle.pass(this.#thrust);
    commands[3] = this.#thrust[0];
  }

  #flyHooked(truth: ApproachTruth): void {
    const { trim, hooked } = this.#settings;
    const { gains } = hooked;
    const commands = this.#commands;
    commands[0] = trim.elevator;
    commands[1] = trim.aileron;
    commands[2] = trim.rudder;
    commands[3] = hooked.thrust;
    if (gains === null) return;
    this.#washed += this.#washout * (truth.yawRate - this.#washed);
    commands[0] += gains.pitch * (truth.pitch - trim.alpha) + gains.pitchRate * truth.pitchRate;
    commands[1] -= gains.bank * truth.bank + gains.rollRate * truth.rollRate;
    commands[2] += gains.yawRate * (truth.yawRate - this.#washed);
  }
}

/**
 * Approach law from its settings; see `ApproachSettings`.
 *
 * @throws {DomainError} for settings out of their range, times that are no whole number of ticks
 * @source README eq. 1–14
 * @verified guide.test.ts
 */
export function approachGuide(settings: ApproachSettings): ApproachGuide {
  return new Guide(settings);
}
