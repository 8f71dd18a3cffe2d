import { runQueueWorker } from "../../host/batch-runners/index.ts";
import type { Effects } from "../../host/index.ts";
import { BugError } from "../../math/errors.ts";
import { EXIT, type ExitCode } from "../exit.ts";
import type { Request } from "../types.ts";
import { Options } from "./options.ts";
import type { BatchSurroundings } from "./run-batch.ts";

/** `davit worker`: takes tasks from a queue until it is interrupted. */
export async function workerCommand(
  request: Request,
  effects: Effects,
  at: Pick<BatchSurroundings, "version" | "timing">,
): Promise<ExitCode> {
  const options = new Options(request);
  const threads = options.threads(1);
  const url = options.queue();
  options.settle();
  const entry = effects.samplerEntry;
  if (entry === undefined) throw new BugError("a worker without the code of its threads");
  await runQueueWorker({
    url: url!,
    threads,
    entry,
    ...at,
    signal: effects.interrupt,
    say: (words) => effects.stderr.write(`davit: ${words}\n`),
    progress: (line) => effects.progress(line),
  });
  return EXIT.stopped;
}
