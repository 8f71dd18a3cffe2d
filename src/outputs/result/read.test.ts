import { describe, expect, it } from "vitest";
import { InputError, type Issue } from "../../math/errors.ts";
import { fixtureDocument } from "../testing/index.ts";
import { type ResultDocument, readResult, writeResult } from "./index.ts";

const document = fixtureDocument();
const text = writeResult(document);

function issuesOf(source: string): readonly Issue[] {
  try {
    readResult(source, "old.json");
  } catch (error) {
    if (error instanceof InputError) return error.issues;
    throw error;
  }
  return [];
}

/** The document with one place replaced. */
function damaged(change: (copy: Record<string, never>) => void): string {
  const copy = JSON.parse(text) as Record<string, never>;
  change(copy);
  return JSON.stringify(copy);
}

describe("result documents", () => {
  it("read back as they were written, files sorted, bytes stable", () => {
    const back = readResult(text, "r.json");
    const files = [...document.files].sort((a, b) => (a.path < b.path ? -1 : 1));
    expect(back).toEqual(JSON.parse(JSON.stringify({ ...document, files })));
    expect(writeResult(back)).toBe(text);
    expect(text.startsWith('{\n  "schema": "davit.result/1",\n  "davit": "0.1.0",\n  "pair": "Fixture",\n')).toBe(true);
    expect(text.endsWith("}\n")).toBe(true);
  });

  it("let pass keys they do not know", () => {
    const newer = damaged((copy) =>
      Object.assign(copy, { studies: { ...(copy as { studies?: object }).studies, radius: [] }, extra: 1 }),
    );
    expect((readResult(newer, "r.json") as ResultDocument).pair).toBe("Fixture");
  });

  it("refuse what is not JSON, with its place", () => {
    const [issue] = issuesOf('{\n  "schema": "davit.result/1",\n  oops\n}');
    expect(issue).toMatchObject({ file: "old.json", message: "is not JSON" });
    if (issue!.line !== undefined) expect([issue!.line, issue!.column]).toEqual([3, 3]);
  });

  it("refuse foreign files and other versions", () => {
    expect(issuesOf("[1, 2]")).toEqual([
      { path: "schema", message: "is not a result of davit", file: "old.json", allowed: "davit.result/1" },
    ]);
    expect(issuesOf('{"schema": {"a": 1}}')[0]).toMatchObject({
      message: "is not a result of davit",
      value: '{"a":1}',
    });
    expect(issuesOf('{"schema": "davit.result/0"}')[0]).toMatchObject({
      message: "is a result of another version of davit; compute it again with this one",
      value: "davit.result/0",
      allowed: "davit.result/1",
    });
  });

  it("name every damaged place, at most twenty", () => {
    const source = damaged((copy) => {
      const open = copy as unknown as {
        findings: { verdict: string; value: string; inputHash: string }[];
        pair?: string;
      };
      open.findings[0]!.verdict = "fine";
      open.findings[1]!.value = "0.1";
      open.findings[2]!.inputHash = "ABC";
      delete open.pair;
    });
    expect(issuesOf(source).map(({ path, message }) => `${path} ${message}`)).toEqual([
      "pair is missing",
      "findings[0].verdict has the wrong form",
      "findings[1].value has the wrong form",
      "findings[2].inputHash is not a SHA-256",
    ]);
    const empty = damaged((copy) => Object.assign(copy, { findings: Array.from({ length: 50 }, () => ({})) }));
    expect(issuesOf(empty)).toHaveLength(20);
  });

  it("notice arrays that do not belong together", () => {
    const source = damaged((copy) => {
      const [hold] = (
        copy as unknown as {
          studies: {
            hold: {
              maps: { worst: number[] }[];
              snubber: { worstDampingRatio: number[] }[];
              sweeps: { tracks: { real_1_s: number[] }[] }[];
            }[];
          };
        }
      ).studies.hold;
      hold!.maps[0]!.worst.pop();
      hold!.snubber[0]!.worstDampingRatio.pop();
      hold!.sweeps[0]!.tracks[1]!.real_1_s.pop();
    });
    expect(issuesOf(source).map(({ path, value, allowed }) => [path, value, allowed])).toEqual([
      ["studies.hold[0].sweeps[0].tracks[1].real_1_s", "35", "36, as in values"],
      ["studies.hold[0].maps[0].worst", "1839", "1840, the product of its axes"],
      ["studies.hold[0].snubber[0].worstDampingRatio", "60", "61, as in rate_N_s_m"],
    ]);
  });
});
