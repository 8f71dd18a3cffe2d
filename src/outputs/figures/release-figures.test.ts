import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";
import type { ReleaseResult } from "../../studies/release/types.ts";
import { fixtureRelease } from "../testing/index.ts";
import {
  carrierAnswerFigure,
  caseFigure,
  distanceFigure,
  type Figure,
  footprintFigure,
  releaseEnvelopeFigure,
  stripFigure,
} from "./index.ts";

const dom = parseHTML("<!doctype html><html><body></body></html>");
const RESULT = fixtureRelease();

function all(result: ReleaseResult): (Figure | null)[] {
  return [
    ...result.strips.map((strip) => stripFigure("strip", result.variant, strip, dom)),
    caseFigure("cases", result, dom),
    distanceFigure("distance", result, dom),
    releaseEnvelopeFigure("envelope", result, dom),
    footprintFigure("footprint", result, dom),
    carrierAnswerFigure("carrier", result.variant, result.carrier, 0.2, dom),
  ];
}

const text = (figure: Figure | null): string => parseHTML(figure!.svg).document.documentElement.textContent ?? "";

describe("figures of release", () => {
  const figures = all(RESULT);

  it("are drawn, stand alone and are the same each time", () => {
    expect(figures).toHaveLength(6);
    for (const figure of figures) {
      expect(figure).not.toBeNull();
      expect(figure!.svg).toMatch(/^<svg[^>]*role="img"/);
      expect(figure!.svg).not.toMatch(/NaN|undefined|null/);
    }
    expect(all(RESULT)).toEqual(figures);
  });

  it("name their axes with units", () => {
    const labels = [
      ["Aft of the boom hinge (m), flies to the left", "Right of the boom hinge (m)"],
      ["Time from the command (s)", "Distance from everything (m)"],
      ["Time from the command (s)", "Distance from everything (m)"],
      ["Airspeed (m/s EAS)", "Load factor"],
      ["Ahead of the point of release (m)", "Left of the track (m)"],
      ["Change of load factor", "Pitch (deg)"],
    ];
    labels.forEach((own, i) => {
      for (const label of own) expect(text(figures[i]!)).toContain(label);
    });
  });

  it("tell outcomes apart without colour: signs and patterns in the map, names beside the curves", () => {
    const map = text(figures[3]!);
    for (const word of ["X touches", "n too near", "H hang-up", "? not analysed"]) expect(map).toContain(word);
    expect(figures[3]!.svg).toContain("url(#envelope-");
    expect(text(figures[1]!)).toContain("hard over: touches");
  });

  it("put what comes down on the left of the track above it", () => {
    const one = RESULT.jettison[0]!;
    const left = { ...one, inWind: { ...one.inWind, right_m: -300 }, footprint: { ...one.footprint, right_m: -300 } };
    const shown = footprintFigure("f", { ...RESULT, jettison: [left] }, dom)!;
    expect(text(shown)).toContain("500");
    expect(text(shown)).not.toContain("−500");
  });

  it("are left out where nothing was run", () => {
    const bare: ReleaseResult = { ...RESULT, ...{ cases: [], strips: [], batches: [], envelopes: [], jettison: [] } };
    expect(all({ ...bare, carrier: [] }).every((figure) => figure === null)).toBe(true);
  });
});
