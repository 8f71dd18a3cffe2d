/** Form of findings and limits inside a result file; mirrors `studies/finding/types.ts`. */
import { type Check, finite, list, nullable, object, oneOf, optional, text } from "./shape.ts";

const sha256: Check = (value, path, issues) => {
  if (typeof value !== "string" || !/^[0-9a-f]{64}$/.test(value)) {
    issues.push({ path, message: "is not a SHA-256", value: String(value), allowed: "64 lower-case hex digits" });
  }
};

export const findingShape: Check = object({
  id: text,
  study: text,
  title: text,
  value: nullable(finite),
  unit: text,
  criterion: optional(object({ text, sense: oneOf("at least", "at most"), limit: finite, source: text })),
  verdict: oneOf("met", "not met", "not analysed", "information"),
  note: optional(text),
  rests: list(text),
  inputHash: sha256,
  version: text,
  seed: nullable(finite),
});

export const limitShape: Check = object({
  id: text,
  title: text,
  quantity: text,
  lower: nullable(finite),
  upper: nullable(finite),
  unit: text,
  status: oneOf("demonstrated", "analysed", "prohibited", "not cleared"),
  because: list(text),
  note: optional(text),
});

export const fileShape: Check = object({ path: text, sha256 });
