import { describe, expect, it } from "vitest";
import { fixtureRelease } from "../testing/index.ts";
import { printedWidth } from "./columns.ts";
import { releaseText } from "./index.ts";

const META = { pair: "Fixture", davit: "0.1.0", notice: "Made up." };
const widest = (text: string) => Math.max(...text.split("\n").map(printedWidth));
const flat = (text: string) => text.replace(/\s+/g, " ");

describe("text of the study release", () => {
  const text = releaseText(fixtureRelease(), META);

  it("puts the verdict first, then the parts in their order", () => {
    const parts = ["VERDICT  NOT MET", "CASES\n", "WITHDRAWAL\n", "ENVELOPE\n", "ROUGH AIR\n", "HANG-UPS\n"];
    const places = [...parts, "WHAT FALLS", "CARRIER\n", "FINDINGS\n", "LIMITS\n", "CAUTIONS\n"].map((part) =>
      text.indexOf(part),
    );
    expect(places[0]).toBeGreaterThan(0);
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(text).not.toMatch(/NaN|undefined|null/);
  });

  it("states edges with what ends them, shares with their denominators and intervals, hang-ups with their ways out", () => {
    expect(flat(text)).toContain("full: least airspeed 86.2 m/s EAS; beyond it: touches");
    expect(flat(text)).toContain("full: largest thrust 3.00 kN; clean in the whole range");
    expect(flat(text)).toContain("59 of 60 93.3 % to 100.0 %");
    expect(flat(text)).toContain("grows: sway doubles in 4.20 s");
    expect(flat(text)).toContain("the pin opens late, then the nose: clean");
    expect(flat(text)).toContain("1.50 g X H ?");
  });

  it("says what is not analysed and that a limit is not cleared", () => {
    expect(flat(text)).toContain("NOT CLEARED");
    expect(flat(text)).toContain("isolated from each other");
  });

  it("keeps any width asked for between 80 and 100", () => {
    for (const width of [80, 100])
      expect(widest(releaseText(fixtureRelease(), META, { width }))).toBeLessThanOrEqual(width);
  });
});
