import { describe, expect, it } from "vitest";
import { InputError, type Issue } from "../../math/errors.ts";
import type { FitResult } from "../../studies/fit/types.ts";
import { fixtureDocument, fixtureFit } from "../testing/index.ts";
import { compareResults, type ResultDocument, readResult, writeResult } from "./index.ts";

const hold = fixtureDocument();
const fit = fixtureFit("Rev A");

function withFit(result: FitResult): ResultDocument {
  return { ...hold, studies: { ...hold.studies, fit: [result] }, findings: [...result.findings, ...hold.findings] };
}

const document = withFit(fit);

function issuesOf(change: (fit: Record<string, unknown>) => void): readonly Issue[] {
  const copy = JSON.parse(writeResult(document)) as { studies: { fit: Record<string, unknown>[] } };
  change(copy.studies.fit[0]!);
  try {
    readResult(JSON.stringify(copy), "r.json");
  } catch (error) {
    if (error instanceof InputError) return error.issues;
    throw error;
  }
  return [];
}

describe("a result document with a fit", () => {
  it("reads back as it was written, beside hold and alone", () => {
    const text = writeResult(document);
    expect(writeResult(readResult(text, "r.json"))).toBe(text);
    expect(readResult(text, "r.json").studies.fit).toEqual(JSON.parse(JSON.stringify([fit])));
    const alone = { ...document, studies: { fit: [fit] }, findings: fit.findings };
    expect(readResult(writeResult(alone), "r.json").studies.hold).toBeUndefined();
  });

  it("is refused with every damaged place named", () => {
    const issues = issuesOf((copy) => {
      const open = copy as unknown as {
        stroke: { socket_m: unknown[]; tipPerJack_1: unknown }[];
        clearances: { state: string; zone: unknown }[];
        ground: { states: { name: string }[] };
        stack?: unknown;
      };
      open.stroke[0]!.socket_m.pop();
      open.stroke[1]!.tipPerJack_1 = null;
      open.clearances[0]!.state = "fine";
      open.clearances[1]!.zone = "no";
      open.ground.states[0]!.name = "flooded";
      delete open.stack;
    });
    expect(issues.map(({ path, message }) => `${path} ${message}`)).toEqual([
      "studies.fit[0].stroke[0].socket_m has the wrong form",
      "studies.fit[0].clearances[0].state has the wrong form",
      "studies.fit[0].clearances[1].zone has the wrong form",
      "studies.fit[0].stack is missing",
      "studies.fit[0].ground.states[0].name has the wrong form",
    ]);
  });

  it("notices maps that do not fill their grid, and indices that name nothing", () => {
    const issues = issuesOf((copy) => {
      const [map] = (copy as unknown as { maps: { state: string[]; leastPair: number[]; regionOf: number[] }[] }).maps;
      map!.state.pop();
      map!.leastPair[3] = 2;
      map!.regionOf[7] = -2;
    });
    expect(issues.map(({ path, value, allowed }) => [path, value, allowed])).toEqual([
      ["studies.fit[0].maps[0].state", "1680", "1681, the product of fractions and boomAngles_deg"],
      ["studies.fit[0].maps[0].leastPair[3]", "2", "-1, or a place in pairs (0 to 1)"],
      ["studies.fit[0].maps[0].regionOf[7]", "-2", "-1, or a place in regions (0 to 0)"],
    ]);
  });

  it("notices gear tables of unequal length", () => {
    const [issue] = issuesOf((copy) => {
      (copy as unknown as { gear: { angles_deg: number[] }[] }).gear[0]!.angles_deg.pop();
    });
    expect(issue).toMatchObject({ path: "studies.fit[0].gear[0].angles_deg", allowed: "3, as in fractions" });
  });
});

describe("comparison of documents with several studies", () => {
  it("follows the findings of every study to what changed", () => {
    const moved = fit.findings.map((one) =>
      one.id === "fit.jack-load" ? { ...one, value: 150e3, verdict: "not met" as const } : one,
    );
    const after: ResultDocument = {
      ...withFit({ ...fit, findings: moved }),
      inputs: { ...document.inputs, "mechanism.linkage.jack.from": { text: "{ FS: 13 m }" } },
    };
    const result = compareResults(document, after);
    expect(result.moved.map(({ id, verdictFlipped, because }) => [id, verdictFlipped, because])).toEqual([
      ["fit.jack-load", true, ["mechanism.linkage.jack.from"]],
    ]);
    expect(result.unmoved).toContain("fit.transmission-angle");
    expect(result.unmoved.some((id) => id.startsWith("hold."))).toBe(false);
  });

  it("calls the findings of a study that was not run before new", () => {
    const result = compareResults(hold, document);
    expect(result.appeared.map(({ id }) => id)).toEqual(fit.findings.map(({ id }) => id));
    expect(result.moved).toEqual([]);
  });
});
