import { describe, expect, it } from "vitest";
import type { Finding } from "../../studies/finding/types.ts";
import { isMeasured, overallVerdict, relativeMargin, subjectOf, summariseVerdicts } from "./index.ts";

function finding(
  id: string,
  value: number | null,
  limit: number | null,
  verdict: Finding["verdict"],
  sense: "at least" | "at most" = "at least",
): Finding {
  const criterion =
    limit === null ? {} : { criterion: { text: `${sense} ${limit}`, sense, limit, source: "project criterion" } };
  return {
    id,
    study: "hold",
    title: id,
    value,
    unit: "1",
    verdict,
    rests: [],
    inputHash: "0".repeat(64),
    version: "0",
    seed: null,
    ...criterion,
  };
}

describe("verdict summary", () => {
  it("lets the worst finding speak, by verdict first and margin second", () => {
    const rows = summariseVerdicts([
      finding("hold.hook.longitudinal.a", 0.05, 0.03, "met"),
      finding("hold.hook.longitudinal.b", 0.02, 0.03, "not met"),
      finding("hold.hook.longitudinal.c", -0.01, 0.03, "not met"),
      finding("hold.hook.lateral.a", 0.09, 0.03, "met"),
      finding("hold.hook.lateral.b", 0.04, 0.03, "met"),
    ]);
    expect(
      rows.map(({ subject, verdict, governing, met, count }) => [subject, verdict, governing.id, met, count]),
    ).toEqual([
      ["longitudinal", "not met", "hold.hook.longitudinal.c", 1, 3],
      ["lateral", "met", "hold.hook.lateral.b", 2, 2],
    ]);
  });

  it("keeps criteria apart, unmet ones first, and leaves information out", () => {
    const rows = summariseVerdicts([
      finding("hold.x.lateral.a", 1, 0.5, "met"),
      finding("hold.x.lateral.b", 1, 2, "not met"),
      finding("hold.x.mass", 7, null, "information"),
      finding("hold.x.air", null, null, "not analysed"),
    ]);
    expect(rows.map(({ what, verdict, subject }) => [what, verdict, subject])).toEqual([
      ["hold.x.lateral.b", "not met", "lateral"],
      ["hold.x.lateral.a", "met", "lateral"],
      ["hold.x.air", "not analysed", "whole pair"],
    ]);
  });

  it("measures margins in parts of the limit, positive inside, for both senses", () => {
    expect(relativeMargin(finding("a", 0.06, 0.03, "met"))).toBeCloseTo(1, 12);
    expect(relativeMargin(finding("a", 12, 10, "not met", "at most"))).toBeCloseTo(-0.2, 12);
    expect(relativeMargin(finding("a", 2, 0, "met"))).toBe(2);
    expect(relativeMargin(finding("a", null, 1, "not met"))).toBe(Number.NEGATIVE_INFINITY);
    expect(relativeMargin(finding("a", null, 1, "met"))).toBe(Number.POSITIVE_INFINITY);
  });

  it("has one word for all, and it is the worst", () => {
    const met = finding("a.lateral", 1, 0, "met");
    expect(overallVerdict([])).toBe("information");
    expect(overallVerdict([met])).toBe("met");
    expect(overallVerdict([met, finding("b", null, null, "not analysed")])).toBe("not analysed");
    expect(overallVerdict([met, finding("b", null, null, "not analysed"), finding("c", 1, 2, "not met")])).toBe(
      "not met",
    );
  });

  it("takes the subject of a fit from its id and keeps subjects in the order they come", () => {
    const own = (id: string) => ({ ...finding(id, 1, 0.5, "met"), study: "fit" });
    const rows = summariseVerdicts([
      own("fit.jack-load"),
      own("fit.ground.static.clearance"),
      own("fit.jack-load.other"),
    ]);
    expect(rows.map(({ study, subject, count }) => [study, subject, count])).toEqual([
      ["fit", "jack load", 2],
      ["fit", "ground", 1],
    ]);
  });

  it("reads the subject from the id and firmness from the maturity", () => {
    expect(subjectOf(finding("hold.hook.full.lateral.damping", 1, 0, "met"))).toBe("lateral");
    expect(subjectOf(finding("hold.hook.full.trim", 1, 0, "met"))).toBe("whole pair");
    expect(["wind tunnel", "ground test", "flight"].map(isMeasured)).toEqual([true, true, true]);
    expect(["estimate", "analysis", "hearsay", undefined].map(isMeasured)).toEqual([false, false, false, false]);
  });
});
