import type { LoadedPair } from "../../inputs/index.ts";
import { EXIT } from "../exit.ts";
import { openPair, readOnce } from "../open/index.ts";
import type { Command } from "../types.ts";

export const run: Command = async (request, effects) => {
  const loaded = await openPair(request, readOnce(effects), effects);
  effects.stdout.write(summary(loaded));
  return EXIT.met;
};

function summary(loaded: LoadedPair): string {
  const [base, ...variants] = loaded.variants;
  const others = variants.length === 0 ? "no variants" : `variants ${variants.join(", ")}`;
  const files = loaded.files.length === 1 ? "1 file" : `${loaded.files.length} files`;
  return [
    `${loaded.pair.pair}: in order; base ${base}, ${others}.`,
    `${loaded.values.size} values in ${files}; ${maturities(loaded)}.`,
    ...loaded.notes.map((note) => `note: ${note}`),
    "",
  ].join("\n");
}

/** How firm the numbers are, e.g. `103 by maturity: 98 estimate, 3 ground test, 2 not stated; 9 are words and switches`. */
function maturities(loaded: LoadedPair): string {
  const counts = new Map<string, number>();
  for (const value of loaded.values.values()) {
    if (typeof value !== "object") continue;
    const maturity = value.provenance.maturity ?? "not stated";
    counts.set(maturity, (counts.get(maturity) ?? 0) + 1);
  }
  const stated = [...counts].map(([maturity, count]) => `${count} ${maturity}`).join(", ");
  const firm = [...counts.values()].reduce((sum, count) => sum + count, 0);
  const rest = loaded.values.size - firm;
  const numbers = firm === 0 ? "no numbers or tables" : `${firm} numbers and tables by maturity: ${stated}`;
  return rest === 0 ? numbers : `${numbers}; and ${rest} words and switches`;
}
