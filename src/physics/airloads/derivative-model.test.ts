import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { type AirLoad, type AirState, type BodyVector, type DerivativeSet, derivativeModel } from "./index.ts";

const still = { elevator: 0, aileron: 0, rudder: 0, thrust: 0 };
const rounding = { rtol: 1e-12, atol: 1e-9, why: "round-off of loads up to 1e6 N" };

/** A small jet, every term present so that none can be lost. */
const jet: DerivativeSet = {
  area: 8.2,
  span: 7.4,
  chord: 1.2,
  axes: { moments: "stability", sideForce: "wind" },
  referencePoint: [0, 0, 0],
  referenceAlpha: 0.02,
  lift: { atReference: 0.3, alpha: 5, pitchRate: 6, alphaRate: 1.8, elevator: 0.4 },
  drag: { kind: "parabolic", zeroLift: 0.026, efficiency: 0.8, elevator: 0.01 },
  pitch: { atReference: 0.015, alpha: -0.65, pitchRate: -12, alphaRate: -3.5, elevator: -1.05 },
  side: { beta: -0.66, rollRate: -0.03, yawRate: 0.25, aileron: 0.01, rudder: 0.16 },
  roll: { beta: -0.022, rollRate: -0.5, yawRate: 0.14, aileron: 0.12, rudder: 0.012 },
  yaw: { beta: 0.085, rollRate: -0.04, yawRate: -0.2, aileron: -0.006, rudder: -0.075 },
  thrust: { direction: [1, 0, 0], point: [0, 0, 0] },
};
const zeroPlane = { atReference: 0, alpha: 0, pitchRate: 0, alphaRate: 0, elevator: 0 };
const zeroLateral = { beta: 0, rollRate: 0, yawRate: 0, aileron: 0, rudder: 0 };
const bare: DerivativeSet = {
  ...jet,
  lift: zeroPlane,
  drag: { kind: "linear", atReference: 0, alpha: 0, elevator: 0 },
  pitch: zeroPlane,
  side: zeroLateral,
  roll: zeroLateral,
  yaw: zeroLateral,
};

function airState(change: Partial<AirState> = {}): AirState {
  return { u: 110, v: 4, w: 7, p: 0.1, q: 0.05, r: -0.08, density: 0.909, soundSpeed: 328.6, ...change };
}
function airLoad(): AirLoad {
  return { load: new Float64Array(6), perAcceleration: new Float64Array(36) };
}
function evaluate(set: DerivativeSet, air: AirState, controls = still): AirLoad {
  const out = airLoad();
  derivativeModel(set).evaluate(air, controls, out);
  return out;
}
/** Load with the part that the accelerations bring. */
function total(load: AirLoad, acceleration: readonly number[]): number[] {
  return Array.from({ length: 6 }, (_, i) =>
    acceleration.reduce((sum, a, j) => sum + load.perAcceleration[6 * i + j] * a, load.load[i]),
  );
}
function cross(a: readonly number[], b: readonly number[]): [number, number, number] {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}
/** The same load about a point at r from the point it was about. */
function about(load: readonly number[], r: BodyVector): number[] {
  const turn = cross(r, load.slice(0, 3));
  return [...load.slice(0, 3), load[3] - turn[0], load[4] - turn[1], load[5] - turn[2]];
}
const motions = fc.record({
  u: fc.double({ min: 20, max: 200, noNaN: true }),
  v: fc.double({ min: -30, max: 30, noNaN: true }),
  w: fc.double({ min: -40, max: 40, noNaN: true }),
  p: fc.double({ min: -1, max: 1, noNaN: true }),
  q: fc.double({ min: -1, max: 1, noNaN: true }),
  r: fc.double({ min: -1, max: 1, noNaN: true }),
});
const arm = fc.tuple(
  fc.double({ min: -2, max: 2, noNaN: true }),
  fc.double({ min: -2, max: 2, noNaN: true }),
  fc.double({ min: -2, max: 2, noNaN: true }),
);
const accelerations = fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: 6, maxLength: 6 });

describe("derivative model, one term at a time", () => {
  const air = airState({ v: 0, p: 0, q: 0, r: 0 });
  const speed = Math.hypot(110, 7);
  const alpha = Math.atan2(7, 110);
  const qS = 0.5 * 0.909 * speed * speed * 8.2;

  it("lift stands normal to the airspeed in the plane of symmetry, up", () => {
    const { load } = evaluate({ ...bare, lift: { ...zeroPlane, atReference: 0.3, alpha: 5 } }, air);
    const lift = qS * (0.3 + 5 * (alpha - 0.02));
    expectAllClose(load, [lift * Math.sin(alpha), 0, -lift * Math.cos(alpha), 0, 0, 0], rounding);
  });
  it("drag is opposite to the airspeed, with sideslip too", () => {
    const slip = airState({ p: 0, q: 0, r: 0, v: 25 });
    const { load } = evaluate({ ...bare, drag: { kind: "linear", atReference: 0.05, alpha: 0, elevator: 0 } }, slip);
    const v = Math.hypot(110, 25, 7);
    const perSpeed = -0.5 * 0.909 * v * 8.2 * 0.05;
    expectAllClose(load, [perSpeed * 110, perSpeed * 25, perSpeed * 7, 0, 0, 0], rounding);
  });
  it("parabolic drag is C_D0 + C_L²/(π·AR·e)", () => {
    const model = derivativeModel(jet);
    model.evaluate(air, still, airLoad());
    const lift = 0.3 + 5 * (alpha - 0.02);
    expectClose(model.liftCoefficient, lift, rounding);
    expectClose(model.dragCoefficient, 0.026 + (lift * lift * 8.2) / (Math.PI * 7.4 * 7.4 * 0.8), rounding);
    expectClose(model.alpha, alpha, rounding);
    expectClose(model.speed, speed, rounding);
  });
  it("pitch rate acts through q·c/(2V)", () => {
    const turning = airState({ v: 0, p: 0, q: 0.2, r: 0 });
    const { load } = evaluate({ ...bare, pitch: { ...zeroPlane, pitchRate: -12 } }, turning);
    expectAllClose(load, [0, 0, 0, 0, (qS * 1.2 * -12 * 0.2 * 1.2) / (2 * speed), 0], rounding);
  });
  it("roll and yaw rates act through b/(2V) about the stability axes", () => {
    const rolling = airState({ v: 0, p: 0.3, q: 0, r: 0.1 });
    const { load } = evaluate({ ...bare, roll: { ...zeroLateral, rollRate: -0.5 } }, rolling);
    const stabilityRate = 0.3 * Math.cos(alpha) + 0.1 * Math.sin(alpha);
    const moment = (qS * 7.4 * -0.5 * stabilityRate * 7.4) / (2 * speed);
    expectAllClose(load, [0, 0, 0, moment * Math.cos(alpha), 0, moment * Math.sin(alpha)], rounding);
  });
  it("controls act with the signs of the contract", () => {
    const up = evaluate(bare.pitch === zeroPlane ? { ...bare, pitch: jet.pitch } : jet, air, {
      ...still,
      elevator: -0.1,
    });
    const level = evaluate({ ...bare, pitch: jet.pitch }, air);
    expectClose(up.load[4] - level.load[4], qS * 1.2 * 0.105, rounding, "trailing edge up pitches up");
    const right = evaluate({ ...bare, axes: { ...bare.axes, moments: "body" }, roll: jet.roll }, air, {
      ...still,
      aileron: 0.1,
    });
    expectClose(right.load[3], qS * 7.4 * 0.012, rounding, "positive aileron rolls right");
    const rudder = evaluate({ ...bare, axes: { ...bare.axes, moments: "body" }, yaw: jet.yaw }, air, {
      ...still,
      rudder: 0.1,
    });
    expectClose(rudder.load[5], qS * 7.4 * -0.0075, rounding, "trailing edge left yaws left");
  });
  it("thrust acts along its direction at its point", () => {
    const set = { ...bare, thrust: { direction: [2, 0, -1] as const, point: [-1, 0.3, 0.2] as const } };
    const { load } = evaluate(set, air, { ...still, thrust: 1000 });
    const f = [2000 / Math.sqrt(5), 0, -1000 / Math.sqrt(5)];
    expectAllClose(load, [...f, ...cross([-1, 0.3, 0.2], f)], rounding);
  });
});

describe("α̇ terms", () => {
  it("perAcceleration times the accelerations is the coefficient times α̇ of the reference point", () => {
    fc.assert(
      fc.property(motions, arm, accelerations, (motion, point, acceleration) => {
        const set: DerivativeSet = {
          ...bare,
          referencePoint: point,
          pitch: { ...zeroPlane, alphaRate: -3.5 },
          lift: { ...zeroPlane, alphaRate: 1.8 },
        };
        const out = evaluate(set, airState(motion));
        // α̇ by central difference of α of the reference point along the motion
        const step = 1e-5;
        const at = (time: number): { alpha: number; speed: number; inPlane: number } => {
          const [du, dv, dw, dp, dq, dr] = acceleration.map((a) => a * time);
          const spin = cross([motion.p + dp, motion.q + dq, motion.r + dr], point);
          const u = motion.u + du + spin[0];
          const v = motion.v + dv + spin[1];
          const w = motion.w + dw + spin[2];
          return { alpha: Math.atan2(w, u), speed: Math.hypot(u, v, w), inPlane: Math.hypot(u, w) };
        };
        const now = at(0);
        if (now.inPlane < 5) return;
        const alphaRate = (at(step).alpha - at(-step).alpha) / (2 * step);
        const factor = 0.25 * 0.909 * now.speed * 8.2 * 1.2 * alphaRate;
        const force = [factor * 1.8 * Math.sin(now.alpha), 0, -factor * 1.8 * Math.cos(now.alpha)];
        const moment = cross(point, force);
        moment[1] += factor * -3.5 * 1.2;
        const difference = { rtol: 1e-6, atol: 1e-3, why: "central difference of α, step 1e-5 s" };
        expectAllClose(total(out, acceleration), [...force, ...moment], difference);
      }),
      { seed: 76, numRuns: 200 },
    );
  });
});

describe("invariances", () => {
  const mirrored = (values: readonly number[]): number[] => values.map((x, i) => x * [1, -1, 1, -1, 1, -1][i]);

  it("mirrors left and right", () => {
    fc.assert(
      fc.property(motions, arm, accelerations, (motion, point, acceleration) => {
        const controls = { elevator: -0.05, aileron: 0.1, rudder: -0.07, thrust: 900 };
        const left: DerivativeSet = {
          ...jet,
          referencePoint: point,
          thrust: { direction: [1, 0.1, 0], point: [-0.5, 0.2, 0.1] },
        };
        const right: DerivativeSet = {
          ...jet,
          referencePoint: [point[0], -point[1], point[2]],
          thrust: { direction: [1, -0.1, 0], point: [-0.5, -0.2, 0.1] },
        };
        const seen = { ...motion, v: -motion.v, p: -motion.p, r: -motion.r };
        const a = evaluate(left, airState(motion), controls);
        const b = evaluate(right, airState(seen), { ...controls, aileron: -0.1, rudder: 0.07 });
        expectAllClose(total(b, mirrored(acceleration)), mirrored(total(a, acceleration)), rounding);
      }),
      { seed: 3, numRuns: 200 },
    );
  });

  it("has no lateral load without sideslip, lateral rates or controls", () => {
    const { load } = evaluate(jet, airState({ v: 0, p: 0, r: 0 }), { ...still, elevator: -0.1, thrust: 500 });
    expect([load[1], load[3], load[5]]).toEqual([0, 0, 0]);
  });

  it("gives the same load about one point whatever the c.g. of the body that carries the airframe", () => {
    // Two bodies in the same motion: c.g. at A, and at B = A + d. The airframe's reference point stays where it is.
    fc.assert(
      fc.property(motions, arm, arm, accelerations, (motion, point, d, acceleration) => {
        const spin = cross([motion.p, motion.q, motion.r], d);
        const atB = airState({ ...motion, u: motion.u + spin[0], v: motion.v + spin[1], w: motion.w + spin[2] });
        const turn = cross(acceleration.slice(3), d);
        const accelerationB = acceleration.map((a, i) => (i < 3 ? a + turn[i] : a));
        const fromB = point.map((x, i) => x - d[i]) as unknown as BodyVector;
        const a = total(evaluate({ ...jet, referencePoint: point }, airState(motion)), acceleration);
        const b = total(evaluate({ ...jet, referencePoint: fromB }, atB), accelerationB);
        expectAllClose(b, about(a, d), { rtol: 1e-9, atol: 1e-6, why: "round-off of loads up to 1e6 N" });
      }),
      { seed: 21, numRuns: 200 },
    );
  });

  it("takes no work from nothing: drag and every damper only take", () => {
    fc.assert(
      fc.property(motions, (motion) => {
        const air = airState(motion);
        const drag = evaluate({ ...bare, drag: { kind: "linear", atReference: 0.03, alpha: 0, elevator: 0 } }, air);
        const power = drag.load[0] * air.u + drag.load[1] * air.v + drag.load[2] * air.w;
        const speed = Math.hypot(air.u, air.v, air.w);
        expectClose(power, -0.5 * 0.909 * speed ** 3 * 8.2 * 0.03, rounding, "power of the drag");
        for (const set of [
          { ...bare, roll: { ...zeroLateral, rollRate: -0.5 } },
          { ...bare, yaw: { ...zeroLateral, yawRate: -0.2 } },
          { ...bare, pitch: { ...zeroPlane, pitchRate: -12 } },
        ]) {
          const { load } = evaluate(set, air);
          expect(load[3] * air.p + load[4] * air.q + load[5] * air.r).toBeLessThanOrEqual(0);
        }
        const lift = evaluate({ ...bare, lift: { ...zeroPlane, atReference: 0.4 } }, air);
        const side = evaluate({ ...bare, side: { ...zeroLateral, beta: -0.6 } }, air);
        for (const { load } of [lift, side]) {
          const work = load[0] * air.u + load[1] * air.v + load[2] * air.w;
          expectClose(work, 0, {
            atol: 1e-6,
            why: "round-off: wind-axis lift and side force are normal to the airspeed",
          });
        }
      }),
      { seed: 8, numRuns: 200 },
    );
  });

  it("stays finite down to no speed at all, backwards and sideways", () => {
    for (const motion of [
      { u: 0, v: 0, w: 0 },
      { u: 0, v: 5, w: 0 },
      { u: -50, v: 0, w: 0 },
      { u: 1e-200, v: 0, w: -1e-200 },
    ]) {
      const out = evaluate({ ...jet, referencePoint: [0, 0, 0] }, airState({ ...motion, p: 1, q: -1, r: 1 }));
      expect([...out.load, ...out.perAcceleration].every(Number.isFinite)).toBe(true);
    }
  });
});

describe("what cannot be evaluated", () => {
  it.each([
    [{ ...jet, chord: 0 }, /derivative set\.chord \[m\] is 0; allowed: greater than 0/],
    [{ ...jet, span: Number.NaN }, /derivative set\.span is NaN; allowed: a finite number/],
    [{ ...jet, lift: { ...jet.lift, alpha: Number.POSITIVE_INFINITY } }, /derivative set\.lift\.alpha is Infinity/],
    [{ ...jet, drag: { ...jet.drag, efficiency: -0.8 } as DerivativeSet["drag"] }, /drag\.efficiency is -0.8/],
    [{ ...jet, thrust: { ...jet.thrust, direction: [0, 0, 0] as const } }, /thrust\.direction is 0/],
  ])("%#", (set, message) => {
    expect(() => derivativeModel(set)).toThrow(message);
  });
});
