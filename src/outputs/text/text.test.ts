import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { STANDARD_CAUTIONS } from "../cautions/index.ts";
import { compareResults } from "../result/index.ts";
import { fixtureDocument, fixtureHold } from "../testing/index.ts";
import { paragraph, printedWidth, table, wrap } from "./columns.ts";
import { changedText, holdText } from "./index.ts";

const HOLD = fixtureHold("Rev A");
const META = { pair: "Fixture", davit: "0.1.0", notice: "Made up." };
const ESC = String.fromCharCode(27);
const widest = (text: string) => Math.max(...text.split("\n").map(printedWidth));

describe("layout", () => {
  it("wraps any text within any width and loses no letter", () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 200 }), fc.integer({ min: 8, max: 60 }), (text, width) => {
        const lines = wrap(text, width);
        for (const line of lines) expect(printedWidth(line)).toBeLessThanOrEqual(width);
        const bare = (s: string) =>
          [...s]
            .filter((c) => c > " " && !(c >= "\u007f" && c <= "\u009f") && !/[\s\u202a-\u202e\u2066-\u2069]/.test(c))
            .join("");
        expect(bare(lines.join(""))).toBe(bare(text));
      }),
    );
  });

  it("breaks long paths after a dot and indents what follows", () => {
    expect(wrap("mechanism.accumulator.stiffness", 24)).toEqual(["mechanism.accumulator.", "stiffness"]);
    expect(paragraph("one two three", 9, "- ", "  ")).toEqual(["- one two", "  three"]);
  });

  it("lines columns up and wraps cells", () => {
    const lines = table(
      [
        { heading: "a", width: 8 },
        { heading: "b", width: 8, align: "right" },
      ],
      [["x y z long word", "1"]],
    );
    expect(lines).toEqual(["a                b", "────────  ────────", "x y z            1", "long", "word"]);
  });
});

describe("text of the study hold", () => {
  const text = holdText(HOLD, META);

  it("starts with the verdict and stays within 100 columns", () => {
    expect(text.indexOf("VERDICT  NOT MET")).toBeGreaterThan(0);
    for (const part of ["MODES", "FINDINGS", "NOTES", "LIMITS", "ASSUMED", "NOT ANALYSED\n", "CAUTIONS"]) {
      expect(text.indexOf(part)).toBeGreaterThan(text.indexOf("VERDICT  NOT MET"));
    }
    expect(widest(text)).toBeLessThanOrEqual(100);
    expect(text.endsWith("decide.\n")).toBe(true);
    expect(text).not.toContain(ESC);
  });

  it("keeps any width asked for between 80 and 100", () => {
    for (const [asked, most] of [
      [80, 80],
      [84, 84],
      [10, 80],
      [400, 100],
    ] as const) {
      expect(widest(holdText(HOLD, META, { width: asked }))).toBeLessThanOrEqual(most);
    }
  });

  it("shows each mode with frequency, damping, time and class, and marks the growing one", () => {
    expect(text).toMatch(/longitudinal +coupled heave–pitch, 81 % +rigid +0\.634 +-0\.0319 +x2 in 5\.45 s +GROWS/);
    expect(text).toMatch(/axial boom stretch, 92 % +struct\. +8\.94 +0\.0151 +1\/2 in 0\.817 s\n/);
    expect(text).toMatch(/roll, 93 % +rigid +real +1\/2 in 0\.243 s/);
  });

  it("prints every finding, every caution and the pair's own", () => {
    const flat = holdText(HOLD, { ...META, cautions: ["Mind the fixture."] }).replace(/\s+/g, " ");
    for (const { id } of HOLD.findings) expect(flat).toContain(id);
    for (const caution of [...STANDARD_CAUTIONS, "Mind the fixture."]) expect(flat).toContain(caution);
  });

  it("adds colour to verdict words only, and nothing else changes", () => {
    const coloured = holdText(HOLD, META, { colour: true });
    expect(coloured).toContain(`${ESC}[1;31mNOT MET`);
    const stripped = coloured.replace(new RegExp(`${ESC}\\[[0-9;]*m`, "g"), "");
    expect(stripped.replace(/ +$/gm, "")).toBe(text);
  });

  it("lets no control character of the user through", () => {
    const hold = { ...HOLD, variant: `evil${ESC}[2J\u0007`, assumptions: [`a${ESC}]0;x\u0007b`] };
    const printed = holdText(hold, { ...META, pair: `p${ESC}[31m` });
    expect(printed.includes(ESC) || printed.includes("\u0007")).toBe(false);
  });

  it("says what the sign of each load and control means, beside the number", () => {
    const flat = text.replace(/\s+/g, " ");
    const { jackLoad_N, towLoad_N } = HOLD.points[0]!.trim!;
    expect([jackLoad_N < 0, towLoad_N > 0]).toEqual([true, true]);
    expect(flat).toMatch(/jack load -[\d.]+ kN \(negative: drives boom up\)/);
    expect(flat).toMatch(/tow load [\d.]+ kN \(positive: pulls forward\)/);
    const base = HOLD.findings.at(-1)!;
    const jack = { ...base, id: "hold.hook.full.jack-load", unit: "N", verdict: "information" as const };
    const signed = holdText({ ...HOLD, findings: [-5820, 5820].map((value) => ({ ...jack, value })) }, META);
    expect(signed).toMatch(/jack-load +-5\.82 kN {2}drives boom up +information/);
    expect(signed).toMatch(/jack-load +5\.82 kN {2}drives boom down +information/);
  });

  it("never wraps a number, however long it is and however narrow the terminal", () => {
    const [point] = HOLD.points;
    const modes = point!.modes.map((mode) => ({
      ...mode,
      frequency_Hz: 0.000875,
      imag_rad_s: 0.0055,
      timeToDouble_s: null,
      timeToHalf_s: 0.0001234,
    }));
    const narrow = holdText({ ...HOLD, points: [{ ...point!, modes }] }, META, { width: 80 });
    const rows = narrow.split("\n").filter((line) => line.includes("1/2 in 0.000123 s"));
    expect(rows).toHaveLength(modes.length);
    for (const row of rows) expect(row).toContain(" 0.000875 ");
    expect(widest(narrow)).toBeLessThanOrEqual(80);
  });

  it("names the value that is the worst, or the limit where the criterion's words are not printed", () => {
    const flat = text.replace(/\s+/g, " ");
    expect(flat).toContain("worst: Least damping ratio of the");
    const [one] = HOLD.findings.filter(({ criterion }) => criterion !== undefined);
    const alone = holdText({ ...HOLD, findings: [one!] }, META).replace(/\s+/g, " ");
    expect(alone).toContain("at least 0.03 (project criterion)");
  });

  it("says which range is forbidden and which was analysed", () => {
    const [limit] = HOLD.limits;
    const range = { ...limit!, unit: "m/s", quantity: "airspeed EAS" };
    const limits = [
      { ...range, id: "a", lower: 70, upper: 111.66, status: "prohibited" as const },
      { ...range, id: "b", lower: 111.66, upper: 140, status: "analysed" as const },
    ];
    const flat = holdText({ ...HOLD, limits }, META).replace(/\s+/g, " ");
    expect(flat).toContain("PROHIBITED from 70 m/s to 111.7 m/s (airspeed EAS): ");
    expect(flat).toContain("forbidden inside this range");
    expect(flat).toContain("ANALYSED from 111.7 m/s to 140 m/s (airspeed EAS): ");
    expect(flat).toContain("computed to meet every criterion inside this range (not flown)");
    expect(flat).not.toMatch(/\bopen\b/);
  });

  it("says why there are no modes", () => {
    const hold = HOLD;
    const point = { ...hold.points[0]!, outcome: "no trim" as const, trim: null, modes: [] };
    expect(holdText({ ...hold, points: [point] }, META)).toContain("no modes: no trim");
  });
});

describe("text of a comparison", () => {
  const before = fixtureDocument(["Rev A"]);
  const ID = "hold.longitudinal.damping.hook.full";
  const after = {
    ...before,
    overrides: ["mechanism.boom.bending=120 kN/m"],
    inputs: { ...before.inputs, "mechanism.boom.bending": { text: "120 kN/m", si: 120e3 } },
    findings: before.findings.map((one) => (one.id === ID ? { ...one, value: 0.05, verdict: "met" as const } : one)),
  };
  const text = changedText(compareResults(before, after));

  it("names the flip, the values, the change and the input behind it", () => {
    expect(text).toContain("1 input and 0 files changed; 1 finding moved; 1 verdict flipped; 0 limits changed.");
    expect(text).toMatch(/VERDICTS THAT FLIPPED\n {2}NOT MET -> MET\n/);
    expect(text).toContain("-0.03194 -> 0.05000 (+0.0819, +257 %)");
    expect(text).toContain("because of mechanism.boom.bending");
    expect(text).toContain("mechanism.boom.bending: 60 kN/m ± 8 % (1σ) -> 120 kN/m");
    expect(text).toContain("came out the same: ");
    expect(widest(text)).toBeLessThanOrEqual(100);
  });

  it("says so when nothing changed", () => {
    const same = changedText(compareResults(before, before));
    expect(same).toContain("0 inputs and 0 files changed; 0 findings moved; 0 verdicts flipped; 0 limits changed.");
    expect(same).not.toMatch(/FLIPPED|MOVED\n|INPUTS THAT/);
  });

  it("says of the pair file what rests on its changed values, never that nothing does", () => {
    const files = before.files.map((file) =>
      file.path === "fixture.pair.yaml" ? { ...file, sha256: "1".repeat(64) } : file,
    );
    const edited = changedText(compareResults(before, { ...after, files })).replace(/\s+/g, " ");
    expect(edited).toMatch(/file fixture\.pair\.yaml: \w+ -> \w+ holds values of the pair; \d+ findings rest on those/);
    const remark = changedText(compareResults(before, { ...before, files })).replace(/\s+/g, " ");
    expect(remark).toContain("holds values of the pair; none of them changed");
    const csv = before.files.map((file) => ({ ...file, sha256: "1".repeat(64) }));
    const table = changedText(compareResults(before, { ...before, files: csv })).replace(/\s+/g, " ");
    expect(table).toMatch(/file tip-per-jack\.csv: \w+ -> \w+ \d+ findings rest on it/);
  });

  it("warns when the two results are of two pairs", () => {
    expect(text).not.toContain("WARNING");
    const other = changedText(compareResults(before, { ...before, pair: "Another" })).replace(/\s+/g, " ");
    expect(other).toContain(
      "WARNING: these are two different pairs: the earlier result is of “Fixture”, this one of “Another”.",
    );
  });

  it("words moved, new and missing limits", () => {
    const [limit] = before.limits;
    const was = { ...limit!, unit: "m/s", lower: 70, upper: 111.66, status: "prohibited" as const };
    const to = (old: object[], now: object[]) =>
      changedText(
        compareResults(
          { ...before, limits: old as typeof before.limits },
          { ...before, limits: now as typeof before.limits },
        ),
      );
    expect(to([was], [{ ...was, upper: 111.71 }])).toContain(
      "prohibited from 70 m/s to 111.66 m/s -> prohibited from 70 m/s to 111.71 m/s",
    );
    expect(to([was], [])).toContain("prohibited from 70 m/s to 111.66 m/s -> (no such range)");
    expect(to([{ ...was, lower: null }], [{ ...was, upper: null }])).toContain(
      "prohibited up to 111.66 m/s -> prohibited from 70 m/s upwards",
    );
  });

  it("admits when no input explains a move", () => {
    const odd = { ...before, davit: "0.2.0", findings: after.findings };
    const flat = changedText(compareResults(before, odd)).replace(/\s+/g, " ");
    expect(flat).toContain("none of the inputs it rests on changed (version, seed or method did)");
  });
});
