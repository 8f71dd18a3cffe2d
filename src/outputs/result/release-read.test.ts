import { describe, expect, it } from "vitest";
import { InputError, type Issue } from "../../math/errors.ts";
import { fixtureDocument, fixtureRelease } from "../testing/index.ts";
import { type ResultDocument, readResult, writeResult } from "./index.ts";

const result = fixtureRelease();
const document: ResultDocument = { ...fixtureDocument(), studies: { release: [result] }, findings: result.findings };

function issuesOf(change: (study: Record<string, never>) => void): readonly Issue[] {
  const copy = JSON.parse(writeResult(document)) as { studies: { release: Record<string, never>[] } };
  change(copy.studies.release[0]!);
  try {
    readResult(JSON.stringify(copy), "r.json");
  } catch (error) {
    if (error instanceof InputError) return error.issues;
    throw error;
  }
  return [];
}

describe("a result document with release", () => {
  it("reads back as it was written", () => {
    const text = writeResult(document);
    expect(writeResult(readResult(text, "r.json"))).toBe(text);
    expect(readResult(text, "r.json").studies.release).toEqual(JSON.parse(JSON.stringify([result])));
  });

  it("is refused with every damaged place named", () => {
    const issues = issuesOf((study) => {
      const open = study as unknown as {
        cases: { outcome: unknown; course: { below_m: unknown[] } }[];
        edges: { unit: unknown }[];
        envelopes: { clearance_m: unknown[] }[];
        strips: { frames: { side: unknown[][][] }[] }[];
      };
      open.cases[0]!.outcome = "fine";
      open.cases[1]!.course.below_m.pop();
      open.edges[0]!.unit = "kt";
      open.envelopes[0]!.clearance_m.pop();
      open.strips[0]!.frames[1]!.side[0]![2] = [1];
    });
    expect(issues.map(({ path }) => path)).toEqual([
      "studies.release[0].cases[0].outcome",
      "studies.release[0].cases[1].course.below_m",
      "studies.release[0].edges[0].unit",
      "studies.release[0].envelopes[0].clearance_m",
      "studies.release[0].strips[0].frames[1].side[0][2]",
    ]);
  });
});
