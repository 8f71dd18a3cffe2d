import { parseHTML } from "linkedom";
import { beforeAll, describe, expect, it } from "vitest";
import { holdDemo } from "../../../test/support/load-demo.ts";
import { InputError } from "../../math/errors.ts";
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import type { FigureDom } from "../figures/index.ts";
import { readResult, writeResult } from "../result/index.ts";
import { fixtureDocument, fixtureHold } from "../testing/index.ts";
import { holdText } from "../text/index.ts";
import { FigureCounter } from "./figure-counter.ts";
import { carrierPages } from "./hold-carrier-pages.ts";

let result: HoldDepthResult;
let markup: string;
beforeAll(() => {
  result = { ...fixtureHold("Rev B"), parts: { carrier: holdDemo("Rev B", [], ["carrier"]).parts!.carrier! } };
  const dom: FigureDom = parseHTML("<!doctype html><html><body></body></html>");
  markup = carrierPages([result], (word) => word, new FigureCounter(), dom)!.markup.markup;
});

/** Lines of the part in the terminal text. */
function linesOf(of: HoldDepthResult): string[] {
  const lines = holdText(of, { pair: "Fixture", davit: "test" }).split("\n");
  const from = lines.indexOf("THE CARRIER IN THE MOTION");
  return from < 0 ? [] : lines.slice(from, lines.indexOf("FINDINGS", from));
}

describe("the carrier in the motion, printed", () => {
  it("has the form that result files are held to", () => {
    const fileOf = (hold: HoldDepthResult) => writeResult({ ...fixtureDocument(), studies: { hold: [hold] } });
    expect(readResult(fileOf(result), "r.json").studies.hold![0]!.parts).toEqual(
      JSON.parse(JSON.stringify(result.parts)),
    );
    const { carrier } = result.parts!;
    const [point] = carrier!.points;
    const cases = [{ ...point!.cases[1]!, model: "flying carpet", modes: [{}] }] as never;
    const broken = { ...carrier!, points: [{ ...point!, cases }] };
    try {
      readResult(fileOf({ ...result, parts: { carrier: broken } }), "r.json");
      expect.unreachable("a damaged result was read");
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      const paths = error.issues.map(({ path }) => path);
      expect(paths.some((path) => path.endsWith("carrier.points[0].cases[0].model"))).toBe(true);
      expect(paths.some((path) => path.endsWith("carrier.points[0].cases[0].modes[0].dampingRatio"))).toBe(true);
    }
  });

  it("shows ζ of every model beside the steady carrier, within the width", () => {
    const lines = linesOf(result);
    expect(Math.max(...lines.map((line) => [...line].length))).toBeLessThanOrEqual(100);
    const [full] = result.parts!.carrier!.points;
    for (const { modes } of full.cases) {
      const nodding = modes.find(({ from }) => from === "coupled heave–pitch 1")!;
      expect(lines.some((line) => line.includes(nodding.dampingRatio.toFixed(4)))).toBe(true);
    }
    expect(lines.join("\n")).toContain("downwash 1.12 deg");
    expect(linesOf({ ...result, parts: {} })).toEqual([]);
  });

  it("draws frequency and damping by symbol, and the gust by dash, with units on the axes", () => {
    expect(markup.match(/<figure/g)).toHaveLength(2);
    expect(markup).toContain("Figure 1.");
    expect(markup).toContain("Damping ratio ζ (–)");
    expect(markup).toContain("Amplitude (N per m/s)");
    expect(markup).toContain("Frequency (Hz)");
    expect(markup).toContain("earlier");
    expect(markup).toContain("stroke-dasharray");
    expect(markup).not.toMatch(/NaN|undefined|Infinity/);
  });

  it("says that nothing is known beyond the flow table, and prints no section without the part", () => {
    const carrier = structuredClone(result.parts!.carrier!) as unknown as {
      points: { cases: { outcome: string; trim: unknown; modes: unknown[] }[] }[];
    };
    for (const { cases } of carrier.points) {
      for (const one of cases.slice(3)) Object.assign(one, { outcome: "outside", trim: null, modes: [] });
    }
    const outside = { ...result, parts: { carrier } } as unknown as HoldDepthResult;
    expect(linesOf(outside).join("\n")).toContain("not analysed in the flow");
    const none = { ...result, parts: {} };
    expect(carrierPages([none], (word) => word, new FigureCounter(), {} as FigureDom)).toBeNull();
  });
});
