import { describe, expect, it } from "vitest";
import { loadPublished } from "../../../reference/load.ts";
import { expectClose } from "../../../test/support/close.ts";
import { DomainError } from "../../math/errors.ts";
import { exceedanceProbability, exceededIntensity, severityIntensities } from "./index.ts";

const chart = loadPublished("mil-turbulence-exceedance");
const COLUMNS = {
  "p0.2": 0.2,
  "p1e-1": 1e-1,
  "p1e-2": 1e-2,
  "p1e-3": 1e-3,
  "p1e-4": 1e-4,
  "p1e-5": 1e-5,
  "p1e-6": 1e-6,
};

describe("intensity chart", () => {
  it("gives every row (mil-turbulence-exceedance)", () => {
    const rows = chart.table("sigma");
    expect(rows.length).toBe(12);
    for (const row of rows) {
      for (const [name, probability] of Object.entries(COLUMNS)) {
        const printed = row(name);
        const own = exceededIntensity(row("altitude").si, probability);
        expectClose(own, printed.si, { atol: 1e-9, why: "a row itself" }, `${row("altitude").printed} ft, ${name}`);
      }
    }
  });

  it("agrees with the other digitisation at 37 000 ft, severe", () => {
    const other = chart.quantity("severe at 37000 ft, other digitisation");
    expectClose(exceededIntensity(37000 * 0.3048, 1e-5), other.si, { atol: 0.12, why: "its own stated accuracy" });
  });

  it("falls with the probability between the columns; severity names; inverse", () => {
    const altitude = 3000;
    let before = 0;
    for (let k = 0; k <= 50; k++) {
      const probability = 0.19 * 10 ** (-k / 10);
      if (probability < 1e-6) break;
      const sigma = exceededIntensity(altitude, probability);
      expect(sigma).toBeGreaterThanOrEqual(before);
      before = sigma;
      if (sigma > 0) expectClose(exceedanceProbability(altitude, sigma), probability, { rtol: 1e-9, why: "inverse" });
    }
    const { light, moderate, severe } = severityIntensities(altitude);
    expect([light, moderate, severe]).toEqual([1e-2, 1e-3, 1e-5].map((p) => exceededIntensity(altitude, p)));
    expect(exceedanceProbability(altitude, 1000)).toBe(1e-6);
    expect(exceedanceProbability(altitude, 0)).toBe(0.2);
  });

  it("where a curve has left the chart it says 0", () => {
    // light is off the chart above 45 000 ft
    expect(severityIntensities(50000 * 0.3048).light).toBe(0);
  });

  it("refuses what lies outside", () => {
    expect(() => exceededIntensity(100, 1e-3)).toThrow(DomainError);
    expect(() => exceededIntensity(3000, 0.5)).toThrow(DomainError);
  });
});
