import { DomainError } from "../../math/errors.ts";
import { reliefSpeed, requireLaw, type SnubberForceLaw, valveForce } from "./force-law.ts";

/**
 * Rate of a harmonic motion across the snubber: force in phase with the speed over the speed amplitude.
 *
 *     N(V) = (1/πV)·∮F(V·cos τ)·cos τ dτ                                                    (README eq. 10)
 *          = C1 + (8/3π)·C2·V + 4F_c/(πV)  while the relief valve stays shut
 *
 * The law has no memory, so that nothing is in phase with the travel.
 *
 * @param law   the law
 * @param speed V = ωX, amplitude of the speed across the snubber [m/s], > 0
 * @returns N [N·s/m]
 * @throws {DomainError} for a law that cannot be or a speed that is not positive
 * @source own derivation, README eq. 10; energy per cycle of v·|v| gives 8/3π
 * @verified analytic/describing-functions (rtol 1e-9: orifice, friction, saturation); describing.test.ts (energy by quadrature)
 */
export function describingRate(law: SnubberForceLaw, speed: number): number {
  requireLaw(law);
  if (!(speed > 0 && Number.isFinite(speed))) throw new DomainError("speed amplitude", speed, "greater than 0");
  const friction = (4 * law.friction) / (Math.PI * speed);
  const opens = reliefSpeed(law);
  if (speed <= opens) return law.linear + (8 / (3 * Math.PI)) * law.quadratic * speed + friction;
  const open = Math.acos(opens / speed);
  const share = relieved(law, speed, open) + shut(law, speed, open);
  return (4 * share) / (Math.PI * speed) + friction;
}

/** ∫F·cos τ dτ over [0, τ_r], where the relief valve is open, by Gauss–Legendre: the force is smooth there. */
function relieved(law: SnubberForceLaw, speed: number, open: number): number {
  let sum = 0;
  for (let panel = 0; panel < PANELS; panel++) {
    const middle = (open * (panel + 0.5)) / PANELS;
    const half = open / (2 * PANELS);
    for (let i = 0; i < NODES.length; i++) {
      const cosine = Math.cos(middle + half * NODES[i]);
      sum += half * WEIGHTS[i] * valveForce(law, speed * cosine) * cosine;
    }
  }
  return sum;
}

/** ∫F·cos τ dτ over [τ_r, π/2] in closed form, the relief valve shut. */
function shut(law: SnubberForceLaw, speed: number, open: number): number {
  const s = Math.sin(open);
  const square = (Math.PI / 2 - open) / 2 - (s * Math.cos(open)) / 2;
  const cube = 2 / 3 - s + s ** 3 / 3;
  return law.linear * speed * square + law.quadratic * speed ** 2 * cube;
}

const PANELS = 4;
/** Five-point Gauss–Legendre rule on [−1, 1]. */
const NODES = [
  -Math.sqrt(5 + 2 * Math.sqrt(10 / 7)) / 3,
  -Math.sqrt(5 - 2 * Math.sqrt(10 / 7)) / 3,
  0,
  Math.sqrt(5 - 2 * Math.sqrt(10 / 7)) / 3,
  Math.sqrt(5 + 2 * Math.sqrt(10 / 7)) / 3,
];
const OUTER = (322 - 13 * Math.sqrt(70)) / 900;
const INNER = (322 + 13 * Math.sqrt(70)) / 900;
const WEIGHTS = [OUTER, INNER, 128 / 225, INNER, OUTER];

/** A speed amplitude at which a law has a wanted rate. */
export interface RatedSpeed {
  /** V [m/s]. */
  readonly speed: number;
  /** Whether the rate rises with the amplitude there. */
  readonly rises: boolean;
}

const GRID = 400;
const HALVINGS = 60;

/**
 * Every speed amplitude at which a law has a rate: N(V) = c.                                 (README eq. 11)
 *
 * Friction makes small motion stiff and the relief valve makes large motion soft, so that there may be none, one or several.
 *
 * @param law the law
 * @param rate c [N·s/m]
 * @param from smallest and largest speed amplitude looked at [m/s], on a logarithmic grid
 * @returns in rising order; ends by bisection to the last digits
 * @source own derivation, README eq. 11
 * @verified describing.test.ts (closed form of the pure orifice, rtol 1e-12)
 */
export function speedsWithRate(law: SnubberForceLaw, rate: number, from: number, to: number): RatedSpeed[] {
  const found: RatedSpeed[] = [];
  const at = (i: number): number => from * (to / from) ** (i / GRID);
  let before = describingRate(law, from) - rate;
  for (let i = 1; i <= GRID; i++) {
    const after = describingRate(law, at(i)) - rate;
    if (before < 0 !== after < 0) {
      let [low, high] = [at(i - 1), at(i)];
      for (let k = 0; k < HALVINGS && high - low > 4 * Number.EPSILON * high; k++) {
        const middle = 0.5 * (low + high);
        if (describingRate(law, middle) - rate < 0 === before < 0) low = middle;
        else high = middle;
      }
      found.push({ speed: 0.5 * (low + high), rises: before < 0 });
    }
    before = after;
  }
  return found;
}
