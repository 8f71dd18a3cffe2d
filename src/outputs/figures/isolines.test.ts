import { describe, expect, it } from "vitest";
import { isolines } from "./index.ts";

describe("isolines on logarithmic axes", () => {
  const x = [1, 10, 100, 1000];
  const y = [0.5, 5, 50];
  const plane = y.flatMap((b) => x.map((a) => Math.log10(a) + 2 * Math.log10(b)));

  it("give a power law back exactly, from edge to edge of the grid", () => {
    const lines = isolines(x, y, plane, 2.2);
    expect(lines).toHaveLength(1);
    for (const [a, b] of lines[0]!) expect(Math.log10(a * b * b)).toBeCloseTo(2.2, 12);
    const abscissae = lines[0]!.map(([a]) => a);
    expect(Math.max(...abscissae)).toBeGreaterThan(100);
    expect(Math.min(...abscissae)).toBeCloseTo(1, 9);
  });

  it("are none where the level is not reached", () => {
    expect(isolines(x, y, plane, 99)).toEqual([]);
  });
});
