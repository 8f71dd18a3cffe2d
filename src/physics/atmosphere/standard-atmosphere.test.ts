import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import {
  geometricFromGeopotential,
  geopotentialFromGeometric,
  pressureAltitude,
  standardAtmosphere,
  standardAtmosphereAtGeometric,
  writeStandardAtmosphere,
} from "./index.ts";

const altitudes = [-5000, -1, 0, 1, 3000, 10999.999, 11000, 11000.001, 20000, 32000, 47000, 51000, 71000, 84852];

describe("standard atmosphere", () => {
  it("is in hydrostatic balance: dp/dH = −ρ·g₀ on a standard day", () => {
    for (const H of [-4000, 500, 6000, 15000, 25000, 40000, 49000, 60000, 80000]) {
      const h = 10;
      const slope = (standardAtmosphere(H + h).pressure - standardAtmosphere(H - h).pressure) / (2 * h);
      const why = "central difference over 20 m";
      expectClose(slope, -9.80665 * standardAtmosphere(H).density, { rtol: 1e-6, why }, `H = ${H}`);
    }
  });

  it("is continuous where layers meet", () => {
    for (const H of [0, 11000, 20000, 32000, 47000, 51000, 71000]) {
      const below = standardAtmosphere(H - 1e-6);
      const above = standardAtmosphere(H + 1e-6);
      const close = { rtol: 1e-9, why: "2e-6 m apart" };
      expectClose(above.temperature, below.temperature, close);
      expectClose(above.pressure, below.pressure, close);
    }
  });

  it("warms at fixed pressure: density falls as 1/T, the speed of sound rises as √T", () => {
    const standard = standardAtmosphere(6000, 0);
    const hot = standardAtmosphere(6000, 25);
    expect(hot.pressure).toBe(standard.pressure);
    expect(hot.temperature).toBe(standard.temperature + 25);
    const ratio = standard.temperature / hot.temperature;
    const close = { rtol: 1e-14, why: "round-off" };
    expectClose(hot.density, standard.density * ratio, close);
    expectClose(hot.soundSpeed, standard.soundSpeed / Math.sqrt(ratio), close);
    expect(hot.viscosity).toBeGreaterThan(standard.viscosity);
  });

  it("uses the S of the viscosity equation, 110.4 K, and not the 110 K of the table (0.10 %)", () => {
    const { temperature: T, viscosity } = standardAtmosphere(0);
    const of = (S: number): number => (1.458e-6 * T ** 1.5) / (T + S);
    expectClose(viscosity, of(110.4), { rtol: 1e-14, why: "round-off" });
    expectClose(of(110) / viscosity - 1, 0.001, { atol: 5e-5, why: "known size of the error: 0.10 %" });
  });

  it("round trips pressure and altitude, geometric and geopotential altitude", () => {
    for (const H of altitudes) {
      expectClose(pressureAltitude(standardAtmosphere(H).pressure), H, {
        atol: 1e-6,
        why: "round-off of the logarithm",
      });
      const Z = geometricFromGeopotential(H);
      expectClose(geopotentialFromGeometric(Z), H, { rtol: 1e-13, atol: 1e-12, why: "round-off" });
      expect(Math.sign(Z - H)).toBe(H === 0 ? 0 : 1);
    }
  });

  it("reaches 86 km geometric and writes without allocating", () => {
    const top = standardAtmosphereAtGeometric(86000);
    const out = { pressure: 0, temperature: 0, density: 0, soundSpeed: 0, viscosity: 0 };
    writeStandardAtmosphere(geopotentialFromGeometric(86000), 0, out);
    expect(out).toEqual(top);
  });

  it.each([
    [() => standardAtmosphere(-5001), "pressure altitude [m] is -5001; allowed: -5000 to 84852 (geopotential)"],
    [() => standardAtmosphere(84853), "pressure altitude [m] is 84853"],
    [() => standardAtmosphere(Number.NaN), "pressure altitude [m] is NaN"],
    [() => standardAtmosphereAtGeometric(86001), "allowed: -5000 to 84852"],
    [() => standardAtmosphere(0, -300), "ISA temperature offset [K] is -300"],
    [() => standardAtmosphere(0, Number.NaN), "ISA temperature offset [K] is NaN"],
    [() => pressureAltitude(0), "static pressure [Pa] is 0"],
    [() => geopotentialFromGeometric(Number.POSITIVE_INFINITY), "geometric altitude [m] is Infinity"],
    [() => geometricFromGeopotential(7e6), "geopotential altitude [m] is 7000000"],
  ])("refuses what lies outside: %#", (call, message) => {
    expect(call).toThrow(message);
  });
});
