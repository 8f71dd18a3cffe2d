/**
 * JSON in one canonical form: equal data give equal bytes.
 *
 * Keys of an object have no order of meaning, so they are sorted (names first, by a fixed list); lists keep theirs.
 * Numbers print in the shortest form that reads back to the same double; negative zero prints as 0.
 */
import { BugError } from "../../math/errors.ts";

/** Keys that come first in their object, in this order, because people look for them first. */
const LEADING = ["schema", "davit", "pair", "variant", "study", "id", "name", "title", "path"];

function compareKeys(a: string, b: string): number {
  const rankA = LEADING.indexOf(a);
  const rankB = LEADING.indexOf(b);
  if (rankA !== rankB) return (rankA < 0 ? LEADING.length : rankA) - (rankB < 0 ? LEADING.length : rankB);
  return a < b ? -1 : a > b ? 1 : 0;
}

function scalar(value: unknown, path: string): string | undefined {
  if (value === null || typeof value === "boolean" || typeof value === "string") return JSON.stringify(value);
  if (typeof value === "number") {
    if (!Number.isFinite(value)) throw new BugError(`result holds ${value} at ${path || "its root"}`);
    return String(value);
  }
  return undefined;
}

function list(values: readonly unknown[], path: string, indent: string): string {
  if (values.length === 0) return "[]";
  const inner = `${indent}  `;
  const parts: string[] = [];
  let flat = true;
  for (let i = 0; i < values.length; i++) {
    const text = scalar(values[i], `${path}[${i}]`);
    if (text === undefined) flat = false;
    parts.push(text ?? write(values[i], `${path}[${i}]`, inner));
  }
  return flat ? `[${parts.join(", ")}]` : `[\n${parts.map((part) => inner + part).join(",\n")}\n${indent}]`;
}

function object(value: object, path: string, indent: string): string {
  const prototype: unknown = Object.getPrototypeOf(value);
  if (prototype !== Object.prototype && prototype !== null) {
    throw new BugError(`result holds something that is not plain data at ${path || "its root"}`);
  }
  const entries = Object.entries(value).filter(([, item]) => item !== undefined);
  if (entries.length === 0) return "{}";
  entries.sort(([a], [b]) => compareKeys(a, b));
  const inner = `${indent}  `;
  const lines = entries.map(([key, item]) => {
    const place = path === "" ? key : `${path}.${key}`;
    return `${inner}${JSON.stringify(key)}: ${write(item, place, inner)}`;
  });
  return `{\n${lines.join(",\n")}\n${indent}}`;
}

function write(value: unknown, path: string, indent: string): string {
  const text = scalar(value, path);
  if (text !== undefined) return text;
  if (Array.isArray(value)) return list(value, path, indent);
  if (typeof value === "object" && value !== null) return object(value, path, indent);
  throw new BugError(`result holds ${value === undefined ? "an undefined value" : `a ${typeof value}`} at ${path}`);
}

/**
 * Canonical JSON text of plain data, two spaces of indent, a newline at the end.
 *
 * @param value objects, lists, strings, finite numbers, booleans, null; keys with the value `undefined` are left out
 * @throws {BugError} for anything else, with the path to it
 * @verified round trip and key order, canonical.test.ts
 */
export function canonicalJson(value: unknown): string {
  return `${write(value, "", "")}\n`;
}
