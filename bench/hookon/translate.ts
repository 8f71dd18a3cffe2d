/** Writes stages in the restricted form as C or as Python, line by line. */
import { readFileSync } from "node:fs";
import * as layout from "../../src/physics/hookon-motion/layout.ts";
import * as parameters from "../../src/physics/hookon-motion/parameter-layout.ts";
import { type Expression, readSource, type Source, type Stage, type Statement } from "./subset.ts";

/** Files of the right-hand side, each after those it calls. */
const FILES = ["arc", "carrier", "boom", "frames", "contact", "aircraft", "socket"].map((name) => `stage-${name}`);

/** Stages in order, called before their callers. */
function readStages(): Source[] {
  return [...FILES, "right-hand-side"].map((name) => {
    const file = new URL(`../../src/physics/hookon-motion/${name}.ts`, import.meta.url);
    const source = readSource(readFileSync(file, "utf8"));
    // within a file the callers stand first
    return { ...source, stages: [...source.stages].sort((a, b) => depth(a, source) - depth(b, source)) };
  });
}

/** How many calls within its file a stage has below it. */
function depth(stage: Stage, source: Source): number {
  const below = (body: readonly Statement[]): number[] =>
    body.flatMap((s) => {
      if (s.kind === "if") return [...below(s.yes), ...below(s.no)];
      if (s.kind === "for" || s.kind === "while") return below(s.body);
      const called = s.kind === "call" ? source.stages.find(({ name }) => name === s.name) : undefined;
      return called === undefined ? [] : [1 + depth(called, source)];
    });
  return Math.max(0, ...below(stage.body));
}

/** Names within indices, and what those are made of: whole numbers. */
function wholeNames(stage: Stage): Set<string> {
  const whole = new Set<string>();
  const declared = new Map<string, Set<Statement>>();
  const names = (e: Expression): void => {
    if (e.kind === "name") whole.add(e.name);
    if (e.kind === "unary") names(e.of);
    if (e.kind === "binary") for (const side of [e.left, e.right]) names(side);
  };
  const look = (e: Expression): void => {
    if (e.kind === "element") names(e.index);
    if (e.kind === "unary" || e.kind === "whole") look(e.of);
    if (e.kind === "binary") for (const side of [e.left, e.right]) look(side);
    if (e.kind === "choice") for (const part of [e.condition, e.yes, e.no]) look(part);
    if (e.kind === "math") e.values.forEach(look);
  };
  const visit = (body: readonly Statement[]): void => {
    for (const s of body) {
      if (s.kind === "let" || s.kind === "for") declared.set(s.name, (declared.get(s.name) ?? new Set()).add(s));
      if (s.kind === "let") {
        look(s.value);
        if (whole.has(s.name)) names(s.value);
      }
      if (s.kind === "set") for (const e of [s.target, s.value]) look(e);
      if (s.kind === "if" || s.kind === "while") look(s.condition);
      if (s.kind === "if") for (const part of [s.yes, s.no]) visit(part);
      if (s.kind === "for") {
        whole.add(s.name);
        names(s.until.value);
      }
      if (s.kind === "for" || s.kind === "while") visit(s.body);
    }
  };
  // each pass finds what the names of the last one are made of
  for (let pass = 0; pass < 4; pass++) visit(stage.body);
  for (const [name, places] of declared) {
    const mixed = places.size > 1 && [...places].some(({ kind }) => kind === "let");
    if (mixed && whole.has(name)) throw new Error(`${stage.name}: ${name} is declared twice, once within an index`);
  }
  return whole;
}

/** How the words of a language differ. */
interface Words {
  readonly choice: (condition: string, yes: string, no: string) => string;
  readonly operators: Readonly<Record<string, string>>;
  readonly math: Readonly<Record<string, string>>;
  readonly whole: (text: string) => string;
}

const C_WORDS: Words = {
  choice: (condition, yes, no) => `(${condition} ? ${yes} : ${no})`,
  operators: { "===": "==", "!==": "!=" },
  math: { abs: "fabs", min: "least", max: "most" },
  whole: (text) => `((int)${text})`,
};
const PYTHON_WORDS: Words = {
  choice: (condition, yes, no) => `(${yes} if ${condition} else ${no})`,
  operators: { "===": "==", "!==": "!=", "&&": "and", "||": "or" },
  math: {},
  whole: (text) => `int(${text})`,
};

/** An expression; numbers are real but in an index or for a whole name. */
function write(e: Expression, words: Words, isWhole = false): string {
  const on = (part: Expression, whole = isWhole): string => write(part, words, whole);
  switch (e.kind) {
    case "number":
      return isWhole || /[.e]/.test(e.text) ? e.text : `${e.text}.0`;
    case "name":
      return e.name;
    case "element":
      return `${e.array}[${on(e.index, true)}]`;
    case "unary":
      return `(-${on(e.of)})`;
    case "whole":
      return words.whole(on(e.of, false));
    case "binary":
      return `(${on(e.left)} ${words.operators[e.operator] ?? e.operator} ${on(e.right)})`;
    case "choice":
      return words.choice(on(e.condition), on(e.yes), on(e.no));
    case "math":
      return `${words.math[e.name] ?? e.name}(${e.values.map((value) => on(value)).join(", ")})`;
  }
}

function cBody(body: readonly Statement[], whole: Set<string>): string[] {
  const braced = (head: string, inside: readonly Statement[]): string[] => [
    `${head} {`,
    ...cBody(inside, whole).map((line) => `  ${line}`),
    "}",
  ];
  const lines = (s: Statement): string[] => {
    switch (s.kind) {
      case "let": {
        const type = `${s.fixed ? "const " : ""}${whole.has(s.name) ? "int" : "double"}`;
        return [`${type} ${s.name} = ${write(s.value, C_WORDS, whole.has(s.name))};`];
      }
      case "set": {
        const isWhole = s.target.kind === "name" && whole.has(s.target.name);
        return [`${write(s.target, C_WORDS)} ${s.operator} ${write(s.value, C_WORDS, isWhole)};`];
      }
      case "call":
        return [`${s.name}(${s.arrays.join(", ")});`];
      case "if": {
        const yes = braced(`if (${write(s.condition, C_WORDS)})`, s.yes);
        return s.no.length === 0 ? yes : [...yes, ...braced("else", s.no)];
      }
      case "while":
        return braced(`while (${write(s.condition, C_WORDS)})`, s.body);
      case "for": {
        const { operator, value } = s.until;
        const until = `${s.name} ${operator} ${write(value, C_WORDS, true)}`;
        return braced(`for (int ${s.name} = ${write(s.from, C_WORDS, true)}; ${until}; ${s.name}++)`, s.body);
      }
    }
  };
  return body.flatMap(lines);
}

function pythonBody(body: readonly Statement[], whole: Set<string>): string[] {
  const indented = (head: string, inside: readonly Statement[]): string[] => [
    `${head}:`,
    ...pythonBody(inside, whole).map((line) => `    ${line}`),
  ];
  const lines = (s: Statement): string[] => {
    switch (s.kind) {
      case "let":
        return [`${s.name} = ${write(s.value, PYTHON_WORDS, whole.has(s.name))}`];
      case "set": {
        const isWhole = s.target.kind === "name" && whole.has(s.target.name);
        return [`${write(s.target, PYTHON_WORDS)} ${s.operator} ${write(s.value, PYTHON_WORDS, isWhole)}`];
      }
      case "call":
        return [`${s.name}(${s.arrays.join(", ")})`];
      case "if": {
        const yes = indented(`if ${write(s.condition, PYTHON_WORDS)}`, s.yes);
        return s.no.length === 0 ? yes : [...yes, ...indented("else", s.no)];
      }
      case "while":
        return indented(`while ${write(s.condition, PYTHON_WORDS)}`, s.body);
      case "for": {
        const until = `${write(s.until.value, PYTHON_WORDS, true)}${s.until.operator === "<=" ? " + 1" : ""}`;
        return indented(`for ${s.name} in range(${write(s.from, PYTHON_WORDS, true)}, ${until})`, s.body);
      }
    }
  };
  return body.flatMap(lines);
}

const offsets = Object.entries({ ...layout, ...parameters }) as [string, number][];

/** The right-hand side as C: offsets as an enumeration, stages as static functions of arrays that do not overlap. */
export function equationsInC(): string {
  const sources = readStages();
  return [
    "#include <math.h>",
    `enum { ${offsets.map(([name, value]) => `${name} = ${value}`).join(", ")} };`,
    "static inline double least(double a, double b) { return a < b ? a : b; }",
    "static inline double most(double a, double b) { return a > b ? a : b; }",
    ...sources.flatMap(({ constants, stages }) => [
      ...constants.map(({ name, text }) => `static const double ${name} = ${text};`),
      ...stages.flatMap((stage) => [
        `static void ${stage.name}(${stage.arrays.map((name) => `double *restrict ${name}`).join(", ")}) {`,
        ...cBody(stage.body, wholeNames(stage)).map((line) => `  ${line}`),
        "}",
      ]),
    ]),
    "",
  ].join("\n");
}

/** The right-hand side as Python on lists of floats, the fastest that plain Python has for single numbers; offsets are folded. */
export function equationsInPython(): string {
  const values = new Map(offsets.map(([name, value]) => [name, String(value)]));
  const fold = (line: string): string => line.replace(/\b[A-Z]+(?:_[A-Z0-9]+)+\b/g, (name) => values.get(name) ?? name);
  return [
    "from math import atan2, cos, sin, sqrt",
    ...readStages().flatMap(({ constants, stages }) => [
      ...constants.map(({ name, text }) => `${name} = ${text}`),
      ...stages.flatMap((stage) => [
        `def ${stage.name}(${stage.arrays.join(", ")}):`,
        ...pythonBody(stage.body, wholeNames(stage)).map((line) => fold(`    ${line}`)),
      ]),
    ]),
    "",
  ].join("\n");
}
