/** Checks of data that was read from a file; every problem is collected, nothing is thrown. */
import type { Issue } from "../../math/errors.ts";

/** Appends to `issues` what is wrong with `value`, which stands at `path`. */
export type Check = (value: unknown, path: string, issues: Issue[]) => void;

function shown(value: unknown): string {
  const text = value === undefined ? "nothing" : (JSON.stringify(value) ?? typeof value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

function wrong(path: string, allowed: string, value: unknown): Issue {
  const message = value === undefined ? "is missing" : "has the wrong form";
  return value === undefined ? { path, message, allowed } : { path, message, value: shown(value), allowed };
}

export const text: Check = (value, path, issues) => {
  if (typeof value !== "string") issues.push(wrong(path, "a text", value));
};

export const finite: Check = (value, path, issues) => {
  if (typeof value !== "number" || !Number.isFinite(value)) issues.push(wrong(path, "a finite number", value));
};

/** True or false. */
export const flag: Check = (value, path, issues) => {
  if (typeof value !== "boolean") issues.push(wrong(path, "true | false", value));
};

export function oneOf(...allowed: readonly string[]): Check {
  return (value, path, issues) => {
    if (typeof value !== "string" || !allowed.includes(value)) issues.push(wrong(path, allowed.join(" | "), value));
  };
}

export function nullable(check: Check): Check {
  return (value, path, issues) => {
    if (value !== null) check(value, path, issues);
  };
}

export function optional(check: Check): Check {
  return (value, path, issues) => {
    if (value !== undefined) check(value, path, issues);
  };
}

export function list(check: Check, length?: number): Check {
  return (value, path, issues) => {
    if (!Array.isArray(value) || (length !== undefined && value.length !== length)) {
      issues.push(wrong(path, length === undefined ? "a list" : `a list of ${length}`, value));
      return;
    }
    for (let i = 0; i < value.length; i++) check(value[i], `${path}[${i}]`, issues);
  };
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** Any keys, one form of value. */
export function dictionary(check: Check): Check {
  return (value, path, issues) => {
    if (!isRecord(value)) {
      issues.push(wrong(path, "a mapping", value));
      return;
    }
    for (const key of Object.keys(value)) check(value[key], `${path}.${key}`, issues);
  };
}

/** Known keys; others are let pass, so that a file with more studies in it can still be read. */
export function object(checks: Readonly<Record<string, Check>>): Check {
  const names = Object.keys(checks);
  return (value, path, issues) => {
    if (!isRecord(value)) {
      issues.push(wrong(path, "a mapping", value));
      return;
    }
    for (const name of names) checks[name]!(value[name], path === "" ? name : `${path}.${name}`, issues);
  };
}

/** The lists under `names` must be as long as the one under `against`. */
export function sameLength(check: Check, against: string, names: readonly string[]): Check {
  return (value, path, issues) => {
    const before = issues.length;
    check(value, path, issues);
    if (issues.length > before || !isRecord(value)) return;
    const length = (value[against] as readonly unknown[]).length;
    for (const name of names) {
      const found = (value[name] as readonly unknown[]).length;
      if (found !== length) {
        const allowed = `${length}, as in ${against}`;
        issues.push({ path: `${path}.${name}`, message: "has the wrong length", value: String(found), allowed });
      }
    }
  };
}
