import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import { lowAltitudeIntensity, turbulenceScales } from "./index.ts";

const FOOT = 0.3048;
const at = (feet: number) => turbulenceScales("MIL-F-8785C", "Dryden", feet * FOOT);

describe("scale lengths and intensity ratios", () => {
  it("low altitude by hand: Lu and σu/σw at 50, 200, 500 and 1000 ft", () => {
    const rows = [
      [50, 310.8, 1.8386],
      [200, 725.8, 1.5367],
      [500, 944.7, 1.2362],
      [1000, 1000.0, 1.0],
    ];
    for (const [feet, length, ratio] of rows) {
      const { Lu, Lv, Lw, uOverW, vOverW } = at(feet!);
      expectClose(Lu / FOOT, length!, { atol: 0.06, why: "one decimal" });
      expectClose(uOverW, ratio!, { atol: 6e-5, why: "four decimals" });
      expect(Lv).toBe(Lu);
      expect(vOverW).toBe(uOverW);
      expectClose(Lw / FOOT, feet!, { rtol: 1e-12, why: "Lw = h" });
    }
  });

  it("trap: the exponent of the intensity ratio is 0.4, not that of the length", () => {
    const wrong = 1 / (0.177 + 0.000823 * 200) ** 1.2;
    expect(Math.abs(at(200).uOverW - wrong)).toBeGreaterThan(1);
  });

  it("medium altitude: 1750 ft Dryden, 2500 ft von Kármán, equal intensities; straight lines from 1000 to 2000 ft", () => {
    for (const feet of [2000, 5000, 40000]) {
      expectClose(at(feet).Lw / FOOT, 1750, { rtol: 1e-12, why: "constant" });
      expect(at(feet).uOverW).toBe(1);
      expectClose(turbulenceScales("MIL-F-8785C", "von Karman", feet * FOOT).Lu / FOOT, 2500, {
        rtol: 1e-12,
        why: "constant",
      });
    }
    expectClose(at(1500).Lu / FOOT, 0.5 * (1000.0 + 1750), { atol: 0.06, why: "middle" });
    expectClose(at(1000.001).Lw, at(999.999).Lw, { rtol: 1e-5, why: "continuous" });
  });

  it("MIL-HDBK-1797 halves the lengths across the path and nothing else", () => {
    for (const feet of [100, 1300, 9000]) {
      const own = turbulenceScales("MIL-HDBK-1797", "Dryden", feet * FOOT);
      expect(own.Lu).toBe(at(feet).Lu);
      expect(2 * own.Lv).toBe(at(feet).Lv);
      expect(2 * own.Lw).toBe(at(feet).Lw);
      expect(own.uOverW).toBe(at(feet).uOverW);
    }
  });

  it("intensity near the ground from the wind at 20 ft; below 10 ft nothing is known", () => {
    expectClose(lowAltitudeIntensity(30 * 0.514444), 1.543, { rtol: 1e-3, why: "moderate, 30 kt" });
    expect(() => at(9)).toThrow(DomainError);
    expect(() => lowAltitudeIntensity(-1)).toThrow(DomainError);
  });
});
