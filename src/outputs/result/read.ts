/** Reading and writing of result documents. */
import { InputError, type Issue } from "../../math/errors.ts";
import { balanceShape } from "./balance-shape.ts";
import { canonicalJson } from "./canonical.ts";
import { fileShape, findingShape, limitShape } from "./finding-shape.ts";
import { fitShape } from "./fit-shape.ts";
import { holdShape } from "./hold-shape.ts";
import { hookonShape } from "./hookon-shape.ts";
import { releaseShape } from "./release-shape.ts";
import { type Check, dictionary, finite, list, nullable, object, oneOf, optional, text } from "./shape.ts";
import { RESULT_SCHEMA, type ResultDocument } from "./types.ts";

const inputShape = object({
  text,
  si: optional(finite),
  unit: optional(text),
  maturity: optional(text),
  source: optional(text),
  file: optional(text),
});

const documentShape: Check = object({
  schema: oneOf(RESULT_SCHEMA),
  davit: text,
  pair: text,
  variant: text,
  overrides: list(text),
  seed: nullable(finite),
  inputs: dictionary(inputShape),
  files: list(fileShape),
  studies: object({
    fit: optional(list(fitShape)),
    hold: optional(list(holdShape)),
    hookon: optional(list(hookonShape)),
    release: optional(list(releaseShape)),
    balance: optional(list(balanceShape)),
  }),
  findings: list(findingShape),
  limits: list(limitShape),
});

/** How many problems of one file are worth printing. */
const MOST_ISSUES = 20;

function parse(source: string, file: string): unknown {
  try {
    return JSON.parse(source) as unknown;
  } catch (error) {
    const offset = Number(/position (\d+)/.exec(error instanceof Error ? error.message : "")?.[1] ?? Number.NaN);
    const issue: Issue = { path: "", message: "is not JSON", file, allowed: "a result file written by davit" };
    if (Number.isNaN(offset)) throw new InputError([issue]);
    const before = source.slice(0, offset).split("\n");
    throw new InputError([{ ...issue, line: before.length, column: before[before.length - 1]!.length + 1 }]);
  }
}

function refuseForeign(data: unknown, file: string): void {
  const schema: unknown = typeof data === "object" && data !== null && "schema" in data ? data.schema : undefined;
  if (schema === RESULT_SCHEMA) return;
  if (typeof schema === "string" && /^davit\.result\/\d+$/.test(schema)) {
    const message = "is a result of another version of davit; compute it again with this one";
    throw new InputError([{ path: "schema", message, file, value: schema, allowed: RESULT_SCHEMA }]);
  }
  const found = schema === undefined ? {} : { value: String(JSON.stringify(schema)).slice(0, 60) };
  throw new InputError([
    { path: "schema", message: "is not a result of davit", file, ...found, allowed: RESULT_SCHEMA },
  ]);
}

/**
 * Reads a result document and checks its form.
 *
 * @param source text of the file
 * @param file   name for messages
 * @throws {InputError} if it is not JSON, not a result, of another version, or damaged; lists up to 20 problems
 */
export function readResult(source: string, file: string): ResultDocument {
  const data = parse(source, file);
  refuseForeign(data, file);
  const issues: Issue[] = [];
  documentShape(data, "", issues);
  if (issues.length > 0) throw new InputError(issues.slice(0, MOST_ISSUES).map((issue) => ({ ...issue, file })));
  return data as ResultDocument;
}

/**
 * Canonical text of a result document; files are sorted by path.
 *
 * @throws {BugError} if a number is not finite or something is not plain data
 */
export function writeResult(document: ResultDocument): string {
  const files = [...document.files].sort((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : 0));
  return canonicalJson({ ...document, files });
}
