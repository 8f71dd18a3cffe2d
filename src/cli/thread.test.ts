import { describe, expect, it } from "vitest";
import { type MemoryEffects, type MemorySettings, memoryEffects } from "../host/index.ts";
import { runInThread } from "./thread.ts";

const FOREVER = new Promise<void>(() => undefined);
const SAY =
  'import { parentPort, workerData } from "node:worker_threads"; const say = (m) => parentPort.postMessage(m);';

/** Runs a thread made of the given code. */
async function run(
  code: string,
  settings: MemorySettings = {},
  interrupted: Promise<void> = FOREVER,
): Promise<{ readonly code: number; readonly effects: MemoryEffects }> {
  const effects = memoryEffects(settings);
  const entry = new URL(`data:text/javascript,${encodeURIComponent(SAY + code)}`);
  const request = { pair: "p", set: [] };
  const task = { command: "hold", request, debug: false, look: effects.look };
  return { code: await runInThread(entry, task, effects, interrupted), effects };
}

describe("a command in a thread", () => {
  it("has its words, progress and files carried out in order, and gives its exit code", async () => {
    const { code, effects } = await run(`
      say({ kind: "progress", line: "one of two" });
      say({ kind: "stdout", text: workerData.command + "\\n" });
      parentPort.on("message", (answer) => {
        say({ kind: "stderr", text: JSON.stringify(answer) });
        say({ kind: "done", code: 1 });
      });
      say({ kind: "write", ticket: 7, path: "a.json", data: "{}" });
    `);
    expect(code).toBe(1);
    expect(effects.said).toEqual({ stdout: "hold\n", stderr: '{"ticket":7}', progress: ["one of two", undefined] });
    expect(effects.disk.get("a.json")).toEqual(new TextEncoder().encode("{}"));
  });

  it("is told why a file cannot be written", async () => {
    const code = `
      parentPort.on("message", (answer) => { say({ kind: "stdout", text: answer.why }); say({ kind: "done", code: 3 }); });
      say({ kind: "write", ticket: 1, path: "a.json", data: "{}" });
    `;
    const { effects } = await run(code, { failing: { "a.json": "ENOSPC" } });
    expect(effects.said.stdout).toBe("the disk is full");
  });

  it("is ended in the middle of a computation when interrupted, and writes nothing afterwards", async () => {
    let stop = (): void => undefined;
    const interrupted = new Promise<void>((resolve) => {
      stop = resolve;
    });
    setTimeout(stop, 100);
    const { code, effects } = await run("for (;;);", {}, interrupted);
    expect(code).toBe(3);
    expect(effects.said.stderr).toBe("");
  });

  it("that throws outside its guard, or ends without an answer, is a bug and not a success", async () => {
    const thrown = await run('throw new Error("lost");');
    expect(thrown.code).toBe(70);
    expect(thrown.effects.said.stderr).toContain("lost");
    const silent = await run("process.exit(0);");
    expect(silent.code).toBe(70);
    expect(silent.effects.said.stderr).toContain("without an answer");
  });
});
