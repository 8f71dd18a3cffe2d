import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";
import { InputError, type Issue } from "../../math/errors.ts";
import type { HoldControl } from "../../studies/hold-control/types.ts";
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import { failureFigure, loopFigure } from "../figures/index.ts";
import { readResult, writeResult } from "../result/index.ts";
import { fixtureControl, fixtureDocument, fixtureHold } from "../testing/index.ts";
import { holdText } from "../text/index.ts";
import { FigureCounter } from "./figure-counter.ts";
import { holdControlPages } from "./hold-control-pages.ts";

const dom = parseHTML("<!doctype html><html><body></body></html>");
const control = fixtureControl();
const result: HoldDepthResult = { ...fixtureHold("Rev A"), parts: { control } };
const bare: HoldDepthResult = fixtureHold("Rev A");
const META = { pair: "Fixture", davit: "0.1.0", notice: "Made up." };

describe("pages of pilot and autopilot", () => {
  const page = holdControlPages([result], (word) => word, new FigureCounter(), dom)!;

  it("show loops, pilots, gain sets, the need of the roll hold and failures", () => {
    const { document } = parseHTML(`<html><body>${page.markup.markup}</body></html>`);
    expect(page.title).toBe("Pilot and autopilot");
    expect([...document.querySelectorAll("caption")].map((each) => each.textContent!.slice(0, 20))).toEqual([
      "Loops, Rev A: margin",
      "Pilot of crossover t",
      "Roots with each gain",
      "What each surface mo",
      "Is a roll hold neede",
      "Failures, Rev A: act",
    ]);
    expect(document.querySelectorAll("figure svg").length).toBeGreaterThanOrEqual(4);
    expect(page.markup.markup).not.toMatch(/NaN|undefined|Infinity|\[object/);
  });

  it("mark what is not stable by word and shape, and leave small failures to the result file", () => {
    const { document } = parseHTML(`<html><body>${page.markup.markup}</body></html>`);
    const rows = [...document.querySelectorAll("table")].map((table) => [...table.querySelectorAll("tbody tr")]);
    const elevator = rows[0]!.filter((row) => row.textContent!.includes("elevator"));
    expect(elevator.map((row) => row.textContent!.includes("grows"))).toEqual([false, true]);
    expect(elevator[1]!.textContent).toContain("0, 2, unresolved");
    expect(rows[3]!.filter((row) => row.textContent!.includes("moves nothing"))).toHaveLength(1);
    expect(rows[3]!.some((row) => row.textContent!.includes("free"))).toBe(false);
    expect(rows[5]!.filter((row) => row.textContent!.includes("hard-over"))).toHaveLength(2);
    expect(document.querySelectorAll("caption")[5]!.textContent).toContain("2 of 4 that stay below half");
  });

  it("are left out when the part did not run", () => {
    expect(holdControlPages([bare], (word) => word, new FigureCounter(), dom)).toBeNull();
  });
});

describe("figures of pilot and autopilot", () => {
  it("mark a margin where the loop gain is 1 and say the numbers", () => {
    const figure = loopFigure("bode", "Rev A", control.loops, ["elevator", "aileron"], dom)!;
    expect(figure.caption).toContain("aileron, free, gain set free: phase margin 57°, gain up 12.0 dB");
    expect(figure.caption).toContain("elevator, hooked, single point, gain set hooked: not stable");
    expect(figure.svg).not.toMatch(/NaN|undefined|Infinity/);
    expect(loopFigure("bode", "Rev A", control.loops, ["rudder"], dom)).toBeNull();
    const without = control.loops.map((loop) => ({ ...loop, curve: null }));
    expect(loopFigure("bode", "Rev A", without, ["elevator"], dom)).toBeNull();
  });

  it("show a failure with its limits and actions; the socket load only when hooked", () => {
    const [free, , hooked] = control.failures;
    const figures = [free, hooked].map((each) => failureFigure("f", "Rev A", each!, control.failureSettings, dom)!);
    expect(figures[0]!.svg).not.toContain("socket load");
    expect(figures[1]!.svg).toContain("socket load");
    expect(figures[1]!.caption).toContain("without action bank is reached after 2.00 s; switch off: held");
    expect(failureFigure("f", "Rev A", control.failures[1]!, control.failureSettings, dom)).toBeNull();
  });
});

describe("text of pilot and autopilot", () => {
  it("is at most 100 columns wide and says which failures reach a limit", () => {
    const text = holdText(result, META);
    const from = text.indexOf("PILOT AND AUTOPILOT");
    expect(from).toBeGreaterThan(0);
    expect(Math.max(...text.split("\n").map((line) => [...line].length))).toBeLessThanOrEqual(100);
    expect(text).toContain("NOT STABLE");
    expect(text.replace(/\s+/g, " ")).toContain(
      "bank after 2.00 s at mass full; 1 of 2 cases reach a limit. switch off: held; pilot takes over: limit reached",
    );
    expect(text).toContain("three point: elevator at full travel: nothing moves that a function could hold.");
    const without = {
      ...control,
      noTrim: [{ condition: "hook", mass: "full", state: "left aft pin, stowed" as const }],
    };
    expect(holdText({ ...result, parts: { control: without } }, META)).toContain(
      "No trim: left aft pin, stowed at mass full.",
    );
    expect(text).toContain("2 of 4 failures stay inside every limit.");
    expect(holdText(bare, META)).not.toContain("PILOT AND AUTOPILOT");
  });
});

describe("form of the part in a result file", () => {
  const written = (parts: unknown): string => {
    const document = fixtureDocument(["Rev A"]);
    const hold = document.studies.hold!.map((each) => ({ ...each, parts }));
    return writeResult({ ...document, studies: { hold } } as typeof document);
  };
  const issuesOf = (parts: unknown): readonly Issue[] => {
    try {
      readResult(written(parts), "r.json");
      return [];
    } catch (error) {
      if (error instanceof InputError) return error.issues;
      throw error;
    }
  };

  it("is read back, and refused where it is damaged", () => {
    expect(issuesOf({ control })).toEqual([]);
    const curve = { ...control.loops[0]!.curve!, gain_dB: [1] };
    const loops = [{ ...control.loops[0]!, curve }, ...control.loops.slice(1)];
    const damaged: HoldControl = { ...control, loops };
    expect(issuesOf({ control: damaged })[0]!.path).toContain("control.loops[0].curve.gain_dB");
    const unknown = { ...control, failures: [{ ...control.failures[0]!, kind: "jam" }] };
    expect(issuesOf({ control: unknown })[0]!.path).toContain("failures[0].kind");
  });
});
