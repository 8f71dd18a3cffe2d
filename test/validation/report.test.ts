/** The clearance report as a page: self-contained, safe, accessible, in order, stable. */
import { parseHTML } from "linkedom";
import { beforeAll, describe, expect, it } from "vitest";
import { STANDARD_CAUTIONS } from "../../src/outputs/cautions/index.ts";
import { renderReport } from "../../src/outputs/report/index.ts";
import type { ResultDocument } from "../../src/outputs/result/index.ts";
import { fixtureDocument } from "../../src/outputs/testing/index.ts";

const dom = parseHTML("<!doctype html><html><body></body></html>");
const META = { notice: "Made-up pair.", cautions: ["Mind the fixture."], inputHash: "9f3ac1d2".repeat(8) };

let page = "";
let parsed: Document;
const one = (selector: string): string => parsed.querySelector(selector)?.textContent ?? "";
const all = (selector: string): Element[] => [...parsed.querySelectorAll(selector)];

interface Element {
  readonly textContent: string;
  readonly tagName: string;
  getAttribute(name: string): string | null;
  querySelector(selector: string): Element | null;
  querySelectorAll(selector: string): Iterable<Element>;
}
type Document = Element;

beforeAll(() => {
  page = renderReport(fixtureDocument(), dom, META);
  parsed = parseHTML(page).document as unknown as Document;
});

describe("order and content", () => {
  it("puts the verdicts first and the cautions last", () => {
    expect(all("main > section").map((section) => section.getAttribute("id"))).toEqual([
      "verdicts",
      "headlines",
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
  });

  it("names pair, variant, version, hash and notice in the title block", () => {
    expect(one("h1")).toBe("Fixture");
    const title = one("header.title");
    for (const text of ["Rev A", "Rev B", "0.1.0", META.inputHash.slice(0, 16), META.notice])
      expect(title).toContain(text);
    expect(title).toContain("14 values, 12 of them not measured");
  });

  it("gives each variant its verdict by word and shape", () => {
    const groups = all("#verdicts tr.group th");
    expect(groups.map((group) => group.textContent)).toEqual(["Rev A NOT MET", "Rev B NOT MET"]);
    for (const mark of all("#verdicts .mark")) expect(mark.querySelector("svg path, svg circle")).not.toBeNull();
    const rows = all("#verdicts tbody tr").map((row) => row.textContent);
    expect(
      rows.some((row) => row.includes("−0.0319") && row.includes("at least 0.03") && row.includes("project criterion")),
    ).toBe(true);
  });

  it("prints every finding, limit, input, assumption and caution of the document", () => {
    const document = fixtureDocument();
    const findings = one("#findings");
    for (const hold of document.studies.hold!) {
      for (const { id, title } of hold.findings) {
        expect(findings).toContain(id);
        expect(findings).toContain(title);
      }
      for (const { id } of hold.limits) expect(one("#limits")).toContain(id);
      for (const text of hold.assumptions) expect(one("#assumptions")).toContain(text);
      for (const text of hold.notAnalysed) expect(one("#not-analysed")).toContain(text);
    }
    const provenance = one("#provenance");
    for (const [path, { text }] of Object.entries(document.inputs)) {
      expect(provenance).toContain(path);
      expect(provenance).toContain(text);
    }
    for (const { path, sha256 } of document.files) expect(provenance).toContain(path + sha256);
    for (const caution of [...STANDARD_CAUTIONS, ...META.cautions]) expect(one("#cautions")).toContain(caution);
  });

  it("says of each limit what holds in its range, and of each worst value what it is", () => {
    const rows = all("#limits tbody tr").map((row) => row.textContent);
    const retraction = rows.filter((row) => row.includes("hold.retraction"));
    expect(retraction).toHaveLength(2);
    for (const row of retraction) expect(row).toContain("PROHIBITEDfrom 52 deg upwardsforbidden inside this range");
    expect(rows.some((row) => row.includes("ANALYSEDfrom 123.1 m/s EAS to 125 m/s EAScomputed to meet"))).toBe(true);
    expect(one("#verdicts")).toContain("worst: Least damping ratio of the longitudinal rigid-body-type oscillations");
  });

  it("marks each unmeasured input, and only those", () => {
    const rows = all("#provenance table.inputs tbody tr").map((row) => row.textContent);
    expect(rows.filter((row) => row.includes("unmeasured"))).toHaveLength(12);
    expect(rows.find((row) => row.includes("Cmalpha"))).toContain("measured, wind tunnel");
  });

  it("names every input of the rest sets once", () => {
    const blocks = one("#findings dl.rests");
    expect(blocks.match(/mechanism\.snubber: equivalent/g)).toHaveLength(1);
    expect(blocks.match(/massStates/g)).toHaveLength(1);
  });

  it("numbers its figures and shows all kinds of them", () => {
    const captions = all("figcaption strong").map((caption) => caption.textContent);
    captions.forEach((caption, i) => {
      expect(caption.startsWith(`Figure ${i + 1}. `)).toBe(true);
    });
    for (const kind of [
      "snubber rate",
      "Root loci",
      "Damping ratio",
      "tangential stiffness",
      "upset",
      "Kinetic energy",
    ]) {
      expect(captions.some((caption) => caption.includes(kind))).toBe(true);
    }
  });
});

describe("one file that works anywhere", () => {
  it("refers to nothing outside and holds no script", () => {
    expect(page.match(/<(script|link|iframe|object|embed|img|base|form)\b/gi)).toBeNull();
    expect(page.match(/@import|@font-face|url\((?!#)/g)).toBeNull();
    const outside = [...page.matchAll(/(?:src|href|action|data|poster)="([^"]*)"/g)]
      .map(([, to]) => to!)
      .filter((to) => !to.startsWith("#"));
    expect(outside).toEqual([]);
    const addresses = [...page.matchAll(/https?:[^"'\s<)]+/g)].map(([address]) => address);
    expect([...new Set(addresses)]).toEqual(["http://www.w3.org/2000/svg"]);
    expect(page.match(/ on[a-z]+=/g)).toBeNull();
  });

  it("gives the same bytes for the same result", () => {
    expect(renderReport(fixtureDocument(), dom, META) === page).toBe(true);
    expect(page.match(/\b20\d\d-\d\d-\d\d\b/)).toBeNull();
  });

  it("holds no number that is not one", () => {
    expect(page.match(/\b(NaN|Infinity|undefined|null)\b/)).toBeNull();
  });

  it("has a print style for A4 with the caution in the foot", () => {
    expect(page).toMatch(/@page \{ size: A4;/);
    expect(page).toMatch(/@bottom-left \{ content: "Aid to judgement, not an approval: the accountable engineer/);
    expect(page).toMatch(/counter\(page\)/);
  });
});

describe("hostile names", () => {
  const evil = `</style><script>alert("1")</script><img src=x onerror=a()>&'\u0000`;
  let hostile: string;

  beforeAll(() => {
    const document = fixtureDocument();
    const renamed: ResultDocument = {
      ...document,
      pair: evil,
      variant: evil,
      overrides: [evil],
      inputs: {
        ...document.inputs,
        [evil]: { text: evil, unit: evil, si: 1, maturity: evil, source: evil, file: evil },
      },
      files: [{ path: evil, sha256: "0".repeat(64) }],
      studies: {
        hold: document.studies.hold!.map((hold) => ({
          ...hold,
          variant: evil,
          points: hold.points.map((point) => ({ ...point, id: evil, condition: evil, mass: evil })),
          pilotTime: hold.pilotTime.map((time) => ({ ...time, pointId: evil })),
          snubber: hold.snubber.map((curve) => ({ ...curve, mass: evil })),
          sweeps: hold.sweeps.map((sweep) => ({ ...sweep, condition: evil, mass: evil })),
          findings: hold.findings.map((finding) => ({ ...finding, title: evil, note: evil, rests: [evil] })),
          limits: hold.limits.map((limit) => ({ ...limit, title: evil, note: evil, because: [evil] })),
          assumptions: [evil],
          notAnalysed: [evil],
        })),
      },
    };
    hostile = renderReport(renamed, dom, { notice: evil, cautions: [evil], inputHash: META.inputHash });
  });

  it("stay text", () => {
    expect(hostile.match(/<script/gi)).toBeNull();
    expect(hostile.match(/<img/gi)).toBeNull();
    expect(hostile.match(/<\/style>/g)).toHaveLength(1);
    expect(hostile.includes("\u0000")).toBe(false);
    const again = parseHTML(hostile).document as unknown as Document;
    expect([...again.querySelectorAll("script, img")]).toEqual([]);
    expect(again.querySelector("h1")!.textContent).toBe(evil.replace("\u0000", "\ufffd"));
  });
});

describe("accessibility", () => {
  it("has landmarks, one h1 and headings without a jump", () => {
    expect(all("html[lang=en]")).toHaveLength(1);
    for (const landmark of ["main", "nav[aria-label]", "header", "footer"]) expect(all(landmark)).toHaveLength(1);
    const levels = all("h1, h2, h3, h4").map((heading) => Number(heading.tagName[1]));
    expect(levels.filter((level) => level === 1)).toHaveLength(1);
    levels.forEach((level, i) => {
      if (i > 0) expect(level - levels[i - 1]!).toBeLessThanOrEqual(1);
    });
  });

  it("gives every table a caption and scoped heads, every row as many cells as there are columns", () => {
    expect(all("table").length).toBeGreaterThan(6);
    for (const table of all("table")) {
      expect(table.querySelector("caption")!.textContent.length).toBeGreaterThan(5);
      const columns = [...table.querySelectorAll("thead th[scope=col]")].length;
      expect([...table.querySelectorAll("col")]).toHaveLength(columns);
      for (const row of table.querySelectorAll("tbody tr")) {
        const cells = [...row.querySelectorAll("th, td")];
        const span = cells.reduce((sum, cell) => sum + Number(cell.getAttribute("colspan") ?? 1), 0);
        expect(span).toBe(columns);
        expect(cells[0]!.getAttribute("scope")).toMatch(/^row(group)?$/);
      }
    }
  });

  it("describes every figure and uses every id once", () => {
    const ids = [...page.matchAll(/ id="([^"]*)"/g)].map(([, id]) => id!);
    expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([]);
    const known = new Set(ids);
    for (const figure of all("svg.davit-figure")) {
      for (const id of figure.getAttribute("aria-labelledby")!.split(" ")) expect(known.has(id)).toBe(true);
      expect(figure.getAttribute("role")).toBe("img");
    }
    for (const [, target] of page.matchAll(/href="#([^"]*)"|url\(#([^)]*)\)/g)) {
      if (target !== undefined) expect(known.has(target)).toBe(true);
    }
  });

  it("keeps text at a contrast of at least 4.5 : 1 on its ground", () => {
    const luminance = (hex: string) => {
      const [r, g, b] = [1, 3, 5].map((i) => {
        const c = Number.parseInt(hex.slice(i, i + 2), 16) / 255;
        return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
      }) as [number, number, number];
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    const contrast = (a: string, b: string) => {
      const [low, high] = [luminance(a), luminance(b)].sort((x, y) => x - y) as [number, number];
      return (high + 0.05) / (low + 0.05);
    };
    const style = page.slice(0, page.indexOf("</style>"));
    const value = (name: string) => new RegExp(`--${name}: (#[0-9a-f]{6})`).exec(style)![1]!;
    for (const ground of ["#ffffff", value("wash"), "#fdf8ec"]) {
      for (const ink of ["ink", "soft", "head", "good", "bad", "open"]) {
        expect([ink, ground, contrast(value(ink), ground) >= 4.5]).toEqual([ink, ground, true]);
      }
    }
    const figureInks = new Set([...page.matchAll(/<text[^>]* fill="(#[0-9a-f]{6})"/g)].map(([, ink]) => ink!));
    expect(figureInks.size).toBeGreaterThan(2);
    for (const ink of figureInks) expect([ink, contrast(ink, "#ffffff") >= 4.5]).toEqual([ink, true]);
  });
});
