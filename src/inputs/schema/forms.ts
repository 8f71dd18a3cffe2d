import type { Distribution, Parsed, Problem, Quantity, Range } from "../quantity/index.ts";
import { NO_PROVENANCE, outside, readProvenance } from "../quantity/index.ts";
import { nearest } from "../text/index.ts";
import { isMap } from "./leaf.ts";

export const DISTRIBUTIONS: readonly Distribution[] = ["normal", "uniform", "triangular", "lognormal"];
const MAP_KEYS = ["value", "distribution", "source", "date", "maturity"];

/** Keys of the map form of a value. */
export const VALUE_KEYS: readonly string[] = MAP_KEYS;

/** The written text out of the plain or the map form, with what the map says beside it. */
export function readForms<R extends Pick<Quantity, "si" | "uncertainty">>(
  raw: unknown,
  range: Range | undefined,
  read: (text: string, distribution?: Distribution) => Parsed<R>,
): Parsed<R & Pick<Quantity, "provenance">> {
  const problems: Problem[] = [];
  const map = isMap(raw) ? raw : { value: raw };
  for (const key of Object.keys(map)) {
    if (MAP_KEYS.includes(key)) continue;
    const near = nearest(key, MAP_KEYS);
    problems.push({ key, message: unknownKey(key, near), allowed: MAP_KEYS.join(", ") });
  }
  const distribution = DISTRIBUTIONS.find((each) => each === map.distribution);
  if (map.distribution !== undefined && distribution === undefined) {
    const allowed = DISTRIBUTIONS.join(", ");
    problems.push({ key: "distribution", message: "is not a known distribution", allowed });
  }
  const provenance = readProvenance(map, problems) ?? NO_PROVENANCE;
  const at = isMap(raw) ? { key: "value" } : {};
  const text = typeof map.value === "number" ? String(map.value) : map.value;
  if (typeof text !== "string") {
    const message = text === undefined ? "is missing" : text === null ? "has no value" : "must be a single value";
    return { ok: false, problems: [...problems, { message, ...at, allowed: "" }] };
  }
  const reading = read(text.trim(), distribution);
  if (!reading.ok)
    return { ok: false, problems: [...problems, ...reading.problems.map((each) => ({ ...at, ...each }))] };
  const far = range === undefined ? undefined : outside(reading.value.si, reading.value.uncertainty, range);
  if (far !== undefined) problems.push({ ...at, ...far });
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: { ...reading.value, provenance } };
}

/** Message for a key that is not known, with the nearest known one. */
export function unknownKey(key: string, near: string | undefined): string {
  return `unknown key "${key}"${near === undefined ? "" : `; did you mean ${near}?`}`;
}
