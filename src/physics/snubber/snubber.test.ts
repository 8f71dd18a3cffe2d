import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { energyPerCycle, orificeCoefficient } from "../../../reference/analytic/quadratic-damper/closed-form.ts";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import { equivalentSnubberRate, referToTip, type SnubberLaw } from "./index.ts";

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const laws = fc.record({ linear: number(0, 1e4), quadratic: number(0, 1e5) });
const amplitudes = number(1e-3, 0.2);
const frequencies = number(0.1, 50);

/** Force against the motion, from README eq. 1. */
const forceOf = (law: SnubberLaw, v: number): number => law.linear * v + law.quadratic * v * Math.abs(v);

/** ∮g(t) dt over one cycle by Simpson's rule; the four quarters are smooth each, their ends are nodes. */
function overCycle(frequency: number, g: (time: number) => number): number {
  const intervals = 2400;
  const h = (2 * Math.PI) / frequency / intervals;
  let sum = 0;
  for (let i = 0; i < intervals; i++) sum += g(i * h) + 4 * g((i + 0.5) * h) + g((i + 1) * h);
  return (sum * h) / 6;
}

const simpson = { rtol: 1e-10, why: "Simpson's rule with 600 intervals a quarter errs by 1e-12" };
const rounding = { rtol: 1e-12, atol: 1e-300, why: "the same terms in another order" };

describe("equivalentSnubberRate", () => {
  it("takes the energy of the closed form, and the closed form that of the force by quadrature", () => {
    fc.assert(
      fc.property(laws, amplitudes, frequencies, (law, amplitude, frequency) => {
        const velocity = (time: number): number => frequency * amplitude * Math.cos(frequency * time);
        const taken = overCycle(frequency, (time) => forceOf(law, velocity(time)) * velocity(time));
        expectClose(energyPerCycle(law, amplitude, frequency), taken, simpson, "energy per cycle");
        const c = equivalentSnubberRate(law, amplitude, frequency);
        expectClose(Math.PI * c * frequency * amplitude ** 2, energyPerCycle(law, amplitude, frequency), rounding);
      }),
      { seed: 11, numRuns: 50 },
    );
  });

  it("is the fundamental of the force in phase with the velocity, with nothing in phase with the travel", () => {
    const law = { linear: 1500, quadratic: 20e3 };
    const [amplitude, frequency] = [0.022, 4.7];
    const velocity = (time: number): number => frequency * amplitude * Math.cos(frequency * time);
    const share = (wave: (x: number) => number): number =>
      (frequency / Math.PI) * overCycle(frequency, (time) => forceOf(law, velocity(time)) * wave(frequency * time));
    const c = equivalentSnubberRate(law, amplitude, frequency);
    expectClose(share(Math.cos), c * frequency * amplitude, simpson);
    expectClose(share(Math.sin), 0, {
      atol: 1e-10 * c * frequency * amplitude,
      why: "the force is even about each peak",
    });
  });

  it("gives an orifice the rate that its energy by quadrature says", () => {
    const quadratic = orificeCoefficient({
      density: 850,
      pistonArea: 1e-3,
      orificeArea: 1e-5,
      dischargeCoefficient: 0.62,
    });
    const [amplitude, frequency] = [0.01, 10];
    const velocity = (time: number): number => frequency * amplitude * Math.cos(frequency * time);
    const taken = overCycle(frequency, (time) => quadratic * Math.abs(velocity(time)) ** 3);
    const c = equivalentSnubberRate({ linear: 0, quadratic }, amplitude, frequency);
    expectClose(c, taken / (Math.PI * frequency * amplitude ** 2), simpson);
  });

  it("is the bleed alone without an orifice, and more with one", () => {
    expect(equivalentSnubberRate({ linear: 3500, quadratic: 0 }, 0.3, 9)).toBe(3500);
    expect(equivalentSnubberRate({ linear: 3500, quadratic: 20e3 }, 0, 9)).toBe(3500);
    expect(equivalentSnubberRate({ linear: 3500, quadratic: 20e3 }, 0.3, 0)).toBe(3500);
    expect(equivalentSnubberRate({ linear: 3500, quadratic: 1 }, 0.01, 1)).toBeGreaterThan(3500);
  });

  it("depends on amplitude and frequency only through the peak velocity", () => {
    fc.assert(
      fc.property(laws, amplitudes, frequencies, number(0.2, 5), (law, amplitude, frequency, factor) => {
        const c = equivalentSnubberRate(law, amplitude, frequency);
        expectClose(equivalentSnubberRate(law, amplitude * factor, frequency / factor), c, rounding);
      }),
      { seed: 12 },
    );
  });

  it.each([
    ["snubber C1", { linear: -1, quadratic: 0 }, 0.01, 1],
    ["snubber C2", { linear: 0, quadratic: -1 }, 0.01, 1],
    ["snubber C2", { linear: 0, quadratic: Number.POSITIVE_INFINITY }, 0.01, 1],
    ["snubber amplitude", { linear: 0, quadratic: 1 }, -0.01, 1],
    ["snubber frequency", { linear: 0, quadratic: 1 }, 0.01, Number.NaN],
  ] as const)("refuses a bad %s", (quantity, law, amplitude, frequency) => {
    const attempt = (): number => equivalentSnubberRate(law, amplitude, frequency);
    expect(attempt).toThrow(DomainError);
    expect(attempt).toThrow(`${quantity} is`);
  });
});

describe("referToTip", () => {
  const ratios = number(0.2, 20);

  it("keeps energy and power: spring, bleed and orifice do the same work at jack and tip", () => {
    fc.assert(
      fc.property(number(1, 1e6), ratios, number(-0.3, 0.3), (value, ratio, atJack) => {
        const atTip = ratio * atJack;
        expectClose(0.5 * referToTip(value, ratio) * atTip ** 2, 0.5 * value * atJack ** 2, rounding, "strain energy");
        expectClose(
          referToTip(value, ratio, 3) * Math.abs(atTip) ** 3,
          value * Math.abs(atJack) ** 3,
          rounding,
          "power",
        );
        // and by virtual work the tip force is the jack force over the ratio
        expectClose(referToTip(value, ratio) * atTip, (value * atJack) / ratio, rounding, "force");
      }),
      { seed: 13 },
    );
  });

  it("gives the same equivalent rate on either side", () => {
    fc.assert(
      fc.property(laws, amplitudes, frequencies, ratios, (law, amplitude, frequency, ratio) => {
        const tipLaw = { linear: referToTip(law.linear, ratio), quadratic: referToTip(law.quadratic, ratio, 3) };
        const atTip = equivalentSnubberRate(tipLaw, ratio * amplitude, frequency);
        expectClose(atTip, referToTip(equivalentSnubberRate(law, amplitude, frequency), ratio), rounding);
      }),
      { seed: 14 },
    );
  });

  it("comes back with the inverse ratio", () => {
    fc.assert(
      fc.property(number(0, 1e6), ratios, fc.constantFrom(2, 3), (value, ratio, power) => {
        expectClose(referToTip(referToTip(value, ratio, power), 1 / ratio, power), value, {
          ...rounding,
          atol: 1e-300,
        });
      }),
      { seed: 15 },
    );
  });

  it("is softer at a tip that travels further than the jack", () => {
    expect(referToTip(9e6, 3)).toBe(1e6);
    expect(referToTip(27e3, 3, 3)).toBe(1e3);
    expect(referToTip(Number.POSITIVE_INFINITY, 3)).toBe(Number.POSITIVE_INFINITY);
  });

  it("refuses a ratio that is no ratio and a value that is no rate", () => {
    for (const ratio of [0, -3, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => referToTip(1e4, ratio)).toThrow("tip travel per jack travel is");
    }
    for (const value of [-1, Number.NaN]) expect(() => referToTip(value, 3)).toThrow(DomainError);
  });
});
