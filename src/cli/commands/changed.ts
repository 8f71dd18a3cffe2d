import type { Effects } from "../../host/index.ts";
import { BugError, InputError } from "../../math/errors.ts";
import { canonicalJson, compareResults, type ResultDocument, readResult } from "../../outputs/result/index.ts";
import { changedText, otherPair } from "../../outputs/text/index.ts";
import { openPair, readOnce } from "../open/index.ts";
import type { Command } from "../types.ts";
import { deliver, exitOf, findingsOf, resultDocument, runStudies, STUDIES } from "../work/index.ts";

export const run: Command = async (request, effects) => {
  if (request.since === undefined) throw new BugError("--since is required by the command table");
  const old = readEarlier(request.since, effects);
  const set = [...old.overrides, ...request.set];
  const loaded = await openPair({ ...request, set }, readOnce(effects), effects, old.variant);
  const studies = STUDIES.filter((study) => old.studies[study] !== undefined);
  // what the earlier result left out is not what changed
  const result = runStudies(loaded, studies, effects, undefined, old.studies.hold?.[0]?.partsAsked);
  const comparison = compareResults(old, resultDocument(loaded, set, [result]));
  if (request.json === "-") for (const warning of otherPair(comparison)) effects.stderr.write(`${warning}\n`);
  const words = (): string => changedText(comparison, effects.look);
  await deliver(request.json, () => canonicalJson(comparison), words, effects);
  return exitOf(findingsOf(result));
};

/** @throws {InputError} when the file is not UTF-8 or not a result */
function readEarlier(path: string, effects: Effects): ResultDocument {
  const bytes = effects.files.read(path);
  let text: string;
  try {
    text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    const allowed = "a result file written by davit";
    throw new InputError([{ path: "", message: "is not UTF-8 text", file: path, allowed }]);
  }
  return readResult(text, path);
}
