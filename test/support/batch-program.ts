/** Bundles the program of `batch-main.ts`, so that it starts as fast as the real one, and starts it. */
import { type ChildProcess, spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";
// @ts-expect-error a script without types
import { BANNER, EXTERNAL, POOL_THREAD, poolOfThreads } from "../../scripts/bundling.mjs";

const root = fileURLToPath(new URL("../..", import.meta.url));

export interface BatchProgram {
  /** Code of threads, for runners that are used in the test itself. */
  readonly sampler: URL;
  start(args: readonly string[], env?: Readonly<Record<string, string>>): Started;
  remove(): void;
}

export interface Started {
  readonly child: ChildProcess;
  readonly said: { stdout: string; stderr: string };
  /** Exit code, or `null` after a signal. */
  readonly ended: Promise<number | null>;
}

/** @returns the program, in a folder below the repository, since the packages that are not bundled are found from there */
export async function buildBatchProgram(): Promise<BatchProgram> {
  mkdirSync(join(root, "out"), { recursive: true });
  const folder = mkdtempSync(join(root, "out", "test-batch-"));
  await build({
    absWorkingDir: root,
    entryPoints: [
      { in: "test/support/batch-main.ts", out: "batch-main" },
      { in: "test/support/batch-sampler.ts", out: "batch-sampler" },
      POOL_THREAD,
    ],
    outdir: folder,
    bundle: true,
    splitting: true,
    chunkNames: "parts/[name]-[hash]",
    format: "esm",
    platform: "node",
    target: "node20",
    banner: { js: BANNER },
    external: EXTERNAL,
    plugins: [poolOfThreads],
    logLevel: "error",
  });
  const main = join(folder, "batch-main.js");
  return {
    sampler: pathToFileURL(join(folder, "batch-sampler.js")),
    start(args, env = {}) {
      const child = spawn(process.execPath, [main, ...args], {
        env: { ...process.env, ...env },
        stdio: ["ignore", "pipe", "pipe"],
      });
      const said = { stdout: "", stderr: "" };
      child.stdout!.setEncoding("utf8").on("data", (text: string) => {
        said.stdout += text;
      });
      child.stderr!.setEncoding("utf8").on("data", (text: string) => {
        said.stderr += text;
      });
      const ended = new Promise<number | null>((resolve) => child.on("close", resolve));
      return { child, said, ended };
    },
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}
