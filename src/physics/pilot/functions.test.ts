import { describe, expect, it } from "vitest";
import { expectAllClose, expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import { TransferFunction } from "../../math/linear-system/index.ts";
import {
  bankHold,
  type ControlFunction,
  damperOf,
  heightHold,
  noMotion,
  pilotFunction,
  pitchHold,
  rollHold,
  SIGNALS,
  type Signal,
  yawDamper,
} from "./index.ts";

/** Demand per signal at a frequency, as real and imaginary part. */
function demand({ system }: ControlFunction, signal: Signal, omega: number): [number, number] {
  const out = new Float64Array(2);
  new TransferFunction(system, SIGNALS.indexOf(signal)).evaluate(0, omega, out);
  return [out[0], out[1]];
}
const exact = { rtol: 1e-13, atol: 1e-15, why: "rounding" };

describe("functions of an autopilot", () => {
  it("oppose: elevator down against nose up, left aileron against a right bank, rudder left against a right yaw", () => {
    expectAllClose(demand(pitchHold(0.6, 0.3), "pitch", 0), [0.6, 0], exact);
    expectAllClose(demand(pitchHold(0.6, 0.3), "pitchRate", 0), [0.3, 0], exact);
    expectAllClose(demand(bankHold(0.8, 0.25), "bank", 0), [-0.8, 0], exact);
    expectAllClose(demand(bankHold(0.8, 0.25), "rollRate", 0), [-0.25, 0], exact);
    expect(demand(yawDamper(0.4, 2), "yawRate", 1)[0]).toBeGreaterThan(0);
    expectAllClose(demand(heightHold(0.6, 0.02, 0.05), "height", 0), [0.6 * 0.02, 0], exact);
    expectAllClose(demand(heightHold(0.6, 0.02, 0.05), "verticalSpeed", 0), [0.6 * 0.05, 0], exact);
  });

  it("sense what they are made for and nothing else", () => {
    const senses = (of: ControlFunction): Signal[] =>
      SIGNALS.filter((signal) => Math.hypot(...demand(of, signal, 1)) > 0);
    expect(senses(pitchHold(1, 1))).toEqual(["pitch", "pitchRate"]);
    expect(senses(bankHold(1, 1))).toEqual(["bank", "rollRate"]);
    expect(senses(yawDamper(1, 1))).toEqual(["yawRate"]);
    expect(senses(heightHold(1, 1, 1))).toEqual(["height", "verticalSpeed"]);
    expect(senses(pilotFunction("bank", { gain: 1, lead: 0, lag: 0, neuromuscularLag: 0.1 }))).toEqual(["bank"]);
  });

  it("leave a damper when a pilot takes the angle", () => {
    expect(damperOf(pitchHold(0.6, 0.3)).name).toBe("pitch damper");
    expectAllClose(demand(damperOf(pitchHold(0.6, 0.3)), "pitch", 1), [0, 0], exact);
    expectAllClose(demand(damperOf(pitchHold(0.6, 0.3)), "pitchRate", 1), [0.3, 0], exact);
    expectAllClose(demand(damperOf(bankHold(0.6, 0.3)), "bank", 1), [0, 0], exact);
    expectAllClose(demand(damperOf(bankHold(0.6, 0.3)), "rollRate", 1), [-0.3, 0], exact);
  });

  it("give the roll hold that `rollHold` is", () => {
    const law = rollHold({ rollGain: 0.8, rateGain: 0.25, actuatorLag: 0.1, aileronLimit: 1 });
    const out = new Float64Array(1);
    law.derivative(new Float64Array(1), 0, { ...noMotion(), bank: 0.1, rollRate: -0.3 }, out);
    const by = (signal: Signal): number => demand(bankHold(0.8, 0.25), signal, 0)[0];
    expectClose(0.1 * by("bank") - 0.3 * by("rollRate"), 0.1 * out[0], exact);
  });

  it("leave a steady turn alone and act on yaw faster than the washout", () => {
    const damper = yawDamper(0.4, 2);
    expectAllClose(demand(damper, "yawRate", 0), [0, 0], exact);
    // 0.4·jω·2/(1 + 2jω) at ω = 0.5: 0.4·(0.5 + 0.5j)
    expectAllClose(demand(damper, "yawRate", 0.5), [0.2, 0.2], exact);
    expectClose(demand(damper, "yawRate", 1e4)[0], 0.4, { rtol: 1e-6, why: "far above 1/T_w" });
  });

  it("realise the pilot's transfer function", () => {
    const pilot = { gain: 1.3, lead: 0.7, lag: 0.4, neuromuscularLag: 0.1 };
    for (const dynamics of [pilot, { ...pilot, lag: 0 }, { ...pilot, lead: 0 }]) {
      for (const omega of [0, 0.4, 2, 15]) {
        // K·(1 + jωT_L)/((1 + jωT_I)(1 + jωT_N)) by size and angle
        const { gain, lead, lag, neuromuscularLag } = dynamics;
        const angle = Math.atan(omega * lead) - Math.atan(omega * lag) - Math.atan(omega * neuromuscularLag);
        const size =
          (gain * Math.hypot(1, omega * lead)) / Math.hypot(1, omega * lag) / Math.hypot(1, omega * neuromuscularLag);
        expectAllClose(
          demand(pilotFunction("pitch", dynamics), "pitch", omega),
          [size * Math.cos(angle), size * Math.sin(angle)],
          { rtol: 1e-12, atol: 1e-13, why: "rounding" },
        );
        const bank = demand(pilotFunction("bank", dynamics), "bank", omega);
        expectAllClose(bank, [-size * Math.cos(angle), -size * Math.sin(angle)], { atol: 1e-12, why: "rounding" });
      }
    }
  });

  it("refuse what no function has", () => {
    const pilot = { gain: 1, lead: 0, lag: 0, neuromuscularLag: 0.1 };
    expect(() => pitchHold(Number.NaN, 0)).toThrow(DomainError);
    expect(() => yawDamper(1, 0)).toThrow("washout");
    expect(() => pilotFunction("bank", { ...pilot, neuromuscularLag: 0 })).toThrow("neuromuscular lag");
    expect(() => pilotFunction("bank", { ...pilot, lead: -1 })).toThrow("lead");
  });
});
