/** The part `snubber` in result file, text and report, on the demo pair. */
import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";
import type { Issue } from "../../src/math/errors.ts";
import { FigureCounter } from "../../src/outputs/report/figure-counter.ts";
import { holdSnubberPages } from "../../src/outputs/report/hold-snubber-pages.ts";
import { holdSnubberShape } from "../../src/outputs/result/hold-snubber-shape.ts";
import { printedWidth } from "../../src/outputs/text/columns.ts";
import { holdSnubberText } from "../../src/outputs/text/hold-snubber-text.ts";
import type { HoldDepthResult } from "../../src/studies/hold-depth/types.ts";
import { holdDemo } from "../support/load-demo.ts";

const RESULTS: HoldDepthResult[] = [holdDemo(undefined, [], ["snubber"]), holdDemo("Rev B", [], ["snubber"])];
const dom = parseHTML("<!doctype html><html><body></body></html>");

const problems = (value: unknown): Issue[] => {
  const issues: Issue[] = [];
  holdSnubberShape(value, "snubber", issues);
  return issues;
};

describe("result file", () => {
  const plain = JSON.parse(JSON.stringify(RESULTS[1].parts!.snubber)) as Record<string, never>;

  it("has the form that is read back, and nothing that is not plain data", () => {
    for (const { parts } of RESULTS) expect(problems(JSON.parse(JSON.stringify(parts!.snubber)))).toEqual([]);
    expect(JSON.stringify(plain)).not.toMatch(/null,null,null,null,null,null,null,null,null,null,null,null,null,null/);
  });

  it("is refused with a hole in a map, a missing list or an unknown outcome", () => {
    const maps = plain.maps as unknown as { worst: number[] }[];
    const holed = { ...plain, maps: [{ ...maps[0], worst: maps[0].worst.slice(1) }] };
    expect(problems(holed).map(({ path }) => path)).toEqual(["snubber.maps[0].worst"]);
    expect(problems({ ...plain, failed: undefined }).map(({ path }) => path)).toEqual(["snubber.failed"]);
    const slow = plain.slow as unknown as object[];
    const odd = { ...plain, slow: [{ ...slow[0], temperature: "warm" }] };
    expect(problems(odd).map(({ path }) => path)).toEqual(["snubber.slow[0].temperature"]);
  });
});

describe("text", () => {
  it("prints the accumulator beside every damping ratio, within the width, and nothing without the part", () => {
    for (const width of [80, 100]) {
      const lines = holdSnubberText(RESULTS[1], { width, colour: false });
      expect(lines[0]).toMatch(/^SNUBBER AS HARDWARE/);
      expect(Math.max(...lines.map(printedWidth))).toBeLessThanOrEqual(width);
      expect(lines.join("\n")).not.toMatch(/NaN|undefined|null/);
    }
    const lines = holdSnubberText(RESULTS[1], { width: 100, colour: false });
    expect(
      lines.filter((line) => /hook × full +15 +2\.9\d +19\.\d +3\.68 +0\.1\d{3} +0\.\d{4} +dies out/.test(line)),
    ).toHaveLength(1);
    expect(holdSnubberText({ ...RESULTS[1], parts: {} }, { width: 100, colour: false })).toEqual([]);
  });
});

describe("report", () => {
  const section = holdSnubberPages(RESULTS, (word) => word, new FigureCounter(), dom as never)!;
  const page = parseHTML(`<html><body>${section.markup.markup}</body></html>`).document;
  const all = (selector: string) => [...page.querySelectorAll(selector)] as unknown as { textContent: string }[];

  it("has three figures a variant with axis titles, units, legend and a description", () => {
    expect(all("svg.davit-figure")).toHaveLength(6);
    const text = section.markup.markup;
    for (const title of [
      "Speed of the jack (m/s)",
      "Force of the snubber at the jack (kN)",
      "Orifice coefficient C2 at the tip (kN·s²/m²)",
      "Amplitude of nodding at the tip (mm)",
      "Bleed C1 at the tip, normal oil (kN·s/m)",
    ]) {
      expect(text.split(title).length - 1, title).toBeGreaterThanOrEqual(2);
    }
    for (const figure of all("svg.davit-figure desc")) expect(figure.textContent.length).toBeGreaterThan(40);
    expect(text).not.toMatch(/NaN|undefined/);
  });

  it("reads without colour: curves differ by dash, areas by hatch", () => {
    const force = page.querySelector("#fig-v2-snubber-force")!.outerHTML;
    const dashes = new Set([...force.matchAll(/stroke-dasharray="([^"]+)"/g)].map((match) => match[1]));
    expect(dashes.size).toBeGreaterThanOrEqual(3);
    const map = page.querySelector("#fig-v2-snubber-map1")!.outerHTML;
    for (const hatch of ["unstable", "marginal", "slow"]) expect(map).toContain(`url(#fig-v2-snubber-map1-${hatch})`);
  });

  it("has a table of points, of the methods, of the slow stroke and of failed states for each variant", () => {
    expect(all("table")).toHaveLength(8);
    expect(section.markup.markup).toContain("valve closed");
    expect(holdSnubberPages([], (word) => word, new FigureCounter(), dom as never)).toBeNull();
  });
});
