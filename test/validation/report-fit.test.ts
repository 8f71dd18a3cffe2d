/** The clearance report of a pair whose fit was computed: in order, safe, accessible, hold unchanged beside it. */
import { parseHTML } from "linkedom";
import { beforeAll, describe, expect, it } from "vitest";
import { renderReport } from "../../src/outputs/report/index.ts";
import type { ResultDocument } from "../../src/outputs/result/index.ts";
import { fixtureDocument, fixtureFit } from "../../src/outputs/testing/index.ts";
import type { FitResult } from "../../src/studies/fit/types.ts";

const dom = parseHTML("<!doctype html><html><body></body></html>");
const META = { notice: "Made-up pair.", cautions: ["Mind the fixture."], inputHash: "9f3ac1d2".repeat(8) };

interface Element {
  readonly textContent: string;
  readonly tagName: string;
  getAttribute(name: string): string | null;
  querySelector(selector: string): Element | null;
  querySelectorAll(selector: string): Iterable<Element>;
}

function documentOf(fit: readonly FitResult[], hold = true): ResultDocument {
  const base = fixtureDocument();
  return {
    ...base,
    studies: hold ? { ...base.studies, fit } : { fit },
    findings: [...fit[0]!.findings, ...(hold ? base.findings : [])],
  };
}

const parse = (page: string) => parseHTML(page).document as unknown as Element;
const all = (root: Element, selector: string) => [...root.querySelectorAll(selector)];

let page = "";
let root: Element;

beforeAll(() => {
  page = renderReport(documentOf([fixtureFit("Rev A"), fixtureFit("Rev B")]), dom, META);
  root = parse(page);
});

describe("report with fit and hold", () => {
  it("puts the fit before the hooked stability, verdicts first, cautions last", () => {
    expect(all(root, "main > section").map((section) => section.getAttribute("id"))).toEqual([
      "verdicts",
      "headlines",
      "fit",
      "fit-v2",
      "pictures",
      "modes",
      "trim",
      "findings",
      "limits",
      "assumptions",
      "not-analysed",
      "provenance",
      "cautions",
    ]);
    const links = all(root, "nav a").map((link) => link.getAttribute("href")!.slice(1));
    expect(links).toEqual(all(root, "main > section").map((section) => section.getAttribute("id")));
  });

  it("orders the fit: verdict, arrangement, clearances, moves, ground and loading, mechanism, tolerances", () => {
    expect(all(root, "#fit h3").map((heading) => heading.textContent)).toEqual([
      "Verdict",
      "Arrangement",
      "Clearance matrix",
      "Clearance along the stroke",
      "When gear and doors may move",
      "Zones",
      "Ground and loading",
      "Mechanism",
      "Tolerances",
      "Shapes",
    ]);
    expect(all(root, "#fit figure")).toHaveLength(10);
  });

  it("judges each variant by all its studies in one group", () => {
    const groups = all(root, "#verdicts tr.group th").map((group) => group.textContent);
    expect(groups).toEqual(["Rev A NOT MET", "Rev B NOT MET"]);
    const studies = all(root, "#verdicts tbody th[scope=row]").map((cell) => cell.textContent.split(",")[0]);
    expect(new Set(studies)).toEqual(new Set(["fit", "hold"]));
    const ids = all(root, "#findings tbody th code").map((code) => code.textContent);
    expect(ids).toContain("fit.transmission-angle");
    expect(ids).toContain("hold.longitudinal.damping.hook.full");
  });

  it("prints the matrix with worst value, place and what misses its criterion", () => {
    const rows = all(root, "#fit table.matrix tbody tr").map((row) => row.textContent);
    const short = rows.filter((row) => row.includes("SHORT"));
    expect(short[0]).toContain("carrier fuselage – boom leg");
    expect(short[0]).toMatch(/29−18 \/ 175project criterionboom 22\.0°FS 14\.393, BL 0\.200, WL 0\.158/);
    const pairs = fixtureFit().clearances.length + fixtureFit().gearClearances.length;
    expect(rows.length).toBe(pairs + all(root, "#fit table.matrix tr.group").length);
  });

  it("lists the moves there and back", () => {
    const lists = all(root, "#fit ol").map((list) => all(list, "li").map((item) => item.textContent));
    expect(lists).toHaveLength(2);
    expect(lists[0]![0]).toBe("Move the boom from 14° to 45.35° with the gear at 0 %.");
    expect(lists[1]).toHaveLength(3);
  });

  it("does not draw a variant twice that came out the same", () => {
    expect(root.querySelector("#fit-v2")!.textContent).toContain("The same as Rev A in every number.");
    expect(all(root, "#fit-v2 figure")).toHaveLength(0);
    const other = fixtureFit("Rev B");
    const moved = {
      ...other,
      stroke: other.stroke.map((one) => ({ ...one, carriedPitch_deg: one.carriedPitch_deg + 1 })),
    };
    const both = parse(renderReport(documentOf([fixtureFit("Rev A"), moved], false), dom, META));
    expect(all(both, "#fit-v2 figure")).toHaveLength(10);
    const ids = all(both, "[id]").map((element) => element.getAttribute("id"));
    expect(new Set(ids).size).toBe(ids.length);
  });

  it("numbers the figures of all studies through", () => {
    all(root, "figcaption strong").forEach((caption, i) => {
      expect(caption.textContent.startsWith(`Figure ${i + 1}. `)).toBe(true);
    });
  });

  it("has headings without a jump, tables with caption and full rows, figures with title and description", () => {
    const levels = all(root, "h1, h2, h3, h4").map((heading) => Number(heading.tagName[1]));
    levels.forEach((level, i) => {
      if (i > 0) expect(level - levels[i - 1]!).toBeLessThanOrEqual(1);
    });
    for (const table of all(root, "#fit table")) {
      expect(table.querySelector("caption")!.textContent.length).toBeGreaterThan(5);
      const columns = all(table, "thead th[scope=col]").length;
      for (const row of all(table, "tbody tr")) {
        const span = all(row, "th, td").reduce((sum, cell) => sum + Number(cell.getAttribute("colspan") ?? 1), 0);
        expect(span).toBe(columns);
      }
    }
    for (const figure of all(root, "#fit svg.davit-figure")) {
      for (const id of figure.getAttribute("aria-labelledby")!.split(" "))
        expect(page.includes(` id="${id}"`)).toBe(true);
    }
    const ids = [...page.matchAll(/ id="([^"]*)"/g)].map(([, id]) => id!);
    expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([]);
  });

  it("is self-contained and the same every time", () => {
    expect(page.match(/<(script|link|iframe|object|embed|img|base|form)\b/gi)).toBeNull();
    expect(page.match(/\b(NaN|Infinity|undefined|null)\b/)).toBeNull();
    expect(renderReport(documentOf([fixtureFit("Rev A"), fixtureFit("Rev B")]), dom, META) === page).toBe(true);
  });

  it("keeps hostile names as text", () => {
    const evil = `</style><script>alert("1")</script><img src=x onerror=a()>`;
    const fit = fixtureFit(evil);
    const hostile: FitResult = {
      ...fit,
      parts: fit.parts.map((part) => ({ ...part, name: evil, faults: [evil] })),
      clearances: fit.clearances.map((one) => ({ ...one, pair: [evil, evil] })),
      leftOut: [{ pair: [evil, evil], because: evil }],
      maps: fit.maps.map((map) => ({ ...map, group: evil, title: evil, noPathBecause: evil })),
      zones: fit.zones.map((zone) => ({ ...zone, zone: evil, part: evil })),
      findings: fit.findings.map((finding) => ({ ...finding, title: evil, note: evil })),
    };
    const printed = renderReport(documentOf([hostile], false), dom, META);
    expect(printed.match(/<script|<img/gi)).toBeNull();
    expect(printed.match(/<\/style>/g)).toHaveLength(1);
  });
});

describe("report with the fit alone", () => {
  it("names no other study and needs none", () => {
    const alone = parse(renderReport(documentOf([fixtureFit("Rev A")], false), dom, META));
    expect(
      all(alone, "main > section")
        .map((section) => section.getAttribute("id"))
        .slice(0, 4),
    ).toEqual(["verdicts", "headlines", "fit", "findings"]);
    expect(alone.querySelector("header .sub")!.textContent).toBe(
      "Fit of the pair in every pose, on the ground and in the air",
    );
    expect(alone.querySelector("#fit h2")!.textContent).toBe("Fit");
    expect(all(alone, ".card h3").map((heading) => heading.textContent)).toEqual(["Rev A"]);
  });

  it("says what is missing by leaving it out", () => {
    const fit = fixtureFit("Rev A");
    const bare = { ...fit, ground: null, loading: null, zones: [], maps: [], pictures: [], tolerance: [] };
    const printed = parse(renderReport(documentOf([bare], false), dom, META));
    expect(all(printed, "#fit h3").map((heading) => heading.textContent)).toEqual([
      "Verdict",
      "Clearance matrix",
      "Clearance along the stroke",
      "Mechanism",
      "Tolerances",
      "Shapes",
    ]);
  });
});
