import { writeResult } from "../../outputs/result/index.ts";
import { holdText } from "../../outputs/text/index.ts";
import { openPair, readOnce } from "../open/index.ts";
import type { Command } from "../types.ts";
import { VERSION } from "../version.ts";
import { deliver, exitOf, holdOf, partsOf, resultDocument, writeReport } from "../work/index.ts";

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
