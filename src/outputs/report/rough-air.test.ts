import { parseHTML } from "linkedom";
import { beforeAll, describe, expect, it } from "vitest";
import { roughAirDemo } from "../../../test/support/rough-air-demo.ts";
import { InputError } from "../../math/errors.ts";
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import { exceedanceFigure, gustLengthFigure, motionSpectraFigure, roughAirFigure } from "../figures/index.ts";
import { readResult, writeResult } from "../result/index.ts";
import { fixtureDocument, fixtureHold } from "../testing/index.ts";
import { holdText } from "../text/index.ts";
import { FigureCounter } from "./figure-counter.ts";
import { roughAirPages } from "./rough-air-pages.ts";

const dom = parseHTML("<!doctype html><html><body></body></html>");
const SHORT = [
  "conditions.hook.masses=[full, empty]",
  "studies.hold.roughAir.simulation.seeds=1",
  "studies.hold.roughAir.simulation.time=15 s",
];
let settled: HoldDepthResult;
let unsettled: HoldDepthResult;
beforeAll(() => {
  settled = { ...fixtureHold("Rev B"), parts: { roughAir: roughAirDemo("Rev B", SHORT)!.result } };
  unsettled = { ...fixtureHold("Rev A"), parts: { roughAir: roughAirDemo("Rev A", SHORT)!.result } };
}, 60_000);

/** Lines of rough air in the terminal text. */
function linesOf(result: HoldDepthResult): string[] {
  const lines = holdText(result, { pair: "Fixture", davit: "test" }).split("\n");
  const from = lines.indexOf("ROUGH AIR");
  return from < 0 ? [] : lines.slice(from, lines.indexOf("FINDINGS", from));
}

describe("rough air, printed", () => {
  it("in a terminal: the answer, what gives way first, a table of at most 100 columns", () => {
    const lines = linesOf(settled);
    expect(lines[0]).toBe("ROUGH AIR");
    expect(lines.at(-1)).toBe("");
    for (const line of lines) expect([...line].length).toBeLessThanOrEqual(100);
    const text = lines.join(" ").replace(/\s+/g, " ");
    expect(text).toContain("every limit holds up to σ 2.0");
    expect(text).toContain("severity light; pitch gives way first");
    expect(text).toContain("limit load, not ultimate");
    expect(linesOf(fixtureHold("Rev B"))).toEqual([]);
  });

  it("in a terminal: a pair that does not settle gets words and no number", () => {
    const text = linesOf(unsettled).join(" ").replace(/\s+/g, " ");
    expect(text).toContain("hook.full: grows without rough air (doubles in 3.2");
    expect(text).not.toContain("every limit holds");
    expect(text).not.toContain("holds to");
  });

  it("pages: both variants, four figures for the one that settles, none for the other", () => {
    const section = roughAirPages([settled, unsettled], (word) => word, new FigureCounter(), dom)!;
    expect(section.id).toBe("rough-air");
    const { markup } = section.markup;
    expect([...markup.matchAll(/<figure /g)]).toHaveLength(4);
    for (const words of [
      "Rev A",
      "Rev B",
      "grows without rough air",
      "Socket tension",
      "Holds alone to σ",
      "limit load",
    ]) {
      expect(markup).toContain(words);
    }
    expect(/NaN|Infinity|undefined/.exec(markup)?.[0]).toBeUndefined();
    expect(roughAirPages([fixtureHold("Rev B")], (word) => word, new FigureCounter(), dom)).toBeNull();
  });

  it("figures: self-contained, with units on their axes, every curve told apart without colour", () => {
    const air = settled.parts!.roughAir!;
    const figures = [roughAirFigure, exceedanceFigure, motionSpectraFigure, gustLengthFigure].map(
      (draw, i) => draw(`f${i}`, "Rev B", air, dom)!,
    );
    const axes = [
      ["Intensity of the vertical gusts σ (m/s)", "Probability in 10 min (–)"],
      ["Level: share of the way from trim to the limit (–)", "Exits per hour (1/h)"],
      ["Frequency (Hz)", "Spectrum (deg²/Hz)", "Spectrum (mm²/Hz)"],
      ["Gust gradient H (m)", "Share of the room to the limit (–)"],
    ];
    figures.forEach((figure, i) => {
      const { svg, id } = figure;
      expect(/NaN|Infinity|undefined/.exec(svg)?.[0]).toBeUndefined();
      for (const label of axes[i]!) expect(svg).toContain(label);
      const ids = [...svg.matchAll(/ id="([^"]+)"/g)].map(([, name]) => name!);
      expect(new Set(ids).size).toBe(ids.length);
      const legend = svg.slice(svg.indexOf('<g class="legend">'));
      const marks = [...legend.matchAll(/<g transform="[^"]*">(.*?)<text/g)].map(([, mark]) =>
        mark!.replace(/(stroke|fill)="#[^"]*"/g, ""),
      );
      expect(new Set(marks).size, id).toBe(marks.length);
    });
    expect(roughAirFigure("x", "Rev A", unsettled.parts!.roughAir!, dom)).toBeNull();
  });

  it("the form of the result file accepts what the study makes and refuses what is damaged", () => {
    const fileOf = (...hold: HoldDepthResult[]) => writeResult({ ...fixtureDocument(), studies: { hold } });
    const back = readResult(fileOf(settled, unsettled), "r.json");
    expect(back.studies.hold![0]!.parts).toEqual(JSON.parse(JSON.stringify(settled.parts)));
    const air = settled.parts!.roughAir!;
    const points = [{ ...air.points[0]!, outcome: "fine", quantities: [{}] }] as never;
    try {
      readResult(fileOf({ ...settled, parts: { roughAir: { ...air, points } } }), "r.json");
      expect.unreachable("a damaged result was read");
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      const paths = error.issues.map(({ path }) => path);
      expect(paths.some((path) => path.endsWith("roughAir.points[0].outcome"))).toBe(true);
      expect(paths.some((path) => path.endsWith("roughAir.points[0].quantities[0].mean"))).toBe(true);
    }
  });
});
