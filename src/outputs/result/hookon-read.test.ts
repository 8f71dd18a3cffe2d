import { describe, expect, it } from "vitest";
import { InputError, type Issue } from "../../math/errors.ts";
import { fixtureDocument, fixtureHookon } from "../testing/index.ts";
import { type ResultDocument, readResult, writeResult } from "./index.ts";

const result = fixtureHookon();
const document: ResultDocument = { ...fixtureDocument(), studies: { hookon: [result] }, findings: result.findings };

function issuesOf(change: (study: Record<string, never>) => void): readonly Issue[] {
  const copy = JSON.parse(writeResult(document)) as { studies: { hookon: Record<string, never>[] } };
  change(copy.studies.hookon[0]!);
  try {
    readResult(JSON.stringify(copy), "r.json");
  } catch (error) {
    if (error instanceof InputError) return error.issues;
    throw error;
  }
  return [];
}

describe("a result document with hook-on", () => {
  it("reads back as it was written", () => {
    const text = writeResult(document);
    expect(writeResult(readResult(text, "r.json"))).toBe(text);
    expect(readResult(text, "r.json").studies.hookon).toEqual(JSON.parse(JSON.stringify([result])));
  });

  it("is refused with every damaged place named", () => {
    const issues = issuesOf((study) => {
      const open = study as unknown as {
        cases: { success: { exact_1: { lower: unknown } }; miss: { normal_1: unknown } }[];
        maps: { outcome: unknown[][] }[];
        replay: { closure_m_s: unknown[] };
        window: { simulated: { upperBecause: unknown } };
      };
      open.cases[0]!.success.exact_1.lower = "0.9";
      open.cases[1]!.miss.normal_1 = null;
      open.maps[0]!.outcome[2]![1] = "caught";
      open.replay.closure_m_s.pop();
      open.window.simulated.upperBecause = 3;
    });
    expect(issues.map(({ path }) => path)).toEqual([
      "studies.hookon[0].cases[0].success.exact_1.lower",
      "studies.hookon[0].cases[1].miss.normal_1",
      "studies.hookon[0].window.simulated.upperBecause",
      "studies.hookon[0].maps[0].outcome[2][1]",
      "studies.hookon[0].replay.closure_m_s",
    ]);
  });
});
