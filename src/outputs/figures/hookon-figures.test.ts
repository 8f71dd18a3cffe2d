import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";
import type { HookonResult } from "../../studies/hookon/types.ts";
import { fixtureHookon } from "../testing/index.ts";
import {
  breakawayFigure,
  captureMapFigure,
  closureWindowFigure,
  type Figure,
  missFigure,
  outcomeFigure,
  replayFigure,
  successFigure,
} from "./index.ts";

const dom = parseHTML("<!doctype html><html><body></body></html>");
const RESULT = fixtureHookon();

function all(result: HookonResult): (Figure | null)[] {
  const { variant, maps, window, breakaway, replay } = result;
  return [
    outcomeFigure("outcomes", result, dom),
    successFigure("success", result, dom),
    closureWindowFigure("window", result, dom),
    captureMapFigure("map", variant, maps, window.simulated, dom),
    missFigure("miss", result, dom),
    breakawayFigure("breakaway", variant, breakaway, 0.5, dom),
    replayFigure("replay", variant, replay, dom),
  ];
}

const text = (figure: Figure | null): string => parseHTML(figure!.svg).document.documentElement.textContent ?? "";

describe("figures of hook-on", () => {
  const figures = all(RESULT);

  it("are drawn, stand alone and are the same each time", () => {
    figures.forEach((figure) => {
      expect(figure).not.toBeNull();
      expect(figure!.svg).toMatch(/^<svg[^>]*role="img"/);
      expect(figure!.svg).not.toMatch(/NaN|undefined|null/);
    });
    expect(all(RESULT)).toEqual(figures);
  });

  it("name their axes with units", () => {
    const labels = [
      ["Share of the approaches (%)"],
      ["Intensity of the vertical gusts σ (m/s)", "Locked and stable (%)"],
      ["Closure at contact (m/s)", "Peak load along the probe (kN)"],
      ["Offset of the path from the axis (mm)", "Closure (m/s)"],
      ["Right of the mouth (mm)", "Below the mouth (mm)"],
      ["Time of reaction, call to controls (s)", "Least vertical distance (m)"],
      ["Aft of the mouth at rest (m)", "Load on the probe (kN)", "Gimbal angle (deg)"],
    ];
    labels.forEach((own, i) => {
      for (const label of own) expect(text(figures[i]!)).toContain(label);
    });
  });

  it("tell outcomes apart without colour: letters in the map, hatches in the bars, symbols in the scatter", () => {
    const map = text(figures[3]!);
    for (const word of ["L: locked, stable", "X: overloaded", "B: bounced", "M: missed"]) expect(map).toContain(word);
    expect(figures[0]!.svg).toContain("url(#outcomes-o");
    expect(text(figures[4]!)).toContain("bounced");
  });

  it("are left out where nothing was run", () => {
    const bare: HookonResult = {
      ...RESULT,
      ...{ cases: [], maps: [], breakaway: null, replay: null },
      window: { ...RESULT.window, sweep: [] },
    };
    expect(all(bare).every((figure) => figure === null)).toBe(true);
  });
});
