import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gasForce } from "../../../reference/analytic/gas-spring/closed-form.ts";
import { flowFactor } from "../../../reference/analytic/laminar-passage/closed-form.ts";
import { orificeCoefficient as closedOrifice } from "../../../reference/analytic/quadratic-damper/closed-form.ts";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import {
  type Accumulator,
  ATMOSPHERE,
  accumulatorState,
  bleedCoefficient,
  bulkModulusAt,
  densityAt,
  dynamicViscosity,
  type Fluid,
  kinematicViscosity,
  laminarResistance,
  orificeCoefficient,
  pistonPressure,
  reynoldsNumber,
  trappedOilStiffness,
} from "./index.ts";

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const rounding = { rtol: 1e-12, why: "the same terms in another order" };

const OIL: Fluid = {
  viscosity: [
    { temperature: 313.15, viscosity: 14e-6 },
    { temperature: 373.15, viscosity: 5.2e-6 },
  ],
  density: 850,
  densityTemperature: 288.15,
  expansion: 7e-4,
  bulkModulus: 1.4e9,
  gasContent: 0.01,
};

describe("oil", () => {
  it("comes back at both viscosities and runs straight on the axes of the chart", () => {
    const [cold, hot] = OIL.viscosity;
    expectClose(kinematicViscosity(OIL.viscosity, cold.temperature), 14e-6, rounding);
    expectClose(kinematicViscosity(OIL.viscosity, hot.temperature), 5.2e-6, rounding);
    const y = (t: number) => Math.log10(Math.log10(kinematicViscosity(OIL.viscosity, t) * 1e6 + 0.7));
    // a third point at the geometric mean of the temperatures lies half way
    const middle = Math.sqrt(250 * 360);
    expectClose(y(middle), 0.5 * (y(250) + y(360)), { rtol: 1e-12, why: "a straight line" });
  });

  it("thins whenever it warms", () => {
    fc.assert(
      fc.property(number(220, 390), number(0.5, 20), (temperature, step) => {
        expect(kinematicViscosity(OIL.viscosity, temperature + step)).toBeLessThan(
          kinematicViscosity(OIL.viscosity, temperature),
        );
      }),
      { seed: 3 },
    );
  });

  it("keeps its mass: density times volume", () => {
    expect(densityAt(OIL, 288.15)).toBe(850);
    expectClose(densityAt(OIL, 333.15) * (1 + 7e-4 * 45), 850, rounding);
    expectClose(dynamicViscosity(OIL, 313.15), 14e-6 * densityAt(OIL, 313.15), rounding);
  });

  it("has the bulk modulus of its volume by differences, slow and fast", () => {
    for (const exponent of [1, 1.4]) {
      for (const pressure of [2e5, 1e6, 2e7]) {
        const volume = (p: number) =>
          Math.exp(-(p - pressure) / OIL.bulkModulus) + OIL.gasContent * (ATMOSPHERE / p) ** (1 / exponent);
        const h = 1e-3 * pressure;
        const slope =
          (8 * (volume(pressure + h) - volume(pressure - h)) - volume(pressure + 2 * h) + volume(pressure - 2 * h)) /
          (12 * h);
        const closeness = { rtol: 1e-8, why: "differences of order four, steps of 1e-3" };
        expectClose(bulkModulusAt(OIL, pressure, exponent), -volume(pressure) / slope, closeness);
      }
    }
  });

  it("is the liquid without gas, softer with more gas, stiffer under more pressure", () => {
    expectClose(bulkModulusAt({ ...OIL, gasContent: 0 }, 1e6), 1.4e9, rounding);
    expect(bulkModulusAt({ ...OIL, gasContent: 0.02 }, 1e6)).toBeLessThan(bulkModulusAt(OIL, 1e6));
    expect(bulkModulusAt(OIL, 1e6)).toBeLessThan(bulkModulusAt(OIL, 5e6));
    expectClose(bulkModulusAt(OIL, 1e9), 1.4e9, { rtol: 2e-3, why: "hardly any gas is left at 1 GPa" });
  });

  it.each([
    ["the points in the wrong order", [OIL.viscosity[1], OIL.viscosity[0]], 300],
    ["oil that thickens", [OIL.viscosity[0], { temperature: 373.15, viscosity: 20e-6 }], 300],
    ["a viscosity below the equation", [OIL.viscosity[0], { temperature: 373.15, viscosity: 1e-6 }], 300],
    ["a temperature so high that the equation ends", OIL.viscosity, 800],
  ] as const)("refuses %s", (_, points, temperature) => {
    expect(() => kinematicViscosity(points as unknown as Fluid["viscosity"], temperature)).toThrow(DomainError);
  });
});

describe("passages", () => {
  it("orifice: the closed form, and its fixed point", () => {
    const given = { density: 850, pistonArea: 1e-3, orificeArea: 1e-5, dischargeCoefficient: 0.62 };
    const c2 = orificeCoefficient({ area: 1e-5, dischargeCoefficient: 0.62 }, 1e-3, 850);
    expectClose(c2, closedOrifice(given), rounding);
    expectClose(c2, 11056.19, { atol: 0.005, why: "two decimals; 850/(2·0.62²)·10" });
  });

  it("orifice: the power of the piston heats the oil, Δp·Q", () => {
    fc.assert(
      fc.property(number(1e-6, 1e-4), number(1e-3, 0.1), number(0.01, 1), (area, piston, speed) => {
        const force = orificeCoefficient({ area, dischargeCoefficient: 0.6 }, piston, 850) * speed ** 2;
        const flow = piston * speed;
        const drop = 0.5 * 850 * (flow / (0.6 * area)) ** 2;
        expectClose(force * speed, drop * flow, rounding);
      }),
      { seed: 4 },
    );
  });

  it("tube and annulus carry the flow of their velocity profile", () => {
    const closeness = { rtol: 1e-9, why: "Simpson's rule with 4000 intervals" };
    const tube = { kind: "tubes", count: 1, diameter: 2e-3, length: 0.1 } as const;
    expectClose(laminarResistance(tube), 0.1 / flowFactor(1e-3, 0), closeness, "tube");
    for (const width of [1e-2, 2e-3, 5e-4, 4.1e-4, 3.9e-4, 1e-4]) {
      const gap = { kind: "annular gap", diameter: 0.04, width, length: 0.05 } as const;
      // the profile itself cancels for thin gaps
      const loss = { rtol: 1e-9 + 1e-15 / (width / 0.02) ** 3, why: "Simpson's rule, cancelling profile" };
      expectClose(laminarResistance(gap), 0.05 / flowFactor(0.02, 0.02 - width), loss, `gap ${width}`);
    }
  });

  it("a thin gap is the flow between plates of its mean circumference", () => {
    const width = 1e-5;
    const gap = laminarResistance({ kind: "annular gap", diameter: 0.04, width, length: 0.05 });
    const plates = (12 * 0.05) / (Math.PI * (0.04 - width) * width ** 3);
    expectClose(gap, plates, { rtol: 1e-6, why: "curvature enters with the square of gap over radius" });
  });

  it("n tubes resist as one of n times the flow; half the bore resists sixteen times", () => {
    const one = laminarResistance({ kind: "tubes", count: 1, diameter: 2e-3, length: 0.1 });
    expectClose(laminarResistance({ kind: "tubes", count: 8, diameter: 2e-3, length: 0.1 }), one / 8, rounding);
    expectClose(laminarResistance({ kind: "tubes", count: 1, diameter: 1e-3, length: 0.1 }), 16 * one, rounding);
  });

  it("bleed: the power of the piston is that of the flow", () => {
    const bleed = { kind: "tubes", count: 8, diameter: 2.5e-3, length: 0.3 } as const;
    const c1 = bleedCoefficient(bleed, 6.872e-3, 0.0218);
    const flow = 6.872e-3 * 0.05;
    expectClose(c1 * 0.05 ** 2, laminarResistance(bleed) * 0.0218 * flow * flow, rounding);
  });

  it("Reynolds number of a tube and of a thin gap", () => {
    // w = 1 m/s in a bore of 2 mm, ν = 20 mm²/s
    const flow = Math.PI * 1e-6;
    expectClose(reynoldsNumber({ kind: "tubes", count: 1, diameter: 2e-3, length: 1 }, flow, 20e-6), 100, rounding);
    const gap = { kind: "annular gap", diameter: 0.0401, width: 1e-4, length: 1 } as const;
    const through = Math.PI * 0.04 * 1e-4;
    expectClose(reynoldsNumber(gap, through, 20e-6), 10, rounding);
  });

  it.each([
    ["orifice area", () => orificeCoefficient({ area: 0, dischargeCoefficient: 0.6 }, 1e-3, 850)],
    ["piston area", () => orificeCoefficient({ area: 1e-5, dischargeCoefficient: 0.6 }, 0, 850)],
    ["bleed diameter", () => laminarResistance({ kind: "tubes", count: 1, diameter: 0, length: 1 })],
    [
      "radius inside the bleed gap",
      () => laminarResistance({ kind: "annular gap", diameter: 1, width: 0.5, length: 1 }),
    ],
  ])("refuses a bad %s", (quantity, attempt) => {
    expect(attempt).toThrow(DomainError);
    expect(attempt).toThrow(`${quantity} is`);
  });
});

describe("accumulator", () => {
  const GAS: Accumulator = {
    precharge: 2e6,
    prechargeTemperature: 288.15,
    volume: 0.4e-3,
    gasLoss: 0,
    lineCompliance: 0,
  };

  it("has the stiffness of p·Vⁿ by differences, slow and fast", () => {
    const area = 6.872e-3;
    for (const exponent of [1, 1.4]) {
      const { stiffness, gasVolume } = accumulatorState(GAS, 3e6, 288.15, area, exponent);
      const h = 1e-4;
      const force = (x: number) => gasForce(3e6, gasVolume, area, exponent, x);
      const slope = (8 * (force(h) - force(-h)) - force(2 * h) + force(-2 * h)) / (12 * h);
      expectClose(stiffness, slope, { rtol: 1e-8, why: "differences of order four" });
    }
  });

  it("keeps its gas: p·V/T is that of the precharge, less the loss", () => {
    fc.assert(
      fc.property(number(2.5e6, 2e7), number(230, 320), number(0, 0.5), (pressure, temperature, gasLoss) => {
        const { gasVolume, outcome } = accumulatorState({ ...GAS, gasLoss }, pressure, temperature, 5e-3, 1.4);
        expect(outcome).toBe("gas");
        const given = (2e6 * 0.4e-3 * (1 - gasLoss)) / 288.15;
        expectClose((pressure * gasVolume) / temperature, given, rounding);
      }),
      { seed: 5 },
    );
  });

  it("stiffens with the square of the pressure, in the cold and with leakage", () => {
    const k = (p: number, t: number, gasLoss: number) =>
      accumulatorState({ ...GAS, gasLoss }, p, t, 5e-3, 1.4).stiffness;
    expectClose(k(6e6, 288.15, 0), 4 * k(3e6, 288.15, 0), rounding);
    expectClose(k(3e6, 233.15, 0), (k(3e6, 288.15, 0) * 288.15) / 233.15, rounding);
    expectClose(k(3e6, 288.15, 0.2), k(3e6, 288.15, 0) / 0.8, rounding);
  });

  it("is oil and hose below the precharge, and in line with them above it", () => {
    const lined = { ...GAS, lineCompliance: 1e-12 };
    const bottomed = accumulatorState(lined, 1.9e6, 288.15, 5e-3, 1.4);
    expect(bottomed.outcome).toBe("bottomed");
    expectClose(bottomed.stiffness, 25e-6 / 1e-12, rounding);
    const gas = accumulatorState(GAS, 3e6, 288.15, 5e-3, 1.4).stiffness;
    const both = accumulatorState(lined, 3e6, 288.15, 5e-3, 1.4).stiffness;
    expectClose(1 / both, 1 / gas + 1 / bottomed.stiffness, rounding);
    expect(accumulatorState(GAS, 1.9e6, 288.15, 5e-3, 1.4).stiffness).toBe(Number.POSITIVE_INFINITY);
  });

  it("oil shut in: the fixed point 14 MN/m", () => {
    expectClose(trappedOilStiffness(1.4e9, 1e-3, 1e-4), 1.4e7, rounding);
  });

  it("the piston balances load, counter force and pressure", () => {
    expectClose(pistonPressure(-5800, 26_400, 6.872e-3) * 6.872e-3, 20_600, rounding);
    expect(pistonPressure(-30_000, 26_400, 6.872e-3)).toBeLessThan(0);
  });

  it.each([
    ["accumulator precharge", { ...GAS, precharge: 0 }],
    ["accumulator volume", { ...GAS, volume: 0 }],
    ["gas left in the accumulator", { ...GAS, gasLoss: 1 }],
  ])("refuses a bad %s", (quantity, gas) => {
    const attempt = () => accumulatorState(gas, 3e6, 288.15, 5e-3, 1.4);
    expect(attempt).toThrow(DomainError);
    expect(attempt).toThrow(`${quantity} is`);
  });
});
