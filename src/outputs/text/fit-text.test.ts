import { describe, expect, it } from "vitest";
import type { FitResult } from "../../studies/fit/types.ts";
import { STANDARD_CAUTIONS } from "../cautions/index.ts";
import { fixtureFit } from "../testing/index.ts";
import { printedWidth } from "./columns.ts";
import { fitText } from "./index.ts";

const FIT = fixtureFit();
const META = { pair: "Fixture", davit: "0.1.0", notice: "Made up." };
const ESC = String.fromCharCode(27);
const widest = (text: string) => Math.max(...text.split("\n").map(printedWidth));
const flat = (text: string) => text.replace(/\s+/g, " ");

describe("text of the study fit", () => {
  const text = fitText(FIT, META);

  it("puts the verdict first, then the parts in their order", () => {
    const places = [
      "VERDICT  NOT MET",
      "STROKE\n",
      "CLEARANCES\n",
      "NOT LOOKED AT\n",
      "ORDER OF MOVES\n",
      "ZONES\n",
      "GROUND\n",
      "LOADING\n",
      "TOLERANCES\n",
      "FINDINGS\n",
      "LIMITS\n",
      "ASSUMED\n",
      "NOT ANALYSED\n",
      "CAUTIONS\n",
    ].map((part) => text.indexOf(part));
    expect(places[0]).toBeGreaterThan(0);
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(text).not.toContain(ESC);
    expect(text).not.toMatch(/NaN|undefined|null/);
  });

  it("keeps any width asked for between 80 and 100", () => {
    for (const width of [80, 84, 100, 300]) {
      expect(widest(fitText(FIT, META, { width }))).toBeLessThanOrEqual(Math.min(100, width));
    }
  });

  it("prints the stroke with first and last pose, the load of the worst case and both ends of the tolerance", () => {
    expect(text).toMatch(/\n +14\.0 +1\.600 +4\.179 +27\.0 +-103\.4 +0\.00 +0\.420 +15\.834, 0\.795\n/);
    expect(text).toMatch(/\n +52\.0 +2\.610/);
    expect(text).toContain("load: full, 100 % of the weight");
  });

  it("lists the tightest pairs with what the stack leaves, and marks those that are short", () => {
    const printed = flat(text);
    expect(printed).toContain("67 93 558 29 -18 75 boom 22.0° SHORT");
    expect(printed).toMatch(/141 679 2804 130 83 75 boom 17\.0° (?!SHORT)/);
    expect(printed).toMatch(/41 - - 41 -6 25\.4 rest 14\.0° SHORT/);
    const narrow = flat(fitText(FIT, META, { width: 80 }));
    expect(narrow).toContain("carrier fuselage – boom leg 29 -18 75 boom 22.0° SHORT");
  });

  it("says the order of moves in words, and why there is none", () => {
    expect(text).toContain("1. Move the boom from 14° to 45.35° with the gear at 0 %.");
    expect(flat(text)).toContain("No safe order of moves: start and end lie in different regions");
    expect(text).toMatch(/main door right +60 % +NONE +none +none\n/);
    expect(flat(text)).toContain("Certified least clearance on the way: 162 mm (main door right – carried wing)");
  });

  it("prints every finding, every caution and the pair's own", () => {
    const printed = fitText(FIT, { ...META, cautions: ["Mind the fixture."] });
    const first = printed
      .slice(printed.indexOf("FINDINGS\n"))
      .split("\n")
      .map((line) => line.slice(2, 48).trim())
      .join("");
    for (const { id } of FIT.findings) expect(first).toContain(id);
    for (const caution of [...STANDARD_CAUTIONS, "Mind the fixture."]) expect(flat(printed)).toContain(caution);
  });

  it("adds colour to verdict words only", () => {
    const coloured = fitText(FIT, META, { colour: true });
    expect(coloured).toContain(`${ESC}[1;31mNOT MET`);
    expect(coloured.replace(new RegExp(`${ESC}\\[[0-9;]*m`, "g"), "").replace(/ +$/gm, "")).toBe(text);
  });

  it("lets no control character of the user through", () => {
    const evil = `evil${ESC}[2J`;
    const fit: FitResult = {
      ...FIT,
      variant: evil,
      clearances: FIT.clearances.map((one) => ({ ...one, pair: [evil, evil] })),
      maps: FIT.maps.map((map) => ({ ...map, group: evil, noPathBecause: evil })),
      leftOut: [{ pair: [evil, evil], because: evil }],
    };
    expect(fitText(fit, META).includes(ESC)).toBe(false);
  });

  it("leaves out what the study did not look at", () => {
    const bare: FitResult = {
      ...FIT,
      stroke: [],
      clearances: [],
      gearClearances: [],
      leftOut: [],
      maps: [],
      zones: [],
      ground: null,
      loading: null,
      tolerance: [],
      stack: { terms: [], worst_m: 0, rss_m: 0 },
    };
    expect(fitText(bare, META)).not.toMatch(/STROKE|CLEARANCES|ORDER|ZONES|GROUND|LOADING|TOLERANCES/);
  });
});
