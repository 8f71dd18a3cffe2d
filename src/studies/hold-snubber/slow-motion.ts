import { type SnubberForceLaw, travelRate, valveForce } from "../../physics/snubber/index.ts";
import type { HoldInputs } from "../hold/index.ts";

const STEPS = 200;

/**
 * Jack travel over the whole stroke: ∫ L/i(Γ) dΓ [m], by Simpson's rule.                    (README eq. 5)
 *
 * @param travel boom angles stowed and extended [rad]
 */
export function jackTravel(inputs: HoldInputs, travel: { readonly stowed: number; readonly extended: number }): number {
  const h = (travel.extended - travel.stowed) / STEPS;
  let sum = 0;
  for (let i = 0; i <= STEPS; i++) {
    const weight = i === 0 || i === STEPS ? 1 : i % 2 === 1 ? 4 : 2;
    sum += weight / inputs.tipPerJack(travel.stowed + i * h);
  }
  return (inputs.boom.length * sum * h) / 3;
}

/** What the snubber does to a commanded slow stroke. */
export interface SlowStroke {
  /** At the jack [m/s], [N]. */
  readonly speed: number;
  readonly force: number;
  readonly reliefOpen: boolean;
  /** Share of the jack's capacity [1]; `null` without a capacity. */
  readonly share: number | null;
  /** Time of the stroke that the jack reaches with the force that its load leaves [s]; `null` when it leaves none. */
  readonly time: number | null;
}

/**
 * Force of the snubber at the commanded speed, and the time of the stroke.
 *
 *     F = F(v) + F_c;  the jack goes no faster than F(v_max) + F_c = capacity − load            (README eq. 6)
 *
 * @param law      at the jack
 * @param travel   jack travel [m], @param time commanded [s]
 * @param capacity of the jack [N] or `null`, @param load that it moves [N]
 */
export function slowStroke(
  law: SnubberForceLaw,
  travel: number,
  time: number,
  capacity: number | null,
  load: number,
): SlowStroke {
  const speed = travel / time;
  const valve = valveForce(law, speed);
  const force = valve + law.friction;
  const left = capacity === null ? Number.POSITIVE_INFINITY : capacity - load;
  const fastest = left === Number.POSITIVE_INFINITY ? left : travelRate(law, 0, Math.max(0, left));
  return {
    speed,
    force,
    reliefOpen: valve > law.relief * (1 - 1e-12),
    share: capacity === null ? null : force / capacity,
    time: fastest > 0 ? travel / Math.min(speed, fastest) : null,
  };
}
