import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";
import { expectClose } from "../../../test/support/close.ts";
import { variantDampingFigure } from "../figures/index.ts";
import { renderComparison } from "../report/index.ts";
import { dampingCriterion } from "../summary/index.ts";
import { fixtureHold } from "../testing/index.ts";
import { compareText } from "../text/index.ts";
import { comparisonRows, countVerdicts, type HoldNumbers, holdNumbers, type VariantComparison } from "./index.ts";

const A = fixtureHold("Rev A");
const B = fixtureHold("Rev B");
const numbers = (result: typeof A): HoldNumbers => {
  const found = holdNumbers(result);
  if (found === null) throw new Error("no points");
  return found;
};
function comparison(...results: (typeof A)[]): VariantComparison {
  return {
    schema: "davit-comparison/1",
    davit: "1.2.3",
    pair: "Longshore <i>",
    overrides: [],
    dampingCriterion_1: dampingCriterion(results),
    variants: results.map((result) => ({
      variant: result.variant,
      inputHash: "a".repeat(64),
      fit: null,
      hookon: null,
      release: null,
      hold: numbers(result),
      balance: null,
    })),
  };
}

describe("key numbers", () => {
  it("are the least damped oscillation of rigid-body type of each plane, whatever point it is at", () => {
    for (const plane of ["longitudinal", "lateral"] as const) {
      const all = A.points.flatMap(({ modes }) =>
        modes.filter((mode) => mode.plane === plane && mode.class !== "structural" && mode.imag_rad_s > 0),
      );
      const least = Math.min(...all.map((mode) => mode.dampingRatio));
      const { worst } = numbers(A).planes[plane];
      expect(worst?.dampingRatio_1).toBe(least);
      expect(all.find((mode) => mode.dampingRatio === least)).toMatchObject({
        name: worst!.mode,
        frequency_Hz: worst!.frequency_Hz,
      });
    }
  });

  it("find where a track crosses zero between two samples, and only oscillations of rigid-body type", () => {
    const track = { name: "x", class: "rigid-body-type", plane: "lateral", real_1_s: [0, 0, 0] } as const;
    const sweep = {
      ...A.sweeps[0]!,
      id: "airspeed",
      values: [80, 90, 100],
      tracks: [
        { ...track, imag_rad_s: [1, 1, 1], dampingRatio: [-0.02, 0.06, 0.1] },
        { ...track, class: "structural" as const, imag_rad_s: [1, 1, 1], dampingRatio: [-1, 1, 1] },
        { ...track, imag_rad_s: [0, 0, 0], dampingRatio: [-1, 1, 1] },
        { ...track, imag_rad_s: [null, 1, 1], dampingRatio: [null, 0.1, -0.1] },
      ],
    };
    const found = numbers({ ...A, sweeps: [sweep] });
    expect(found.planes.lateral.neutralAirspeeds_m_s_EAS).toHaveLength(2);
    expectClose(found.planes.lateral.neutralAirspeeds_m_s_EAS[0]!, 82.5, { rtol: 1e-12, why: "straight line" });
    expectClose(found.planes.lateral.neutralAirspeeds_m_s_EAS[1]!, 95, { rtol: 1e-12, why: "straight line" });
    expect(found.planes.longitudinal.neutralAirspeeds_m_s_EAS).toEqual([]);
    expect(numbers({ ...A, sweeps: [] }).neutralSearch).toBe(null);
  });

  it("give no stiffness when one mass is not content with a rigid boom, else the most that any needs", () => {
    const [need] = A.stiffness;
    const withHeadlines = (...values: (number | null)[]) =>
      numbers({ ...A, stiffness: values.map((headline_N_m) => ({ ...need!, headline_N_m })) }).stiffnessNeed_N_m;
    expect(withHeadlines(5e4, 7e4, 6e4)).toBe(7e4);
    expect(withHeadlines(5e4, null)).toBe(null);
    expect(withHeadlines()).toBe(null);
  });

  it("name the lowest bending of the boom that oscillates", () => {
    const [point] = A.points;
    const mode = point!.modes.find(({ imag_rad_s }) => imag_rad_s > 0)!;
    const bends = (...frequencies: number[]) =>
      numbers({
        ...A,
        points: [
          {
            ...point!,
            modes: frequencies.map((frequency_Hz, i) => ({
              ...mode,
              name: `boom bending ${i + 1}`,
              frequency_Hz,
              imag_rad_s: frequency_Hz,
            })),
          },
        ],
      }).boomBending;
    expect(bends(30, 0, 12)).toMatchObject({ frequency_Hz: 12 });
    expect(bends(0)).toBe("does not oscillate");
    expect(bends()).toBe("none taken in");
  });

  it("count verdicts, those that inform left out", () => {
    const { met, notMet, notAnalysed } = countVerdicts(A.findings);
    expect(met + notMet + notAnalysed).toBe(A.findings.filter(({ verdict }) => verdict !== "information").length);
    expect(holdNumbers({ ...A, points: [] })).toBe(null);
  });
});

describe("table", () => {
  it("has a cell for each variant in every row, on a page and in a terminal", () => {
    const both = comparison(A, B);
    for (const row of comparisonRows(both, "−")) expect(row.cells).toHaveLength(2);
    const text = compareText(both, "Invented.");
    for (const word of ["Rev A", "Rev B", "Invented.", "worst ζ"]) expect(text).toContain(word);
    for (const line of text.split("\n")) expect([...line].length).toBeLessThanOrEqual(100);
  });

  it("goes on below when variants do not fit beside each other", () => {
    const many = Array.from({ length: 9 }, (_, i) => ({ ...A, variant: `Variant ${i + 1}` }));
    const text = compareText(comparison(...many), undefined, { width: 80 });
    for (let i = 1; i <= 9; i++) expect(text.split(`Variant ${i}`)).toHaveLength(2);
    for (const line of text.split("\n")) expect([...line].length).toBeLessThanOrEqual(80);
  });

  it("says what did not run", () => {
    const some = comparison(A, B);
    const rows = comparisonRows({ ...some, variants: [some.variants[0]!, { ...some.variants[1]!, hold: null }] }, "-");
    for (const { cells } of rows) expect(cells[1]).toBe("not run");
  });
});

describe("page", () => {
  const dom = parseHTML("<!doctype html><html><body></body></html>");
  it("stands alone, escapes what the user wrote, and is the same twice", () => {
    const page = renderComparison(comparison(A, B), dom, "Invented & marked");
    expect(page).toBe(renderComparison(comparison(A, B), dom, "Invented & marked"));
    expect(page).toContain("Longshore &lt;i&gt;");
    expect(page).toContain("Invented &amp; marked");
    expect(page).not.toMatch(/<script|https?:\/\/(?!www\.w3\.org)/);
    expect(page).toContain("criterion ζ = 0.03");
  });

  it("draws a dot for each variant and plane, and none without hold", () => {
    const both = comparison(A, B);
    const figure = variantDampingFigure("v", both, dom)!;
    for (const { variant, hold } of both.variants) {
      for (const plane of ["longitudinal", "lateral"] as const) {
        expect(figure.caption).toContain(variant);
        expect(figure.svg).toContain(Math.abs(hold!.planes[plane].worst!.dampingRatio_1).toFixed(3));
      }
    }
    const none = both.variants.map((one) => ({ ...one, hold: null }));
    expect(variantDampingFigure("v", { ...both, variants: none }, dom)).toBe(null);
  });
});
