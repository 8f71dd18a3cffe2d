import { describe, expect, it } from "vitest";
import * as z from "zod";
import type { Issue } from "../../math/errors.ts";
import type { Mapping } from "../tree/index.ts";
import { find, toPlain } from "../tree/index.ts";
import { readYaml } from "../yaml/index.ts";
import { readNames } from "./names.ts";
import { applyPatches, setPatches, variantPatches } from "./patch.ts";
import { checkPath } from "./paths.ts";

const value = z.unknown();
const schema = z.strictObject({
  mechanism: z.strictObject({
    boom: z.strictObject({ bending: value, axial: value, own: z.strictObject({ mass: value }).optional() }),
    snubber: z.discriminatedUnion("at", [
      z.strictObject({ at: z.literal("tip"), angle: value }),
      z.strictObject({ at: z.literal("jack") }),
    ]),
  }),
  conditions: z.record(z.string(), z.strictObject({ masses: z.array(value) })),
  variants: value.optional(),
});

const TEXT = `mechanism:
  boom: { bending: { value: 60, source: x }, axial: 6 }
  snubber: { at: tip, angle: 50 }
conditions:
  hook: { masses: [full, empty] }
variants:
  B:
    mechanism.boom.axial: 7
`;
const tree = readYaml(TEXT, "p.yaml").tree as Mapping;
const check = (path: string) => checkPath(schema, tree, path.split("."), true);

describe("paths", () => {
  it.each([
    "mechanism.boom.bending",
    "mechanism.boom",
    "mechanism.boom.own.mass",
    "mechanism.boom.bending.value",
    "mechanism.boom.bending.maturity",
    "conditions.hook.masses.1",
    "mechanism.snubber.angle",
  ])("%s may be changed", (path) => {
    expect(check(path).ok).toBe(true);
  });

  it.each([
    ["mechanism.boom.bendign", "mechanism.boom.bending"],
    ["mechanism.bom.axail", "mechanism.boom.axial"],
    ["conditions.hok.masses", "conditions.hook.masses"],
    ["boom.bending", "mechanism.boom.bending"],
    ["mechanism.boom.axial.value", undefined],
    ["conditions.hook.masses.5", "conditions.hook.masses.0"],
    ["variants.B", undefined],
    ["mechanism.boom.constructor", undefined],
    ["", undefined],
  ])("%s may not; nearest is %s", (path, near) => {
    const result = check(path);
    expect(result.ok).toBe(false);
    if (!result.ok && near !== undefined) expect(result.near).toBe(near);
  });

  it("the form of a union decides on its keys", () => {
    const jack = readYaml(TEXT.replace("at: tip, angle: 50", "at: jack"), "p.yaml").tree as Mapping;
    expect(checkPath(schema, jack, ["mechanism", "snubber", "angle"], true).ok).toBe(false);
  });
});

describe("patches", () => {
  const issues = (): Issue[] => [];

  it("replace whole values and leave the original alone", () => {
    const before = JSON.stringify(toPlain(tree));
    const found = issues();
    const patches = setPatches(
      tree,
      ["mechanism.boom.bending=90", "mechanism.boom.own={ mass: 3 }", "conditions.hook.masses.1=return"],
      schema,
      found,
    );
    const patched = applyPatches(tree, patches);
    expect(found).toEqual([]);
    expect(JSON.parse(JSON.stringify(toPlain(patched)))).toMatchObject({
      mechanism: { boom: { bending: "90", axial: "6", own: { mass: "3" } } },
      conditions: { hook: { masses: ["full", "return"] } },
    });
    expect(JSON.stringify(toPlain(tree))).toBe(before);
    expect(find(patched, ["mechanism", "boom", "bending"])?.place).toEqual({ file: "--set" });
  });

  it("of a variant stand where the variant is written", () => {
    const variant = find(tree, ["variants", "B"]) as Mapping;
    const patched = applyPatches(tree, variantPatches(tree, variant, "variants.B", schema, issues()));
    expect(find(patched, ["mechanism", "boom", "axial"])?.place).toEqual({ file: "p.yaml", line: 8, column: 27 });
  });

  it("a later setting wins over an earlier one", () => {
    const patches = setPatches(tree, ["mechanism.boom.axial=1", "mechanism.boom.axial=2"], schema, issues());
    expect(find(applyPatches(tree, patches), ["mechanism", "boom", "axial"])).toMatchObject({ text: "2" });
  });

  it.each([
    ["mechanism.boom.axial", "is not a setting"],
    ["=5", "is not a setting"],
    ["mechanism.boom.axial=", "has no value"],
    ["mechanism.boom.axial=~", "is needed and cannot be taken out"],
    ["mechanism.boom.axial=!t 5", "tags are not understood"],
    ["mechanism.boom.x=5", 'unknown path "mechanism.boom.x"'],
  ])("%s is refused", (text, message) => {
    const found = issues();
    expect(setPatches(tree, [text], schema, found)).toEqual([]);
    expect(found.map((issue) => issue.message)).toEqual([expect.stringContaining(message)]);
    expect(found[0]!.file).toBe("--set");
  });
});

describe("names", () => {
  it("base first, then the variants; the default is the base", () => {
    expect(readNames(tree, [])).toEqual({ base: "base", all: ["base", "B"], chosen: "base", cleared: ["base", "B"] });
    const named = readYaml(`base: A\ndefaultVariant: B\n${TEXT}`, "p.yaml").tree as Mapping;
    expect(readNames(named, [])).toEqual({ base: "A", all: ["A", "B"], chosen: "B", cleared: ["A", "B"] });
  });
});
