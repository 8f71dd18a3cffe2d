import { RandomStream } from "../../math/random/index.ts";
import { eulerFromQuaternion, quaternionFromEuler } from "../../math/rotation/index.ts";
import { APPROACH_PHASES, type ApproachCommands, type ApproachTruth } from "../approach/types.ts";
import { GustSampler } from "../turbulence/index.ts";
import { COLUMN, HOOKON_COLUMNS } from "./columns.ts";
import { type HookonHistory, historyColumns, historyRow } from "./history.ts";
import * as at from "./layout.ts";
import { HookonMotion } from "./motion.ts";
import * as by from "./parameter-layout.ts";
import { hookonParameters } from "./parameters.ts";
import { RingDown } from "./ring-down.ts";
import { RunRecord } from "./run-record.ts";
import { HOOKON_OUTCOMES, type HookonSettings, type HookonStart } from "./types.ts";

/** Random streams of the motion within a sample; a guide takes others, from 16 on. */
export const HOOKON_STREAMS = { gusts: 0, orbit: 1 } as const;

/** A head that stays in the funnel this long without tripping and hardly moves is jammed [s]. */
const JAM_TIME = 1;
/** Growth of the swing that counts as diverging: in smooth air, and in gusts, which make swings of their own. */
const GROWTH = { smooth: 1.2, gusts: 1.5 } as const;
/** Angles beyond which the equations of the airloads mean nothing [rad], and a distance [m]. */
const LOST = { attitude: Math.PI / 3, distance: 200 } as const;
const DEFAULT_DISTANCE = 5;
/** Travel of the tip below which nothing counts as swinging [m]. */
const LEAST_SWING = 1e-5;

const phaseOf = (name: (typeof APPROACH_PHASES)[number]): number => APPROACH_PHASES.indexOf(name);
const [CLOSING, AROUND, BREAKAWAY] = [phaseOf("closing"), phaseOf("going around"), phaseOf("breakaway")];

/**
 * Approaches of one condition, one after the other; one object serves one thread.
 *
 * A run depends on settings, start, seed and index alone.
 *
 * @source README eq. 1–18 and "Outcomes"
 * @verified run.test.ts
 */
export class HookonRun {
  readonly motion: HookonMotion;
  readonly record: RunRecord;
  /** What the motion leaves out, in words. */
  readonly assumptions: readonly string[];

  private readonly settings: HookonSettings;
  private readonly gusts: GustSampler | null;
  private readonly random = new RandomStream(0, 0);
  private readonly ring = new RingDown(LEAST_SWING);
  private readonly sideways = new RingDown(LEAST_SWING);
  private readonly gust = new Float64Array(6);
  private readonly zoneAir = new Float64Array(6);
  private readonly zoneSocket = new Float64Array(3);
  private readonly fromHinge = new Float64Array(3);
  private readonly angles = new Float64Array(3);
  private readonly truth: ApproachTruth = {
    time: 0,
    p_MoPh_H: new Float64Array(3),
    v_MoPh_H: new Float64Array(3),
    p_RestPh_H: new Float64Array(3),
    v_RestPh_H: new Float64Array(3),
    ...{ yaw: 0, pitch: 0, bank: 0, rollRate: 0, pitchRate: 0, yawRate: 0, airspeed: 0 },
    ...{ touching: false, tripped: false, locked: false },
  };
  private readonly commands: ApproachCommands = {
    elevator: 0,
    aileron: 0,
    rudder: 0,
    thrust: 0,
    boomRate: 0,
    phase: 0,
    attempt: 1,
    reason: 0,
    givenUp: false,
  };
  private attempts = 0;
  private closest = Number.POSITIVE_INFINITY;
  private tipTravel = 0;
  private pitch = 0;
  private bank = 0;
  private jammedFor = 0;

  /** @throws {DomainError} for settings out of their range */
  constructor(settings: HookonSettings) {
    const parameters = hookonParameters(settings);
    this.settings = settings;
    this.assumptions = parameters.assumptions;
    this.motion = new HookonMotion(parameters);
    this.record = new RunRecord(this.motion, settings);
    this.gusts = settings.gusts === undefined ? null : new GustSampler(settings.gusts, settings.guide.tick);
  }

  /**
   * One approach.
   *
   * @param seed  of the batch
   * @param index of the sample
   * @param out   shape (HOOKON_COLUMNS.length), written
   * @param start of this run, in place of the settings'
   */
  run(seed: number, index: number, out: Float64Array, start = this.settings.start): void {
    this.restart(seed, index, start);
    while (this.record.outcome === null) this.tick();
    this.write(out);
  }

  /** The same run with its history, a row every `1/rate` seconds (to the next whole number of ticks). */
  replay(seed: number, index: number, rate: number, start = this.settings.start): HookonHistory {
    const { record, motion } = this;
    const events: { time: number; what: string }[] = [];
    const rows: number[] = [];
    record.note = (time, what) => events.push({ time, what });
    try {
      this.restart(seed, index, start);
      const every = Math.max(1, Math.round(1 / (rate * this.settings.guide.tick)));
      for (let k = 0; record.outcome === null; k++) {
        if (k % every === 0) rows.push(...historyRow(motion, this.commands.phase, record.latch));
        this.tick();
      }
      rows.push(...historyRow(motion, this.commands.phase, record.latch));
    } finally {
      record.note = null;
    }
    const out = new Float64Array(HOOKON_COLUMNS.length);
    this.write(out);
    return { columns: historyColumns, values: Float64Array.from(rows), events, row: out };
  }

  private restart(seed: number, index: number, start: HookonStart | undefined): void {
    const { motion, record, settings, random } = this;
    const { X, U, P, parameters } = motion;
    const { trim, guide } = settings;
    X.fill(0);
    U.fill(0);
    motion.time = 0;
    motion.timer = Number.POSITIVE_INFINITY;
    U[at.U_BUFFER_HELD] = 1;
    X.set(parameters.tip, at.X_TIP);
    quaternionFromEuler(start?.yaw ?? 0, trim.alpha + (start?.pitch ?? 0), start?.bank ?? 0, X, at.X_ATTITUDE);
    X.set([trim.controls.elevator, trim.controls.aileron, trim.controls.rudder, trim.controls.thrust], at.X_CONTROLS);
    for (let i = 0; i < 4; i++) U[at.U_COMMANDS + i] = X[at.X_CONTROLS + i];
    if (start !== undefined) X.set(start.v_HVcm_H, at.X_VELOCITY);
    random.restart(seed, index, HOOKON_STREAMS.orbit);
    U[at.U_ORBIT_PHASE] = P[by.P_ORBIT] > 0 ? 2 * Math.PI * random.uniform() : 0;
    if (this.gusts !== null) {
      this.gusts.restart(seed, index, HOOKON_STREAMS.gusts);
      this.gusts.step(this.gust);
    }
    motion.refresh();
    // the frames say where the head is with the c.g. at the origin
    for (let i = 0; i < 3; i++) {
      const wanted = start === undefined ? DEFAULT_DISTANCE * P[by.P_K1 + i] : start.p_RestPh_H[i];
      X[at.X_CG + i] = parameters.mouth[i] + wanted - motion.W[at.W_HEAD + i];
    }
    motion.refresh();
    record.restart();
    this.ring.restart();
    this.sideways.restart();
    this.attempts = 0;
    this.closest = Number.POSITIVE_INFINITY;
    this.tipTravel = this.pitch = this.bank = 0;
    this.jammedFor = 0;
    this.commands.phase = -1;
    this.look();
    guide.restart(seed, index);
  }

  private tick(): void {
    const { motion, record, settings, truth, commands } = this;
    const { U } = motion;
    const { tick } = settings.guide;
    const before = commands.phase;
    settings.guide.step(truth, commands);
    if (commands.phase === CLOSING && before !== CLOSING) this.attempts++;
    U[at.U_COMMANDS] = commands.elevator;
    U[at.U_COMMANDS + 1] = commands.aileron;
    U[at.U_COMMANDS + 2] = commands.rudder;
    U[at.U_COMMANDS + 3] = commands.thrust;
    U[at.U_BOOM_RATE] = commands.boomRate;
    this.breathe(tick);
    const ended = motion.advance(motion.time + tick, record);
    if (ended === "not finite") {
      record.end("lost", "the motion leaves what the equations hold for");
      return;
    }
    if (record.outcome === null) this.judge(tick);
    else if (record.outcome === "overloaded" && record.lock <= motion.time && this.grows()) {
      record.end("locked, diverging", "the swing had grown");
    }
  }

  /** The swing after lock grows, in the boom's plane or sideways. */
  private grows(): boolean {
    const { ring, sideways } = this;
    const allowed = this.gusts === null ? GROWTH.smooth : GROWTH.gusts;
    ring.settle();
    sideways.settle();
    return (ring.growth > allowed && ring.dampingRatio < 0) || (sideways.growth > allowed && sideways.dampingRatio < 0);
  }

  /** Truth at the tick. */
  private look(): void {
    const { motion, truth, angles, record } = this;
    const { X, W, P, parameters } = motion;
    truth.time = motion.time;
    const k = motion.P[by.P_MOUTH];
    for (let i = 0; i < 3; i++) {
      const j = (i + 1) % 3;
      const l = (i + 2) % 3;
      const turning = W[at.W_FUNNEL_SPIN + j] * W[at.W_AXIS + l] - W[at.W_FUNNEL_SPIN + l] * W[at.W_AXIS + j];
      truth.p_MoPh_H[i] = W[at.W_FROM_KO + i] - k * W[at.W_AXIS + i];
      truth.v_MoPh_H[i] = W[at.W_HEAD_VELOCITY + i] - W[at.W_KO_VELOCITY + i] - k * turning;
      truth.p_RestPh_H[i] = W[at.W_HEAD + i] - parameters.mouth[i];
      truth.v_RestPh_H[i] = W[at.W_HEAD_VELOCITY + i];
    }
    eulerFromQuaternion(X, at.X_ATTITUDE, angles, 0);
    truth.yaw = angles[0];
    truth.pitch = angles[1];
    truth.bank = angles[2];
    truth.rollRate = X[at.X_RATE];
    truth.pitchRate = X[at.X_RATE + 1];
    truth.yawRate = X[at.X_RATE + 2];
    const u = X[at.X_VELOCITY] + P[by.P_AIRSPEED] - this.gust[0];
    const v = X[at.X_VELOCITY + 1] - this.gust[1];
    const w = X[at.X_VELOCITY + 2] - this.gust[2];
    truth.airspeed = Math.sqrt(u * u + v * v + w * w);
    truth.touching = record.touching;
    truth.tripped = record.latch !== "open";
    truth.locked = record.latch === "locked";
  }

  /** Gusts from this tick to the next, zones as they are now, and whether contact can be before the next tick. */
  private breathe(tick: number): void {
    const { motion, gust, zoneAir, zoneSocket, truth, settings } = this;
    const { U, X, W, P } = motion;
    U[at.U_START] = motion.time;
    zoneAir.fill(0);
    zoneSocket.fill(0);
    if (settings.zones !== undefined) {
      for (let i = 0; i < 3; i++) this.fromHinge[i] = X[at.X_CG + i] - W[at.W_HINGE + i];
      settings.zones.add(motion.time, this.fromHinge, truth.p_MoPh_H, zoneAir, zoneSocket);
    }
    for (let i = 0; i < 6; i++) {
      U[at.U_GUST + i] = gust[i] + zoneAir[i];
      U[at.U_GUST_SLOPE + i] = -gust[i] / tick;
    }
    for (let i = 0; i < 3; i++) U[at.U_SOCKET_AIR + i] = gust[i] + zoneSocket[i];
    if (this.gusts !== null) {
      this.gusts.step(gust);
      for (let i = 0; i < 6; i++) U[at.U_GUST_SLOPE + i] += gust[i] / tick;
    } else for (let i = 0; i < 6; i++) U[at.U_GUST_SLOPE + i] = 0;
    const p = truth.p_MoPh_H;
    const v = truth.v_MoPh_H;
    const distance = sizeOf(p);
    const depth = Math.abs(P[by.P_MOUTH] - P[by.P_SEAT]);
    const reach = P[by.P_MOUTH_RADIUS] + P[by.P_HEAD_RADIUS] + P[by.P_STEM_LENGTH] + depth;
    U[at.U_NEAR] = distance < reach + 0.3 + 3 * tick * sizeOf(v) ? 1 : 0;
    this.closest = Math.min(this.closest, distance);
  }

  /** What a tick decides. */
  private judge(tick: number): void {
    const { motion, record, settings, commands, angles } = this;
    const { limits } = settings;
    const { W, time } = motion;
    this.look();
    if (Math.abs(angles[1]) > LOST.attitude || Math.abs(angles[2]) > LOST.attitude) {
      record.end("lost", "attitude out of what the airloads hold for");
      return;
    }
    if (record.hooked) {
      this.followRing(tick);
      return;
    }
    const p = this.truth.p_MoPh_H;
    const distance = sizeOf(p);
    const apart = distance > motion.P[by.P_LIMITS + 2];
    const touched = !Number.isNaN(record.contact);
    if (commands.phase === BREAKAWAY && apart) record.end("broken away", "clear after breakaway");
    else if (commands.phase === AROUND && apart)
      record.end(touched ? "bounced" : "missed", touched ? "clear after a touch" : "clear after a missed approach");
    else if (distance > LOST.distance) record.end("lost", "far from the socket");
    const inside = W[at.W_ALONG] < motion.P[by.P_MOUTH] && W[at.W_OFF] < motion.P[by.P_MOUTH_RADIUS];
    const v = this.truth.v_MoPh_H;
    const still = sizeOf(v) < 5 * settings.socket.contact.creepSpeed;
    this.jammedFor = inside && record.touching && still && record.latch === "open" ? this.jammedFor + tick : 0;
    if (record.outcome === null && this.jammedFor >= JAM_TIME) record.end("jammed", "head stays in the funnel");
    if (record.outcome === null && time >= limits.approachTime) {
      const half = record.latch === "half-locked";
      record.end(half ? "half-locked" : touched ? "bounced" : "missed", "approach time is over");
    }
  }

  /** Ring-down after the hooks have closed. */
  private followRing(tick: number): void {
    const { motion, record, settings, angles, ring, sideways } = this;
    const { limits, trim, latch } = settings;
    const { X, time } = motion;
    const closed = record.trip + latch.lockTime;
    const { tip } = motion.parameters;
    const dx = X[at.X_TIP] - tip[0];
    const dy = X[at.X_TIP + 1] - tip[1];
    const dz = X[at.X_TIP + 2] - tip[2];
    const travel = Math.sqrt(dx * dx + dy * dy + dz * dz);
    this.tipTravel = Math.max(this.tipTravel, travel);
    this.pitch = Math.max(this.pitch, Math.abs(angles[1] - trim.alpha));
    this.bank = Math.max(this.bank, Math.abs(angles[2]));
    const angle = settings.boom.geometry.angleDown;
    ring.take(time, tick, dx * Math.sin(angle) + dz * Math.cos(angle));
    sideways.take(time, tick, dy);
    const over = this.tipTravel > limits.tipTravel || this.pitch > limits.pitch || this.bank > limits.bank;
    if (!over && time < closed + limits.ringTime) return;
    const grows = this.grows();
    if (record.latch === "half-locked") record.end("half-locked", "held by half-locked hooks");
    else if (grows) record.end("locked, diverging", over ? "swing grows over a limit" : "swing grows");
    else if (over) record.end("overloaded", "tip travel, pitch or bank over its limit");
    else record.end("locked, stable", "ring-down is over");
  }

  private write(out: Float64Array): void {
    const { record: r, motion, ring, sideways } = this;
    const outcome = r.outcome ?? "lost";
    const set = (name: string, value: number): void => {
      out[COLUMN[name]] = value;
    };
    set("outcome", HOOKON_OUTCOMES.indexOf(outcome));
    set("locked", outcome === "locked, stable" ? 1 : 0);
    set("contact_s", r.contact);
    set("closure_m_s", r.closure);
    set("lateral_m_s", r.lateral);
    set("contactAngle_rad", r.angle);
    set("missRight_m", r.missRight);
    set("missUp_m", r.missUp);
    set("miss_m", Math.hypot(r.missRight, r.missUp));
    set("impulse_N_s", Number.isNaN(r.impulse) ? motion.X[at.X_IMPULSE] : r.impulse);
    set("axialLoad_N", r.axial);
    set("sideLoad_N", r.side);
    set("bufferTravel_m", r.buffer);
    set("bottomed", r.bottomed ? 1 : 0);
    set("funnelTilt_rad", r.tilt);
    set("trip_s", r.trip);
    set("lock_s", r.lock);
    set("attempts", this.attempts);
    set("touches", r.touches);
    set("ringDamping", ring.dampingRatio);
    set("ringFrequency_Hz", ring.frequency);
    set("sidewaysDamping", sideways.dampingRatio);
    set("sidewaysFrequency_Hz", sideways.frequency);
    const hooked = r.latch !== "open" && r.latch !== "tripped";
    set("tipTravel_m", hooked ? this.tipTravel : Number.NaN);
    set("pitch_rad", hooked ? this.pitch : Number.NaN);
    set("bank_rad", hooked ? this.bank : Number.NaN);
    set("duration_s", motion.time);
    set("closest_m", this.closest);
    set("events", r.events);
  }
}

/** Length of a vector. `Math.hypot` may allocate. */
function sizeOf(v: Float64Array): number {
  return Math.sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2]);
}
