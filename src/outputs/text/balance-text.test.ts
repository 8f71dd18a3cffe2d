import { describe, expect, it } from "vitest";
import { STANDARD_CAUTIONS } from "../cautions/index.ts";
import { fixtureBalance } from "../testing/index.ts";
import { printedWidth } from "./columns.ts";
import { balanceText } from "./index.ts";

const RESULT = fixtureBalance("Rev A");
const META = { pair: "Fixture", davit: "0.1.0", notice: "Made up." };
const flat = (text: string) => text.replace(/\s+/g, " ");

describe("text of the study balance", () => {
  const text = balanceText(RESULT, META);

  it("puts the verdict first, then the parts in their order", () => {
    const parts = [
      "VERDICT  NOT MET",
      "LOADING\n",
      "CENTRE OF GRAVITY\n",
      "CHANGES OF STATE\n",
      "GROUND\n",
      "FINDINGS\n",
    ];
    const places = [...parts, "LIMITS\n", "ASSUMED\n", "NOT ANALYSED\n", "CAUTIONS\n"].map((part) =>
      text.indexOf(part),
    );
    expect(places[0]).toBeGreaterThan(0);
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(text).not.toMatch(/NaN|undefined|null/);
  });

  it("keeps any width asked for between 80 and 100", () => {
    for (const width of [80, 91, 100]) {
      const lines = balanceText(RESULT, META, { width }).split("\n");
      expect(Math.max(...lines.map(printedWidth))).toBeLessThanOrEqual(width);
    }
  });

  it("says the worst moment of each course, the changes with their signs, and the cautions", () => {
    const words = flat(text);
    expect(words).toContain("stuck at 52° 0.40 forward loiter 6 h 00 40000 16.40");
    expect(words).toContain("release at the start of loiter 46000 44000 22.00 23.00 +1.00 +0.045 +0.25°");
    expect(words).toContain("hook-on at the start of loiter 38000 40000 22.00 23.00 +1.00 -0.050 +0.25°");
    for (const caution of STANDARD_CAUTIONS) expect(words).toContain(caution);
  });

  it("leaves out what the pair does not describe", () => {
    const bare = { ...RESULT, ground: null, changes: RESULT.changes.map((one) => ({ ...one, trim: null })) };
    const without = balanceText(bare, META);
    expect(without).not.toContain("GROUND\n");
    expect(flat(without)).toContain("+0.045 - hook-on");
  });
});
