/** Entry of the worker thread: runs one command with effects that the main thread carries out. */
import { parentPort, workerData } from "node:worker_threads";
import { CannotWrite, type Effects, nodeEffects } from "../host/index.ts";
import { BugError } from "../math/errors.ts";
import type { FromThread, ThreadTask, ToThread } from "./messages.ts";
import { runCommand } from "./run.ts";
import { COMMANDS } from "./table.ts";

const port = parentPort;
if (port === null) throw new BugError("the worker entry was started outside a worker thread");
const say = (message: FromThread): void => port.postMessage(message);

let tickets = 0;
const waiting = new Map<number, (answer: ToThread) => void>();
port.on("message", (answer: ToThread) => {
  waiting.get(answer.ticket)?.(answer);
  waiting.delete(answer.ticket);
});

async function write(path: string, data: string | Uint8Array): Promise<void> {
  tickets += 1;
  const ticket = tickets;
  const answer = await new Promise<ToThread>((resolve) => {
    waiting.set(ticket, resolve);
    say({ kind: "write", ticket, path, data });
  });
  if (answer.why !== undefined) throw new CannotWrite(path, answer.why);
}

const task = workerData as ThreadTask;
const real = nodeEffects(process.stdout, process.stderr);
const effects: Effects = {
  ...real,
  stdout: { write: (text) => say({ kind: "stdout", text }) },
  stderr: { write: (text) => say({ kind: "stderr", text }) },
  look: task.look,
  progress: (line) => say({ kind: "progress", line }),
  files: { read: real.files.read, write },
};

const spec = COMMANDS.find((candidate) => candidate.name === task.command);
if (spec === undefined) throw new BugError(`no command is called ${task.command}`);
const code = await runCommand(spec, task.request, effects, task.debug);
say({ kind: "done", code });
port.close();
