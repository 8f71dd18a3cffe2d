import { DomainError } from "../../math/errors.ts";
import { monotoneCubic, type ScalarFunction } from "../../math/interpolate/index.ts";
import type { CarrierFlow } from "../bodies/index.ts";

/** Flow below the carrier against the place below the boom hinge; SI, shape (n) each, `below` rising. */
export interface FlowTable {
  readonly below: Float64Array;
  /** Angle by which the air goes down, and to the right, against undisturbed air [rad]. */
  readonly downwash: Float64Array;
  readonly sidewash: Float64Array;
  /** Local over undisturbed dynamic pressure, q/q∞ [1]. */
  readonly pressureRatio: Float64Array;
}

/** Flow at one place, with its slopes per metre farther below. */
export interface FlowAt {
  readonly downwash: number;
  readonly sidewash: number;
  readonly pressureRatio: number;
  readonly perMetre: { readonly downwash: number; readonly sidewash: number; readonly pressureRatio: number };
}

/** Half width of the differences that give slopes [m]. */
const STEP = 1e-4;

/**
 * Flow of the carrier from a table, monotone between its rows.
 *
 *     velocity = V·√(q/q∞)·(−cos ε·cos σ, sin σ, sin ε·cos σ) − (−V, 0, 0)                     (README eq. 1)
 *
 * Beyond the table it keeps the end values so that an iteration may pass there; `inside` says whether a place may be used.
 *
 * @source own derivation, README eq. 1–2
 * @verified table-flow.test.ts (rows, slopes, vector by hand); bodies/carrier-flow.test.ts
 */
export class TableFlow implements CarrierFlow {
  readonly from: number;
  readonly to: number;
  private readonly speed: number;
  private readonly downwash: ScalarFunction;
  private readonly sidewash: ScalarFunction;
  private readonly pressureRatio: ScalarFunction;

  /**
   * @param table at least two rows
   * @param trueAirspeed of the carrier [m/s]
   * @throws {DomainError} for a table that does not rise or is not finite, a pressure ratio or airspeed that is not positive
   */
  constructor(table: FlowTable, trueAirspeed: number) {
    if (!(trueAirspeed > 0)) throw new DomainError("true airspeed", trueAirspeed, "greater than 0");
    for (const ratio of table.pressureRatio) {
      if (!(ratio > 0)) throw new DomainError("dynamic pressure ratio", ratio, "greater than 0");
    }
    this.speed = trueAirspeed;
    this.downwash = monotoneCubic(table.below, table.downwash);
    this.sidewash = monotoneCubic(table.below, table.sidewash);
    this.pressureRatio = monotoneCubic(table.below, table.pressureRatio);
    this.from = table.below[0];
    this.to = table.below[table.below.length - 1];
  }

  /** True where the table says something. */
  inside(below: number): boolean {
    return below >= this.from && below <= this.to;
  }

  evaluate(below: number, out: Float64Array): void {
    const at = Math.min(this.to, Math.max(this.from, below));
    const speed = this.speed * Math.sqrt(this.pressureRatio(at));
    const down = this.downwash(at);
    const side = this.sidewash(at);
    out[0] = this.speed - speed * Math.cos(down) * Math.cos(side);
    out[1] = speed * Math.sin(side);
    out[2] = speed * Math.sin(down) * Math.cos(side);
  }

  /**
   * Flow and its slopes at a place.
   *
   * @param below the boom hinge [m]
   * @throws {DomainError} outside the table
   */
  at(below: number): FlowAt {
    if (!this.inside(below)) throw new DomainError("place below the boom hinge", below, `${this.from} to ${this.to} m`);
    const high = Math.min(this.to, below + STEP);
    const low = Math.max(this.from, below - STEP);
    const slope = (f: ScalarFunction): number => (f(high) - f(low)) / (high - low);
    const { downwash, sidewash, pressureRatio } = this;
    return {
      ...{ downwash: downwash(below), sidewash: sidewash(below), pressureRatio: pressureRatio(below) },
      perMetre: { downwash: slope(downwash), sidewash: slope(sidewash), pressureRatio: slope(pressureRatio) },
    };
  }
}

/** The same flow everywhere: that of one place, without gradients. */
export function uniformFlow(flow: CarrierFlow, below: number): CarrierFlow {
  const held = new Float64Array(3);
  flow.evaluate(below, held);
  return {
    evaluate(_below, out) {
      out.set(held);
    },
  };
}
