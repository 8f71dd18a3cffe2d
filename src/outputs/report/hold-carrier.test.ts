import { beforeAll, describe, expect, it } from "vitest";
import { holdDemo } from "../../../test/support/load-demo.ts";
import { emptyDocument } from "../../host/document.ts";
import type { Issue } from "../../math/errors.ts";
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import type { FigureDom } from "../figures/index.ts";
import { carrierShape } from "../result/hold-carrier-shape.ts";
import { holdCarrierText } from "../text/hold-carrier-text.ts";
import { FigureCounter } from "./figure-counter.ts";
import { carrierPages } from "./hold-carrier-pages.ts";

let result: HoldDepthResult;
let markup: string;
beforeAll(async () => {
  result = holdDemo("Rev B", [], ["carrier"]);
  const dom = { document: await emptyDocument() } as FigureDom;
  markup = carrierPages([result], (word) => word, new FigureCounter(), dom)!.markup.markup;
});

describe("the carrier in the motion, printed", () => {
  it("has the form that result files are held to", () => {
    const issues: Issue[] = [];
    const carrier = JSON.parse(JSON.stringify(result.parts!.carrier));
    carrierShape(carrier, "parts.carrier", issues);
    expect(issues).toEqual([]);
    carrier.points[0].cases[1].modes[0].dampingRatio = null;
    carrier.points[0].cases[2].model = "flying carpet";
    carrierShape(carrier, "parts.carrier", issues);
    expect(issues.map(({ path }) => path)).toEqual([
      "parts.carrier.points[0].cases[1].modes[0].dampingRatio",
      "parts.carrier.points[0].cases[2].model",
    ]);
  });

  it("shows ζ of every model beside the steady carrier, within the width", () => {
    const lines = holdCarrierText(result, { width: 96, colour: false });
    expect(Math.max(...lines.map((line) => [...line].length))).toBeLessThanOrEqual(96);
    const [full] = result.parts!.carrier!.points;
    for (const { modes } of full.cases) {
      const nodding = modes.find(({ from }) => from === "coupled heave–pitch 1")!;
      expect(lines.some((line) => line.includes(nodding.dampingRatio.toFixed(4)))).toBe(true);
    }
    expect(lines.join("\n")).toContain("downwash 1.12 deg");
    expect(holdCarrierText({ ...result, parts: {} }, { width: 96, colour: false })).toEqual([]);
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
    expect(holdCarrierText(outside, { width: 96, colour: false }).join("\n")).toContain("not analysed in the flow");
    const none = { ...result, parts: {} };
    expect(carrierPages([none], (word) => word, new FigureCounter(), {} as FigureDom)).toBeNull();
  });
});
