import { InputError } from "../../math/errors.ts";
import { partNames } from "../../studies/hold-depth/index.ts";

/**
 * Keys of the parts that were asked for; `undefined` for all.
 *
 * @throws {InputError} naming each part that does not exist
 */
export function partsOf(list: string | undefined): string[] | undefined {
  if (list === undefined) return undefined;
  const named = list.split(",").map((name) => name.trim());
  if (named.length === 1 && named[0] === "none") return [];
  const known = partNames();
  const issues = named
    .filter((name) => !known.includes(name))
    .map((value) => ({
      ...{ path: "--parts", message: messageOf(value), value },
      allowed: ["none", ...known].join(", "),
    }));
  if (issues.length > 0) throw new InputError(issues);
  return named;
}

function messageOf(name: string): string {
  if (name === "") return "a name is missing between the commas";
  return name === "none" ? "`none` stands alone" : "names no part of hold";
}
