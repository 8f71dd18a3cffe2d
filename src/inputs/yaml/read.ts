import type { YAMLError } from "yaml";
import { Composer, LineCounter, Parser } from "yaml";
import type { Issue } from "../../math/errors.ts";
import type { Place, Tree } from "../tree/index.ts";
import { buildTree } from "./build.ts";
import { LIMITS } from "./limits.ts";
import type { Shape } from "./shape.ts";
import { lookOver } from "./shape.ts";
import { isStructural, syntaxWords } from "./syntax.ts";

/** A read YAML text: its tree, or undefined when a problem kept it from being built. */
export interface ReadYaml {
  readonly tree: Tree | undefined;
  readonly issues: readonly Issue[];
}

const MOST_SYNTAX_ISSUES = 20;

/**
 * Reads a YAML 1.2 text into a tree that keeps the place of every key and value.
 *
 * Refused: tags, directives, several documents, duplicate keys, nesting or growth through aliases past `LIMITS`.
 *
 * @param source  the text
 * @param file    its name in messages
 */
export function readYaml(source: string, file: string): ReadYaml {
  const issues: Issue[] = [];
  const lines = new LineCounter();
  const tokens = [...new Parser(lines.addNewLine).parse(source)];
  const at = (offset: number) => {
    const { line, col } = lines.linePos(offset);
    return { file, line: Math.max(line, 1), column: Math.max(col, 1) };
  };
  const shape = lookOver(tokens, LIMITS.depth);
  if (shape.deepAt !== undefined) {
    const message = "is nested too deeply";
    return { tree: undefined, issues: [{ path: "", ...at(shape.deepAt), message, allowed: `${LIMITS.depth} levels` }] };
  }
  for (const { offset, what } of shape.refused) {
    const message = what === "tag" ? "tags are not understood" : "a directive stands in the file";
    const allowed = what === "tag" ? "the value without its tag" : "a file without % lines";
    issues.push({ path: "", ...at(offset), message, allowed });
  }
  const composer = new Composer({ lineCounter: lines, uniqueKeys: false, prettyErrors: false, version: "1.2" });
  const documents = [...composer.compose(tokens, true, source.length)];
  const second = documents[1];
  if (second !== undefined) {
    const message = "the file holds several documents";
    issues.push({ path: "", ...at(second.range[0]), message, allowed: "one document without --- between" });
  }
  const document = documents[0];
  if (document === undefined) return { tree: undefined, issues };
  reportSyntax(document.errors, shape, at, issues);
  if (issues.length > 0) return { tree: undefined, issues };
  const tree = buildTree(document as Parameters<typeof buildTree>[0], file, source, lines, issues);
  return { tree, issues };
}

/** Faults of the writing: of those of structure only the first, since the rest follow from it. */
function reportSyntax(
  errors: readonly YAMLError[],
  shape: Shape,
  at: (offset: number) => Place,
  issues: Issue[],
): void {
  let structural = shape.unclosed !== undefined;
  if (shape.unclosed !== undefined) {
    const { offset, what } = shape.unclosed;
    const allowed = what === "bracket" ? "a closing bracket for each" : "a closing mark for each, in pairs";
    issues.push({ path: "", ...at(offset), message: `a ${what} does not close`, allowed });
  }
  const lines = new Set(issues.map((issue) => issue.line));
  for (const error of errors.slice(0, MOST_SYNTAX_ISSUES)) {
    const place = at(error.pos[0]);
    if (lines.has(place.line) || (structural && isStructural(error))) continue;
    structural ||= isStructural(error);
    lines.add(place.line);
    const [message, allowed] = syntaxWords(error);
    issues.push({ path: "", ...place, message, allowed });
  }
}
