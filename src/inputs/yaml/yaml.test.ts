import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import type { Issue } from "../../math/errors.ts";
import { find, placeOf, toPlain } from "../tree/index.ts";
import type { ReadFile } from "./files.ts";
import { openFiles } from "./files.ts";
import { assemble } from "./include.ts";
import { LIMITS } from "./limits.ts";
import { readYaml } from "./read.ts";

const read = (text: string) => readYaml(text, "a.yaml");
const messages = (text: string) => read(text).issues.map((issue) => `${issue.line}:${issue.column} ${issue.message}`);

describe("reading", () => {
  it("keeps every value as it was written, with its place", () => {
    const { tree, issues } = read("a: 0.80\nb:\n  - yes\n  - 'it''s'\n  - \"x\\ty\"\nc: { d: 1e3 }\n");
    expect(issues).toEqual([]);
    expect(toPlain(tree!)).toEqual({ a: "0.80", b: ["yes", "it's", "x\ty"], c: { d: "1e3" } });
    expect(placeOf(tree!, ["b", 1])).toEqual({ file: "a.yaml", line: 4, column: 5 });
    expect(placeOf(tree!, ["c", "d"])).toEqual({ file: "a.yaml", line: 6, column: 9 });
    // of a map or list the place of its key; of what does not exist the place around it
    expect(placeOf(tree!, ["b"])).toEqual({ file: "a.yaml", line: 2, column: 1 });
    expect(placeOf(tree!, ["c", "x"])).toEqual({ file: "a.yaml", line: 6, column: 1 });
  });

  it("knows where a value's text starts when it stands in one line", () => {
    const { tree } = read("a: 60 kN\nb: '60 kN'\nc: \"a\\tb\"\nd: |\n  60\n  kN\n");
    const column = (key: string) => {
      const at = find(tree, [key]);
      return at?.kind === "scalar" ? at.textColumn : undefined;
    };
    expect([column("a"), column("b"), column("c"), column("d")]).toEqual([4, 5, undefined, undefined]);
  });

  it("tells an empty value from one that is taken out", () => {
    const { tree } = read("a:\nb: ~\nc: null\nd: ''\n");
    const flags = ["a", "b", "c", "d"].map((key) => {
      const at = find(tree, [key]);
      return at?.kind === "scalar" ? [at.empty, at.removal] : undefined;
    });
    expect(flags).toEqual([
      [true, false],
      [true, true],
      [true, true],
      [false, false],
    ]);
  });

  it("follows aliases and takes over maps with <<", () => {
    const { tree, issues } = read("a: &a { x: 1, y: 2 }\nb: { <<: *a, y: 3 }\nc: *a\nd: { <<: [{ x: 5 }, *a] }\n");
    expect(issues).toEqual([]);
    expect(toPlain(tree!)).toEqual({
      a: { x: "1", y: "2" },
      b: { y: "3", x: "1" },
      c: { x: "1", y: "2" },
      d: { x: "5", y: "2" },
    });
    // what was taken over stands where it was written
    expect(placeOf(tree!, ["b", "x"]).line).toBe(1);
  });

  it("agrees with the library's own reading of random data", () => {
    const leaf = fc.constantFrom("12", "1 kN", "word", "-0.5");
    const tree = fc.letrec((tie) => ({
      node: fc.oneof(
        { maxDepth: 4 },
        leaf,
        fc.array(tie("node"), { maxLength: 3 }),
        fc.dictionary(fc.constantFrom("a", "b", "c"), tie("node")),
      ),
    })).node;
    fc.assert(
      fc.property(fc.dictionary(fc.constantFrom("p", "q", "r"), tree, { minKeys: 1 }), (data) => {
        const text = JSON.stringify(data);
        const ours = read(text);
        expect(ours.issues).toEqual([]);
        expect(JSON.parse(JSON.stringify(toPlain(ours.tree!)))).toEqual(JSON.parse(JSON.stringify(parse(text))));
      }),
      { numRuns: 60 },
    );
  });
});

describe("refused", () => {
  it.each([
    ["a: 1\na: 2\n", ['2:1 duplicate key "a"; it already stands in line 1']],
    ["a: !x 1\n", ["1:4 tags are not understood"]],
    ["%YAML 1.1\n---\na: 1\n", ["1:1 a directive stands in the file"]],
    ["a: 1\n---\nb: 1\n", ["2:1 the file holds several documents"]],
    ["a:\n\tb: 1\n", ["2:1 a tab is used for indentation"]],
    ["a: *x\n", ["1:4 an alias names no anchor"]],
    ["a: &x [*x]\n", ["1:8 an alias stands inside its own anchor"]],
    ['a: "x\nb: 1\n', ["1:4 a quotation mark does not close"]],
    ["a: [1\nb: 1\n", ["1:4 a bracket does not close"]],
    ["a: {x: 1]\n", ["1:4 a bracket does not close"]],
    ["a: b: c\n", ["1:4 a second key starts in the same line, or the indentation does not fit"]],
    ["a: @x\n", ["1:4 a value starts with a character that needs quotes"]],
    ["[a]: 1\n", ["1:1 a key is not a word"]],
    ["a: { <<: 1 }\n", ["1:10 << takes over the keys of a map"]],
  ])("%j", (text, expected) => {
    expect(messages(text)).toEqual(expected);
  });

  it("nesting past the limit, before any value is built", () => {
    for (const [open, close] of [
      ["[", "]"],
      ["{a: ", "}"],
      ["- ", ""],
    ] as const) {
      const deep = `${open.repeat(20_000)}1${close.repeat(20_000)}`;
      expect(read(deep).issues[0]?.message).toBe("is nested too deeply");
      expect(read(`${open.repeat(LIMITS.depth - 1)}1${close.repeat(LIMITS.depth - 1)}`).issues).toEqual([]);
    }
  });

  it("growth and depth through aliases", () => {
    const lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x, x]"];
    for (let i = 1; i < 12; i++) lines.push(`a${i}: &a${i} [${`*a${i - 1}, `.repeat(10)}]`);
    expect(read(lines.join("\n")).issues).toMatchObject([
      { line: 5, message: "the file grows too large when its aliases are followed" },
    ]);
    const chain = ["a0: &a0 [x]"];
    for (let i = 1; i < 60; i++) chain.push(`a${i}: &a${i} [*a${i - 1}]`);
    expect(read(chain.join("\n")).issues).toMatchObject([{ line: LIMITS.depth, value: "62 levels of nesting" }]);
  });

  it("anything else, without ever throwing", () => {
    const soup = fc.array(
      fc.constantFrom(
        "a",
        ": ",
        "\n",
        "  ",
        "- ",
        "[",
        "]",
        "{",
        "}",
        "&x ",
        "*x",
        "!t ",
        "'",
        '"',
        "<<",
        "|",
        ">",
        "%",
        "#",
        "\t",
        "---",
        "?",
        ",",
        "~",
        "\r\n",
      ),
      { maxLength: 40 },
    );
    fc.assert(
      fc.property(soup, (parts) => {
        const result = read(parts.join(""));
        for (const issue of result.issues) expect(issue.line).toBeGreaterThan(0);
      }),
      { numRuns: 1500 },
    );
  });
});

describe("including", () => {
  const folder =
    (files: Record<string, string>): ReadFile =>
    (path) => {
      const text = files[path];
      return text === undefined
        ? { ok: false, reason: "there is no such file" }
        : { ok: true, bytes: new TextEncoder().encode(text) };
    };
  const join = (files: Record<string, string>) => {
    const issues: Issue[] = [];
    const opened = openFiles("pairs/p.yaml", folder(files));
    const assembled = assemble("p.yaml", opened, issues);
    return { issues, assembled, opened, plain: assembled.tree && toPlain(assembled.tree) };
  };

  it("lays own values over included ones, later included over earlier", () => {
    const { plain, issues, opened } = join({
      "pairs/p.yaml": "include: [one.yaml, two.yaml]\na: { own: 1 }\n",
      "pairs/one.yaml": "a: { own: 0, one: 1, both: 1 }\nprovenance: { source: one }\n",
      "pairs/two.yaml": "include: [deep/three.yaml]\na: { both: 2 }\n",
      "pairs/deep/three.yaml": "include: [../four.yaml]\na: { both: 3, three: 3 }\n",
      "pairs/four.yaml": "a: { four: 4 }\n",
    });
    expect(issues).toEqual([]);
    expect(plain).toMatchObject({ a: { own: "1", one: "1", both: "2", three: "3", four: "4" } });
    expect(opened.used().map((file) => file.path)).toEqual([
      "p.yaml",
      "one.yaml",
      "two.yaml",
      "deep/three.yaml",
      "four.yaml",
    ]);
    expect(opened.used().every((file) => /^[0-9a-f]{64}$/.test(file.sha256))).toBe(true);
  });

  it("one file may be included on two ways; its problems are told once", () => {
    const { issues } = join({
      "pairs/p.yaml": "include: [one.yaml, two.yaml]\n",
      "pairs/one.yaml": "include: [x.yaml]\n",
      "pairs/two.yaml": "include: [x.yaml]\n",
      "pairs/x.yaml": "a: 1\na: 2\n",
    });
    expect(issues).toHaveLength(1);
  });

  it("files that multiply at every level are stopped", () => {
    const files: Record<string, string> = { "pairs/p.yaml": "include: [l0.yaml, l0.yaml]\n" };
    for (let i = 0; i < 30; i++) files[`pairs/l${i}.yaml`] = `include: [l${i + 1}.yaml, l${i + 1}.yaml]\n`;
    files["pairs/l30.yaml"] = "a: 1\n";
    const { issues, assembled } = join(files);
    expect(assembled.tree).toBeUndefined();
    expect(issues.some((issue) => issue.message === "too many files include each other")).toBe(true);
    expect(issues.length).toBeLessThan(200);
  });
});
