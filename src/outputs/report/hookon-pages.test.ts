import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";
import { fixtureDocument, fixtureHookon } from "../testing/index.ts";
import { renderReport } from "./index.ts";

const META = { cautions: [], inputHash: "0f".repeat(32) };
const dom = { document: parseHTML("<!doctype html><html><body></body></html>").document };
const hookon = [fixtureHookon("Rev A"), fixtureHookon("Rev B")];
const base = fixtureDocument();

describe("the report with hook-on", () => {
  const page = renderReport({ ...base, studies: { hookon }, findings: hookon[0]!.findings }, dom as never, META);
  const { document } = parseHTML(page);

  it("has a section for each variant, listed in the contents, and a card", () => {
    const ids = ["hookon", "hookon-v2"];
    for (const id of ids) {
      expect(document.querySelector(`#${id} h2`)?.textContent).toContain("Hook-on");
      expect(document.querySelector(`nav a[href="#${id}"]`)).not.toBeNull();
    }
    expect(document.querySelectorAll("article.card").length).toBe(2);
    expect(page).not.toMatch(/NaN|undefined/);
  });

  it("draws seven figures a variant and states shares with their denominators", () => {
    expect(document.querySelectorAll("#hookon figure").length).toBe(7);
    expect(document.querySelector("#hookon")?.textContent).toContain("184 of 200, 92.0 %");
  });

  it("says that a limit is not cleared and what was not analysed", () => {
    expect(document.querySelector("#limits")?.textContent).toContain("NOT CLEARED");
    expect(document.querySelector("#not-analysed")?.textContent).toContain("bow wave");
  });

  it("stands beside hold without changing its sections", () => {
    const both = renderReport({ ...base, studies: { ...base.studies, hookon } }, dom as never, META);
    expect(both).toContain('id="pictures"');
    expect(both).toContain('id="hookon"');
  });
});
