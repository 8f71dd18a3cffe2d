import { bracketedRoot } from "../../math/roots/index.ts";
import { equivalentAirspeed, standardAtmosphere } from "../../physics/atmosphere/index.ts";
import type { PairMode } from "../../physics/modes/index.ts";
import type { ModePlane } from "../hold/index.ts";
import { atBoomAngle, type HoldInputs, type Operating, PointModel } from "../hold/index.ts";
import type { AttachmentInputs } from "./read-settings.ts";
import type { LossOutcome } from "./types.ts";

/** Step in which the stroke is searched from the extended end [rad]. */
const STEP = (2 * Math.PI) / 180;
/** How close the boundary is found [rad]. */
const CLOSE = 1e-6;
/** Airspeeds of the band at which the boundary is looked for. */
const SPEEDS = 5;

/** Where single-point stability is lost, at its worst over masses and airspeeds. */
export interface Loss {
  readonly outcome: LossOutcome;
  /** Largest boom angle at which it is lost [rad]; `null` unless lost. */
  readonly angle: number | null;
  /** Where that is: mass, and airspeed EAS [m/s]. */
  readonly mass: string | null;
  readonly airspeed: number | null;
}

/**
 * Stability of the modes of a plane: above zero when every oscillation decays and no real root doubles faster than allowed.
 *
 *     min over oscillations of −Re λ/|λ|,  min over real roots of (ln 2/T₂ − λ)·1 s        (README eq. 1)
 *
 * @param modes        modes of the plane
 * @param timeToDouble T₂ [s]
 * @returns [1]; 1 without modes
 * @source own derivation, README eq. 1
 * @verified boundary.test.ts
 */
export function stabilityOf(modes: readonly PairMode[], timeToDouble: number): number {
  let least = 1;
  for (const { real, imag } of modes) {
    const own = imag === 0 ? Math.LN2 / timeToDouble - real : -real / Math.hypot(real, imag);
    if (own < least) least = own;
  }
  return least;
}

/** Stability at single point at a boom angle; −1 without trim. */
export function singlePointStability(inputs: HoldInputs, at: Operating, angle: number, plane: ModePlane): number {
  const model = new PointModel(inputs, atBoomAngle(inputs, { ...at, boomAngleDown: angle }));
  if (!model.trimmed) return -1;
  return stabilityOf(model.modes(undefined, plane), inputs.criteria.timeToDouble.value);
}

/** Operating points of a condition at the airspeeds of the band, EAS, for each mass. */
export function bandPoints(own: AttachmentInputs, points: readonly Operating[], count = SPEEDS): Operating[] {
  return points.flatMap((at) =>
    speedsOf(own, at, count).map((value) => ({ ...at, airspeed: { kind: "EAS", value } }) as Operating),
  );
}

/** Airspeeds of the band at an operating point, EAS [m/s]. */
export function speedsOf(own: AttachmentInputs, at: Operating, count: number): number[] {
  const air = standardAtmosphere(at.altitude, at.isaOffset);
  const [a, b] = [own.speedBand.from, own.speedBand.to].map((speed) => equivalentAirspeed(speed, air));
  return Array.from({ length: count }, (_, i) => a + ((b - a) * i) / (count - 1));
}

/**
 * Largest boom angle at which single-point stability of a plane is lost as the boom comes up from the extended end, over
 * operating points.
 *
 * @param inputs pair as physics arguments
 * @param own    stroke
 * @param points operating points: masses and airspeeds
 * @param plane  which motion
 * @param step   along the stroke [rad]; a loss between two steps that ends before the second is not seen
 * @source own derivation, README eq. 2
 * @verified boundary.test.ts (both sides of the boundary, a finer search)
 */
export function lossOver(
  inputs: HoldInputs,
  own: AttachmentInputs,
  points: readonly Operating[],
  plane: ModePlane,
  step: number = STEP,
): Loss {
  let worst: Loss = { outcome: "stable throughout", angle: null, mass: null, airspeed: null };
  const { from, to } = own.stroke;
  for (const at of points) {
    const found = lossAt((angle) => singlePointStability(inputs, at, angle, plane), from, to, worst.angle, step);
    const where = { mass: at.mass.name, airspeed: at.airspeed.value };
    if (found === "unstable extended") return { outcome: found, angle: null, ...where };
    if (found !== null) worst = { outcome: "lost", angle: found, ...where };
  }
  return worst;
}

/**
 * Boom angle at which a stability is lost going from the extended to the stowed end.
 *
 * @param stability above zero where stable, of the boom angle [rad]
 * @param from, to  stowed and extended boom angle [rad]
 * @param beyond    losses at smaller angles than this do not matter [rad]; `null` when all do
 * @param step      along the stroke [rad]
 * @returns the angle, "unstable extended", or `null` when it is not lost beyond that angle
 */
export function lossAt(
  stability: (angle: number) => number,
  from: number,
  to: number,
  beyond: number | null = null,
  step: number = STEP,
): number | "unstable extended" | null {
  if (!(stability(to) > 0)) return "unstable extended";
  const end = beyond ?? from;
  const count = Math.max(1, Math.ceil((to - end) / step - 1e-9));
  let stable = to;
  for (let i = 1; i <= count; i++) {
    const angle = to + ((end - to) * i) / count;
    if (!(stability(angle) > 0)) {
      const root = bracketedRoot(stability, angle, stable, CLOSE);
      return root.x;
    }
    stable = angle;
  }
  return null;
}
