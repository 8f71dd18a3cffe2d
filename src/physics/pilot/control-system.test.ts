import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import { linearSystem } from "../../math/linear-system/index.ts";
import { createRk4Workspace, rk4Step } from "../../math/ode/index.ts";
import {
  type AircraftMotion,
  bankHold,
  type Channels,
  controlSystem,
  handOver,
  heightHold,
  noMotion,
  pitchHold,
  rollHold,
  SIGNALS,
  yawDamper,
} from "./index.ts";

const actuator = { lag: 0.1, rate: 0.5, travel: 0.35, delay: 0 };
const trim = { elevator: -0.06, aileron: 0.02, rudder: -0.01, thrust: 850 };
const level: AircraftMotion = { ...noMotion(), pitch: 0.05, height: 12 };

/** Surfaces after a time under a constant motion. */
function moved(channels: Channels, motion: AircraftMotion, time: number, order = 3) {
  const law = controlSystem(channels, level, order);
  const state = new Float64Array(law.stateCount);
  const workspace = createRk4Workspace(law.stateCount);
  const steps = Math.round(time / 5e-4);
  for (let i = 0; i < steps; i++) {
    rk4Step((_t, y, out) => law.derivative(y, 0, motion, out), 0, state, time / steps, state, workspace);
  }
  const out = { elevator: 9, aileron: 9, rudder: 9, thrust: 9 };
  law.command(state, 0, motion, trim, out);
  return { surfaces: out, state, law };
}

describe("control system", () => {
  it("leaves every surface at trim while nothing deviates, and the surfaces without function always", () => {
    const channels: Channels = { elevator: { functions: [pitchHold(1, 1), heightHold(1, 0.1, 0)], actuator } };
    expect(moved(channels, level, 0.5).surfaces).toEqual(trim);
    const { surfaces } = moved(channels, { ...level, bank: 1, yawRate: 1 }, 0.5);
    expect(surfaces).toEqual(trim);
  });

  it("adds up the functions of one surface", () => {
    const channels: Channels = { elevator: { functions: [pitchHold(1, 0), heightHold(1, 0.1, 0)], actuator } };
    const { surfaces } = moved(channels, { ...level, pitch: 0.07, height: 12.3 }, 3);
    expectClose(surfaces.elevator, trim.elevator + 0.02 + 0.03, { rtol: 1e-9, why: "30 lags later" });
  });

  it("hands each signal to the function that asks for it", () => {
    for (const signal of SIGNALS) {
      const D = SIGNALS.map((each) => (each === signal ? 1 : 0));
      const system = linearSystem({ states: 0, inputs: SIGNALS.length, outputs: 1 }, { D });
      const channels: Channels = { rudder: { functions: [{ name: "probe", effector: "rudder", system }], actuator } };
      const { surfaces } = moved(channels, { ...level, [signal]: level[signal] + 0.1 }, 3);
      expectClose(surfaces.rudder - trim.rudder, 0.1, { rtol: 1e-9, why: "30 lags later" }, signal);
    }
  });

  it("moves as `rollHold` does inside its rate", () => {
    const gains = { rollGain: 0.8, rateGain: 0.25 };
    const law = rollHold({ ...gains, actuatorLag: 0.1, aileronLimit: 0.35 });
    const motion = { ...level, bank: 0.03, rollRate: 0.04 };
    const channels: Channels = { aileron: { functions: [bankHold(0.8, 0.25)], actuator } };
    const state = Float64Array.of(0);
    const workspace = createRk4Workspace(1);
    for (let i = 0; i < 400; i++) {
      rk4Step((_t, y, out) => law.derivative(y, 0, motion, out), 0, state, 5e-4, state, workspace);
    }
    expectClose(moved(channels, motion, 0.2).surfaces.aileron, trim.aileron + state[0], {
      rtol: 1e-12,
      why: "same steps",
    });
  });

  it("runs no faster than its rate and no further than its travel", () => {
    const channels: Channels = { aileron: { functions: [bankHold(5, 0)], actuator } };
    expectClose(moved(channels, { ...level, bank: 1 }, 0.4).surfaces.aileron, trim.aileron - 0.2, {
      rtol: 1e-9,
      why: "rate × time",
    });
    expectClose(moved(channels, { ...level, bank: 1 }, 4).surfaces.aileron, trim.aileron - 0.35, {
      rtol: 1e-9,
      why: "travel",
    });
  });

  it("delays what it does: the response lies about the delayed one of a first-order lag", () => {
    const channels: Channels = {
      aileron: { functions: [bankHold(-1, 0)], actuator: { ...actuator, rate: 9, delay: 0.2 } },
    };
    const { surfaces } = moved(channels, { ...level, bank: 0.1 }, 0.6, 5);
    const expected = 0.1 * (1 - Math.exp(-(0.6 - 0.2) / 0.1));
    expectClose(surfaces.aileron - trim.aileron, expected, {
      atol: 5e-4,
      why: "Padé of order 5, three delays after the step",
    });
  });

  it("fails hard over at its rate, to its stop, whatever is sensed", () => {
    for (const direction of [1, -1] as const) {
      const channels: Channels = {
        aileron: { functions: [bankHold(5, 0)], actuator, fault: { kind: "hard-over", direction } },
      };
      const { surfaces } = moved(channels, { ...level, bank: 0.3 * direction }, 0.3);
      expectClose(surfaces.aileron, trim.aileron + 0.15 * direction, { rtol: 1e-9, why: "rate × time" });
      const later = moved(channels, level, 5).surfaces;
      expectClose(later.aileron, trim.aileron + 0.35 * direction, { rtol: 1e-9, why: "stop" });
    }
  });

  it("oscillates with the amplitude and lag of its actuator", () => {
    const fault = { kind: "oscillatory", amplitude: 0.04, omega: 5 } as const;
    const channels: Channels = { rudder: { functions: [yawDamper(1, 1)], actuator, fault } };
    // sine through 1/(Ts + 1), long after the start: size 1/√(1 + 0.25), lag atan(0.5)
    const time = 4;
    const expected = (0.04 * Math.sin(5 * time - Math.atan(0.5))) / Math.sqrt(1.25);
    const { surfaces } = moved(channels, level, time);
    expectClose(surfaces.rudder - trim.rudder, expected, { atol: 1e-9, why: "forty lags after the start" });
  });

  it("hands a surface over where it is, with functions and delay at rest", () => {
    const channels: Channels = { aileron: { functions: [bankHold(1, 0)], actuator: { ...actuator, delay: 0.1 } } };
    const before = moved(channels, { ...level, bank: 0.1 }, 0.5);
    const next = controlSystem(
      { rudder: { functions: [yawDamper(1, 1)], actuator }, aileron: { functions: [], actuator } },
      level,
      3,
    );
    const state = handOver(before.law, Float64Array.of(7, 8, ...before.state), 2, next);
    expect(Array.from(state.subarray(0, 2))).toEqual([7, 8]);
    const out = { elevator: 0, aileron: 0, rudder: 0, thrust: 0 };
    next.command(state, 2, level, trim, out);
    expect(out).toEqual({ ...before.surfaces, rudder: trim.rudder });
  });

  it.each([
    ["lag", { lag: 0 }],
    ["rate", { rate: -1 }],
    ["travel", { travel: Number.NaN }],
    ["delay", { delay: -0.01 }],
  ])("refuses an actuator with a bad %s", (what, change) => {
    const channels: Channels = { rudder: { functions: [], actuator: { ...actuator, ...change } } };
    expect(() => controlSystem(channels, level, 3)).toThrow(DomainError);
    expect(() => controlSystem(channels, level, 3)).toThrow(`actuator of the rudder, ${what}`);
  });
});
