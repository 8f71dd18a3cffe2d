import { describe, expect, it } from "vitest";
import type { CertaintyResult } from "../../studies/hold-certainty/types.ts";
import { fixtureCertainty } from "../testing/index.ts";
import { certaintyText } from "./certainty-text.ts";

const look = { width: 100, colour: false };
const lines = certaintyText(fixtureCertainty(), look);
const text = lines.join("\n");

describe("certaintyText", () => {
  it("tells each plane's spread, probability with its interval, bound, worst case and distance", () => {
    const flat = text.replace(/\s+/g, " ");
    expect(flat).toContain("hook, lateral: worst ζ 0.0500 ± 0.0410 (1σ), nominal 0.0500, criterion 0.03");
    expect(flat).toMatch(/criterion missed in 33\.6 % \(95 % interval 26\.9 % to 42\.2 %, 37 of 110 samples\)/);
    expect(flat).toContain("worst within ± 3 σ -0.0700");
    expect(flat).toContain("limit 0.49 σ from the nominal values");
  });

  it("ranks drivers and tests under short names, and stays within its width", () => {
    expect(text).toMatch(/roll\.Clbeta +70 % ± 5 % +72 % ± 6 % +69 % +0\.0130/);
    expect(text).toMatch(/full\.inertia\.Iyy, full\.inertia\.Izz .* group/);
    expect(text).toMatch(/wind tunnel +60 % +0\.0260 +5\.0 % +40 %/);
    for (const width of [80, 100]) {
      for (const line of certaintyText(fixtureCertainty(), { width, colour: false })) {
        expect([...line].length).toBeLessThanOrEqual(width);
      }
    }
  });

  it("finds words for every way in which a distance may be missing", () => {
    const [condition] = fixtureCertainty().conditions;
    const told = (outcome: "flat" | "no value" | "not reached" | "converged", sigma_1: number): string => {
      const [plane] = condition.planes;
      const planes = [{ ...plane, worstCase: null, distance: { ...plane.distance, outcome, sigma_1 } }];
      const result: CertaintyResult = { groundTests: [], conditions: [{ ...condition, planes }] };
      return certaintyText(result, look).join(" ").replace(/\s+/g, " ");
    };
    expect(told("flat", 0)).toContain("no uncertain value changes this motion");
    expect(told("no value", 0)).toContain("no modes at the nominal values");
    expect(told("not reached", 8)).toContain("limit farther than 8.00 σ");
    expect(told("converged", -0.4)).toContain("nominal values 0.40 σ beyond the limit");
    expect(told("flat", 0)).not.toContain("worst within");
  });
});
