import { describe, expect, it } from "vitest";
import { fixtureHookon } from "../testing/index.ts";
import { printedWidth } from "./columns.ts";
import { hookonText } from "./index.ts";

const META = { pair: "Fixture", davit: "0.1.0", notice: "Made up." };
const widest = (text: string) => Math.max(...text.split("\n").map(printedWidth));
const flat = (text: string) => text.replace(/\s+/g, " ");

describe("text of the study hookon", () => {
  const text = hookonText(fixtureHookon(), META);

  it("puts the verdict first, then the parts in their order", () => {
    const parts = ["VERDICT  NOT MET", "APPROACHES\n", "CLOSURE WINDOW\n", "CAPTURE MAP\n", "MISSES\n", "CONTACT\n"];
    const places = [...parts, "BREAKAWAY\n", "FINDINGS\n", "LIMITS\n", "CAUTIONS\n"].map((part) => text.indexOf(part));
    expect(places[0]).toBeGreaterThan(0);
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(text).not.toMatch(/NaN|undefined|null/);
  });

  it("states shares with both intervals and the denominators", () => {
    expect(flat(text)).toContain("200 approaches a case");
    const [first, ...rest] = fixtureHookon().cases;
    const one = hookonText({ ...fixtureHookon(), cases: [{ ...first, samples: 1 }, ...rest] }, META);
    expect(flat(one)).toContain("1 approach a case");
    expect(flat(text)).toContain("autopilot, light 1.5 92.0 %");
    expect(flat(text)).toContain("missed 4.0 %, bounced 4.0 %");
  });

  it("says what is not analysed and that a limit is not cleared", () => {
    expect(flat(text)).toContain("NOT CLEARED from 0.5 m/s to 1.9 m/s");
    expect(flat(text)).toContain("bow wave of the nose");
  });

  it("keeps any width asked for between 80 and 100", () => {
    for (const width of [80, 100])
      expect(widest(hookonText(fixtureHookon(), META, { width }))).toBeLessThanOrEqual(width);
  });

  it("leaves out what was not run", () => {
    const bare = { ...fixtureHookon(), maps: [], breakaway: null, cases: [] };
    const short = hookonText(bare, META);
    expect(short).not.toContain("CAPTURE MAP");
    expect(short).not.toContain("BREAKAWAY");
  });
});
