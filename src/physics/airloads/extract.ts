import type { DerivativeModel } from "./derivative-model.ts";
import type { AirLoad, AirState, Controls } from "./types.ts";

/** Coefficients at one state and their slopes there [1/rad], in the axes of the model. */
export interface LocalDerivatives {
  readonly alpha: number;
  readonly beta: number;
  readonly mach: number;
  readonly CL: number;
  readonly CD: number;
  readonly Cm: number;
  readonly CLalpha: number;
  readonly CDalpha: number;
  readonly Cmalpha: number;
  readonly CYbeta: number;
  readonly Clbeta: number;
  readonly Cnbeta: number;
  readonly CLelevator: number;
  readonly Cmelevator: number;
  readonly Claileron: number;
  readonly Cnaileron: number;
  readonly CYaileron: number;
  readonly CYrudder: number;
  readonly Clrudder: number;
  readonly Cnrudder: number;
  /** Per change of Mach number. */
  readonly CLmach: number;
  readonly Cmmach: number;
}

/** Half width of the differences: small against the nodes of any table, large against round-off [rad], [1]. */
const STEP = 1e-4;

/**
 * Coefficients and derivatives at a steady state, by central differences of the coefficients without rates.
 *
 *     ∂C/∂x = (C(x + h) − C(x − h))/2h,  h = 10⁻⁴                                        (README eq. 14)
 *
 * @param model  evaluated at the state; its own point and axes
 * @param air    state of rest: rates 0
 * @param trim   control positions
 * @source   own derivation, README eq. 14
 * @verified table-model.test.ts: gives back the set that a `DerivativeModel` was made of
 */
export function localDerivatives(model: DerivativeModel, air: AirState, trim: Controls): LocalDerivatives {
  const load: AirLoad = { load: new Float64Array(6), perAcceleration: new Float64Array(36) };
  const speed = Math.hypot(air.u, air.v, air.w);
  const [alpha, beta] = [Math.atan2(air.w, air.u), Math.asin(air.v / speed)];
  const at = (dAlpha: number, dBeta: number, faster: number, change: Partial<Controls>) => {
    const V = speed * faster;
    const inPlane = V * Math.cos(beta + dBeta);
    const state: AirState = {
      ...air,
      u: inPlane * Math.cos(alpha + dAlpha),
      v: V * Math.sin(beta + dBeta),
      w: inPlane * Math.sin(alpha + dAlpha),
    };
    model.evaluate(state, { ...trim, ...change }, load);
    return { ...model.stillCoefficients };
  };
  const slope = (of: (h: number) => ReturnType<typeof at>) => {
    const [high, low] = [of(STEP), of(-STEP)];
    const by = (key: keyof typeof high): number => (high[key] - low[key]) / (2 * STEP);
    return by;
  };
  const here = at(0, 0, 1, {});
  const byAlpha = slope((h) => at(h, 0, 1, {}));
  const byBeta = slope((h) => at(0, h, 1, {}));
  const byElevator = slope((h) => at(0, 0, 1, { elevator: trim.elevator + h }));
  const byAileron = slope((h) => at(0, 0, 1, { aileron: trim.aileron + h }));
  const byRudder = slope((h) => at(0, 0, 1, { rudder: trim.rudder + h }));
  const mach = speed / air.soundSpeed;
  const byMach = slope((h) => at(0, 0, 1 + h / mach, {}));
  at(0, 0, 1, {});
  return {
    ...{ alpha, beta, mach, CL: here.lift, CD: here.drag, Cm: here.pitch },
    ...{ CLalpha: byAlpha("lift"), CDalpha: byAlpha("drag"), Cmalpha: byAlpha("pitch") },
    ...{ CYbeta: byBeta("side"), Clbeta: byBeta("roll"), Cnbeta: byBeta("yaw") },
    ...{ CLelevator: byElevator("lift"), Cmelevator: byElevator("pitch") },
    ...{ CYaileron: byAileron("side"), Claileron: byAileron("roll"), Cnaileron: byAileron("yaw") },
    ...{ CYrudder: byRudder("side"), Clrudder: byRudder("roll"), Cnrudder: byRudder("yaw") },
    ...{ CLmach: byMach("lift"), Cmmach: byMach("pitch") },
  };
}
