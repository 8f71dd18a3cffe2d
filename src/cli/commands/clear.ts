import { BugError } from "../../math/errors.ts";
import { CAUTION_LINE } from "../../outputs/cautions/index.ts";
import { overallVerdict, summariseVerdicts, type VerdictRow } from "../../outputs/summary/index.ts";
import type { HoldResult } from "../../studies/hold/index.ts";
import { openPair, readOnce } from "../open/index.ts";
import type { Command } from "../types.ts";
import { exitOf, holdOf, resultDocument, writeReport } from "../work/index.ts";

export const run: Command = async (request, effects) => {
  if (request.out === undefined) throw new BugError("--out is required by the command table");
  const read = readOnce(effects);
  const loaded = openPair(request, read);
  const selected = holdOf(loaded, effects);
  const others = loaded.variants
    .filter((name) => name !== loaded.variant)
    .map((name) => holdOf(openPair(request, read, name), effects));
  const document = resultDocument(loaded, request.set, [selected, ...others]);
  const places = await writeReport(request.out, "clearance", document, loaded, effects);
  const words = [selected, ...others].map((result, i) => verdictLines(result, i === 0)).join("\n");
  effects.stdout.write(`Clearance of ${document.pair}\n\n${words}\n${places}\n${CAUTION_LINE}\n`);
  return exitOf(selected.findings);
};

function verdictLines(result: HoldResult, selected: boolean): string {
  const head = `${result.variant}${selected ? " (selected)" : ""}: ${overallVerdict(result.findings)}\n`;
  return head + summariseVerdicts(result.findings).map(verdictLine).join("");
}

function verdictLine({ verdict, study, subject, governing, met, count }: VerdictRow): string {
  const what = governing.criterion?.text ?? governing.title;
  return `  ${verdict.padEnd(13)}${study}, ${subject}: ${what} (${met} of ${count} met)\n`;
}
