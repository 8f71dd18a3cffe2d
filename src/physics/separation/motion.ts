import { BugError } from "../../math/errors.ts";
import { createRk4Workspace, rk4Step } from "../../math/ode/index.ts";
import type { Controls } from "../airloads/types.ts";
import { type AttachedPair, type CarrierPort, type Environment, PairMotion } from "../bodies/index.ts";
import { BoreLink, type BoreLinkSettings, type LinkLoad, type LinkPort, type LinkSight } from "../links/index.ts";
import type { ControlLaw } from "../pilot/index.ts";
import { withdrawalForce } from "./closed-forms.ts";
import type { ManoeuvringCarrier, SeparationAirloads } from "./ports.ts";
import { SEPARATION_COLUMNS, type SeparationColumn, type SeparationStep, type Withdrawal } from "./types.ts";

/** A link that can be opened while the pair moves. */
export class GatedLink implements LinkPort {
  closed = true;
  private readonly link: LinkPort;
  constructor(link: LinkPort) {
    this.link = link;
  }
  add(sight: LinkSight, load: LinkLoad): void {
    if (this.closed) this.link.add(sight, load);
  }
  energy(sight: LinkSight): number {
    return this.closed ? this.link.energy(sight) : 0;
  }
  springs(sight: LinkSight) {
    return this.closed ? this.link.springs(sight) : [];
  }
}

export interface SeparationSettings {
  /** The pair as it is held before anything opens, on a steady carrier. */
  readonly held: Pick<AttachedPair, "motion" | "state"> & { readonly links: readonly LinkPort[] };
  /** What the socket does to the attitude while the probe is in it. */
  readonly socket: readonly LinkPort[];
  readonly bore: Omit<BoreLinkSettings, "probe" | "preload">;
  /** Carrier in whose motion everything happens; its load at trim is that of `held`. */
  readonly carrier: CarrierPort;
  /** Set where a step lets the crew pull; the same object as `carrier`. */
  readonly crew?: { readonly port: ManoeuvringCarrier; readonly weight: number };
  readonly environment: Environment;
  readonly airloads: SeparationAirloads;
  /** Law after the nose has left; while attached the controls rest where they are at trim. */
  readonly law: ControlLaw;
  /** Steps in time, in any order. */
  readonly steps: readonly SeparationStep[];
  /** Longest time from the command of the nose to the start of the withdrawal [s], and the travel that counts as a start [m]. */
  readonly startWithin: number;
  readonly startTravel: number;
}

/** How a separation went; times count from the beginning of the run [s]. */
export interface SeparationRun {
  readonly withdrawal: Withdrawal;
  /** When the probe left the bore, or was cut. */
  readonly leftAt: number | null;
  /** Speed of the probe tip out of the bore, and the aircraft's body rates, as it left [m/s], [rad/s]. */
  readonly exitSpeed: number | null;
  readonly exitRates: readonly [number, number, number] | null;
  /** Pull along the bore that was there and that friction could hold when the nose was commanded [N]. */
  readonly offered: number | null;
  readonly needed: number | null;
  readonly largestSideLoad: number;
  /** The place left the grid of increments near the carrier. */
  readonly outsideGrid: boolean;
  /** Course: rows of `SEPARATION_COLUMNS` at equal steps of time. */
  readonly rows: number;
  readonly values: Float64Array;
}

/** Step while friction may stop the probe in its bore, while anything else holds, and after [s]. */
const STICKING_STEP = 1e-3;
const HELD_STEP = 2e-3;
const FREE_STEP = 5e-3;
/** The same where the boom that is left behind swings slowly enough along itself: angle of a step [rad], below the 2.78 of the method. */
const LONG_FREE_STEP = 10e-3;
const LONGEST_ANGLE = 2.4;
/** Speed in the bore, in creep speeds, above which friction is no longer stiff. */
const SLIDING = 5;
const SIZE = SEPARATION_COLUMNS.length;

/**
 * The pair from held to apart: the equations of motion of the pair with the carrier's own response, attachments that end in a timed
 * sequence, the probe sliding out of its bore with friction.
 *
 * The aircraft hangs on links alone (bore, pins, socket), so that one set of equations holds from first to last and the momentum of
 * aircraft, boom tip and carrier is kept whatever opens. Classical Runge–Kutta steps: 1 ms while friction may stop the probe, 2 ms while
 * anything holds, 5 or 10 ms afterwards by how stiff the boom is along itself.
 *
 * @source own derivation, README eq. 1–2
 * @verified motion.test.ts (rest when nothing opens, momentum, withdrawal in closed form, hang-up, pivot on a stuck pin, drop)
 */
export class SeparationMotion {
  readonly motion: PairMotion;
  readonly bore: BoreLink;
  private readonly pins: readonly GatedLink[];
  private readonly socket: readonly GatedLink[];
  private readonly controls: Controls;
  private readonly start: Float64Array;
  private readonly settings: SeparationSettings;
  private readonly steps: readonly SeparationStep[];
  private readonly freeStep: number;

  constructor(settings: SeparationSettings) {
    const { held, carrier, environment, airloads, law } = settings;
    const own = held.motion.settings;
    const { probe, boom, tipMass } = own;
    if (probe === undefined || boom === undefined) throw new BugError("a separation needs probe and boom");
    const tip = held.motion.layout.tip;
    held.motion.derivative(0, held.state, new Float64Array(held.motion.stateCount));
    const f = held.motion.jointForce;
    const place = held.state.subarray(tip, tip + 3);
    // the joint's force on the aircraft is minus the probe's on the boom
    this.bore = new BoreLink({ ...settings.bore, probe, preload: [-f[0], -f[1], -f[2]] }, place);
    this.pins = held.links.map((link) => new GatedLink(link));
    this.socket = settings.socket.map((link) => new GatedLink(link));
    this.controls = { ...own.trim };
    this.motion = new PairMotion({
      ...{ mass: own.mass, airloads, trim: this.controls, law, environment, attachment: "free" },
      ...{ boom, carrier, tipMass: tipMass ?? 0, probe },
      links: [this.bore, ...this.pins, ...this.socket],
    });
    const { layout } = this.motion;
    this.start = new Float64Array(this.motion.stateCount);
    this.start.set(held.state.subarray(0, layout.snubber + boom.stateCount));
    const fastest = Math.sqrt(boom.settings.axial / (tipMass ?? 0));
    this.freeStep = fastest * LONG_FREE_STEP <= LONGEST_ANGLE ? LONG_FREE_STEP : FREE_STEP;
    this.settings = settings;
    this.steps = [...settings.steps].sort((a, b) => a.time - b.time);
  }

  /**
   * Runs to a time.
   *
   * @param until   [s]
   * @param every   time between rows of the course [s]
   * @param disturb changes the state at the beginning, such as another attitude; default: nothing
   */
  run(until: number, every: number, disturb?: (state: Float64Array) => void): SeparationRun {
    const { motion, bore, settings } = this;
    const { airloads } = settings;
    this.reset();
    const state = this.start.slice();
    disturb?.(state);
    const work = createRk4Workspace(state.length);
    const rows = Math.floor(until / every + 1e-9) + 1;
    const values = new Float64Array(rows * SIZE);
    const ends: { at: number; undo: () => void }[] = [];
    let noseAt: number | null = null;
    let withdrawal: Withdrawal = "held";
    let leftAt: number | null = null;
    let exit: { speed: number; rates: readonly [number, number, number] } | null = null;
    let demand: { offered: number; needed: number } | null = null;
    let largest = 0;
    let next = 0;
    let time = 0;
    for (let row = 0; row < rows; row++) {
      const target = row * every;
      while (time < target - 1e-12) {
        while (next < this.steps.length && this.steps[next].time <= time + 1e-12) {
          const step = this.steps[next++];
          if (step.kind === "open nose" && noseAt === null) {
            noseAt = time;
            motion.derivative(time, state, work.k1);
            const { friction, sealFriction } = bore.settings;
            demand = { offered: bore.pull, needed: withdrawalForce(bore.sideLoad, friction, sealFriction) };
          }
          if (step.kind === "cut probe" && bore.engaged) {
            withdrawal = "cut";
            leftAt = time;
          }
          this.act(step, time, ends);
        }
        for (const end of ends) if (time >= end.at - 1e-12) end.undo();
        const upcoming = next < this.steps.length ? this.steps[next].time - time : Infinity;
        const h = Math.min(this.longestStep(), target - time, Math.max(upcoming, 1e-9));
        airloads.right = state[1] - (settings.carrier.hinge[1] ?? 0);
        rk4Step(motion.derivative, time, state, h, state, work);
        time += h;
        if (bore.engaged) {
          largest = Math.max(largest, bore.sideLoad);
          if (bore.travel >= bore.settings.depth) {
            this.leave();
            withdrawal = "withdrawn";
            leftAt = time;
            exit = { speed: bore.rate, rates: [state[10], state[11], state[12]] };
          }
        }
        if (!Number.isFinite(state[0] + state[3] + state[12]))
          throw new BugError("a separation left the finite numbers");
        if (noseAt !== null && withdrawal === "held" && time - noseAt > settings.startWithin) {
          if (bore.travel < settings.startTravel) withdrawal = "hang-up";
        }
      }
      motion.derivative(time, state, work.k1);
      this.record(values.subarray(row * SIZE, (row + 1) * SIZE), time, state);
    }
    return {
      ...{ withdrawal, leftAt, exitSpeed: exit?.speed ?? null, exitRates: exit?.rates ?? null },
      ...{ offered: demand?.offered ?? null, needed: demand?.needed ?? null },
      ...{ largestSideLoad: largest, outsideGrid: airloads.outside, rows, values },
    };
  }

  private longestStep(): number {
    const { bore, pins } = this;
    if (bore.engaged && !bore.hooked && Math.abs(bore.rate) < SLIDING * bore.settings.creepSpeed) return STICKING_STEP;
    if (bore.engaged) return HELD_STEP;
    for (const pin of pins) if (pin.closed) return HELD_STEP;
    return this.freeStep;
  }

  private reset(): void {
    const { bore, settings } = this;
    bore.hooked = true;
    bore.engaged = true;
    for (const link of [...this.pins, ...this.socket]) link.closed = true;
    Object.assign(this.controls, settings.held.motion.settings.trim);
    settings.airloads.outside = false;
    settings.airloads.brakeArea = 0;
    if (settings.crew !== undefined) settings.crew.port.pull = 0;
  }

  private leave(): void {
    this.bore.engaged = false;
    for (const link of this.socket) link.closed = false;
  }

  private act(step: SeparationStep, time: number, ends: { at: number; undo: () => void }[]): void {
    const { crew, airloads } = this.settings;
    switch (step.kind) {
      case "open pin": {
        const pin = this.pins[step.pin];
        if (pin === undefined) throw new BugError(`no aft pin ${step.pin}`);
        pin.closed = false;
        return;
      }
      case "open nose":
        this.bore.hooked = false;
        return;
      case "cut probe":
        this.leave();
        return;
      case "move control":
        this.controls[step.control] += step.by;
        return;
      case "airbrake":
        airloads.brakeArea += step.dragArea;
        return;
      case "carrier pulls": {
        if (crew === undefined) throw new BugError("this carrier has no crew that pulls");
        const force = step.loadFactor * crew.weight;
        crew.port.pull += force;
        let done = false;
        ends.push({
          at: time + step.lasting,
          undo: () => {
            if (!done) crew.port.pull -= force;
            done = true;
          },
        });
        return;
      }
      default:
        throw new BugError(`unknown step ${(step as { kind: string }).kind}`);
    }
  }

  private record(out: Float64Array, time: number, state: Float64Array): void {
    const { motion, bore, settings } = this;
    const { tip, carrier: at } = motion.layout;
    settings.carrier.evaluate(state, at);
    out[0] = time;
    for (let i = 0; i < 13; i++) out[1 + i] = state[i];
    for (let i = 0; i < 3; i++) {
      out[14 + i] = state[tip + i];
      out[17 + i] = settings.carrier.hinge[i];
    }
    const rigid = settings.carrier.stateCount >= 12;
    for (let i = 0; i < 3; i++) {
      out[20 + i] = rigid ? state[at + 3 + i] : 0;
      out[23 + i] = rigid ? state[at + 6 + i] : 0;
    }
    out[26] = bore.engaged ? bore.travel : bore.settings.depth;
    out[27] = bore.engaged ? bore.sideLoad : 0;
    out[28] = bore.engaged ? bore.frictionForce : 0;
    out[29] = settings.airloads.outside ? 0 : 1;
  }
}

/** Column of a course by name. */
export function separationColumn(name: SeparationColumn): number {
  return SEPARATION_COLUMNS.indexOf(name);
}
