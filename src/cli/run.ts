import type { Effects } from "../host/index.ts";
import { type ExitCode, failureOf } from "./exit.ts";
import { parseArguments } from "./program.ts";
import { COMMANDS } from "./table.ts";
import type { CommandSpec, Request } from "./types.ts";
import { VERSION } from "./version.ts";

/** Runs a chosen command; the command line's own way of doing it is in `thread.ts`. */
export type Runner = (spec: CommandSpec, request: Request) => Promise<ExitCode>;

/** Parses, runs and returns the exit code; throws nothing. */
export async function runDavit(
  argv: readonly string[],
  effects: Effects,
  debug: boolean,
  runner?: Runner,
): Promise<ExitCode> {
  return guarded(effects, debug, async () => {
    const parsed = parseArguments(COMMANDS, argv, {
      version: VERSION,
      writeOut: (text) => effects.stdout.write(text),
      writeError: (text) => effects.stderr.write(text),
    });
    if (parsed.kind === "done") return parsed.code;
    const { spec, request } = parsed;
    if (spec.inThread && runner !== undefined) return runner(spec, request);
    return runCommand(spec, request, effects, debug);
  });
}

/** Runs one command here and turns what it throws into words on the error stream. */
export async function runCommand(
  spec: CommandSpec,
  request: Request,
  effects: Effects,
  debug: boolean,
): Promise<ExitCode> {
  return guarded(effects, debug, async () => {
    const { run } = await spec.load();
    return run(request, effects);
  });
}

async function guarded(effects: Effects, debug: boolean, work: () => Promise<ExitCode>): Promise<ExitCode> {
  try {
    return await work();
  } catch (error) {
    const failure = failureOf(error, VERSION, debug);
    effects.stderr.write(failure.text);
    return failure.code;
  } finally {
    effects.progress(undefined);
  }
}
