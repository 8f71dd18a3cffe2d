import { trimFree } from "../../physics/bodies/index.ts";
import {
  COLUMN,
  HOOKON_COLUMNS,
  HOOKON_OUTCOMES,
  type HookonOutcome,
  HookonRun,
  type HookonSettings,
  type HookonStart,
  straightGuide,
} from "../../physics/hookon-motion/index.ts";
import { socketAxes } from "../../physics/socket/index.ts";

/** Where a straight run begins before the mouth [m], and how far beyond the funnel's depth it is over without a lock. */
const BEFORE = 0.15;
const BEYOND = 0.5;
/** Longest straight run after its way, and how much of the ring-down is followed [s]: the peaks of the load. */
const TIME_LEFT = 2.5;
const RING = 1.5;

export interface StraightPath {
  /** Along the path [m/s]. */
  readonly closure: number;
  /** Path from the axis where it crosses the plane of the mouth, to the right and up [m]. */
  readonly right: number;
  readonly up: number;
  /** Path against the axis [rad]: it comes from above the axis and goes down. */
  readonly angle: number;
}

/** What became of a straight run. */
export interface StraightOutcome {
  readonly outcome: HookonOutcome;
  readonly tripped: boolean;
  readonly locked: boolean;
  readonly bottomed: boolean;
  /** [N], [N], [m] */
  readonly axial: number;
  readonly side: number;
  readonly buffer: number | null;
}

/**
 * Runs in still air, controls held at the trim of the closing speed, so that the path stays straight up to the contact.
 *
 * @source README "Straight runs"
 * @verified window.test.ts
 */
export class StraightRuns {
  readonly #settings: HookonSettings;
  readonly #axes: Float64Array;
  readonly #row = new Float64Array(HOOKON_COLUMNS.length);
  readonly #runs = new Map<number, HookonRun>();

  /** @param settings of the motion in still air */
  constructor(settings: HookonSettings) {
    this.#settings = settings;
    this.#axes = socketAxes(settings.socket.restAxis_H);
  }

  /** One run; the same path gives the same outcome. */
  run(path: StraightPath): StraightOutcome {
    const row = this.#row;
    this.#at(path.closure).run(0, 0, row, this.#start(path));
    const outcome = HOOKON_OUTCOMES[row[COLUMN.outcome]];
    const happened = (name: string): boolean => !Number.isNaN(row[COLUMN[name]]);
    return {
      outcome,
      tripped: happened("trip_s"),
      locked: happened("lock_s"),
      bottomed: row[COLUMN.bottomed] === 1,
      axial: row[COLUMN.axialLoad_N],
      side: row[COLUMN.sideLoad_N],
      buffer: happened("bufferTravel_m") ? row[COLUMN.bufferTravel_m] : null,
    };
  }

  /** Motion trimmed at a closing speed. */
  #at(closure: number): HookonRun {
    const found = this.#runs.get(closure);
    if (found !== undefined) return found;
    const { airloads, mass, air, limits, trim: still } = this.#settings;
    const faster = trimFree({ airloads, mass: mass.mass, ...air, trueAirspeed: air.trueAirspeed + closure });
    const trim = faster.outcome === "trimmed" ? faster : still;
    const { coneDepth, boreDepth } = this.#settings.socket.funnel;
    // the head at the seat is not away: what counts lies outside the funnel
    const separation = coneDepth + boreDepth + BEYOND;
    const approachTime = (BEFORE + separation) / closure + TIME_LEFT;
    const { gusts: _gusts, zones: _zones, carrier: _carrier, orbit: _orbit, ...rest } = this.#settings;
    const run = new HookonRun({
      ...rest,
      trim,
      guide: straightGuide(trim.controls),
      limits: { ...limits, approachTime, ringTime: RING, separation },
    });
    this.#runs.set(closure, run);
    return run;
  }

  #start({ closure, right, up, angle }: StraightPath): HookonStart {
    const axes = this.#axes;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    const along = (i: number): number => c * axes[i] + s * axes[6 + i];
    const place = [0, 1, 2].map((i) => BEFORE * along(i) + right * axes[3 + i] + up * axes[6 + i]);
    const velocity = [0, 1, 2].map((i) => -closure * along(i));
    return {
      p_RestPh_H: [place[0], place[1], place[2]],
      v_HVcm_H: [velocity[0], velocity[1], velocity[2]],
      ...{ yaw: 0, pitch: 0, bank: 0 },
    };
  }
}

/** Locked, whatever the swing afterwards does. */
export function isLatched(outcome: HookonOutcome): boolean {
  return outcome === "locked, stable" || outcome === "locked, diverging";
}
