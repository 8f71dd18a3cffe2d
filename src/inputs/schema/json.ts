import * as z from "zod";
import { formDefinitions } from "./form-schema.ts";
import { pairSchema } from "./pair.ts";

/** JSON Schema (draft 2020-12) of the pair file, for editors: every key with its meaning, units and examples. */
export function pairJsonSchema(): Readonly<Record<string, unknown>> {
  const schema = z.toJSONSchema(pairSchema, { io: "input", target: "draft-2020-12", unrepresentable: "any" });
  return { ...schema, $defs: { ...schema.$defs, ...formDefinitions() } };
}
