/** Entry of the built command line. */
import { readdirSync, statSync, writeSync } from "node:fs";
import { dirname, join } from "node:path";
import { setFlagsFromString } from "node:v8";
import { CannotWrite, nodeEffects, systemWords } from "../host/index.ts";
import { EXIT, failureOf } from "./exit.ts";
import { runDavit } from "./run.ts";
import { COMMANDS } from "./table.ts";
import { runInThread } from "./thread.ts";
import { VERSION } from "./version.ts";

/** Runs `davit` with this process's arguments and streams, and sets the exit code. */
export async function start(): Promise<void> {
  const debug = process.env.DAVIT_DEBUG === "1";
  if (debug) process.setSourceMapsEnabled(true);
  stopWhenDeaf(process.stdout, "the output", debug);
  stopWhenDeaf(process.stderr, "the error stream", debug);
  const argv = process.argv.slice(2);
  if (isBrief(argv)) setFlagsFromString("--no-opt");
  const interruption = new AbortController();
  const effects = nodeEffects(process.stdout, process.stderr, {
    interrupt: interruption.signal,
    samplerEntry: new URL("./sampler.js", import.meta.url),
  });
  const words =
    COMMANDS.find(({ name }) => name === argv[0])?.whenInterrupted ?? "interrupted; nothing more is written.";
  let stopping = false;
  const interrupted = new Promise<void>((resolve) => {
    for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const) {
      process.on(signal, () => {
        // The first asks; a second one does not wait for anything.
        if (stopping) process.exit(EXIT.stopped);
        stopping = true;
        effects.progress(undefined);
        effects.stderr.write(`davit: ${words}\n`);
        interruption.abort();
        resolve();
      });
    }
  });
  const entry = new URL("./worker.js", import.meta.url);
  process.exitCode = await runDavit(argv, effects, debug, (spec, request) =>
    runInThread(entry, { command: spec.name, request, debug, look: effects.look }, effects, interrupted),
  );
  if (stopping) process.exitCode = EXIT.stopped;
}

/** Bytes in a pair's folder up to which reading it is over before optimised code would pay for itself. */
const SMALL = 1_000_000;

/**
 * True for a command that ends within half a second: it is about a fifth faster when the engine does not start to
 * optimise code that is never run again. The threads of longer commands are never started by these.
 */
function isBrief([command, pair]: readonly string[]): boolean {
  if (command !== "check" || pair === undefined) return false;
  try {
    const folder = dirname(pair);
    let bytes = 0;
    for (const name of readdirSync(folder)) bytes += statSync(join(folder, name)).size;
    return bytes < SMALL;
  } catch {
    // whatever is wrong with the place is said by the command itself
    return false;
  }
}

/**
 * Stops when a stream can take no more words: quietly when its reader went away (for example `| head`), because nobody
 * is left to tell; otherwise with the reason, as for any file that cannot be written.
 */
function stopWhenDeaf(stream: NodeJS.WriteStream, name: string, debug: boolean): void {
  stream.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") {
      try {
        // at once and past the stream's buffer: the process ends with the next line
        writeSync(process.stderr.fd, failureOf(new CannotWrite(name, systemWords(error)), VERSION, debug).text);
      } catch {
        // the error stream is deaf too; the exit code says it
      }
    }
    process.exit(EXIT.stopped);
  });
}
