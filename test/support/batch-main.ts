/** The command line with the studies of `batch-study.ts` in place of the real ones; parsing, interruption and exit codes are its own. */
import { batchCommand, replayCommand, workerCommand } from "../../src/cli/batch/index.ts";
import { failureOf } from "../../src/cli/exit.ts";
import { parseArguments } from "../../src/cli/program.ts";
import { COMMANDS } from "../../src/cli/table.ts";
import { nodeEffects } from "../../src/host/index.ts";
import { TEST_STUDIES } from "./batch-study.ts";

const version = process.env.DAVIT_TEST_VERSION ?? "test";
const interruption = new AbortController();
for (const signal of ["SIGINT", "SIGTERM"] as const) {
  process.on(signal, () => {
    if (interruption.signal.aborted) process.exit(3);
    interruption.abort();
  });
}
const effects = nodeEffects(process.stdout, process.stderr, {
  interrupt: interruption.signal,
  samplerEntry: new URL("./batch-sampler.js", import.meta.url),
});
// a worker that vanished is missed after a second, so that tests need not wait
const timing = { lock: 1_000, stalled: 500, sweep: 300 };
const surroundings = { studies: TEST_STUDIES, version, timing };

try {
  const text = { version, writeOut: effects.stdout.write, writeError: effects.stderr.write };
  const parsed = parseArguments(COMMANDS, process.argv.slice(2), text);
  if (parsed.kind === "done") process.exitCode = parsed.code;
  else {
    const { spec, request } = parsed;
    const run = { batch: batchCommand, worker: workerCommand, replay: replayCommand }[spec.name];
    if (run === undefined) throw new Error(`${spec.name} is not one of the commands under test`);
    process.exitCode = await run(request, effects, surroundings);
  }
} catch (error) {
  const failure = failureOf(error, version, false);
  effects.stderr.write(failure.text);
  process.exitCode = failure.code;
}
