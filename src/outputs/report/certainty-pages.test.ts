import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";
import { fixtureCertainty, fixtureHold } from "../testing/index.ts";
import { certaintyPages } from "./certainty-pages.ts";
import { FigureCounter } from "./figure-counter.ts";

const dom = parseHTML("<!doctype html><html><body></body></html>");
const hold = { ...fixtureHold("Rev B"), parts: { certainty: fixtureCertainty() } };

describe("certaintyPages", () => {
  it("one section with a table of both planes, three figures and the tests by what they buy", () => {
    const section = certaintyPages([fixtureHold("Rev A"), hold], (word) => word, new FigureCounter(), dom)!;
    expect(section).toMatchObject({ id: "certainty", title: "Certainty" });
    const { markup } = section.markup;
    const page = parseHTML(`<!doctype html><html><body>${markup}</body></html>`).document;
    expect(page.querySelectorAll("figure").length).toBe(3);
    const cells = [...page.querySelectorAll("table")].map((table) =>
      [...table.querySelectorAll("tbody tr")].map((row) => [...row.children].map((cell) => cell.textContent)),
    );
    expect(cells[0]).toContainEqual(["Distance of the limit from nominal, negative beyond it", "3.66 σ", "0.49 σ"]);
    expect(cells[1]!.map(([name]) => name)).toEqual(["wind tunnel", "weighing"]);
    expect(cells[1]![0]).toEqual(["wind tunnel", "10.0 %", "60 %; 5.0 %; 40 %", "60 %; 5.0 %; 40 %", "two weeks"]);
    expect(/NaN|undefined/.exec(markup)).toBeNull();
  });

  it("nothing where no variant has the part", () => {
    expect(certaintyPages([fixtureHold("Rev A")], (word) => word, new FigureCounter(), dom)).toBeNull();
  });
});
