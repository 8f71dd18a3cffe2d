import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";
import { InputError } from "../../math/errors.ts";
import type { HoldDepthResult } from "../../studies/hold-depth/types.ts";
import { readResult, writeResult } from "../result/index.ts";
import { fixtureAttachment, fixtureDocument, fixtureHold } from "../testing/index.ts";
import { holdText } from "../text/index.ts";
import { FigureCounter } from "./figure-counter.ts";
import { attachmentPages } from "./hold-attachment-pages.ts";

const dom = parseHTML("<!doctype html><html><body></body></html>");
const found = fixtureAttachment();
const result: HoldDepthResult = { ...fixtureHold("Rev B"), parts: { attachment: found } };

describe("states of attachment", () => {
  it("stand in a section of the report, with rule, maps, modes, loads and limit cycles", () => {
    const section = attachmentPages([result], (word) => word, new FigureCounter(), dom)!;
    expect(section.id).toBe("states-of-attachment");
    const text = section.markup.markup;
    expect(text.match(/<figure /g)).toHaveLength(3);
    for (const words of ["rule 50°", "limit of stability", "Retracting at single point", "no balance", "dies out"]) {
      expect(text).toContain(words);
    }
    expect(text).toContain("unstable extended");
    expect(text).not.toContain("NaN");
  });
  it("draw every curve with a dash or symbol of its own, and a gap where nothing rests", () => {
    const text = attachmentPages([result], (word) => word, new FigureCounter(), dom)!.markup.markup;
    const stroke = text.slice(text.indexOf("stroke1"));
    for (const dash of ["9 4", "2.5 3"]) expect(stroke).toContain(`stroke-dasharray="${dash}"`);
    expect(text).toContain("url(#fig-v1-attachment-1-longitudinal-unstable)");
  });
  it("have no section where no variant asks for them", () => {
    expect(attachmentPages([fixtureHold("Rev A")], (word) => word, new FigureCounter(), dom)).toBeNull();
  });
  it("are said on the terminal within 100 columns", () => {
    const text = holdText(result, { pair: "Fixture", davit: "test" } as never);
    expect(text).toContain("STATES OF ATTACHMENT");
    expect(text).toContain("must not come up past 50°");
    expect(text).toContain("Clbeta off by 2 σ");
    expect(text).toContain("limit cycle, pin travel 0.165 mm");
    for (const line of text.split("\n")) expect(line.length).toBeLessThanOrEqual(100);
  });
  it("read back from a result file as they were written, and are refused when damaged", () => {
    const document = fixtureDocument();
    const whole = { ...document, studies: { ...document.studies, hold: [result] } };
    const text = writeResult(whole);
    expect(readResult(text, "r.json").studies.hold![0].parts).toEqual(JSON.parse(JSON.stringify(result.parts)));
    const wrong = text.replace('"outcome": "lost"', '"outcome": "gone"');
    expect(wrong).not.toBe(text);
    expect(() => readResult(wrong, "r.json")).toThrow(InputError);
  });
});
