import type { Airspeed, Kind, KindName, Problem, Quantity, Range } from "../quantity/index.ts";
import { ALLOWED_AIRSPEED, allowedUnits, KINDS, readAirspeed, readQuantity } from "../quantity/index.ts";
import { formJson } from "./form-schema.ts";
import { readForms } from "./forms.ts";
import type { Leaf } from "./leaf.ts";
import { leaf } from "./leaf.ts";
import { AIRSPEED } from "./ranges.ts";

/** A list of problems with the accepted units filled in where a problem does not say what is allowed. */
function explain(problems: readonly Problem[], allowed: string): readonly Problem[] {
  return problems.map((each) => ({ ...each, allowed: each.allowed || allowed }));
}

/**
 * A value with a unit.
 *
 * @param name      kind of quantity, which decides the accepted units
 * @param describe  what the key means
 * @param examples  as they would be written
 * @param range     allowed range in SI
 */
export function quantity(
  name: KindName,
  describe: string,
  examples: readonly (string | number)[],
  range?: Range,
): Leaf<Quantity> {
  const kind: Kind = KINDS[name];
  const allowed = allowedUnits(kind);
  const text = `${describe} Units: ${allowed}${range === undefined ? "" : `; ${range.words}`}.`;
  return leaf({ describe: text, examples }, formJson(kind.plain ? "number" : "withUnit"), allowed, (raw) => {
    const read = readForms(raw, range, (written, distribution) => readQuantity(written, kind, distribution));
    return read.ok ? { type: "quantity" as const, ...read.value, path: "" } : explain(read.problems, allowed);
  });
}

/** An airspeed with its kind. */
export function airspeed(describe: string, examples: readonly string[]): Leaf<Airspeed> {
  const text = `${describe} ${ALLOWED_AIRSPEED}.`;
  return leaf({ describe: text, examples }, formJson("airspeed"), ALLOWED_AIRSPEED, (raw) => {
    const read = readForms(raw, AIRSPEED, readAirspeed);
    return read.ok ? { type: "airspeed" as const, ...read.value, path: "" } : explain(read.problems, ALLOWED_AIRSPEED);
  });
}

/** A word that stands for a value, or the value itself. */
export function wordOr<const W extends string>(
  word: W,
  name: KindName,
  describe: string,
  examples: readonly string[],
  range?: Range,
): Leaf<W | Quantity> {
  const kind: Kind = KINDS[name];
  const allowed = `${word}, or ${allowedUnits(kind)}`;
  const json = { anyOf: [{ const: word }, formJson(kind.plain ? "number" : "withUnit")] };
  return leaf<W | Quantity>({ describe: `${describe} ${allowed}.`, examples }, json, allowed, (raw) => {
    if (raw === word) return word;
    const read = readForms(raw, range, (written, distribution) => readQuantity(written, kind, distribution));
    return read.ok ? { type: "quantity" as const, ...read.value, path: "" } : explain(read.problems, allowed);
  });
}
