/**
 * The restricted form of TypeScript in which the stages of the hook-on motion are written (src/physics/hookon-motion/README.md,
 * "Restricted form"), read into a tree. Whatever is outside of it is refused.
 */

export type Expression =
  | { readonly kind: "number"; readonly text: string }
  | { readonly kind: "name"; readonly name: string }
  | { readonly kind: "element"; readonly array: string; readonly index: Expression }
  | { readonly kind: "unary"; readonly of: Expression }
  | { readonly kind: "whole"; readonly of: Expression }
  | { readonly kind: "binary"; readonly operator: string; readonly left: Expression; readonly right: Expression }
  | { readonly kind: "choice"; readonly condition: Expression; readonly yes: Expression; readonly no: Expression }
  | { readonly kind: "math"; readonly name: string; readonly values: readonly Expression[] };

export type Statement =
  | { readonly kind: "let"; readonly name: string; readonly fixed: boolean; readonly value: Expression }
  | { readonly kind: "set"; readonly target: Expression; readonly operator: string; readonly value: Expression }
  | { readonly kind: "if"; readonly condition: Expression; readonly yes: Statement[]; readonly no: Statement[] }
  | {
      readonly kind: "for";
      readonly name: string;
      readonly from: Expression;
      readonly until: Bound;
      readonly body: Statement[];
    }
  | { readonly kind: "while"; readonly condition: Expression; readonly body: Statement[] }
  | { readonly kind: "call"; readonly name: string; readonly arrays: readonly string[] };

interface Bound {
  readonly operator: string;
  readonly value: Expression;
}

export interface Stage {
  readonly name: string;
  readonly arrays: readonly string[];
  readonly body: readonly Statement[];
}

export interface Source {
  readonly constants: readonly { readonly name: string; readonly text: string }[];
  readonly stages: readonly Stage[];
}

const TOKEN =
  /\s+|\/\/[^\n]*|\/\*[\s\S]*?\*\/|(\d+(?:\.\d+)?(?:e[+-]?\d+)?|[A-Za-z_]\w*|"[^"]*"|\+\+|--|[-+*/<>=!]=+|&&|\|\||\||[-+*/<>=(){}[\];,.?:!])/gy;
const LEVELS = [["||"], ["&&"], ["===", "!=="], ["<", ">", "<=", ">="], ["+", "-"], ["*", "/"]];
export const MATH = ["sqrt", "sin", "cos", "atan2", "abs", "min", "max"];

function tokens(text: string): string[] {
  const found: string[] = [];
  TOKEN.lastIndex = 0;
  while (TOKEN.lastIndex < text.length) {
    const from = TOKEN.lastIndex;
    const match = TOKEN.exec(text);
    if (match === null) throw new Error(`outside of the restricted form: ${text.slice(from, from + 60)}`);
    if (match[1] !== undefined) found.push(match[1]);
  }
  return found;
}

/** Reads one file of stages: imports and the copying of offsets are passed over. */
export function readSource(text: string): Source {
  const list = tokens(text);
  let at = 0;
  const peek = (): string => list[at] ?? "";
  const refuse = (): never => {
    throw new Error(`outside of the restricted form: ${list.slice(Math.max(0, at - 12), at + 6).join(" ")}`);
  };
  const take = (wanted?: string): string => {
    if (at >= list.length || (wanted !== undefined && list[at] !== wanted)) refuse();
    return list[at++]!;
  };
  const has = (wanted: string): boolean => {
    if (peek() !== wanted) return false;
    at++;
    return true;
  };

  function primary(): Expression {
    if (has("(")) {
      const inside = choice();
      take(")");
      return inside;
    }
    if (has("-")) return { kind: "unary", of: primary() };
    const word = take();
    if (/^\d/.test(word)) return { kind: "number", text: word };
    if (!/^[A-Za-z_]/.test(word)) refuse();
    if (word === "Math") {
      take(".");
      const name = take();
      if (!MATH.includes(name)) refuse();
      return { kind: "math", name, values: listed(choice) };
    }
    if (has("[")) {
      const index = choice();
      take("]");
      return { kind: "element", array: word, index };
    }
    return { kind: "name", name: word };
  }
  function listed<T>(item: () => T): T[] {
    const items: T[] = [];
    take("(");
    while (!has(")")) {
      items.push(item());
      if (peek() !== ")") take(",");
    }
    return items;
  }
  function binary(level: number): Expression {
    if (level === LEVELS.length) return primary();
    let left = binary(level + 1);
    while (LEVELS[level]!.includes(peek())) {
      const operator = take();
      left = { kind: "binary", operator, left, right: binary(level + 1) };
    }
    return left;
  }
  function choice(): Expression {
    const condition = binary(0);
    if (has("|")) {
      take("0");
      return { kind: "whole", of: condition };
    }
    if (!has("?")) return condition;
    const yes = choice();
    take(":");
    return { kind: "choice", condition, yes, no: choice() };
  }
  function block(): Statement[] {
    if (!has("{")) return statement();
    const body: Statement[] = [];
    while (!has("}")) body.push(...statement());
    return body;
  }
  function loop(): Statement {
    take("(");
    take("let");
    const name = take();
    take("=");
    const from = choice();
    take(";");
    if (take() !== name) refuse();
    const operator = take();
    if (operator !== "<" && operator !== "<=") refuse();
    const value = choice();
    for (const word of [";", name, "++", ")"]) take(word);
    return { kind: "for", name, from, until: { operator, value }, body: block() };
  }
  function guarded(): [Expression, Statement[]] {
    take("(");
    const condition = choice();
    take(")");
    return [condition, block()];
  }
  function statement(): Statement[] {
    if (has("if")) {
      const [condition, yes] = guarded();
      return [{ kind: "if", condition, yes, no: has("else") ? block() : [] }];
    }
    if (has("for")) return [loop()];
    if (has("while")) {
      const [condition, body] = guarded();
      return [{ kind: "while", condition, body }];
    }
    const one = peek() === "const" || peek() === "let" ? declaration() : callOrSet();
    take(";");
    return [one];
  }
  function declaration(): Statement {
    const fixed = take() === "const";
    const name = take();
    take("=");
    return { kind: "let", name, fixed, value: choice() };
  }
  function callOrSet(): Statement {
    const target = primary();
    if (target.kind === "name" && peek() === "(") return { kind: "call", name: target.name, arrays: listed(take) };
    const operator = take();
    if (!["=", "+=", "-=", "*="].includes(operator)) refuse();
    return { kind: "set", target, operator, value: choice() };
  }
  function parameter(): string {
    const name = take();
    take(":");
    take("Float64Array");
    return name;
  }

  const constants: { name: string; text: string }[] = [];
  const stages: Stage[] = [];
  while (at < list.length) {
    if (has("import")) {
      while (!has(";")) take();
      continue;
    }
    has("export");
    if (has("const")) {
      if (peek() === "{") {
        while (!has(";")) take();
        continue;
      }
      const name = take();
      take("=");
      const minus = has("-") ? "-" : "";
      constants.push({ name, text: minus + take() });
      take(";");
      continue;
    }
    take("function");
    const name = take();
    const arrays = listed(parameter);
    take(":");
    take("void");
    if (peek() !== "{") refuse();
    stages.push({ name, arrays, body: block() });
  }
  return { constants, stages };
}
