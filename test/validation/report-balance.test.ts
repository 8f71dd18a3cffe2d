import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";
import { balanceNumbers } from "../../src/outputs/comparison/balance-numbers.ts";
import { comparisonRows } from "../../src/outputs/comparison/index.ts";
import { renderLoadingSheet, renderReport } from "../../src/outputs/report/index.ts";
import type { ResultDocument } from "../../src/outputs/result/index.ts";
import { fixtureBalance, fixtureDocument } from "../../src/outputs/testing/index.ts";

const dom = parseHTML("<!doctype html><html><body></body></html>");
const META = { notice: "Made up.", cautions: [], inputHash: "ab".repeat(32) };
const [A, B] = [fixtureBalance("Rev A"), fixtureBalance("Rev B")];
const base = fixtureDocument();
const documentOf = (studies: ResultDocument["studies"]): ResultDocument => ({ ...base, studies, findings: A.findings });

interface Element {
  readonly textContent: string;
  getAttribute(name: string): string | null;
  querySelector(selector: string): Element | null;
  querySelectorAll(selector: string): Iterable<Element>;
}

const parse = (page: string) => parseHTML(page).document as unknown as Element;
const all = (root: Element, selector: string) => [...root.querySelectorAll(selector)];

describe("report with the carrier's balance", () => {
  it("has its section after hold, and draws a variant that came out alike once", () => {
    const root = parse(renderReport(documentOf({ ...base.studies, balance: [A, B] }), dom, META));
    const ids = all(root, "main > section").map((section) => section.getAttribute("id"));
    expect(ids.indexOf("balance")).toBeGreaterThan(ids.indexOf("trim"));
    expect(ids).toContain("balance-v2");
    expect(all(root, "#balance figure")).toHaveLength(2);
    expect(root.querySelector("#balance-v2 p")!.textContent).toBe("The same as Rev A in every number.");
  });

  it("stands alone without pages of hold, and judges by subject", () => {
    const root = parse(renderReport(documentOf({ balance: [A] }), dom, META));
    expect(root.querySelector("#modes")).toBeNull();
    const rows = all(root, "#verdicts tbody th[scope=row]").map((cell) => cell.textContent);
    expect(rows).toEqual(["balance, cg", "balance, ground"]);
    expect(all(root, "#balance table")[0]!.textContent).toContain(
      "Stuck at 52°0.40forward, 16.0loiter6 h 004000016.40",
    );
    expect(root.querySelector("#headlines")!.textContent).toContain("prohibited");
  });
});

describe("loading sheet", () => {
  const root = parse(renderLoadingSheet({ pair: "Fixture", davit: "1.2.3" }, A, META));

  it("lists each item with its moment and a blank to fill in, and the sums with their limits", () => {
    const rows = all(root, "table")[0]!;
    expect(all(rows, "tbody tr")).toHaveLength(A.items.length + 3);
    expect(rows.textContent).toContain("Inner (holds 18000)".toLowerCase());
    expect(rows.textContent).toContain("Empty carrier2800016.800470400");
    expect(all(rows, "td.blank").every((cell) => cell.textContent === "")).toBe(true);
    expect(all(root, "table")[1]!.textContent).toContain("At the start498005800022.0016.0 to 33.0");
    // what the user named is text, not markup
    expect(root.querySelector("b")).toBeNull();
  });

  it("marks what is not met, defers to approved data and the accountable person, and asks nothing of a network", () => {
    const words = root.querySelector("body")!.textContent;
    expect(words).toMatch(/Stuck at 52°0\.40.*NOT MET/);
    expect(words).toContain("the approved loading data of the carrier");
    expect(words).toContain("accountable person");
    expect(renderLoadingSheet({ pair: "Fixture", davit: "1.2.3" }, A, META)).not.toMatch(/https?:|<script|<link/);
  });
});

describe("variants compared by their balance", () => {
  it("have margin, course, release and tip-back", () => {
    const one = {
      variant: "Rev A",
      inputHash: "a".repeat(64),
      fit: null,
      hold: null,
      hookon: null,
      release: null,
      balance: balanceNumbers(A),
    };
    const rows = comparisonRows(
      {
        ...{ schema: "davit-comparison/1", davit: "1", pair: "p", overrides: [], dampingCriterion_1: null },
        variants: [one, { ...one, variant: "none", balance: null }],
      },
      "-",
    );
    const cells = new Map(rows.map(({ label, cells: own }) => [label, own]));
    expect(cells.get("least margin of the c.g.")).toEqual(["0.40 % of the chord", "not run"]);
    expect(cells.get("its course and leg")![0]).toBe("stuck at 52°, loiter");
    expect(cells.get("load factor at release")![0]).toBe("1.045");
    expect(cells.get("balance, met of judged")![0]).toBe("not met: 3 of 4");
  });
});
