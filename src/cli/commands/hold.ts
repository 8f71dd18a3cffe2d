import { InputError } from "../../math/errors.ts";
import { writeResult } from "../../outputs/result/index.ts";
import { holdText } from "../../outputs/text/index.ts";
import { partNames } from "../../studies/hold-depth/index.ts";
import { openPair, readOnce } from "../open/index.ts";
import type { Command } from "../types.ts";
import { VERSION } from "../version.ts";
import { deliver, exitOf, holdOf, resultDocument, writeReport } from "../work/index.ts";

/**
 * Keys of the parts that were asked for; `undefined` for all.
 *
 * @throws {InputError} naming each part that does not exist
 */
function partsOf(list: string | undefined): string[] | undefined {
  if (list === undefined) return undefined;
  const named = list.split(",").map((name) => name.trim());
  if (named.length === 1 && named[0] === "none") return [];
  const known = partNames();
  const issues = named
    .filter((name) => !known.includes(name))
    .map((value) => ({
      ...{ path: "--parts", message: "names no part of hold", value },
      allowed: ["none", ...known].join(", "),
    }));
  if (issues.length > 0) throw new InputError(issues);
  return named;
}

export const run: Command = async (request, effects) => {
  const only = partsOf(request.parts);
  const loaded = await openPair(request, readOnce(effects), effects);
  const result = holdOf(loaded, effects, only);
  const document = resultDocument(loaded, request.set, [{ variant: result.variant, hold: result }]);
  // The points of the selected variant stand at the top beside its findings.
  const json = (): string => writeResult({ ...document, points: result.points } as typeof document);
  const { notice } = loaded.pair;
  const meta = { pair: document.pair, davit: VERSION, ...(notice === undefined ? {} : { notice }) };
  await deliver(request.json, json, () => holdText(result, meta, effects.look), effects);
  if (request.out !== undefined) {
    const places = await writeReport(request.out, "hold", document, loaded, effects);
    if (request.json !== "-") effects.stdout.write(places);
  }
  return exitOf(result.findings);
};
