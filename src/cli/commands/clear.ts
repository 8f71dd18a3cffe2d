import { BugError } from "../../math/errors.ts";
import { CAUTION_LINE } from "../../outputs/cautions/index.ts";
import { overallVerdict, summariseVerdicts, type VerdictRow } from "../../outputs/summary/index.ts";
import { openPair, readOnce } from "../open/index.ts";
import type { Command } from "../types.ts";
import {
  exitOf,
  findingsOf,
  partsOf,
  resultDocument,
  runStudies,
  type StudyRun,
  studiesOf,
  writeReport,
} from "../work/index.ts";

export const run: Command = async (request, effects) => {
  if (request.out === undefined) throw new BugError("--out is required by the command table");
  const only = partsOf(request.parts);
  const read = readOnce(effects);
  const loaded = await openPair(request, read, effects);
  const studies = studiesOf(loaded);
  const selected = runStudies(loaded, studies, effects, undefined, only);
  const others: StudyRun[] = [];
  for (const name of loaded.clearVariants) {
    if (name === loaded.variant) continue;
    others.push(runStudies(await openPair(request, read, effects, name), studies, effects, selected, only));
  }
  const document = resultDocument(loaded, request.set, [selected, ...others]);
  const places = await writeReport(request.out, "clearance", document, loaded, effects);
  const words = [selected, ...others].map((result, i) => verdictLines(result, i === 0)).join("\n");
  effects.stdout.write(`Clearance of ${document.pair}\n\n${words}\n${places}\n${CAUTION_LINE}\n`);
  return exitOf(findingsOf(selected));
};

function verdictLines(run: StudyRun, selected: boolean): string {
  const findings = findingsOf(run);
  const head = `${run.variant}${selected ? " (selected)" : ""}: ${overallVerdict(findings)}\n`;
  return head + summariseVerdicts(findings).map(verdictLine).join("");
}

function verdictLine({ verdict, study, subject, governing, met, count }: VerdictRow): string {
  const what = governing.criterion?.text ?? governing.title;
  return `  ${verdict.padEnd(13)}${study}, ${subject}: ${what} (${met} of ${count} met)\n`;
}
