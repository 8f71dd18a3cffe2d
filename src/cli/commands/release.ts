import { writeResult } from "../../outputs/result/index.ts";
import { releaseText } from "../../outputs/text/index.ts";
import { openPair, readOnce } from "../open/index.ts";
import type { Command } from "../types.ts";
import { VERSION } from "../version.ts";
import { deliver, exitOf, releaseOf, resultDocument, writeReport } from "../work/index.ts";

export const run: Command = async (request, effects) => {
  const loaded = await openPair(request, readOnce(effects), effects);
  const result = releaseOf(loaded, effects);
  const document = resultDocument(loaded, request.set, [{ variant: result.variant, release: result }]);
  const { notice } = loaded.pair;
  const meta = { pair: document.pair, davit: VERSION, ...(notice === undefined ? {} : { notice }) };
  await deliver(
    request.json,
    () => writeResult(document),
    () => releaseText(result, meta, effects.look),
    effects,
  );
  if (request.out !== undefined) {
    const places = await writeReport(request.out, "release", document, loaded, effects);
    if (request.json !== "-") effects.stdout.write(places);
  }
  return exitOf(result.findings);
};
