import { describe, expect, it } from "vitest";
import { partNames } from "../studies/hold-depth/index.ts";
import { helpTail, type Parsed, parseArguments } from "./program.ts";
import { commandReference } from "./reference.ts";
import { COMMANDS } from "./table.ts";

function parse(...argv: string[]): { readonly parsed: Parsed; readonly out: string; readonly error: string } {
  let out = "";
  let error = "";
  const parsed = parseArguments(COMMANDS, argv, {
    version: "1.2.3",
    writeOut: (text) => {
      out += text;
    },
    writeError: (text) => {
      error += text;
    },
  });
  return { parsed, out, error };
}

describe("parsing", () => {
  it("gives the command and what was asked", () => {
    const { parsed } = parse("hold", "x.yaml", "--set", "a=1 m", "--variant", "Rev B", "--set", "b=2", "--json", "-");
    expect(parsed).toMatchObject({ kind: "run", spec: { name: "hold" } });
    expect(parsed.kind === "run" && parsed.request).toEqual({
      pair: "x.yaml",
      variant: "Rev B",
      set: ["a=1 m", "b=2"],
      json: "-",
    });
  });

  it("takes options before and after the pair, and a pair that begins with a dash after --", () => {
    expect(parse("check", "--variant", "A", "x.yaml").parsed).toMatchObject({
      request: { pair: "x.yaml", variant: "A" },
    });
    expect(parse("check", "--", "-x.yaml").parsed).toMatchObject({ request: { pair: "-x.yaml" } });
  });

  it("takes names of variants after the pair, between options too", () => {
    expect(parse("compare", "x.yaml", "A", "--study", "hold", "B c", "--study", "fit").parsed).toMatchObject({
      request: { pair: "x.yaml", variants: ["A", "B c"], study: ["hold", "fit"], set: [] },
    });
    const { parsed } = parse("hold", "x.yaml");
    expect(parsed.kind === "run" && "variants" in parsed.request).toBe(false);
  });

  it("names the nearest command or option", () => {
    const command = parse("hodl", "x.yaml");
    expect(command.parsed).toEqual({ kind: "done", code: 2 });
    expect(command.error).toContain("hold");
    const option = parse("hold", "x.yaml", "--varient", "A");
    expect(option.parsed).toEqual({ kind: "done", code: 2 });
    expect(option.error).toContain("--variant");
  });

  it.each([
    { argv: [], says: "Usage: davit" },
    { argv: ["hold"], says: "PAIR" },
    { argv: ["hold", "a", "b"], says: "too many arguments" },
    { argv: ["hold", "a", "--variant"], says: "argument missing" },
    { argv: ["hold", "a", "--variant", "A", "--variant", "B"], says: "given twice" },
    { argv: ["hold", "a", "--out", ""], says: "empty" },
    { argv: ["clear", "a"], says: "--out" },
    { argv: ["changed", "a"], says: "--since" },
    { argv: ["compare", "a"], says: "VARIANT" },
  ])("refuses $argv with words, on the error stream only", ({ argv, says }) => {
    const { parsed, out, error } = parse(...argv);
    expect(parsed).toEqual({ kind: "done", code: 2 });
    expect(error).toContain(says);
    expect(out).toBe("");
  });

  it("prints version and help on the output", () => {
    expect(parse("--version")).toMatchObject({ parsed: { kind: "done", code: 0 }, out: "1.2.3\n", error: "" });
    expect(parse("--help").parsed).toEqual({ kind: "done", code: 0 });
    for (const { name, summary } of COMMANDS) {
      expect(parse("--help").out.replace(/\s+/g, " ")).toContain(summary);
      expect(parse("help", name).out).toContain("Exit codes:");
      expect(parse(name, "--help").out).toContain("Example");
    }
  });
});

describe("command table", () => {
  it("has for each command an example that itself parses", () => {
    for (const spec of COMMANDS) {
      expect(spec.examples.length).toBeGreaterThan(0);
      for (const { line } of spec.examples) {
        const words = [...line.replace(/ > .*/, "").matchAll(/"([^"]*)"|(\S+)/g)].map((word) => word[1] ?? word[2]!);
        expect(words[0]).toBe("davit");
        expect(parse(...words.slice(1)).parsed).toMatchObject({ kind: "run", spec: { name: spec.name } });
      }
    }
  });

  it("loads every command it names", async () => {
    for (const spec of COMMANDS) expect(typeof (await spec.load()).run).toBe("function");
  });

  it("is what the reference page says", () => {
    const page = commandReference();
    for (const spec of COMMANDS) {
      expect(page).toContain(`## ${spec.name}\n`);
      expect(page).toContain(spec.details);
      expect(helpTail(spec)).toContain(spec.examples[0]!.line);
    }
  });
});

describe("the help of hold", () => {
  it("names every part, in the order in which they run", () => {
    const help = COMMANDS.find(({ name }) => name === "hold")?.options.find(({ key }) => key === "parts")?.help;
    expect(help).toContain(`: ${partNames().join(", ")}; `);
  });
});
