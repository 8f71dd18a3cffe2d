/** Result file, terminal text and report pages of exact boundaries, balances and hook loads, from the demo pair. */
import { parseHTML } from "linkedom";
import { beforeAll, describe, expect, it } from "vitest";
import { InputError } from "../../src/math/errors.ts";
import { renderReport } from "../../src/outputs/report/index.ts";
import { type ResultDocument, readResult, writeResult } from "../../src/outputs/result/index.ts";
import { fixtureDocument } from "../../src/outputs/testing/index.ts";
import { holdText } from "../../src/outputs/text/index.ts";
import type { HoldDepthResult } from "../../src/studies/hold-depth/index.ts";
import { holdDemo } from "../support/load-demo.ts";

const dom = parseHTML("<!doctype html><html><body></body></html>");
let hold: HoldDepthResult;
let document: ResultDocument;
beforeAll(() => {
  hold = holdDemo("Rev A", [], ["boundary", "equilibrium"]);
  document = { ...fixtureDocument(), findings: hold.findings, studies: { hold: [hold] } };
});

describe("result file", () => {
  it("reads back what was written, and refuses a grid that is not full and a curve with a gap", () => {
    const text = writeResult(document);
    expect(writeResult(readResult(text, "r.json"))).toBe(text);
    const damaged = (change: (parts: NonNullable<HoldDepthResult["parts"]>) => void): string => {
      const copy = JSON.parse(text) as { studies: { hold: HoldDepthResult[] } };
      change(copy.studies.hold[0].parts!);
      try {
        readResult(JSON.stringify(copy), "r.json");
      } catch (error) {
        if (error instanceof InputError)
          return error.issues.map(({ path, message }) => `${path} ${message}`).join("\n");
        throw error;
      }
      return "";
    };
    expect(damaged((parts) => (parts.boundary!.maps[1].grid.worst as number[]).pop())).toContain("maps[1].grid.worst has the wrong length"); // biome-ignore format: one check
    expect(damaged((parts) => (parts.boundary!.maps[0].curves[0].y as number[]).pop())).toContain("curves[0].y");
    expect(damaged((parts) => (parts.equilibrium!.loads[2].jackLoad_N as number[]).pop())).toContain("jackLoad_N");
  });
});

describe("terminal text", () => {
  it("prints crossings, balances, divergence and loads within its width", () => {
    const text = holdText(hold, { pair: "Longshore", davit: "test" });
    for (const heading of ["EXACT BOUNDARIES, LONGITUDINAL", "BALANCES WITH THE JACK AT ITS LENGTH", "STATIC DIVERGENCE", "LOADS ON THE HOOK IN TRIM"]) expect(text).toContain(heading); // biome-ignore format: one list
    expect(text).toMatch(/Snubber rate at the tip \(kN·s\/m\) +0 +2 +- +7\.0/);
    expect(text).toContain("1 at the condition, 1 from 45 to 140 m/s EAS");
    expect(text.split("\n").filter((line) => [...line].length > 100)).toEqual([]);
    const none = holdText({ ...hold, parts: {} }, { pair: "Longshore", davit: "test" });
    expect(none).not.toContain("EXACT BOUNDARIES");
  });
});

describe("report", () => {
  it("has a map for each pair of parameters and figures of balances and loads, told apart without colour", () => {
    const page = renderReport(document, dom, { notice: "Made-up pair.", cautions: [], inputHash: "ab".repeat(32) });
    for (const id of ["exact-boundaries", "balances"]) expect(page).toContain(`<section id="${id}">`);
    const figures = [...page.matchAll(/<figure id="(fig-v1-(?:boundary|balances|hookload)\d)-box">/g)].map(([, id]) => id); // biome-ignore format: one list
    expect(figures).toEqual(["fig-v1-boundary1", "fig-v1-boundary2", "fig-v1-boundary3", "fig-v1-boundary4", "fig-v1-balances1", "fig-v1-balances2", "fig-v1-hookload1"]); // biome-ignore format: one list
    const figure = (id: string): string => page.slice(page.indexOf(`<figure id="${id}-box">`)).split("</figure>")[0];
    expect(figure("fig-v1-boundary1")).toContain("limit of stability ζ = 0, exact");
    expect(figure("fig-v1-boundary1")).toContain('stroke-dasharray="8 4"');
    expect(figure("fig-v1-boundary2")).toContain("ζ of a structural mode");
    expect(figure("fig-v1-balances1")).toContain("an oscillation grows");
    expect(figure("fig-v1-balances1")).toContain('stroke-dasharray="7 4"');
    expect(figure("fig-v1-hookload1")).toContain("limit of the resultant");
    expect(page).not.toMatch(/NaN|undefined/);
  });
});
