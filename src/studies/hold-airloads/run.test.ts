import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { holdDemo } from "../../../test/support/load-demo.ts";

const NAME = "Rev B tables";

describe("airloads from the demo's tables", () => {
  const result = holdDemo(NAME, [], ["airloads"]);
  const points = result.parts!.airloads!.points;

  it("are taken apart at each trim, near the derivatives that the tables were drawn from", () => {
    expect(points.map((point) => point.mass)).toEqual(["full", "return", "empty"]);
    for (const { inside, values, mach_1 } of points) {
      expect(inside).toBe(true);
      const compressible = Math.sqrt((1 - 0.3367 ** 2) / (1 - mach_1 ** 2));
      expectClose(values.CLalpha, 5 * compressible, { rtol: 5e-3, why: "interpolated between Mach 0.2, 0.4 and 0.6" });
      expectClose(values.Clbeta, -0.022, { rtol: 1e-4, why: "straight line in the table, six decimals" });
      expectClose(values.Cnrudder, -0.075, { rtol: 1e-3, why: "straight line in the table, six decimals" });
      expect(values.CLmach).toBeGreaterThan(0);
    }
  });

  it("balance the aircraft: lift carries the weight, moments vanish with the tip's pull", () => {
    const [full] = points;
    const trim = result.points[0].trim!;
    expectClose(full.alpha_deg, trim.alpha_deg, { rtol: 1e-12, why: "same trim" });
    expectClose(full.values.CL, trim.liftCoefficient, { rtol: 1e-9, why: "level flight, no share on the tip" });
  });

  it("say the static margin, and rest on the files", () => {
    const finding = result.findings.find(({ id }) => id === "hold.hook.full.static-margin")!;
    expectClose(finding.value!, -points[0].values.Cmalpha / points[0].values.CLalpha, {
      rtol: 1e-12,
      why: "definition",
    });
    expect(finding.rests).toContain("carried.airloads.still");
    expect(finding.rests).toContain("carried.airloads.nearCarrier");
  });

  it("say when a trim lies beyond a table", () => {
    const high = holdDemo(NAME, ["conditions.hook.altitude=11000 m"], ["airloads"]);
    expect(high.parts!.airloads!.points[0].inside).toBe(false);
    const finding = high.findings.find(({ id }) => id === "hold.hook.full.tables")!;
    expect(finding.verdict).toBe("not analysed");
    expect(finding.note).toContain("Mach 0.6");
  });

  it("do not run for a pair that gives derivatives", () => {
    expect(holdDemo("Rev B", [], ["airloads"]).parts).toEqual({});
  });
});
