import { parseHTML } from "linkedom";
import { beforeAll, describe, expect, it } from "vitest";
import { claimsDemo } from "../../../test/support/claims-demo.ts";
import type { Issue } from "../../math/errors.ts";
import type { ClaimsResult } from "../../studies/hookon-claims/index.ts";
import { attemptsFigure, claimsFigure, sequentialFigure } from "../figures/index.ts";
import { hookonClaimsShape } from "../result/hookon-claims-shape.ts";
import { hookonClaimsText } from "../text/hookon-claims-text.ts";
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
  it("in a terminal of 100 columns: counts, bound, target, verdict, plan and checks", () => {
    const lines = hookonClaimsText(demo, { width: 100, colour: false });
    for (const line of lines) expect([...line].length).toBeLessThanOrEqual(100);
    const text = lines.join(" ").replace(/\s+/g, " ");
    expect(lines[0]).toBe("CLAIMS FROM ATTEMPTS");
    expect(text).toContain("light 18/20 71.7 % 90.0 % 41 4 not demonstrated");
    expect(text).toContain("severe 0/0 - 50.0 % 5 - no attempts");
    expect(text).toContain("no difference shown, which is no proof of agreement");
    expect(text).toContain("90/90: 22, 38, 52; 95/95: 59, 93, 124; 99/95: 299, 473, 628");
    expect(hookonClaimsText(empty, { width: 80, colour: false }).join(" ")).toContain("no log of attempts");
  });

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

  it("a result file holds them; what is missing or bent is named", () => {
    const check = (value: unknown): (string | undefined)[] => {
      const issues: Issue[] = [];
      hookonClaimsShape(value, "claims", issues);
      return issues.map(({ path }) => path);
    };
    for (const good of [demo, empty]) expect(check(JSON.parse(JSON.stringify(good)))).toEqual([]);
    const { sequential, ...rest } = demo;
    expect(check(rest)).toEqual(["claims.sequential"]);
    expect(check({ ...demo, sequential: { ...sequential!, accept_1: [1] } })).toEqual(["claims.sequential.accept_1"]);
    expect(check({ ...demo, classes: [{ ...demo.classes[0], verdict: "fine" }] })).toEqual([
      "claims.classes[0].verdict",
    ]);
  });
});
