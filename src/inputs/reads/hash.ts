import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import type { Value } from "../checks/index.ts";
import type { LoadedPair } from "../pair/index.ts";

/** What of a value counts as its content; how it was written and where it comes from do not. */
function content(value: Value): unknown {
  if (typeof value !== "object") return value;
  if (value.type === "quantity") return value.si;
  if (value.type === "airspeed") return [value.si, value.kind];
  if (value.type === "mesh") return [value.sha256, value.placing];
  return value.sha256;
}

/**
 * SHA-256 over the SI values (and the files behind tables) at the given paths.
 *
 * Two hashes agree when the same paths hold the same values, however those are written. A path that names a map or
 * list stands for every value below it.
 *
 * @param loaded  a checked pair
 * @param paths   in any order, repeated or not
 * @returns       64 hexadecimal digits
 */
export function hashInputs(loaded: LoadedPair, paths: readonly string[]): string {
  const wanted = new Set<string>();
  for (const path of paths) {
    if (loaded.values.has(path)) wanted.add(path);
    else {
      const below = [...loaded.values.keys()].filter((key) => key.startsWith(`${path}.`));
      for (const key of below.length > 0 ? below : [path]) wanted.add(key);
    }
  }
  const lines = [...wanted].sort().map((path) => {
    const value = loaded.values.get(path);
    return JSON.stringify([path, value === undefined ? null : content(value)]);
  });
  return bytesToHex(sha256(utf8ToBytes(lines.join("\n"))));
}
