import { describe, expect, it } from "vitest";
import { InputError, type Issue } from "../../math/errors.ts";
import { fixtureBalance, fixtureDocument } from "../testing/index.ts";
import { compareResults, type ResultDocument, readResult, writeResult } from "./index.ts";

const base = fixtureDocument();
const balance = fixtureBalance("Rev A");
const document: ResultDocument = {
  ...base,
  studies: { ...base.studies, balance: [balance] },
  findings: [...base.findings, ...balance.findings],
};

function issuesOf(change: (balance: Record<string, unknown>) => void): readonly Issue[] {
  const copy = JSON.parse(writeResult(document)) as { studies: { balance: Record<string, unknown>[] } };
  change(copy.studies.balance[0]!);
  try {
    readResult(JSON.stringify(copy), "r.json");
  } catch (error) {
    if (error instanceof InputError) return error.issues;
    throw error;
  }
  return [];
}

describe("a result document with the carrier's balance", () => {
  it("reads back as it was written, beside hold and alone", () => {
    const text = writeResult(document);
    expect(writeResult(readResult(text, "r.json"))).toBe(text);
    const alone = { ...document, studies: { balance: [balance] }, findings: balance.findings };
    expect(readResult(writeResult(alone), "r.json").studies.balance).toEqual(JSON.parse(JSON.stringify([balance])));
    const bare = { ...balance, ground: null, changes: balance.changes.map((one) => ({ ...one, trim: null })) };
    expect(readResult(writeResult({ ...document, studies: { balance: [bare] } }), "r.json")).toBeTruthy();
  });

  it("is refused with every damaged place named", () => {
    const issues = issuesOf((copy) => {
      const open = copy as unknown as {
        branches: { track: { mass_kg: number[] }; worst: { side: string } }[];
        changes: { trim: { elevator_deg: unknown } }[];
        totals?: unknown;
      };
      open.branches[0]!.track.mass_kg.pop();
      open.branches[1]!.worst.side = "left";
      open.changes[0]!.trim.elevator_deg = "up";
      delete open.totals;
    });
    expect(issues.map(({ path }) => path)).toEqual([
      "studies.balance[0].totals",
      "studies.balance[0].branches[0].track.mass_kg",
      "studies.balance[0].branches[1].worst.side",
      "studies.balance[0].changes[0].trim.elevator_deg",
    ]);
  });

  it("is compared finding by finding", () => {
    const moved = balance.findings.map((one) =>
      one.id === "balance.ground.tip-back" ? { ...one, value: 14, verdict: "not met" as const } : one,
    );
    const after = { ...document, findings: [...base.findings, ...moved] };
    const { moved: found } = compareResults(document, after);
    expect(found.map(({ id, verdictFlipped }) => [id, verdictFlipped])).toEqual([["balance.ground.tip-back", true]]);
  });
});
