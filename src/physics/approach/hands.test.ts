import { describe, expect, it } from "vitest";
import { INNER } from "../../../test/support/approach-settings.ts";
import { expectClose } from "../../../test/support/close.ts";
import { longshore } from "../../../test/support/longshore.ts";
import { DomainError } from "../../math/errors.ts";
import { TransferFunction } from "../../math/linear-system/index.ts";
import { controlPlant, freeAircraft, surfaceInputs } from "../bodies/index.ts";
import { pilotFunction, SIGNALS } from "../pilot/index.ts";
import { PilotAxisSteps, PilotSteps } from "./hands.ts";
import { controlledElement, type LearntSettings, learntPilot } from "./learnt.ts";
import type { PilotHands } from "./settings.ts";

const TICK = 0.02;

/** Gain and phase of a law in ticks at a frequency, by the last whole periods of a long sine. */
function response(step: (error: number) => number, omega: number, tick: number): [number, number] {
  const period = (2 * Math.PI) / omega;
  const ticks = Math.round((30 * period) / tick);
  const from = Math.round((20 * period) / tick);
  let [re, im] = [0, 0];
  for (let k = 0; k < ticks; k++) {
    const t = k * tick;
    const y = step(Math.sin(omega * t));
    if (k < from) continue;
    re += y * Math.sin(omega * t);
    im += y * Math.cos(omega * t);
  }
  return [(2 * re) / (ticks - from), (2 * im) / (ticks - from)];
}

describe("axis of a pilot in ticks", () => {
  it.each([
    ["with lead", { gain: 0.8, lead: 0.7, lag: 0, neuromuscularLag: 0.1 }],
    ["with lag", { gain: 2, lead: 0, lag: 1.5, neuromuscularLag: 0.2 }],
    ["with neither", { gain: 1, lead: 0, lag: 0, neuromuscularLag: 0.1 }],
    ["with both", { gain: 1, lead: 0.3, lag: 1, neuromuscularLag: 0.1 }],
  ])("%s has the frequency response of the pilot as a linear system, better with shorter ticks", (_, axis) => {
    const transfer = new TransferFunction(pilotFunction("pitch", axis).system, SIGNALS.indexOf("pitch"));
    const out = new Float64Array(2);
    for (const omega of [0.5, 2]) {
      const errors = [0.02, 0.005].map((tick) => {
        const steps = new PilotAxisSteps(axis, tick);
        const [re, im] = response((e) => steps.step(e), omega, tick);
        transfer.evaluate(0, omega, out);
        return Math.hypot(re - out[0], im - out[1]) / Math.hypot(out[0], out[1]);
      });
      expectClose(errors[0], 0, {
        atol: 0.75 * omega * 0.02 + 0.005,
        why: "held over a tick: late by about half a tick",
      });
      expect(errors[1]).toBeLessThan(0.4 * errors[0]);
    }
  });

  it("refuses gains below zero and muscles without lag", () => {
    expect(() => new PilotAxisSteps({ gain: -1, lead: 0, lag: 0, neuromuscularLag: 0.1 }, TICK)).toThrow(DomainError);
    expect(() => new PilotAxisSteps({ gain: 1, lead: 0, lag: 0, neuromuscularLag: 0 }, TICK)).toThrow("neuromuscular");
  });
});

const axis = { gain: 1, lead: 0, lag: 0, neuromuscularLag: TICK / 2 }; // the mean of two ticks
const hands: PilotHands = {
  ...{ pitch: axis, bank: axis, delay: 0.3, remnant: 0, placeThreshold: 0, speedThreshold: 0 },
};

describe("hands of a pilot", () => {
  it("act after exactly the delay", () => {
    const pilot = new PilotSteps(hands, TICK);
    pilot.restart(1, 1);
    pilot.step(0, 0);
    for (let k = 1; k < 40; k++) {
      pilot.step(0.1, -0.2);
      const share = k < 16 ? 0 : k === 16 ? 0.5 : 1;
      expectClose(pilot.noseUp, 0.1 * share, { atol: 1e-12, why: "15 ticks" });
      expectClose(pilot.bankRight, -0.2 * share, { atol: 1e-12, why: "15 ticks" });
    }
  });

  it("add noise whose density follows the mean square of what is tracked, and repeat it", () => {
    const pilot = new PilotSteps({ ...hands, delay: 0, remnant: 0.01 }, TICK);
    const take = (size: number, index: number): number[] => {
      pilot.restart(3, index);
      return Array.from({ length: 20_000 }, () => {
        pilot.step(size, 0);
        return pilot.noseUp - size;
      });
    };
    const noise = take(0.1, 0);
    const settled = noise.slice(2000);
    const variance = settled.reduce((sum, x) => sum + x * x, 0) / settled.length;
    expectClose(variance, 0.5 * ((2 * Math.PI * 0.01) / TICK) * 0.01, {
      rtol: 5 * Math.sqrt(3 / settled.length),
      why: "eq. 11: 2πΦs²/Δt, halved by the mean of two; five deviations of a variance of neighbours that share half",
    });
    expect(take(0.1, 1)).not.toEqual(noise);
    expect(take(0.1, 0)).toEqual(noise);
    expect(take(0, 0).every((x) => x === 0)).toBe(true);
  });
});

describe("pilot who has learnt the free aircraft", () => {
  const actuator = { lag: 0.06, rate: 0.7, travel: 0.1, delay: 0.02 };
  const settings: LearntSettings = {
    actuators: { elevator: actuator, aileron: actuator },
    inner: INNER,
    crossover: { pitch: 1.5, bank: 1.5 },
    ...{ neuromuscularLag: 0.1, largestLead: 2.5, largestLag: 10 },
  };

  it.each([95, 105])("makes the loop of slope −1 and gain 1 at the crossover, at %d m/s", (equivalentAirspeed) => {
    const free = freeAircraft({ ...longshore({ equivalentAirspeed }), law: surfaceInputs, thrust: "trim" });
    const { plant } = controlPlant(free.motion, free.state);
    const pilot = learntPilot(plant, settings);
    for (const name of ["pitch", "bank"] as const) {
      const aircraft = new TransferFunction(controlledElement(plant, name, settings));
      const own = new TransferFunction(pilotFunction(name, pilot[name]).system, SIGNALS.indexOf(name));
      const out = new Float64Array(2);
      const size = (omega: number): number => {
        aircraft.evaluate(0, omega, out);
        const first = Math.hypot(out[0], out[1]);
        own.evaluate(0, omega, out);
        return first * Math.hypot(out[0], out[1]);
      };
      expectClose(size(1.5), 1, { rtol: 1e-9, why: "the gain is set there" });
      const slope = Math.log(size(1.5 * 1.02) / size(1.5 / 1.02)) / (2 * Math.log(1.02));
      expectClose(slope, -1, { atol: 2e-3, why: "slope over ±2 % of the frequency" }, `${name}`);
      expectClose(pilot[name].slopeReached, -1, { atol: 1e-9, why: "the pilot has lead and lag enough" });
    }
  });
});
