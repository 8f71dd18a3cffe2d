import * as z from "zod";

/** Any schema of the pair file. */
export type Schema = z.core.$ZodType;

/** The schema inside an optional one. */
export function inner(schema: Schema): Schema {
  let at = schema;
  while (at instanceof z.ZodOptional) at = at.def.innerType;
  return at;
}

/** True when the part may be left out. */
export function isOptional(schema: Schema): boolean {
  return schema instanceof z.ZodOptional;
}

/** What stands below a schema: named keys, names that the pair gives, list entries, or nothing (a value). */
export type Below =
  | { readonly kind: "keys"; readonly shape: Readonly<Record<string, Schema>> }
  | { readonly kind: "names"; readonly value: Schema }
  | { readonly kind: "list"; readonly element: Schema }
  | { readonly kind: "value" };

/**
 * What stands below a schema for given data, which decides between the forms of a union.
 *
 * @param schema  part of the pair schema
 * @param data    what was written there, or undefined
 */
export function below(schema: Schema, data: unknown): Below {
  const at = inner(schema);
  if (at instanceof z.ZodObject) return { kind: "keys", shape: at.def.shape };
  if (at instanceof z.ZodRecord) return { kind: "names", value: at.def.valueType };
  if (at instanceof z.ZodArray) return { kind: "list", element: at.def.element };
  if (at instanceof z.ZodUnion && !(at instanceof z.ZodDiscriminatedUnion)) {
    // a word that stands for a map, or the map itself
    const map = at.def.options.find((option) => option instanceof z.ZodObject);
    return map !== undefined && (data === undefined || isRecord(data)) ? below(map, data) : { kind: "value" };
  }
  if (!(at instanceof z.ZodDiscriminatedUnion)) return { kind: "value" };
  const key = at.def.discriminator;
  const chosen = isRecord(data) ? data[key] : undefined;
  const options = at.def.options.filter((option) => option instanceof z.ZodObject);
  const fitting = options.filter((option) => z.safeParse(option.def.shape[key]!, chosen).success);
  const shape: Record<string, Schema> = {};
  for (const option of fitting.length > 0 ? fitting : options) Object.assign(shape, option.def.shape);
  return { kind: "keys", shape };
}

function isRecord(data: unknown): data is Record<string, unknown> {
  return typeof data === "object" && data !== null && !Array.isArray(data);
}

/** The schema below a map's key, if the key is known. */
export function childOf(part: Below, key: string): Schema | undefined {
  if (part.kind === "names") return part.value;
  return part.kind === "keys" && Object.hasOwn(part.shape, key) ? part.shape[key] : undefined;
}

/** The key whose value decides between the forms of a union, if the schema is one. */
export function decidingKey(schema: Schema): string | undefined {
  const at = inner(schema);
  return at instanceof z.ZodDiscriminatedUnion ? at.def.discriminator : undefined;
}

/** Called for every value of the pair; what it returns takes the value's place. */
export type Visit = (path: readonly PropertyKey[], value: unknown, schema: Schema) => unknown;

/**
 * Goes through every value of pair data and replaces it in place by what `visit` returns.
 *
 * Parts that do not have the shape that the schema asks for are passed over.
 *
 * @param schema  schema of `data`
 * @param data    maps and lists are changed in place
 * @param path    path of `data`
 * @param visit   gets every value
 */
export function visitValues(schema: Schema, data: unknown, path: readonly PropertyKey[], visit: Visit): unknown {
  const part = below(schema, data);
  if (part.kind === "value") return visit(path, data, schema);
  if (part.kind === "list") {
    if (!Array.isArray(data)) return data;
    data.forEach((item, i) => {
      data[i] = visitValues(part.element, item, [...path, i], visit);
    });
    return data;
  }
  if (!isRecord(data)) return data;
  for (const key of Object.keys(data)) {
    const child = childOf(part, key);
    if (child !== undefined) data[key] = visitValues(child, data[key], [...path, key], visit);
  }
  return data;
}
