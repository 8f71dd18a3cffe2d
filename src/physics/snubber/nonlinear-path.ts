import { DomainError } from "../../math/errors.ts";
import { requireLaw, type SnubberForceLaw, travelRate } from "./force-law.ts";
import type { TangentialRates } from "./tangential-path.ts";

/** What makes a tangential path nonlinear; forces and lengths at the tip. */
export interface NonlinearSnubber {
  readonly law: SnubberForceLaw;
  /** Free play between boom and jack from stop to stop, in series with the bending [m], ≥ 0. */
  readonly freePlay: number;
}

/**
 * Tangential path with the force law of a real snubber and free play.
 *
 *     k_b·(x − s) + c_b·(ẋ − ṡ) = k_a·s + F(ṡ) + F_c·sign ṡ                                     (README eq. 13)
 *
 * With e = x − s the boom carries the preload P at e = 0. Free play opens where the joint loses its load and the boom
 * then carries nothing until the other stop:
 *
 *     path force = k_b·e + c_b·ė  in contact at the loaded stop, −P in the gap, k_b·(e ± δ) + c_b·ė at the other one  (README eq. 14)
 */
export class NonlinearPath {
  /** Force against positive travel at the last `evaluate` [N], preload left out; rate of the snubber travel [m/s]. */
  force = 0;
  travelRate = 0;
  /** Stop that carried at the last `evaluate`: the one loaded at trim, none, or the other one. */
  contact: "loaded" | "open" | "other" = "loaded";

  private readonly rates: TangentialRates;
  private readonly snubber: NonlinearSnubber;
  private readonly preload: number;

  /**
   * @param rates   bending and accumulator at the tip, finite; its snubber rate is not used
   * @param snubber force law and free play
   * @param preload P, tangential load at trim [N]
   * @throws {DomainError} when a stiffness is not finite, or nothing resists the travel of the snubber
   * @source own derivation, README eq. 13–14
   * @verified nonlinear-path.test.ts (linear law against the linear path; power leaves; scaling with 1/C2; free play)
   */
  constructor(rates: TangentialRates, snubber: NonlinearSnubber, preload: number) {
    const { law, freePlay } = snubber;
    requireLaw(law);
    const finite = { bending: rates.bending, bendingDamping: rates.bendingDamping, accumulator: rates.accumulator };
    for (const [key, value] of Object.entries(finite)) {
      if (!(value >= 0 && Number.isFinite(value))) {
        throw new DomainError(`nonlinear path, ${key}`, value, "a finite number, at least 0");
      }
    }
    if (!(freePlay >= 0 && Number.isFinite(freePlay))) throw new DomainError("free play", freePlay, "at least 0");
    const beside = freePlay > 0 ? 0 : rates.bendingDamping;
    if (!(law.linear + law.quadratic + beside > 0)) {
      throw new DomainError("snubber law", "no resistance at all", "C1, C2 or structural damping above 0");
    }
    if (law.relief < Infinity && !(law.reliefRate + beside > 0)) {
      throw new DomainError("rise of the relief valve", law.reliefRate, "greater than 0");
    }
    this.rates = rates;
    this.snubber = snubber;
    this.preload = preload;
  }

  /**
   * @param x    tip travel from trim [m]
   * @param rate ẋ [m/s]
   * @param s    travel across the snubber [m]
   * @cost no allocation; results in `force`, `travelRate` and `contact`
   */
  evaluate(x: number, rate: number, s: number): void {
    const { bending, bendingDamping, accumulator } = this.rates;
    const { law, freePlay } = this.snubber;
    const e = x - s;
    let elastic = bending * e;
    this.contact = "loaded";
    if (freePlay > 0) {
      // total load of the joint in the sense in which trim loads it
      const sense = this.preload < 0 ? -1 : 1;
      const loaded = Math.abs(this.preload) + sense * elastic;
      if (loaded < 0) {
        const beyond = loaded + bending * freePlay;
        this.contact = beyond < 0 ? "other" : "open";
        elastic = -this.preload + (beyond < 0 ? sense * beyond : 0);
      }
    }
    const c = this.contact === "open" ? 0 : bendingDamping;
    const w = travelRate(law, c, elastic + c * rate - accumulator * s);
    this.travelRate = w;
    this.force = elastic + c * (rate - w);
  }
}
