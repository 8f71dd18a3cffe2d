import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import {
  type Airspeed,
  calibratedAirspeed,
  dynamicPressure,
  equivalentAirspeed,
  machNumber,
  standardAtmosphere,
  trueAirspeed,
} from "./index.ts";

const seaLevel = standardAtmosphere(0);

describe("airspeeds", () => {
  it("round trip through every kind at any altitude and temperature", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 0.93, noNaN: true }),
        fc.double({ min: -1000, max: 20000, noNaN: true }),
        fc.double({ min: -40, max: 40, noNaN: true }),
        (mach, altitude, offset) => {
          const air = standardAtmosphere(altitude, offset);
          const kinds: Airspeed[] = [
            { kind: "Mach", value: mach },
            { kind: "TAS", value: trueAirspeed({ kind: "Mach", value: mach }, air) },
            { kind: "EAS", value: equivalentAirspeed({ kind: "Mach", value: mach }, air) },
            { kind: "CAS", value: calibratedAirspeed({ kind: "Mach", value: mach }, air) },
          ];
          const close = { rtol: 1e-12, why: "round-off of a power and its inverse" };
          for (const speed of kinds) {
            expectClose(machNumber(speed, air), mach, close, speed.kind);
            expectClose(trueAirspeed(speed, air), kinds[1].value, close, `TAS of ${speed.kind}`);
            expectClose(equivalentAirspeed(speed, air), kinds[2].value, close, `EAS of ${speed.kind}`);
            expectClose(calibratedAirspeed(speed, air), kinds[3].value, close, `CAS of ${speed.kind}`);
          }
        },
      ),
      { seed: 1976, numRuns: 300 },
    );
  });

  it("are one and the same at sea level on a standard day", () => {
    for (const value of [0, 10, 100, 300]) {
      const close = { rtol: 1e-13, atol: 1e-300, why: "round-off" };
      for (const kind of ["CAS", "EAS", "TAS"] as const) {
        expectClose(trueAirspeed({ kind, value }, seaLevel), value, close, kind);
        expectClose(calibratedAirspeed({ kind, value }, seaLevel), value, close, kind);
      }
    }
  });

  it("calibrated tends to equivalent when the air is hardly compressed, with the classical second-order difference", () => {
    const air = standardAtmosphere(6000);
    const pressureRatio = air.pressure / seaLevel.pressure;
    const differences = [0.02, 0.04].map((mach) => {
      const eas = equivalentAirspeed({ kind: "Mach", value: mach }, air);
      return calibratedAirspeed({ kind: "EAS", value: eas }, air) / eas - 1;
    });
    // (CAS/EAS)² ≈ (1 + M²/4)/(1 + (p/p₀)·M²/4), so CAS/EAS − 1 ≈ M²·(1 − p/p₀)/8
    differences.forEach((difference, i) => {
      const mach = [0.02, 0.04][i];
      const expected = (mach * mach * (1 - pressureRatio)) / 8;
      expectClose(difference, expected, { rtol: 2e-3, why: "next term of the series in M²" });
    });
    expectClose(differences[1] / differences[0], 4, { rtol: 2e-3, why: "second order in M" });
  });

  it("give the dynamic pressure ½·ρ₀·V_e²", () => {
    const air = standardAtmosphere(9000, 12);
    const eas = 105;
    const expected = 0.5 * seaLevel.density * eas * eas;
    expectClose(dynamicPressure({ kind: "EAS", value: eas }, air), expected, { rtol: 1e-13, why: "round-off" });
  });

  it.each<[Airspeed, string]>([
    [{ kind: "Mach", value: 1 }, "airspeed [Mach] is 1; allowed: 0 or more, below Mach 1"],
    [{ kind: "TAS", value: -1 }, "airspeed [TAS m/s] is -1"],
    [{ kind: "EAS", value: Number.NaN }, "airspeed [EAS m/s] is NaN"],
    [{ kind: "CAS", value: 290 }, "airspeed [CAS m/s] is 290"],
    [{ kind: "CAS", value: 400 }, "airspeed [CAS m/s] is 400"],
  ])("refuses %o in 9 km", (speed, message) => {
    const air = standardAtmosphere(9000);
    for (const convert of [machNumber, trueAirspeed, equivalentAirspeed, calibratedAirspeed]) {
      expect(() => convert(speed, air)).toThrow(message);
    }
  });

  it("refuses a speed whose calibrated value would need a shock in the instrument, below sea level", () => {
    const deep = standardAtmosphere(-5000);
    expect(() => calibratedAirspeed({ kind: "Mach", value: 0.9999 }, deep)).toThrow("airspeed [Mach] is 0.9999");
  });
});
