import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";
import { fixtureBalance } from "../testing/index.ts";
import { drawnBranches } from "./balance-marks.ts";
import { cgEnvelopeFigure, cgTimeFigure, type Figure } from "./index.ts";

const dom = parseHTML("<!doctype html><html><body></body></html>");
const RESULT = fixtureBalance("Rev A");
const texts = ({ svg }: Figure) => [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, text]) => text!);

describe("figures of the study balance", () => {
  const envelope = cgEnvelopeFigure("env", RESULT, dom);
  const time = cgTimeFigure("time", RESULT, dom);

  it.each([
    ["env", envelope],
    ["time", time],
  ] as const)("%s is one self-contained drawing with the same bytes each time", (id, figure) => {
    expect(figure.svg.startsWith(`<svg xmlns="http://www.w3.org/2000/svg" class="davit-figure" id="${id}"`)).toBe(true);
    expect(/NaN|Infinity|undefined|href=|<script|<style|<image/.exec(figure.svg)?.[0]).toBeUndefined();
    const draw = id === "env" ? cgEnvelopeFigure : cgTimeFigure;
    expect(draw(id, RESULT, dom).svg).toBe(figure.svg);
    expect(figure.caption).toContain(id === "env" ? "0.40 % of the chord" : "16.40 % MAC");
  });

  it("name every course in the legend and the moments in the drawing", () => {
    for (const { title } of RESULT.branches) {
      expect(texts(envelope)).toContain(title);
      expect(texts(time)).toContain(title);
    }
    const named = texts(envelope);
    expect(named).toContain("least margin 0.40 %, 6 h 00");
    expect(named).toContain("release, 2 h 00");
    expect(named).toContain("hook-on, 5 h 00");
    expect(named.some((text) => text.startsWith("jettison"))).toBe(false);
    expect(named).toContain("largest landing 54.0 t");
  });

  it("show the stretch with the boom down close up, and the long legs by name", () => {
    expect(texts(time)).toContain("Around 1 h 57");
    expect(texts(time)).toContain("loiter");
    expect(texts(time)).not.toContain("lowering");
  });

  it("tell more courses apart than there are symbols", () => {
    const many = { ...RESULT, branches: Array.from({ length: 9 }, () => RESULT.branches[0]!) };
    const looks = drawnBranches(many).map(({ style, fill }) => `${style.dash} ${style.symbol} ${fill === "#ffffff"}`);
    expect(new Set(looks).size).toBe(9);
  });
});
