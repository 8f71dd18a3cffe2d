/** Entry of the built command line. */
import { nodeEffects } from "../host/index.ts";
import { EXIT } from "./exit.ts";
import { runDavit } from "./run.ts";
import { runInThread } from "./thread.ts";

/** Runs `davit` with this process's arguments and streams, and sets the exit code. */
export async function start(): Promise<void> {
  const debug = process.env.DAVIT_DEBUG === "1";
  if (debug) process.setSourceMapsEnabled(true);
  leaveQuietlyOnBrokenPipe(process.stdout);
  leaveQuietlyOnBrokenPipe(process.stderr);
  const effects = nodeEffects(process.stdout, process.stderr);
  let stopping = false;
  const interrupted = new Promise<void>((resolve) => {
    for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const) {
      process.on(signal, () => {
        // The first asks; a second one does not wait for anything.
        if (stopping) process.exit(EXIT.stopped);
        stopping = true;
        effects.progress(undefined);
        effects.stderr.write("davit: interrupted; nothing more is written.\n");
        resolve();
      });
    }
  });
  const entry = new URL("./worker.js", import.meta.url);
  process.exitCode = await runDavit(process.argv.slice(2), effects, debug, (spec, request) =>
    runInThread(entry, { command: spec.name, request, debug, look: effects.look }, effects, interrupted),
  );
  if (stopping) process.exitCode = EXIT.stopped;
}

/** The reader went away (for example `| head`): nobody is left to tell. */
function leaveQuietlyOnBrokenPipe(stream: NodeJS.WriteStream): void {
  stream.on("error", (error: NodeJS.ErrnoException) => {
    process.exit(error.code === "EPIPE" ? EXIT.stopped : EXIT.bug);
  });
}
