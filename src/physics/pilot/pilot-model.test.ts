import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import { type ComplexOf, loopMargins } from "../../math/linear-system/index.ts";
import { type PilotSettings, type TunedPilot, tunePilot } from "./index.ts";

const settings: PilotSettings = { crossover: 2, neuromuscularLag: 1e-9, largestLead: 5, largestLag: 20 };
/** Gain over first-order factors: K·s^−integrators/(Ts + 1). */
const element =
  (gain: number, integrators: number, T = 0): ComplexOf =>
  (omega, out) => {
    const size = gain / omega ** integrators / Math.hypot(1, omega * T);
    const angle = (-integrators * Math.PI) / 2 - Math.atan(omega * T);
    out[0] = size * Math.cos(angle);
    out[1] = size * Math.sin(angle);
  };
/** Pilot with delay times element. */
const loopOf =
  (pilot: TunedPilot, controlled: ComplexOf, delay: number): ComplexOf =>
  (omega, out) => {
    controlled(omega, out);
    const { gain, lead, lag, neuromuscularLag: muscles } = pilot;
    const size = (gain * Math.hypot(1, omega * lead)) / Math.hypot(1, omega * lag) / Math.hypot(1, omega * muscles);
    const angle = Math.atan(omega * lead) - Math.atan(omega * lag) - Math.atan(omega * muscles) - omega * delay;
    const [c, s] = [size * Math.cos(angle), size * Math.sin(angle)];
    const [re, im] = [out[0], out[1]];
    out[0] = re * c - im * s;
    out[1] = re * s + im * c;
  };

describe("pilot of crossover type", () => {
  it("needs neither lead nor lag on an integrator, and crosses where it should", () => {
    const pilot = tunePilot(element(4, 1), settings);
    expectClose(pilot.lead, 0, { atol: 1e-6, why: "slope by difference" });
    expectClose(pilot.lag, 0, { atol: 1e-6, why: "slope by difference" });
    expectClose(pilot.gain, 0.5, { rtol: 1e-9, why: "ω_c/K" });
    expectClose(pilot.slopeReached, -1, { atol: 1e-9, why: "slope of an integrator" });
  });

  it("cancels a lag behind an integrator with a lead of the same time, whatever the crossover", () => {
    for (const crossover of [0.5, 2, 6]) {
      for (const T of [0.2, 1, 2.5]) {
        const pilot = tunePilot(element(3, 1, T), { ...settings, crossover });
        expectClose(pilot.lead, T, { rtol: 1e-3, why: "slope over a span of ±2 % of ω" });
        expect(pilot.lag).toBe(0);
      }
    }
  });

  it("adds to a lag of time T the lag 1/(ω_c²·T) that makes the slope −1", () => {
    const pilot = tunePilot(element(3, 0, 0.4), settings);
    expectClose(pilot.lag, 1 / (4 * 0.4), { rtol: 1e-3, why: "slope over a span of ±2 % of ω" });
    expectClose(pilot.slopeReached, -1, { atol: 1e-9, why: "rule" });
  });

  it("takes all the lag there is on a plain gain and all the lead on a double integrator, and says what is missing", () => {
    const onGain = tunePilot(element(3, 0), settings);
    expect(onGain.lag).toBe(20);
    expectClose(onGain.slopeReached, -(40 ** 2) / (1 + 40 ** 2), { rtol: 1e-9, why: "lag of 20 s at 2 rad/s" });
    const onDouble = tunePilot(element(3, 2), settings);
    expect(onDouble.lead).toBe(5);
    expectClose(onDouble.slopeReached, -2 + 100 / 101, { rtol: 1e-9, why: "lead of 5 s at 2 rad/s" });
  });

  it("closes a loop with the margins of the crossover model, π/2 − ω_c·τ and so on (analytic/delayed-integrator)", () => {
    const delay = 0.3;
    const controlled = element(4, 1, 0.7);
    const pilot = tunePilot(controlled, settings);
    const margins = loopMargins(loopOf(pilot, controlled, delay), { from: 0.02, to: 50 });
    const close = { rtol: 2e-3, why: "lead to 1e-3" };
    expectClose(margins.gainCrossings[0].omega, 2, { rtol: 1e-6, why: "gain set there" });
    expectClose(margins.phaseMargin!, Math.PI / 2 - 2 * delay, close);
    expectClose(margins.gainIncrease!, Math.PI / (2 * 2 * delay), close);
    expectClose(margins.delayMargin!, (Math.PI / 2 - 2 * delay) / 2, close);
  });

  it("counts the neuromuscular lag as part of what it equalises", () => {
    const pilot = tunePilot(element(4, 1), { ...settings, neuromuscularLag: 0.2 });
    expectClose(pilot.lead, 0.2, { rtol: 1e-3, why: "lead against its own lag" });
  });

  it("refuses settings and elements without sense", () => {
    expect(() => tunePilot(element(1, 1), { ...settings, crossover: 0 })).toThrow(DomainError);
    expect(() => tunePilot(element(1, 1), { ...settings, neuromuscularLag: -0.1 })).toThrow(DomainError);
    expect(() => tunePilot(element(1, 1), { ...settings, largestLead: -1 })).toThrow(DomainError);
    expect(() => tunePilot(element(0, 1), settings)).toThrow("controlled element");
  });
});
