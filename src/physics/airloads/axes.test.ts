import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { type AirLoad, type AirState, type DerivativeSet, derivativeModel, type LateralDerivatives } from "./index.ts";

const still = { elevator: 0, aileron: 0, rudder: 0, thrust: 0 };
const alpha = 0.12;
const speed = 110;
const density = 0.909;

const stabilitySet: DerivativeSet = {
  area: 8.2,
  span: 7.4,
  chord: 1.2,
  axes: { moments: "stability", sideForce: "wind" },
  referencePoint: [0, 0, 0],
  referenceAlpha: alpha,
  lift: { atReference: 0.56, alpha: 5, pitchRate: 6, alphaRate: 1.8, elevator: 0.4 },
  drag: { kind: "linear", atReference: 0.045, alpha: 0.25, elevator: 0 },
  pitch: { atReference: 0.02, alpha: -0.65, pitchRate: -12, alphaRate: -3.5, elevator: -1.05 },
  side: { beta: -0.66, rollRate: -0.03, yawRate: 0.25, aileron: 0, rudder: 0.16 },
  roll: { beta: -0.022, rollRate: -0.5, yawRate: 0.14, aileron: 0.12, rudder: 0.012 },
  yaw: { beta: 0.085, rollRate: -0.04, yawRate: -0.2, aileron: -0.006, rudder: -0.075 },
  thrust: { direction: [1, 0, 0], point: [0, 0, 0] },
};

function trimmed(change: Partial<AirState> = {}): AirState {
  const u = speed * Math.cos(alpha);
  const w = speed * Math.sin(alpha);
  return { u, v: 0, w, p: 0, q: 0, r: 0, density, soundSpeed: 328.6, ...change };
}
function evaluate(set: DerivativeSet, air: AirState): AirLoad {
  const out = { load: new Float64Array(6), perAcceleration: new Float64Array(36) };
  derivativeModel(set).evaluate(air, still, out);
  return out;
}
/** ∂load/∂(u, v, w, p, q, r) at the trim, row-major (6, 6), by Richardson-extrapolated central differences. */
function motionDerivatives(set: DerivativeSet): Float64Array {
  const keys = ["u", "v", "w", "p", "q", "r"] as const;
  const out = new Float64Array(36);
  keys.forEach((key, j) => {
    const size = j < 3 ? 0.2 : 0.02;
    const base = trimmed();
    const slope = (h: number): number[] => {
      const ahead = evaluate(set, { ...base, [key]: base[key] + h }).load;
      const behind = evaluate(set, { ...base, [key]: base[key] - h }).load;
      return Array.from(ahead, (x, i) => (x - behind[i]) / (2 * h));
    };
    const fine = slope(size / 2);
    const coarse = slope(size);
    for (let i = 0; i < 6; i++) out[6 * i + j] = (4 * fine[i] - coarse[i]) / 3;
  });
  return out;
}

/** Roll and yaw derivatives of a stability set, turned to body axes at one α (own derivation, README eq. 7). */
function bodyMoments(set: DerivativeSet): Pick<DerivativeSet, "side" | "roll" | "yaw"> {
  const c = Math.cos(alpha);
  const s = Math.sin(alpha);
  const turnRates = (d: LateralDerivatives): LateralDerivatives => ({
    ...d,
    rollRate: d.rollRate * c - d.yawRate * s,
    yawRate: d.rollRate * s + d.yawRate * c,
  });
  const roll = turnRates(set.roll);
  const yaw = turnRates(set.yaw);
  const mix = (a: LateralDerivatives, fa: number, b: LateralDerivatives, fb: number): LateralDerivatives => ({
    beta: fa * a.beta + fb * b.beta,
    rollRate: fa * a.rollRate + fb * b.rollRate,
    yawRate: fa * a.yawRate + fb * b.yawRate,
    aileron: fa * a.aileron + fb * b.aileron,
    rudder: fa * a.rudder + fb * b.rudder,
  });
  return { side: turnRates(set.side), roll: mix(roll, c, yaw, -s), yaw: mix(roll, s, yaw, c) };
}

describe("axes of a derivative set", () => {
  it("a set turned to body axes at the trim α has the same loads there", () => {
    const body: DerivativeSet = {
      ...stabilitySet,
      axes: { moments: "body", sideForce: "wind" },
      ...bodyMoments(stabilitySet),
    };
    const air = trimmed({ v: 6, p: 0.3, q: 0.1, r: -0.2 });
    const exact = { rtol: 1e-12, atol: 1e-8, why: "the turn is exact at the α it was made for; round-off" };
    expectAllClose(evaluate(body, air).load, evaluate(stabilitySet, air).load, exact);
  });

  it("reading stability-axis moments as body-axis moments is seen: C_nβ moves by C_lβ·sin α", () => {
    const misread: DerivativeSet = { ...stabilitySet, axes: { moments: "body", sideForce: "wind" } };
    const right = motionDerivatives(stabilitySet)[6 * 5 + 1];
    const wrong = motionDerivatives(misread)[6 * 5 + 1];
    const perBeta = 0.5 * density * speed * 8.2 * 7.4;
    const expected = perBeta * (-0.022 * Math.sin(alpha) + 0.085 * (Math.cos(alpha) - 1));
    expectClose(right - wrong, expected, { rtol: 1e-6, why: "differences of smooth loads" });
    expect(Math.abs(right / wrong - 1)).toBeGreaterThan(0.03);
  });

  it("wind- and body-axis side force agree to first order when C_Yβ(body) = C_Yβ(wind) − C_D", () => {
    const body: DerivativeSet = {
      ...stabilitySet,
      axes: { moments: "stability", sideForce: "body" },
      side: { ...stabilitySet.side, beta: -0.66 - 0.045 },
    };
    const close = { rtol: 1e-7, atol: 1e-4, why: "Richardson differences of the two loads" };
    expectAllClose(motionDerivatives(body), motionDerivatives(stabilitySet), close);
    const stability: DerivativeSet = { ...body, axes: { moments: "stability", sideForce: "stability" } };
    const slip = trimmed({ v: 10 });
    expect(evaluate(stability, slip).load).toEqual(evaluate(body, slip).load);
  });

  it("reading a wind-axis side force as a body-axis one loses the drag's share", () => {
    const misread: DerivativeSet = { ...stabilitySet, axes: { moments: "stability", sideForce: "body" } };
    const lost = motionDerivatives(misread)[6 + 1] - motionDerivatives(stabilitySet)[6 + 1];
    expectClose(lost, 0.5 * density * speed * 8.2 * 0.045, { rtol: 1e-6, why: "differences of smooth loads" });
  });
});

describe("moment reference point", () => {
  // In stability-like body axes (α = 0) the transfer of derivatives along x is elementary; own derivation.
  const d = 0.3;
  const level: DerivativeSet = {
    ...stabilitySet,
    referenceAlpha: 0,
    lift: { atReference: 0.5, alpha: 5, pitchRate: 6, alphaRate: 1.8, elevator: 0.4 },
    axes: { moments: "stability", sideForce: "body" },
  };
  const at = (air: Partial<AirState>): AirState => ({
    u: speed,
    v: 0,
    w: 0,
    p: 0,
    q: 0,
    r: 0,
    density,
    soundSpeed: 328.6,
    ...air,
  });
  const drag = 0.045;
  /**
   * The same airframe with derivatives about a point d forward of the old one, where α = α′ + q·d/V and
   * β = β′ − r·d/V. Along x the moment sees the normal force, C_L + C_D·α. α̇ at the old point holds q̇·d/V, which has
   * no place in a set, so the α̇ derivatives are zero here; the acceleration part is tested with the c.g. shift.
   */
  function moved(set: DerivativeSet): DerivativeSet {
    const perC = d / set.chord;
    const perB = d / set.span;
    const normalSlope = set.lift.alpha + drag;
    const lift = { ...set.lift, pitchRate: set.lift.pitchRate + 2 * perC * normalSlope };
    const pitch = {
      atReference: set.pitch.atReference - perC * set.lift.atReference,
      alpha: set.pitch.alpha - perC * normalSlope,
      pitchRate: set.pitch.pitchRate + 2 * perC * set.pitch.alpha - perC * lift.pitchRate,
      alphaRate: 0,
      elevator: set.pitch.elevator - perC * set.lift.elevator,
    };
    const lateral = (c: LateralDerivatives): LateralDerivatives => ({ ...c, yawRate: c.yawRate - 2 * perB * c.beta });
    const side = lateral(set.side);
    const yaw = lateral(set.yaw);
    const yawMoved: LateralDerivatives = {
      beta: yaw.beta - perB * side.beta,
      rollRate: yaw.rollRate - perB * side.rollRate,
      yawRate: yaw.yawRate - perB * side.yawRate,
      aileron: yaw.aileron - perB * side.aileron,
      rudder: yaw.rudder - perB * side.rudder,
    };
    return { ...set, referencePoint: [d, 0, 0], lift, pitch, side, roll: lateral(set.roll), yaw: yawMoved };
  }

  it("moving the point with transformed derivatives leaves the load and its slopes about the c.g. unchanged", () => {
    const set: DerivativeSet = {
      ...level,
      lift: { ...level.lift, alphaRate: 0 },
      pitch: { ...level.pitch, alphaRate: 0 },
      drag: { kind: "linear", atReference: drag, alpha: 0, elevator: 0 },
    };
    const other = moved(set);
    const round = { rtol: 1e-12, atol: 1e-8, why: "round-off: at trim the transfer is exact" };
    expectAllClose(evaluate(other, at({})).load, evaluate(set, at({})).load, round);
    for (const key of ["u", "v", "w", "p", "q", "r"] as const) {
      const h = key === "u" || key === "v" || key === "w" ? 0.01 : 1e-4;
      const slope = (s: DerivativeSet): number[] => {
        const ahead = evaluate(s, at({ [key]: at({})[key] + h })).load;
        const behind = evaluate(s, at({ [key]: at({})[key] - h })).load;
        return Array.from(ahead, (x, i) => (x - behind[i]) / (2 * h));
      };
      const expected = slope(set);
      // The lift turns with the airflow at the point, so −L·d/V of X per q appears, which no C_D derivative can undo
      if (key === "q") expected[0] -= (0.5 * density * speed * speed * 8.2 * 0.5 * d) / speed;
      const why = "central differences; the transfer is exact to first order";
      expectAllClose(slope(other), expected, { rtol: 2e-6, atol: 1e-3, why }, `∂load/∂${key}`);
    }
  });
});
