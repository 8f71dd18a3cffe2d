import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";
import { fixtureDocument, fixtureRelease } from "../testing/index.ts";
import { renderReport } from "./index.ts";

const META = { cautions: [], inputHash: "0f".repeat(32) };
const dom = { document: parseHTML("<!doctype html><html><body></body></html>").document };
const release = [fixtureRelease("Rev A"), fixtureRelease("Rev B")];
const base = fixtureDocument();

describe("the report with release", () => {
  const page = renderReport({ ...base, studies: { release }, findings: release[0]!.findings }, dom as never, META);
  const { document } = parseHTML(page);

  it("has a section for each variant, listed in the contents, and a card", () => {
    for (const id of ["release", "release-v2"]) {
      expect(document.querySelector(`#${id} h2`)?.textContent).toContain("Release");
      expect(document.querySelector(`nav a[href="#${id}"]`)).not.toBeNull();
    }
    expect(document.querySelectorAll("article.card").length).toBe(2);
    expect(page).not.toMatch(/NaN|undefined/);
  });

  it("draws six figures a variant and states shares with their denominators", () => {
    expect(document.querySelectorAll("#release figure").length).toBe(6);
    expect(document.querySelector("#release")?.textContent).toContain("59 of 60");
  });

  it("says that a limit is not cleared and what was not analysed", () => {
    expect(document.querySelector("#limits")?.textContent).toContain("NOT CLEARED");
    expect(document.querySelector("#not-analysed")?.textContent).toContain("isolated from each other");
  });

  it("stands beside hold without changing its sections", () => {
    const both = renderReport({ ...base, studies: { ...base.studies, release } }, dom as never, META);
    expect(both).toContain('id="pictures"');
    expect(both).toContain('id="release"');
  });
});
