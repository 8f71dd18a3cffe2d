import { Worker } from "node:worker_threads";
import { CannotWrite, type Effects } from "../host/index.ts";
import { BugError } from "../math/errors.ts";
import { EXIT, type ExitCode, failureOf } from "./exit.ts";
import type { FromThread, ThreadTask, ToThread } from "./messages.ts";
import { VERSION } from "./version.ts";

/**
 * Runs a command in a worker thread, so that this thread can answer Ctrl-C at any moment of a long computation.
 *
 * @param entry where the worker's code lies
 * @param interrupted settles when the user wants to stop; the thread is ended and the code is 3
 */
export function runInThread(
  entry: URL,
  task: ThreadTask,
  effects: Effects,
  interrupted: Promise<void>,
): Promise<ExitCode> {
  const worker = new Worker(entry, { workerData: task });
  return new Promise<ExitCode>((resolve) => {
    let over = false;
    const finish = (code: ExitCode, words = ""): void => {
      if (over) return;
      over = true;
      effects.progress(undefined);
      effects.stderr.write(words);
      void worker.terminate().then(() => resolve(code));
    };
    worker.on("message", (message: FromThread) => {
      if (over) return;
      if (message.kind === "done") finish(message.code);
      else void carryOut(message, effects, (answer) => worker.postMessage(answer));
    });
    worker.on("error", (error: Error & { code?: string }) => {
      if (error.code === "ERR_WORKER_OUT_OF_MEMORY") finish(EXIT.stopped, "davit ran out of memory.\n");
      const failure = failureOf(error, VERSION, task.debug);
      finish(failure.code, failure.text);
    });
    worker.on("exit", () => {
      const failure = failureOf(new BugError("the computing thread ended without an answer"), VERSION, task.debug);
      finish(failure.code, failure.text);
    });
    void interrupted.then(() => finish(EXIT.stopped));
  });
}

async function carryOut(
  message: Exclude<FromThread, { kind: "done" }>,
  effects: Effects,
  answer: (answer: ToThread) => void,
): Promise<void> {
  switch (message.kind) {
    case "stdout":
      effects.stdout.write(message.text);
      return;
    case "stderr":
      effects.stderr.write(message.text);
      return;
    case "progress":
      effects.progress(message.line);
      return;
    case "write":
      try {
        await effects.files.write(message.path, message.data);
        answer({ ticket: message.ticket });
      } catch (error) {
        const why = error instanceof CannotWrite ? error.message : String(error);
        answer({ ticket: message.ticket, why });
      }
  }
}
