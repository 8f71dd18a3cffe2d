import type { Effects } from "../../host/index.ts";
import { overallVerdict } from "../../outputs/summary/index.ts";
import type { Finding } from "../../studies/finding/types.ts";
import { EXIT, type ExitCode } from "../exit.ts";

/** Exit code of findings: 0 only when every criterion is met; one that could not be analysed is not met. */
export function exitOf(findings: readonly Finding[]): ExitCode {
  const verdict = overallVerdict(findings);
  return verdict === "not met" || verdict === "not analysed" ? EXIT.notMet : EXIT.met;
}

/**
 * Gives a command's JSON and words to where the user wants them: with `-` the JSON alone goes to the output,
 * with a file name it is written there and the words are printed.
 */
export async function deliver(
  wanted: string | undefined,
  json: () => string,
  words: () => string,
  effects: Effects,
): Promise<void> {
  if (wanted === "-") {
    effects.stdout.write(json());
    return;
  }
  if (wanted !== undefined) await effects.files.write(wanted, json());
  effects.stdout.write(words());
  if (wanted !== undefined) effects.stdout.write(`JSON: ${wanted}\n`);
}
