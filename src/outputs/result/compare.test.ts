import { describe, expect, it } from "vitest";
import type { Finding, Limit } from "../../studies/finding/types.ts";
import { fixtureDocument } from "../testing/index.ts";
import { restsOn } from "./compare.ts";
import { compareResults, type ResultDocument } from "./index.ts";

const before = fixtureDocument(["Rev A"]);
const ID = "hold.longitudinal.damping.hook.full";

function withFinding(id: string, change: Partial<Finding>, document: ResultDocument = before): ResultDocument {
  return { ...document, findings: document.findings.map((one) => (one.id === id ? { ...one, ...change } : one)) };
}

function withInput(path: string, text: string, si: number, document: ResultDocument): ResultDocument {
  return { ...document, inputs: { ...document.inputs, [path]: { ...document.inputs[path], text, si } } };
}

describe("paths", () => {
  it("touch each other when equal or when one holds the other, at whole names only", () => {
    expect(restsOn("mechanism.boom.bending", "mechanism.boom.bending")).toBe(true);
    expect(restsOn("carried.massStates", "carried.massStates.full.mass")).toBe(true);
    expect(restsOn("carried.massStates.full.mass", "carried.massStates")).toBe(true);
    expect(restsOn("conditions.hook.masses[0]", "conditions.hook.masses")).toBe(true);
    expect(restsOn("mechanism.boom.bend", "mechanism.boom.bending")).toBe(false);
    expect(restsOn("mechanism.boom.axial", "mechanism.boom.bending")).toBe(false);
  });
});

describe("comparison of results", () => {
  it("finds nothing between a document and itself", () => {
    const same = compareResults(before, fixtureDocument(["Rev A"]));
    expect(same).toMatchObject({
      inputs: [],
      files: [],
      moved: [],
      appeared: [],
      disappeared: [],
      unmoved: [],
      limits: [],
    });
  });

  it("gives old, new, absolute, relative, the flip and the reason", () => {
    const after = withInput(
      "mechanism.boom.bending",
      "120 kN/m",
      120e3,
      withFinding(ID, { value: 0.05, verdict: "met", inputHash: "0".repeat(64) }),
    );
    const result = compareResults(before, after);
    const old = before.findings.find((one) => one.id === ID)!.value!;
    expect(result.moved).toHaveLength(1);
    expect(result.moved[0]).toMatchObject({ id: ID, verdictFlipped: true, because: ["mechanism.boom.bending"] });
    expect(result.moved[0]!.absolute).toBeCloseTo(0.05 - old, 12);
    expect(result.moved[0]!.relative).toBeCloseTo((0.05 - old) / Math.abs(old), 12);
    const [input] = result.inputs;
    expect(input).toMatchObject({
      path: "mechanism.boom.bending",
      kind: "changed",
      oldText: "60 kN/m ± 8 % (1σ)",
      newText: "120 kN/m",
    });
    expect(input!.because).toContain(ID);
    expect(input!.because).not.toContain("hold.lateral.damping.hook.full");
    expect(result.unmoved).toContain("hold.longitudinal.damping.hook.empty");
    expect(result.unmoved).not.toContain(ID);
  });

  it("is antisymmetric in the values", () => {
    const after = withFinding(ID, { value: 0.01 });
    const there = compareResults(before, after).moved[0]!;
    const back = compareResults(after, before).moved[0]!;
    expect(there.absolute).toBe(-back.absolute!);
  });

  it("ignores noise of arithmetic, not a millionth", () => {
    const value = before.findings.find((one) => one.id === ID)!.value!;
    expect(compareResults(before, withFinding(ID, { value: value * (1 + 1e-12) })).moved).toEqual([]);
    expect(compareResults(before, withFinding(ID, { value: value * (1 + 1e-6) })).moved).toHaveLength(1);
  });

  it("has no difference where one side has no value, and none relative to zero", () => {
    const gone = compareResults(before, withFinding(ID, { value: null, verdict: "not analysed" })).moved[0]!;
    expect([gone.absolute, gone.relative, gone.verdictFlipped]).toEqual([null, null, true]);
    const zero = withFinding(ID, { value: 0 });
    const up = compareResults(zero, withFinding(ID, { value: 1 })).moved[0]!;
    expect([up.absolute, up.relative]).toEqual([1, null]);
    expect(compareResults(before, withFinding(ID, { unit: "%" })).moved[0]!.absolute).toBeNull();
  });

  it("notices a moved criterion although the value stays", () => {
    const finding = before.findings.find((one) => one.id === ID)!;
    const after = withFinding(ID, { criterion: { ...finding.criterion!, limit: 0.05 } });
    expect(compareResults(before, after).moved[0]).toMatchObject({ id: ID, absolute: 0, verdictFlipped: false });
  });

  it("lists flips to not met before other flips before moves", () => {
    const ids = ["hold.lateral.damping.hook.full", "hold.longitudinal.structural.hook.full", ID];
    let after = withFinding(ids[0]!, { value: 0.001 });
    after = withFinding(ids[1]!, { verdict: "not met" }, after);
    after = withFinding(ids[2]!, { verdict: "met" }, after);
    expect(compareResults(before, after).moved.map((one) => one.id)).toEqual([ids[1], ids[2], ids[0]]);
  });

  it("traces a changed file to the findings that rest on what it holds", () => {
    const files = before.files.map((file) =>
      file.path === "tip-per-jack.csv" ? { ...file, sha256: "0".repeat(64) } : file,
    );
    const [file] = compareResults(before, { ...before, files }).files;
    expect(file).toMatchObject({ path: "tip-per-jack.csv", kind: "changed", holds: "table" });
    expect(file!.because).toContain(ID);
    expect(file!.because).not.toContain("hold.lateral.damping.hook.full");
    const unstated = {
      ...before,
      inputs: { ...before.inputs, "mechanism.jack.ratio": { text: "{ file: tip-per-jack.csv }" } },
    };
    expect(compareResults(unstated, { ...unstated, files }).files[0]!.because).toContain(ID);
  });

  it("traces the pair file to the findings that rest on its changed values, which are the reasons, not the file", () => {
    const files = before.files.map((file) =>
      file.path === "fixture.pair.yaml" ? { ...file, sha256: "1".repeat(64) } : file,
    );
    const moved = withFinding(ID, { value: 0.05, verdict: "met" });
    const after = { ...withInput("mechanism.boom.bending", "120 kN/m", 120e3, moved), files };
    const result = compareResults(before, after);
    expect(result.files).toMatchObject([{ path: "fixture.pair.yaml", holds: "values" }]);
    expect(result.files[0]!.because).toEqual(result.inputs[0]!.because);
    expect(result.files[0]!.because).toContain(ID);
    expect(result.moved[0]!.because).toEqual(["mechanism.boom.bending"]);
    const remark = compareResults(before, { ...before, files });
    expect([remark.files[0]!.because, remark.unmoved]).toEqual([[], []]);
  });

  it("lists what came and what went", () => {
    const without = { ...before, findings: before.findings.slice(1), files: before.files.slice(1) };
    const { "mechanism.boom.lateral": _, ...fewer } = before.inputs;
    const gone = compareResults(before, { ...without, inputs: fewer });
    expect(gone.disappeared.map((one) => one.id)).toEqual([ID]);
    expect(gone.inputs[0]).toMatchObject({ path: "mechanism.boom.lateral", kind: "removed", newText: null });
    expect(gone.files[0]).toMatchObject({ path: "tip-per-jack.csv", kind: "removed", newSha256: null });
    const back = compareResults({ ...without, inputs: fewer }, before);
    expect(back.appeared.map((one) => one.id)).toEqual([ID]);
    expect(back.inputs[0]!.kind).toBe("added");
  });

  it("compares limits by range and status", () => {
    const limits: Limit[] = before.limits.map((limit, i) => (i === 1 ? { ...limit, lower: 50 } : limit));
    const result = compareResults(before, { ...before, limits });
    expect(result.limits).toHaveLength(1);
    expect(result.limits[0]).toMatchObject({ id: "hold.retraction", old: { lower: 52 }, new: { lower: 50 } });
    expect(compareResults(before, { ...before, limits: [] }).limits.map((one) => one.new)).toEqual([null, null]);
  });
});
