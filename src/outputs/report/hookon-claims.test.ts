import { parseHTML } from "linkedom";
import { beforeAll, describe, expect, it } from "vitest";
import { claimsDemo } from "../../../test/support/claims-demo.ts";
import type { ClaimsResult } from "../../studies/hookon-claims/index.ts";
import { attemptsFigure, claimsFigure, sequentialFigure } from "../figures/index.ts";
import { FigureCounter } from "./figure-counter.ts";
import { hookonClaimsPages } from "./hookon-claims-pages.ts";

const dom = parseHTML("<!doctype html><html><body></body></html>");
const SIMULATED = [{ turbulence: "light", title: "2000 samples", hits: 1903, of: 2000, rests: [] }];
let demo: ClaimsResult;
let empty: ClaimsResult;
beforeAll(() => {
  demo = claimsDemo([], SIMULATED)!.result;
  empty = claimsDemo(["studies.hookon.claims.log=~", "studies.hookon.claims.sequential=~"])!.result;
});

const page = (claims: ClaimsResult) =>
  hookonClaimsPages([{ variant: "Rev A", claims }], (word) => word, new FigureCounter(), dom as never)!;

describe("claims, printed", () => {
  it("on pages: every class with its verdict, three figures numbered, all escaped", () => {
    const { markup } = page({ ...demo, log: { ...demo.log!, file: "<b>.csv" } }).markup;
    expect(markup).toContain("18 of 20");
    expect(markup).toContain("71.7 %");
    expect(markup).toContain("&lt;b&gt;.csv");
    expect(markup.match(/Figure \d\./g)).toEqual(["Figure 1.", "Figure 2.", "Figure 3."]);
    expect(markup).not.toMatch(/NaN|undefined|Infinity/);
    expect(page(empty).markup.markup).toContain("nothing is demonstrated");
    expect(hookonClaimsPages([], (word) => word, new FigureCounter(), dom as never)).toBeNull();
  });

  it("figures have ids of their own, axes with units, and the same bytes twice", () => {
    for (const draw of [claimsFigure, attemptsFigure, sequentialFigure]) {
      const figure = draw("fig-a", "Rev A", demo, dom as never)!;
      expect(figure.svg).toBe(draw("fig-a", "Rev A", demo, dom as never)!.svg);
      expect(figure.svg).toMatch(/\((%|–)\)/);
      expect(figure.svg).not.toMatch(/NaN|undefined|Infinity/);
      for (const [, id] of figure.svg.matchAll(/ id="([^"]+)"/g)) expect(id).toMatch(/^fig-a/);
    }
    expect([attemptsFigure, sequentialFigure].map((draw) => draw("x", "A", empty, dom as never))).toEqual([null, null]);
    expect(claimsFigure("x", "A", empty, dom as never).description).toContain("light: no attempts");
  });
});
