import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";
import type { ConditionCertainty } from "../../studies/hold-certainty/types.ts";
import { fixtureCertainty } from "../testing/index.ts";
import { certaintyFigures } from "./index.ts";

const dom = parseHTML("<!doctype html><html><body></body></html>");
const [condition] = fixtureCertainty().conditions;
const figures = certaintyFigures("fig", "Rev B", condition, dom);
const texts = (svg: string) => [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, text]) => text!);

describe("certaintyFigures", () => {
  it("are three self-contained drawings with a description, the same every time", () => {
    expect(figures.map(({ id }) => id)).toEqual(["fig-distribution", "fig-drivers", "fig-tests"]);
    for (const { id, svg, caption, description } of figures) {
      expect(svg).toContain(`aria-labelledby="${id}-title ${id}-desc"`);
      expect(/NaN|Infinity|undefined|href=|<script|<style|<image/.exec(svg)?.[0]).toBeUndefined();
      expect(caption.length).toBeGreaterThan(60);
      expect(description.length).toBeGreaterThan(60);
    }
    expect(certaintyFigures("fig", "Rev B", condition, dom)).toEqual(figures);
  });

  it("draw what misses the criterion with a hatch of its own, and name every line", () => {
    const { svg } = figures[0]!;
    const filled = (pattern: string) => svg.split(`fill="url(#fig-distribution-${pattern})"`).length - 1;
    // lateral: 20 bins from −0.05, criterion 0.03 between the eighth and the ninth; one more of each in the legend
    expect(svg).toContain('id="fig-distribution-missed"');
    expect(filled("missed") + filled("met")).toBeGreaterThanOrEqual(2);
    expect(texts(svg)).toEqual(expect.arrayContaining(["criterion", "nominal", "exceeded by 95 %", "misses it"]));
    expect(texts(svg)).toContain("Lateral: 33.6 % miss the criterion");
  });

  it("print the number beside each bar", () => {
    expect(texts(figures[1]!.svg)).toEqual(expect.arrayContaining(["roll.Clbeta", "72 % ± 6 %"]));
    expect(texts(figures[2]!.svg)).toEqual(expect.arrayContaining(["wind tunnel", "60 %, decides 40 %"]));
  });

  it("leave out what there is nothing to draw of", () => {
    const bare = (change: Partial<ConditionCertainty["planes"][number]>): ConditionCertainty => ({
      ...condition,
      planes: condition.planes.map((plane) => ({ ...plane, ...change })),
    });
    expect(certaintyFigures("fig", "Rev B", bare({ tests: [] }), dom).map(({ id }) => id)).not.toContain("fig-tests");
    expect(certaintyFigures("fig", "Rev B", { ...condition, planes: [] }, dom)).toEqual([]);
    const [same] = certaintyFigures("fig", "Rev B", bare({ nominal_1: null }), dom);
    expect(same!.svg).not.toContain("NaN");
  });
});
