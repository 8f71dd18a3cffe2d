import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import { createRk4Workspace, rk4Step } from "../../math/ode/index.ts";
import { type AircraftMotion, controlsFixed, noMotion, type RollHoldSettings, rollHold } from "./index.ts";

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const hold: RollHoldSettings = { rollGain: 1.2, rateGain: 0.4, actuatorLag: 0.1, aileronLimit: 0.35 };
const level: AircraftMotion = { ...noMotion(), pitch: 0.05, airspeed: 110 };
const trim = { elevator: -0.06, aileron: 0.02, rudder: -0.01, thrust: 850 };
const anyMotion = fc
  .record({
    bank: number(-3, 3),
    pitch: number(-1, 1),
    rollRate: number(-3, 3),
    pitchRate: number(-1, 1),
    yawRate: number(-1, 1),
  })
  .map((moved): AircraftMotion => ({ ...noMotion(), ...moved }));

const commanded = (law: typeof controlsFixed, state: Float64Array, offset: number, motion: AircraftMotion) => {
  const out = { elevator: 9, aileron: 9, rudder: 9, thrust: 9 };
  law.command(state, offset, motion, trim, out);
  return out;
};
/** Rate of the actuator at a motion and a deflection from trim. */
function rateOf(settings: RollHoldSettings, motion: Partial<AircraftMotion>, deflection = 0): number {
  const out = new Float64Array(1);
  rollHold(settings).derivative(Float64Array.of(deflection), 0, { ...level, ...motion }, out);
  return out[0];
}

describe("controlsFixed", () => {
  it("holds the trim whatever happens, without a state", () => {
    expect(controlsFixed.stateCount).toBe(0);
    fc.assert(
      fc.property(anyMotion, (motion) => {
        const state = Float64Array.of(5, 6);
        const out = Float64Array.of(7, 8);
        expect(commanded(controlsFixed, state, 2, motion)).toEqual(trim);
        controlsFixed.derivative(state, 2, motion, out);
        expect(Array.from(out)).toEqual([7, 8]);
      }),
      { seed: 41 },
    );
  });
});

describe("rollHold", () => {
  it("answers a bank to the right, or a roll to the right, with left aileron, and the other way round", () => {
    expect(rateOf(hold, { bank: 0.1 })).toBeLessThan(0);
    expect(rateOf(hold, { rollRate: 0.1 })).toBeLessThan(0);
    expectClose(rateOf(hold, { bank: 0.1 }), (-1.2 * 0.1) / 0.1, { rtol: 1e-14, why: "gain times bank over the lag" });
    expectClose(rateOf(hold, { rollRate: 0.1 }), (-0.4 * 0.1) / 0.1, {
      rtol: 1e-14,
      why: "gain times rate over the lag",
    });
    fc.assert(
      fc.property(anyMotion, number(-0.35, 0.35), (motion, deflection) => {
        const mirrored = { ...motion, bank: -motion.bank, rollRate: -motion.rollRate };
        const right = rateOf(hold, motion, deflection);
        expectClose(rateOf(hold, mirrored, -deflection), -right, { atol: 1e-15, why: "mirror" });
      }),
      { seed: 42 },
    );
  });

  it("senses bank and roll rate only", () => {
    fc.assert(
      fc.property(anyMotion, (motion) => {
        const { bank, rollRate } = motion;
        expect(rateOf(hold, motion)).toBe(rateOf(hold, { bank, rollRate }));
      }),
      { seed: 43 },
    );
  });

  it("adds its deflection to the trimmed aileron and leaves the other controls alone", () => {
    const law = rollHold(hold);
    expect(law.stateCount).toBe(1);
    const state = Float64Array.of(99, 0.1, 99);
    expect(commanded(law, state, 1, { ...level, bank: 2 })).toEqual({ ...trim, aileron: trim.aileron + 0.1 });
    const out = Float64Array.of(7, 7, 7);
    law.derivative(state, 1, level, out);
    expect(out[0]).toBe(7);
    expect(out[2]).toBe(7);
    expectClose(out[1], -1, { rtol: 1e-14, why: "0.1 rad over 0.1 s, back to trim" });
  });

  it("follows a step through a first-order lag of its time constant", () => {
    const law = rollHold(hold);
    const motion = { ...level, bank: -0.2 };
    const state = new Float64Array(1);
    const workspace = createRk4Workspace(1);
    const derivative = (_t: number, y: Float64Array, out: Float64Array): void => law.derivative(y, 0, motion, out);
    for (const time of [0.1, 0.2, 0.3]) {
      for (let i = 0; i < 100; i++) rk4Step(derivative, 0, state, 1e-3, state, workspace);
      const expected = 1.2 * 0.2 * (1 - Math.exp(-time / 0.1));
      expectClose(state[0], expected, { rtol: 1e-9, why: "Runge-Kutta, step a hundredth of the lag" }, `${time} s`);
    }
  });

  it("never passes its limit, and reaches it", () => {
    fc.assert(
      fc.property(anyMotion, number(-0.35, 0.35), (motion, deflection) => {
        const rate = rateOf(hold, motion, deflection);
        expect(deflection + hold.actuatorLag * rate).toBeGreaterThanOrEqual(-0.35 - 1e-15);
        expect(deflection + hold.actuatorLag * rate).toBeLessThanOrEqual(0.35 + 1e-15);
      }),
      { seed: 44 },
    );
    expectClose(rateOf(hold, { bank: 1 }), -3.5, { rtol: 1e-14, why: "limit over lag" });
    expectClose(rateOf(hold, { bank: -1 }), 3.5, { rtol: 1e-14, why: "limit over lag" });
    expect(rateOf(hold, { bank: 1 }, -0.35)).toBe(0);
  });

  it("brings a rolling aircraft back to level, and with the gain reversed takes it away", () => {
    // ṗ = L_p·p + L_δ·δ: positive aileron rolls to the right (NOTATION.md)
    const bankAfter = (settings: RollHoldSettings): number => {
      const law = rollHold(settings);
      const motion = { ...level };
      const derivative = (_t: number, y: Float64Array, out: Float64Array): void => {
        motion.bank = y[0];
        motion.rollRate = y[1];
        const { aileron } = commanded(law, y, 2, motion);
        out[0] = y[1];
        out[1] = -2 * y[1] + 8 * (aileron - trim.aileron);
        law.derivative(y, 2, motion, out);
      };
      const state = Float64Array.of(0.2, 0, 0);
      const workspace = createRk4Workspace(3);
      for (let i = 0; i < 1000; i++) rk4Step(derivative, 0, state, 0.01, state, workspace);
      return state[0];
    };
    expect(Math.abs(bankAfter(hold))).toBeLessThan(1e-6);
    expect(bankAfter({ ...hold, rollGain: 0, rateGain: 0 })).toBe(0.2);
    expect(bankAfter({ ...hold, rollGain: -1.2, rateGain: 0 })).toBeGreaterThan(1);
  });

  it.each([
    ["actuator lag", { actuatorLag: 0 }],
    ["actuator lag", { actuatorLag: Number.NaN }],
    ["aileron limit", { aileronLimit: 0 }],
    ["gain", { rollGain: Number.NaN }],
    ["gain", { rateGain: Number.POSITIVE_INFINITY }],
  ])("refuses a bad %s", (quantity, change) => {
    expect(() => rollHold({ ...hold, ...change })).toThrow(DomainError);
    expect(() => rollHold({ ...hold, ...change })).toThrow(`roll hold, ${quantity} is`);
  });
});
