import { MATURITIES } from "../quantity/index.ts";
import { DISTRIBUTIONS } from "./forms.ts";
import type { JsonPart } from "./leaf.ts";

/** How a value may be written: with a unit, as a plain number or with one, as an airspeed. */
export type Form = "withUnit" | "number" | "airspeed";

const START = "^(?=[+\\-−]?\\.?\\d)";
const NUMBER = "[+\\-−]?(\\d{1,3}([ \\u00a0\\u2009\\u202f]\\d{3})+|\\d+)?(\\.\\d*)?([eE][+\\-−]?\\d+)?";
const UNCERTAINTY = "(\\s*(±|\\+-|\\+/-).*\\(\\s*(1\\s*(σ|sigma)|95\\s*%|bounds)\\s*\\))?$";

const UNIT: Readonly<Record<Form, string>> = {
  withUnit: "\\s*[A-Za-z°%µμ1(][^±]*?",
  number: "[^±]*?",
  airspeed: "[^±]*(CAS|EAS|TAS|Mach)",
};

/** Reference to the shared definition of a form; the unit itself is named in the key's description. */
export function formJson(form: Form): JsonPart {
  return { $ref: `#/$defs/${form}` };
}

/** The shared definitions that `formJson` refers to. */
export function formDefinitions(): JsonPart {
  return Object.fromEntries((["withUnit", "number", "airspeed"] as const).map((form) => [form, definition(form)]));
}

function definition(form: Form): JsonPart {
  const text = { type: "string", pattern: `${START}${NUMBER}${UNIT[form]}${UNCERTAINTY}` };
  const single = form === "number" ? [{ type: "number" }, text] : [text];
  const map = {
    type: "object",
    properties: {
      value: { description: "The value with its unit and uncertainty.", anyOf: single },
      distribution: { description: "Distribution behind the stated uncertainty.", enum: DISTRIBUTIONS },
      source: { description: "Where the value comes from.", type: "string" },
      date: { description: "Day, month or year of the source.", type: ["string", "integer"] },
      maturity: { description: "How well founded the value is.", enum: MATURITIES },
    },
    required: ["value"],
    additionalProperties: false,
  };
  return { anyOf: [...single, map] };
}
