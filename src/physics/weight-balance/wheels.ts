import { DomainError } from "../../math/errors.ts";
import { requirePositive } from "../../math/require.ts";

/** Where the wheels stand: stations of nose and main wheels, buttline of the right main wheel [m]. */
export interface WheelPlaces {
  readonly noseFS: number;
  readonly mainFS: number;
  readonly mainBL: number;
}

/** What each wheel set carries, and its share of the weight on the nose wheel. */
export interface WheelLoads {
  readonly nose: number;
  readonly left: number;
  readonly right: number;
  /** 0 to 1; negative when the aircraft would tip back. */
  readonly noseShare: number;
}

/**
 * Vertical loads on nose and main wheels at rest on level ground.
 *
 *     N = W·(FS_m − FS)/(FS_m − FS_n),   R, L = (W − N)/2 ± W·BL/(2·BL_m)          (README eq. 4)
 *
 * @param weight [N], or any unit that the loads then have; > 0
 * @param at     c.g. in the stations of the wheels [m]
 * @param places nose wheel ahead of the main wheels
 * @throws {DomainError} for a weight or a track that is not above zero, or a nose wheel that is not ahead
 * @source README eq. 4; statics
 * @verified weight-balance.test.ts: published/weight-shift-examples, the three scales of the weighing
 */
export function wheelLoads(
  weight: number,
  at: { readonly FS: number; readonly BL: number },
  places: WheelPlaces,
): WheelLoads {
  requirePositive("weight", weight);
  requirePositive("buttline of the main wheel", places.mainBL);
  const base = places.mainFS - places.noseFS;
  if (!(base > 0)) throw new DomainError("wheel base", base, "a nose wheel ahead of the main wheels");
  const noseShare = (places.mainFS - at.FS) / base;
  const nose = weight * noseShare;
  const half = 0.5 * (weight - nose);
  const lean = (0.5 * weight * at.BL) / places.mainBL;
  return { nose, left: half - lean, right: half + lean, noseShare };
}

/**
 * Angle by which the aircraft turns nose up about its main wheels before the c.g. stands above them.
 *
 *     β = atan((FS_m − FS)/h)                                                     (README eq. 5)
 *
 * @param mainFS station of the main wheels' contact [m]
 * @param FS     station of the c.g. [m]; behind the wheels gives a negative angle
 * @param height of the c.g. above the ground [m], > 0
 * @returns angle [rad]
 * @throws {DomainError} for a height that is not above zero
 * @source README eq. 5
 * @verified weight-balance.test.ts: analytic/weight-balance (rtol 1e-12)
 */
export function tipBackAngle(mainFS: number, FS: number, height: number): number {
  requirePositive("height of the c.g. above the ground", height);
  return Math.atan2(mainFS - FS, height);
}
